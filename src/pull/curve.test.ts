import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError, PullbookError } from '../errors.ts';
import { evaluateSpline } from '../numerics/index.ts';
import { powerW, RAD_PER_S_PER_RPM } from '../trade/index.ts';
import { curveOf } from './curve.ts';
import { findPulls } from './findPulls.ts';
import { meanPowerW } from './meanPower.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import {
  AIR,
  airFactor,
  changed,
  channel,
  ENGINE,
  options,
  recordingOf,
  simulatedPull,
  TRUTH,
} from './simulated.fixture.ts';
import type { Curve, CurveOptions } from './types.ts';

const first = (recording: Recording, given: CurveOptions = options()): Curve =>
  curveOf(recording, findPulls(recording)[0]!, given);

/** Mean and worst error of a curve against a truth [%], over its own grid. */
function errorOf(curve: Curve, truth: (rpm: number) => number) {
  const errors = curve.speedRpm.map((rpm, i) => 100 * (curve.torqueNm[i]! / truth(rpm) - 1));
  return {
    mean: errors.reduce((sum, e) => sum + e, 0) / errors.length,
    worst: Math.max(...errors.map(Math.abs)),
  };
}

/** Numbers that JSON cannot hold, anywhere in a value. */
const oddNumbers = (value: unknown): number[] =>
  typeof value === 'number'
    ? Number.isFinite(value)
      ? []
      : [value]
    : value !== null && typeof value === 'object'
      ? Object.values(value).flatMap(oddNumbers)
      : [];

const without = (recording: Recording, ...quantities: string[]): Recording => ({
  ...recording,
  channels: recording.channels.filter(({ quantity }) => !quantities.includes(quantity)),
});

describe('a curve from a recording with a known truth', () => {
  it.each([
    ['a usual sweep', {}],
    ['a quick sweep with much inertia', { rateRpmPerS: 700, inertiaKgM2: 0.8 }],
    ['a slow sweep at 20 Hz', { rateRpmPerS: 150, hertz: 20 }],
    ['a falling sweep', { fromRpm: 6500, toRpm: 2800, fallsOff: false }],
    ['a slow sensor', { lagS: 0.12 }],
  ])('returns the truth within noise: %s', (_, pull) => {
    const inertia = (pull as { inertiaKgM2?: number }).inertiaKgM2 ?? 0.5;
    const quiet = first(
      simulatedPull({ ...pull, noise: 0.001, wander: 0.0005, speedNoiseRpm: 1 }),
      options({}, inertia),
    );
    expect(Math.abs(errorOf(quiet, TRUTH).mean)).toBeLessThan(0.15);
    expect(errorOf(quiet, TRUTH).worst).toBeLessThan(1);
    const noisy = first(simulatedPull({ ...pull, seed: 5 }), options({}, inertia));
    expect(Math.abs(errorOf(noisy, TRUTH).mean)).toBeLessThan(0.5);
  });

  it('holds the truth in its bands: within the pull by the spline, absolutely by low and high', () => {
    let [inside, places, torques, powers] = [0, 0, 0, 0];
    const [low, high] = [2700, 6400];
    const speeds = Array.from({ length: (high - low) / 10 + 1 }, (_, i) => low + 10 * i);
    const trueTorque = Math.max(...speeds.map(TRUTH));
    const truePower = Math.max(...speeds.map((rpm) => powerW(TRUTH(rpm), rpm)));
    for (let seed = 1; seed <= 12; seed++) {
      const curve = first(simulatedPull({ seed: 17 * seed, speedNoiseRpm: 10 }));
      curve.speedRpm.forEach((rpm, i) => {
        places++;
        if (curve.lowNm[i]! <= TRUTH(rpm) && TRUTH(rpm) <= curve.highNm[i]!) inside++;
      });
      const holds = ({ low, high }: { low: number; high: number }, value: number) =>
        low <= value && value <= high ? 1 : 0;
      torques += holds(curve.peakTorque, trueTorque);
      powers += holds(curve.peakPower, truePower);
    }
    // No repeatability and no calibration error were simulated, so absolute bands hold more than 95 %.
    expect(inside / places).toBeGreaterThan(0.95);
    expect(torques).toBeGreaterThanOrEqual(11);
    expect(powers).toBeGreaterThanOrEqual(11);
  });

  it('reads the lag from the throttle where the cell does not state it', () => {
    const curve = first(simulatedPull({ lagS: 0.08, noise: 0.003, wander: 0.002 }));
    expect(curve.lagFrom).toBe('throttle');
    expect(Math.abs(curve.lagS - 0.08)).toBeLessThan(0.015);
    const stated = options({ cell: { ...options().cell, sensorLagS: 0.08 } });
    expect(first(simulatedPull({ lagS: 0.08 }), stated).lagFrom).toBe('cell');
    expect(first(simulatedPull({ throttle: false })).lagFrom).toBe('none');
  });

  it('puts inertia back, J·α of it, and says so when it cannot', () => {
    const recording = simulatedPull({ noise: 0.002, wander: 0.001 });
    // The lag is stated: read from the throttle, it would be read without the inertia too.
    const cell = { ...options().cell, sensorLagS: 0.06 };
    const [known, unknown] = [
      first(recording, options({ cell })),
      first(recording, options({ cell: { ...cell, inertiaKgM2: null } })),
    ];
    const missing = 0.5 * 400 * RAD_PER_S_PER_RPM * known.correctionFactor;
    for (const rpm of [3000, 4500, 6000]) {
      const apart = evaluateSpline(known.spline, rpm) - evaluateSpline(unknown.spline, rpm);
      expect(Math.abs(apart / missing - 1)).toBeLessThan(0.02);
    }
    expect(known.basis.inertia).toBe('in');
    expect(unknown.basis.inertia).toBe('out');
    expect(unknown.marks.some(({ sentence }) => /inertia/.test(sentence))).toBe(true);
  });

  it('takes held steps and tables of speeds as they come', () => {
    const speed = Array.from({ length: 17 }, (_, i) => 2600 + 225 * i);
    const table = recordingOf(
      [channel('speed', speed), channel('torque', speed.map(TRUTH))],
      'speed table',
    );
    const curve = first(
      table,
      options({ standard: 'none', cell: { ...options().cell, inertiaKgM2: null } }),
    );
    expect(errorOf(curve, TRUTH).worst).toBeLessThan(0.5);
    expect(curve.conditions.sweepRateRpmPerS).toBeNull();
  });
});

