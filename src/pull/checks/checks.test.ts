import { describe, expect, it } from 'vitest';
import { gaussian } from '../../numerics/simulated.fixture.ts';
import { curveOf } from '../curve.ts';
import { findPulls } from '../findPulls.ts';
import type { Recording } from '../recording.ts';
import { changed, channel, options, simulatedPull } from '../simulated.fixture.ts';
import type { Curve, CurveOptions, Mark } from '../types.ts';
import { checkDay } from './day.ts';

const clean = simulatedPull({ hertz: 20 });
const span = findPulls(clean)[0]!;
const given = options({ lambdaTarget: 0.87, bandRpm: [3000, 6200] });
const curve = (recording: Recording, changes: CurveOptions = given): Curve =>
  curveOf(recording, findPulls(recording)[0]!, changes);
const marks = (recording: Recording, kind: Mark['kind'], changes?: CurveOptions): Mark[] =>
  curve(recording, changes).marks.filter((mark) => mark.kind === kind);
const speed = clean.channels.find(({ quantity }) => quantity === 'speed')!.values;
const adding = (...channels: Recording['channels']): Recording => ({
  ...clean,
  channels: [...clean.channels, ...channels],
});
const noisy = (level: number, sd: number, seed = 1) => {
  const normal = gaussian(seed);
  return Float64Array.from({ length: clean.rows }, () => level + sd * normal());
};

