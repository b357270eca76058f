import { beforeAll, describe, expect, it } from 'vitest';
import { simulateDay } from '../../demo/cell.ts';
import type { DayOptions } from '../../demo/knobs.ts';
import { Chance } from '../../demo/random.ts';
import { evaluateSpline, splineSd } from '../../src/numerics/index.ts';
import { type Curve, curveOf, findPulls } from '../../src/pull/index.ts';

/*
 * The spline's own band against the true curve of the simulated cell: coloured wander of two time scales, correlated
 * sample noise, spikes, lag, inertia and humps. What multiplies the whole pull (its offset, the day's calibration) is
 * not the band's and is given to the truth. Seeds count up from 1 and were not chosen.
 */
const PULLS = 30;
const LEAD = 30;
const PLACES = 60;
const PARTS = 6;

const drawn = (seed: number, purpose: string) => new Chance(seed, `band ${purpose}`);
const KINDS: Readonly<Record<string, (seed: number) => Partial<DayOptions> & { unstated?: true }>> =
  {
    'as drawn': () => ({}),
    'slow sweeps': (seed) => ({ sweepRpmPerS: drawn(seed, 'rate').logBetween(100, 200) }),
    'quick sweeps': (seed) => ({ sweepRpmPerS: drawn(seed, 'rate').logBetween(600, 1000) }),
    'much wander': (seed) => ({
      wanderPercent: 0.8,
      wanderS: drawn(seed, 'wander').between(0.3, 1.2),
    }),
    'a quiet cell': () => ({ wanderPercent: 0.05, slowWanderPercent: 0.02, whitePercent: 0.1 }),
    'sharp humps': (seed) => {
      const humps = drawn(seed, 'humps');
      return {
        engine: {
          humps: [0, 1, 2, 3].map(() => ({
            height: humps.between(-0.05, 0.05),
            atRpm: humps.between(2700, 6500),
            widthRpm: humps.between(120, 500),
          })),
        },
      };
    },
    'lag read from the throttle': () => ({ unstated: true, sensorLagS: 0.1 }),
  };

interface Held {
  inside: number;
  places: number;
  readonly byPart: { inside: number; places: number }[];
  peaks: number;
}

function heldBy(kind: string): Held {
  const held: Held = {
    inside: 0,
    places: 0,
    byPart: Array.from({ length: PARTS }, () => ({ inside: 0, places: 0 })),
    peaks: 0,
  };
  for (let seed = 1; seed <= PULLS; seed++) {
    const { unstated, ...knobs } = KINDS[kind]!(seed);
    const day = simulateDay({ seed, leadsDeg: [LEAD], ...knobs });
    const { cell } = day.curveOptions;
    const given = unstated
      ? { ...day.curveOptions, cell: { ...cell, sensorLagS: null } }
      : day.curveOptions;
    const recording = day.recordings[0]!;
    const curve = curveOf(recording, findPulls(recording)[0]!, given);
    const common =
      (1 + day.knobs.calibrationPercent / 100) * (1 + day.truth.offsetsPercent[0]! / 100);
    count(curve, (rpm) => common * day.truth.torqueNm(rpm, LEAD), held);
  }
  return held;
}

function count({ spline, peakTorque }: Curve, truthNm: (rpm: number) => number, held: Held) {
  let highest = 0;
  for (let i = 0; i < PLACES; i++) {
    const rpm = spline.low + ((spline.high - spline.low) * (i + 0.5)) / PLACES;
    const off = Math.abs(evaluateSpline(spline, rpm) - truthNm(rpm));
    const inside = off < 1.959964 * splineSd(spline, rpm) ? 1 : 0;
    const part = held.byPart[Math.floor((i * PARTS) / PLACES)]!;
    held.inside += inside;
    held.places++;
    part.inside += inside;
    part.places++;
    highest = Math.max(highest, truthNm(rpm));
  }
  if (peakTorque.low <= highest && highest <= peakTorque.high) held.peaks++;
}

const percent = ({ inside, places }: { inside: number; places: number }) => (100 * inside) / places;

describe(`the band of ${PULLS * Object.keys(KINDS).length} curves against their true ones`, () => {
  const kinds = new Map<string, Held>();

  beforeAll(() => {
    for (const kind of Object.keys(KINDS)) kinds.set(kind, heldBy(kind));
    console.log(
      [...kinds]
        .map(
          ([kind, held]) =>
            `${kind.padEnd(28)} ${percent(held).toFixed(1)} % by speed ${held.byPart.map((part) => percent(part).toFixed(0)).join(' ')} peaks ${held.peaks} of ${PULLS}`,
        )
        .join('\n'),
    );
  });

  it.each(Object.keys(KINDS))('holds the truth at 92 to 98 %% of the speeds: %s', (kind) => {
    expect(percent(kinds.get(kind)!)).toBeGreaterThanOrEqual(92);
    expect(percent(kinds.get(kind)!)).toBeLessThanOrEqual(98);
  });

  it('has peaks whose absolute interval holds the true peak', () => {
    const peaks = [...kinds.values()].reduce((sum, held) => sum + held.peaks, 0);
    expect(peaks).toBeGreaterThanOrEqual(0.95 * PULLS * kinds.size);
  });

  it('holds it as well at the ends of the sweep as in its middle', () => {
    for (let part = 0; part < PARTS; part++) {
      const all = [...kinds.values()].map(({ byPart }) => byPart[part]!);
      const inside = all.reduce((sum, each) => sum + each.inside, 0);
      const places = all.reduce((sum, each) => sum + each.places, 0);
      expect(percent({ inside, places })).toBeGreaterThan(91);
      expect(percent({ inside, places })).toBeLessThan(99);
    }
  });
});