describe('the identities of a curve', () => {
  const curve = first(simulatedPull());

  it('has P = T·ω everywhere, and crosses at 5252 in the trade’s units', () => {
    curve.speedRpm.forEach((rpm, i) => {
      expect(curve.powerW[i]).toBeCloseTo(curve.torqueNm[i]! * rpm * RAD_PER_S_PER_RPM, 6);
    });
    // hp and lb-ft curves cross at 33 000/2π rev/min: 550 ft·lbf/s a horsepower, 1.3558179483 N·m a lb-ft,
    // exact.
    const at = 33000 / (2 * Math.PI);
    const torque = evaluateSpline(curve.spline, at);
    expect(powerW(torque, at) / 745.6998715822702).toBeCloseTo(torque / 1.3558179483314003, 6);
  });

  it('scales with the torque, does not care for the order of channels, and is plain JSON', () => {
    const recording = simulatedPull();
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 5, noNaN: true }), (scale) => {
        const scaled = first(
          changed(recording, 'torque', (torque) => torque * scale),
          options({}, 0.5 * scale),
        );
        expect(scaled.peakTorque.value / (scale * curve.peakTorque.value)).toBeCloseTo(1, 6);
        expect(scaled.residualSdNm / (scale * curve.residualSdNm)).toBeCloseTo(1, 4);
      }),
      { seed: 4, numRuns: 5 },
    );
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...recording.channels], { minLength: recording.channels.length }),
        (channels) => {
          expect(first({ ...recording, channels })).toEqual(curve);
        },
      ),
      { seed: 5, numRuns: 4 },
    );
    expect(JSON.parse(JSON.stringify(curve))).toEqual(curve);
  });

  it('switches standards by the ratio of their factors alone', () => {
    const recording = simulatedPull();
    for (const standard of ['SAE 60F dry', 'ISO 1585', 'DIN 70020', 'none'] as const) {
      const other = first(recording, options({ standard }));
      const ratio = curve.factors[standard]! / curve.factors['SAE J1349']!;
      expect(other.peakTorque.value / (ratio * curve.peakTorque.value)).toBeCloseTo(1, 6);
      expect(other.standard).toBe(standard);
    }
    expect(curve.correctionFactor).toBeCloseTo(airFactor(), 3);
    expect(curve.factors.none).toBe(1);
  });

  it('has the mean power of its own spline', () => {
    const mean = meanPowerW(curve, [3000, 6000]);
    let sum = 0;
    for (let rpm = 3000.5; rpm < 6000; rpm++) sum += powerW(evaluateSpline(curve.spline, rpm), rpm);
    expect(mean.value / (sum / 3000)).toBeCloseTo(1, 7);
    expect(mean.low).toBeLessThan(mean.value);
    expect(() => meanPowerW(curve, [2000, 6000])).toThrow(InputError);
  });

  it('derives BMEP, BSFC and piston speed from what the sheet and the channels allow', () => {
    const at = 40;
    const { bmepPa, pistonSpeedMPerS, bsfcKgPerJ } = curve.derived;
    expect(bmepPa![at]).toBeCloseTo((4 * Math.PI * curve.torqueNm[at]!) / 0.0042, 3);
    expect(pistonSpeedMPerS![at]).toBeCloseTo((2 * 0.086 * curve.speedRpm[at]!) / 60, 9);
    const observedW = curve.powerW[at]! / curve.correctionFactor;
    expect(bsfcKgPerJ![at]! / ((7e-6 * 0.4 * curve.speedRpm[at]!) / observedW)).toBeCloseTo(1, 2);
    const bare = first(
      simulatedPull(),
      options({ engine: { ...ENGINE, displacementM3: null, strokeM: null } }),
    );
    expect(bare.derived.bmepPa).toBeNull();
    expect(bare.derived.pistonSpeedMPerS).toBeNull();
  });
});