describe('the checks of one pull', () => {
  it('have nothing to say of a good pull but its lag, and that its power peaks at the end of the sweep', () => {
    expect(curve(clean).marks.filter(({ severity }) => severity !== 'note')).toEqual([]);
    // True power is highest at 6420 rev/min of 6468 swept.
    expect(curve(clean).marks.map(({ kind }) => kind)).toEqual(['other', 'coverage']);
  });

  it('speak in whole sentences', () => {
    const bad = changed(
      changed(clean, 'lambda', (v) => v + 0.2),
      'oilTemperature',
      () => 300,
    );
    for (const { sentence } of curve(bad).marks) expect(sentence).toMatch(/^[A-Z"0-9].*\.$/);
  });

  it('sweep rate: too quick, and uneven', () => {
    const quick = simulatedPull({ rateRpmPerS: 1000, hertz: 50 });
    expect(marks(quick, 'sweep rate')[0]?.sentence).toMatch(/faster than 800/);
    // The second half of the sweep runs on a clock three times as slow.
    const middle = (span.firstRow + span.lastRow) / 2;
    const time = clean.channels.find(({ quantity }) => quantity === 'time')!.values;
    const uneven = changed(clean, 'time', (t, row) =>
      row <= middle ? t : t + 2 * (t - time[Math.floor(middle)]!),
    );
    expect(marks(uneven, 'sweep rate')[0]?.sentence).toMatch(/uneven/);
  });

  it('coverage of the band, and the throttle that closed before its end', () => {
    const short = marks(clean, 'coverage', options({ bandRpm: [2000, 7000] }));
    expect(short[0]?.sentence).toMatch(/misses 2000 to \d+ and \d+ to 7000/);
    const time = clean.channels.find(({ quantity }) => quantity === 'time')!.values;
    const early = changed(clean, 'throttle', (value, row) => (time[row]! > 8 ? 0.05 : value));
    expect(marks(early, 'coverage')[0]?.sentence).toMatch(/throttle closed at 5\d\d\d/);
  });

  it('oil and water at the start against their windows', () => {
    const cold = changed(clean, 'oilTemperature', (value) => value - 45);
    expect(marks(cold, 'temperature')[0]).toMatchObject({ severity: 'look again' });
    const hot = changed(clean, 'waterTemperature', (value) => value + 25);
    expect(marks(hot, 'temperature')[0]).toMatchObject({ severity: 'stop' });
    const stated = options({ startWindowsK: { oilTemperatureK: [340, 360] } });
    expect(marks(clean, 'temperature', stated).length).toBe(1);
  });

  it('lambda off its target, lean worse than rich', () => {
    expect(
      marks(
        changed(clean, 'lambda', (v) => v + 0.05),
        'lambda',
      )[0]?.sentence,
    ).toMatch(/leaner/);
    expect(
      marks(
        changed(clean, 'lambda', (v) => v + 0.12),
        'lambda',
      )[0]?.severity,
    ).toBe('stop');
    expect(
      marks(
        changed(clean, 'lambda', (v) => v - 0.1),
        'lambda',
      )[0]?.severity,
    ).toBe('look again');
  });

  it('lambda of two banks: the leaner is judged, never their mean', () => {
    const banks = adding(channel('lambda', noisy(0.97, 0.004), { header: 'lambda 2', bank: 2 }));
    const found = marks(banks, 'lambda');
    expect(found.some(({ sentence }) => /banks differ/.test(sentence))).toBe(true);
    expect(found.some(({ sentence }) => /0\.10 leaner.*bank 2/.test(sentence))).toBe(true);
    const lambda = curve(banks).bySpeed.lambda!.filter((value) => value !== null);
    expect(Math.min(...lambda)).toBeGreaterThan(0.95);
  });

  it('lambda pinned at the end of its sensor’s scale says nothing of the mixture', () => {
    const pinned = changed(clean, 'lambda', (value, row) =>
      row % 2 === 0 ? 1.5 : 1.4 + value / 100,
    );
    const found = marks(pinned, 'lambda');
    expect(found.length).toBe(1);
    expect(found[0]?.sentence).toMatch(/end of its scale/);
  });

  it('a misfire that reads lean is called a misfire', () => {
    const at = Math.floor((span.firstRow + span.lastRow) / 2);
    const struck = changed(clean, 'torque', (v, row) => (row >= at && row < at + 4 ? v - 90 : v));
    const lean = changed(struck, 'lambda', (v, row) => (row >= at && row < at + 12 ? v + 0.15 : v));
    expect(marks(lean, 'lambda').some(({ sentence }) => /misfire/.test(sentence))).toBe(true);
    expect(marks(struck, 'lambda')).toEqual([]);
  });

  it('oil pressure: too little for the speed, and a sag while it rises', () => {
    const low = changed(clean, 'oilPressure', (value) => value * 0.5);
    expect(marks(low, 'oil pressure')[0]?.sentence).toMatch(/less than/);
    const sags = changed(clean, 'oilPressure', (value, row) =>
      speed[row]! > 5500 && speed[row]! < 6200 ? value * 0.75 : value,
    );
    expect(marks(sags, 'oil pressure')).toMatchObject([{ severity: 'stop' }]);
  });

  it('one cylinder’s exhaust away from the others', () => {
    const eight = Array.from({ length: 6 }, (_, k) =>
      channel('exhaustTemperature', noisy(k === 3 ? 960 : 1080, 4, k), {
        header: `EGT ${k + 1}`,
        cylinder: k + 1,
      }),
    );
    expect(marks(adding(...eight), 'exhaust temperature')).toMatchObject([
      { sentence: expect.stringMatching(/cylinder 4 stands 1\d\d °C below/) },
    ]);
    expect(marks(adding(...eight.slice(0, 2)), 'exhaust temperature')).toEqual([]);
  });

  it('channels that are stuck, clipped or drift', () => {
    const stuck = changed(clean, 'oilPressure', (value, row) =>
      speed[row]! > 5000 ? 450_000 : value,
    );
    expect(marks(stuck, 'stuck channel')[0]?.sentence).toMatch(/stopped moving from (4|5)\d\d\d/);
    const frozen = changed(clean, 'airTemperature', () => 301.15);
    expect(marks(frozen, 'stuck channel')).toMatchObject([
      { sentence: expect.stringMatching(/inlet air temperature did not move/) },
    ]);
    const clipped = adding(
      channel(
        'exhaustTemperature',
        speed.map((rpm) => Math.min(1050, 600 + 0.1 * rpm)),
        { header: 'EGT' },
      ),
    );
    const hot = changed(clipped, 'exhaustTemperature', (value, row) =>
      value >= 1050 ? 1050 : value + (row % 7),
    );
    const found = curve(hot).marks.filter(({ kind }) => /clipped|stuck/.test(kind));
    expect(found.length).toBe(1);
    const drifts = changed(
      clean,
      'airTemperature',
      (value, row) => value + (row * 12) / clean.rows,
    );
    expect(marks(drifts, 'drifting channel')[0]?.sentence).toMatch(/one factor/);
  });

  it('a throttle that was not fully open', () => {
    const part = changed(clean, 'throttle', (value) => Math.min(value, 0.9));
    expect(marks(part, 'throttle')[0]?.sentence).toMatch(/90 %/);
  });

  it('a correction factor outside the standard’s limits, with its figure', () => {
    const high = simulatedPull({
      hertz: 20,
      air: { pressureAbsPa: 91_000, temperatureK: 308, humidity: 0.6 },
    });
    expect(marks(high, 'correction factor')[0]?.sentence).toMatch(
      /1\.1\d\d is outside the 0\.93 to 1\.07/,
    );
  });

  it('a gap in the rows', () => {
    const rows = [...Array(clean.rows).keys()].filter((row) => row < 120 || row > 140);
    const gappy: Recording = {
      ...clean,
      rows: rows.length,
      channels: clean.channels.map((each) => ({
        ...each,
        values: Float64Array.from(rows, (row) => each.values[row]!),
      })),
    };
    expect(marks(gappy, 'other').some(({ sentence }) => /gap of 1\.\d s/.test(sentence))).toBe(
      true,
    );
  });
});

describe('the checks of a day', () => {
  // Air moves a little from pull to pull; the same to the digit all day is a check of its own.
  const withOil = (shiftK: number) =>
    curve(
      changed(
        changed(clean, 'oilTemperature', (value) => value + shiftK),
        'airTemperature',
        (value) => value + shiftK / 50,
      ),
    );
  const pull = (id: string, of: Curve, sinceLastPullS: number | null = 300) => ({
    id,
    curve: of,
    sinceLastPullS,
  });

  it('tell which pull started away from the others', () => {
    const found = checkDay([
      pull('1', withOil(0), null),
      pull('2', withOil(1)),
      pull('3', withOil(14)),
      pull('4', withOil(2)),
    ]);
    expect(found.map((each) => each.length)).toEqual([0, 0, 1, 0]);
    expect(found[2]![0]).toMatchObject({ kind: 'temperature' });
  });

  it('tell how long it was since the last pull, and a sensor that never moves all day', () => {
    const frozen = curve(changed(clean, 'airTemperature', () => 301.15));
    const found = checkDay([
      pull('1', frozen, null),
      pull('2', frozen, 20),
      pull('3', frozen, 4000),
    ]);
    expect(found[1]!.map(({ kind }) => kind)).toEqual(['time since last pull']);
    expect(found[2]!.map(({ kind }) => kind).sort()).toEqual([
      'stuck channel',
      'time since last pull',
    ]);
  });
});