describe('which torque it is', () => {
  const recording = simulatedPull();
  const based = (basis: Channel['basis']) => ({
    ...recording,
    channels: recording.channels.map((each) =>
      each.quantity === 'torque' && basis !== undefined ? { ...each, basis } : each,
    ),
  });
  const said = (curve: Curve, words: RegExp) =>
    curve.marks.some(({ sentence }) => words.test(sentence));

  it('never corrects what nobody has said is observed', () => {
    const cell = { ...options().cell, torqueIs: { air: 'unknown', inertia: 'unknown' } as const };
    const curve = first(recording, options({ cell }));
    expect(curve.correctionFactor).toBe(1);
    expect(curve.standard).toBe('none');
    expect(curve.basis.air).toBe('unknown');
    expect(said(curve, /not corrected/)).toBe(true);
    expect(said(curve, /not put back/)).toBe(true);
  });

  it('never corrects twice, and goes from the logger’s standard to ours by way of observed', () => {
    const same = first(based({ air: 'SAE J1349', inertia: 'out' }));
    expect(same.correctionFactor).toBe(1);
    expect(said(same, /already corrected/)).toBe(true);
    const other = first(based({ air: 'ISO 1585', inertia: 'out' }));
    const { factors } = other;
    expect(other.correctionFactor).toBeCloseTo(factors['SAE J1349']! / factors['ISO 1585']!, 12);
  });

  it('prefers the observed column to the corrected one beside it', () => {
    const torque = recording.channels.find(({ quantity }) => quantity === 'torque')!;
    const corrected = {
      ...torque,
      header: 'corrected torque',
      values: torque.values.map((value) => value * 1.5),
      basis: { air: 'SAE J1349', inertia: 'out' } as const,
    };
    const both = { ...recording, channels: [corrected, ...recording.channels] };
    expect(first(both).peakTorque.value).toBeCloseTo(first(recording).peakTorque.value, 9);
  });

  it('makes torque of power where there is no torque', () => {
    const speed = recording.channels.find(({ quantity }) => quantity === 'speed')!;
    const powerOnly = {
      ...recording,
      channels: recording.channels.map((each) =>
        each.quantity === 'torque'
          ? channel(
              'power',
              each.values.map((torque, row) => powerW(torque, speed.values[row]!)),
            )
          : each,
      ),
    };
    const curve = first(powerOnly);
    expect(curve.peakTorque.value / first(recording).peakTorque.value).toBeCloseTo(1, 4);
    expect(said(curve, /computed from/)).toBe(true);
  });

  it('multiplies a geared brake’s torque by its ratio', () => {
    const geared = first(recording, options({ cell: { ...options().cell, ratio: 2 } }, 0));
    const direct = first(recording, options({}, 0));
    expect(geared.correctionFactor).toBe(direct.correctionFactor);
    expect(said(geared, /multiplied by 2/)).toBe(true);
  });

  it('shows a boosted engine as observed unless correction is asked for', () => {
    const engine = { ...ENGINE, aspiration: 'boosted' } as const;
    const shown = first(recording, options({ engine }));
    expect(shown.standard).toBe('none');
    expect(shown.correctionFactor).toBe(1);
    expect(shown.factors['SAE J1349']).not.toBeNull();
    const asked = first(recording, options({ engine, correctBoosted: true }));
    expect(asked.standard).toBe('SAE J1349');
    expect(asked.marks.some(({ kind }) => kind === 'boost')).toBe(true);
  });

  it('takes the air from the options where no channel has it, and leaves torque observed where neither does', () => {
    const bare = without(recording, 'barometer', 'airTemperature', 'humidity');
    expect(first(bare, options({ air: AIR })).correctionFactor).toBeCloseTo(airFactor(), 9);
    const unknown = first(bare);
    expect(unknown.standard).toBe('none');
    expect(said(unknown, /not recorded/)).toBe(true);
  });
});

describe('odd input', () => {
  const recording = simulatedPull({ hertz: 20 });
  const span = findPulls(recording)[0]!;

  it('takes the zero of the load cell out, and flags one that moved', () => {
    const rested = simulatedPull({ restS: 2, zeroNm: 12, hertz: 20 });
    const zeroed = first(rested);
    expect(zeroed.marks.some(({ kind }) => kind === 'zero')).toBe(true);
    expect(Math.abs(errorOf(zeroed, TRUTH).mean)).toBeLessThan(0.6);
    const rows = rested.rows;
    const moved = first(changed(rested, 'torque', (torque, row) => torque + (10 * row) / rows));
    expect(
      moved.marks.some(({ kind, sentence }) => kind === 'zero' && /moved by/.test(sentence)),
    ).toBe(true);
  });

  it('survives missing values, repeated stamps and held readings, and says so', () => {
    const gappy = changed(recording, 'torque', (value, row) =>
      row % 7 === 0 ? Number.NaN : value,
    );
    expect(errorOf(first(gappy), TRUTH).worst).toBeLessThan(3);
    const stamped = changed(recording, 'time', (time, row) =>
      row % 10 === 5 ? time - 0.05 : time,
    );
    expect(first(stamped).marks.some(({ sentence }) => /does not move on/.test(sentence))).toBe(
      true,
    );
    const torque = recording.channels.find(({ quantity }) => quantity === 'torque')!.values;
    const held = changed(recording, 'torque', (_, row) => torque[row - (row % 4)]!);
    const curve = first(held);
    expect(curve.marks.some(({ sentence }) => /every 4 rows/.test(sentence))).toBe(true);
    expect(errorOf(curve, TRUTH).worst).toBeLessThan(4);
  });

  it('answers with a typed error, never a crash, whatever the columns hold', () => {
    const wild = fc.oneof(
      fc.constant(Number.NaN),
      fc.constant(0),
      fc.constant(9999),
      fc.constant(Number.POSITIVE_INFINITY),
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    );
    const column = fc.array(wild, { minLength: 3, maxLength: 60 });
    fc.assert(
      fc.property(column, column, fc.boolean(), (speed, torque, isTable) => {
        const rows = Math.min(speed.length, torque.length);
        const time = Array.from({ length: rows }, (_, i) => i / 10);
        const odd = recordingOf(
          [
            channel('time', time),
            channel('speed', speed.slice(0, rows)),
            channel('torque', torque.slice(0, rows)),
          ],
          isTable ? 'speed table' : 'time series',
        );
        const whole = {
          firstRow: 0,
          lastRow: rows - 1,
          direction: 'rising',
          fromRpm: 0,
          toRpm: 1,
        } as const;
        const answers = (spans: () => readonly PullSpan[]) => {
          try {
            for (const each of spans()) {
              const curve = curveOf(odd, each, options({ standard: 'none' }));
              expect(oddNumbers(curve)).toEqual([]);
            }
          } catch (error) {
            if (!(error instanceof PullbookError)) throw error;
          }
        };
        answers(() => [whole]);
        answers(() => findPulls(odd));
      }),
      { seed: 7, numRuns: 120 },
    );
    expect(() => curveOf(recording, { ...span, lastRow: recording.rows + 5 }, options())).toThrow(
      InputError,
    );
    expect(() => first(changed(recording, 'torque', () => -50))).toThrow(PullbookError);
    expect(() => first(changed(recording, 'torque', () => Number.NaN))).toThrow(/no numbers/);
    expect(() => first(changed(recording, 'speed', (rpm) => 1e6 * rpm))).toThrow(/any engine/);
  });
});
