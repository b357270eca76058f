import { describe, expect, it } from 'vitest';
import type { Channel, Quantity } from '../pull/recording.ts';
import { type ReadOptions, type RunFile, readRunFile } from './index.ts';

/** A sweep of 200 rows at 50 Hz; more columns as functions of the row. */
function sweep(headers: Record<string, (row: number) => number | string>, rows = 200): string {
  const names = Object.keys(headers);
  const lines = Array.from({ length: rows }, (_, row) =>
    names.map((name) => headers[name]!(row)).join(';'),
  );
  return `${names.join(';')}\n${lines.join('\n')}\n`;
}
const TIME = { 'Time (s)': (row: number) => (row / 50).toFixed(2) };
const SPEED = { 'Engine Speed (rpm)': (row: number) => 2500 + 20 * row };
const BASE = { ...TIME, ...SPEED, 'Torque (Nm)': (row: number) => 200 + (row % 9) + row / 100 };

const read = (text: string, options: Partial<ReadOptions> = {}) =>
  readRunFile(new TextEncoder().encode(text), { fileName: 'run.csv', ...options });
const all = (file: RunFile, quantity: Quantity): Channel[] =>
  file.recording.channels.filter((channel) => channel.quantity === quantity);
const one = (file: RunFile, quantity: Quantity): Channel => {
  expect(all(file, quantity).length).toBeGreaterThan(0);
  return all(file, quantity)[0]!;
};
const keys = (file: RunFile) => file.questions.map((question) => question.key);

describe('which torque it is', () => {
  it('asks where the header is silent, and takes the answer', async () => {
    const text = sweep(BASE);
    const asked = await read(text);
    expect(one(asked, 'torque').basis).toEqual({ air: 'unknown', inertia: 'unknown' });
    expect(keys(asked)).toEqual(['torqueIs']);
    const answer = asked.questions[0]!.choices[0]!.answer;
    const answered = await read(text, answer);
    expect(one(answered, 'torque').basis).toEqual({ air: 'observed', inertia: 'out' });
    expect(keys(answered)).toEqual([]);
  });

  it('keeps observed and corrected columns apart, side by side', async () => {
    const text = sweep({
      ...TIME,
      ...SPEED,
      'Torque Obs (lb-ft)': (row) => 200 + row / 10,
      'Torque STD (lb-ft)': (row) => 208 + row / 10,
      'Torque Corr (lb-ft)': (row) => 207 + row / 10,
      'Power SAE J1349, inertia in (hp)': (row) => 90 + row / 5,
    });
    const file = await read(text, { torqueIs: { air: 'observed', inertia: 'out' } });
    expect(all(file, 'torque').map((channel) => channel.basis)).toEqual([
      { air: 'observed', inertia: 'out' },
      { air: 'SAE 60F dry', inertia: 'out' },
      { air: 'unknown', inertia: 'out' },
    ]);
    expect(one(file, 'power').basis).toEqual({ air: 'SAE J1349', inertia: 'in' });
    // Corrected, but to what? That `torqueIs` says observed does not answer it.
    expect(keys(file)).toEqual(['basis:Torque Corr (lb-ft)']);
    const answered = await read(text, {
      torqueIs: { air: 'observed', inertia: 'out' },
      ...file.questions[0]!.choices[2]!.answer,
    });
    expect(all(answered, 'torque')[2]!.basis).toEqual({ air: 'ISO 1585', inertia: 'out' });
    expect(keys(answered)).toEqual([]);
  });
});

describe('units that no header states', () => {
  it('torque and power side by side tell theirs by 5252 or 9549', async () => {
    const power = (k: number) => (row: number) =>
      (((200 + row / 10) * (2500 + 20 * row)) / k).toFixed(3);
    const torque = (row: number) => 200 + row / 10;
    const us = await read(
      sweep({
        ...TIME,
        'Eng RPM': (row) => 2500 + 20 * row,
        'Eng Tq': torque,
        'Eng Power': power(5252.113),
      }),
    );
    expect(one(us, 'torque').values[0]).toBeCloseTo(200 * 1.3558179483314, 9);
    const metric = await read(
      sweep({
        ...TIME,
        'Eng RPM': (row) => 2500 + 20 * row,
        'Eng Tq': torque,
        'Eng Power': power(9549.297),
      }),
    );
    expect(one(metric, 'torque').values[0]).toBe(200);
    expect([...keys(us), ...keys(metric)].filter((key) => key.startsWith('unit'))).toEqual([]);
  });

  it('otherwise goes by the other headers and asks', async () => {
    const file = await read(
      sweep({
        ...TIME,
        'Eng RPM': (row) => 2500 + 20 * row,
        'Eng Tq': (row) => 200 + row / 10,
        'Oil Temp (°F)': () => 200,
      }),
    );
    expect(one(file, 'torque').values[0]).toBeCloseTo(200 * 1.3558179483314, 9);
    expect(one(file, 'torque').unit).toBeNull();
    expect(keys(file)).toContain('unit:Eng Tq');
    const choice = file.questions
      .find(({ key }) => key === 'unit:Eng Tq')!
      .choices.find(({ label }) => label === 'N·m')!;
    const answered = await read(
      sweep({
        ...TIME,
        'Eng RPM': (row) => 2500 + 20 * row,
        'Eng Tq': (row) => 200 + row / 10,
        'Oil Temp (°F)': () => 200,
      }),
      choice.answer,
    );
    expect(one(answered, 'torque').values[0]).toBe(200);
    expect(keys(answered)).not.toContain('unit:Eng Tq');
  });

  it('takes sizes that only one unit has', async () => {
    const file = await read(
      sweep({
        ...BASE,
        'Baro P': () => 29.5,
        'Rel Humidity': () => 45,
        'Throttle Pos': () => 98,
        'Wtr Temp': () => 180,
        'Air Temp': () => 299,
      }),
    );
    expect(one(file, 'barometer').values[0]).toBeCloseTo(29.5 * 3386.389, 0);
    expect(one(file, 'humidity').values[0]).toBeCloseTo(0.45, 12);
    expect(one(file, 'throttle').values[0]).toBeCloseTo(0.98, 12);
    expect(one(file, 'waterTemperature').values[0]).toBeCloseTo(355.372, 3);
    expect(one(file, 'airTemperature').values[0]).toBe(299);
  });
});

describe('channels that others imply', () => {
  it('torque from power and speed, and says so', async () => {
    const file = await read(sweep({ ...TIME, ...SPEED, 'Power obs (kW)': (row) => 50 + row }));
    const torque = one(file, 'torque');
    // P = T·ω: 50 kW at 2500 rev/min is 50000/(2500·2π/60) = 190.986 N·m.
    expect(torque.values[0]).toBeCloseTo(190.98593, 4);
    expect(torque.derivedFrom).toBe('Power obs (kW) and Engine Speed (rpm)');
    expect(torque.basis).toEqual({ air: 'observed', inertia: 'unknown' });
    expect(file.recording.warnings.join()).toMatch(/no torque: it was computed from power/);
  });

  it('engine speed from the speed of a geared brake, and torque from power with it', async () => {
    const text = sweep({
      ...TIME,
      'Dyno Speed (rpm)': (row) => 5000 + 40 * row,
      'Power (kW)': (row) => 50 + row,
    });
    const geared = await read(text, { brakeRatio: 2 });
    expect(one(geared, 'speed').values[0]).toBe(2500);
    expect(one(geared, 'speed').derivedFrom).toBe('Dyno Speed (rpm) over 2');
    expect(all(geared, 'speed')).toHaveLength(2);
    expect(one(geared, 'torque').values[0]).toBeCloseTo(190.98593, 4);
    const direct = await read(text);
    expect(all(direct, 'speed')).toHaveLength(1);
    const both = await read(sweep({ ...BASE, 'Dyno Speed (rpm)': (row) => 5000 + 40 * row }), {
      brakeRatio: 2,
    });
    expect(all(both, 'speed').some((channel) => channel.derivedFrom !== undefined)).toBe(false);
  });

  it('lambda from AFR with the stoichiometric ratio of the fuel, per bank', async () => {
    const text = sweep({ ...BASE, 'AFR Left': () => 12.6, 'AFR Right': () => 13.1 });
    const gasoline = await read(text, { fuel: 'gasoline' });
    expect(
      all(gasoline, 'lambda').map((channel) => [channel.bank, channel.values[0]!.toFixed(4)]),
    ).toEqual([
      [1, (12.6 / 14.7).toFixed(4)],
      [2, (13.1 / 14.7).toFixed(4)],
    ]);
    expect(keys(gasoline)).not.toContain('fuel');
    const unsaid = await read(text);
    expect(keys(unsaid)).toContain('fuel');
    expect(unsaid.recording.warnings.join()).toMatch(/as if for gasoline/);
    const e85 = await read(text, { fuel: 'E85' });
    expect(all(e85, 'lambda')[0]!.values[0]!).toBeGreaterThan(1.2);
  });

  it('fuel flow as supply less return, and as the sum of two meters', async () => {
    const net = await read(
      sweep({ ...BASE, 'Fuel Supply (kg/h)': () => 90, 'Fuel Return (kg/h)': () => 54 }),
    );
    expect(one(net, 'fuelFlow').values[0]).toBeCloseTo(0.01, 12);
    expect(one(net, 'fuelFlow').derivedFrom).toBe('Fuel Supply (kg/h) less Fuel Return (kg/h)');
    const both = await read(
      sweep({ ...BASE, 'Fuel A (kg/h)': () => 18, 'Fuel B (kg/h)': () => 18 }),
    );
    expect(one(both, 'fuelFlow').values[0]).toBeCloseTo(0.01, 12);
    expect(all(both, 'fuelFlow')).toHaveLength(3);
    const total = await read(
      sweep({
        ...BASE,
        'Fuel Flow (kg/h)': () => 36,
        'Fuel A (kg/h)': () => 18,
        'Fuel B (kg/h)': () => 18,
      }),
    );
    expect(one(total, 'fuelFlow').derivedFrom).toBeUndefined();
  });

  it('fuel by volume with the density that was said', async () => {
    const text = sweep({ ...BASE, 'Fuel (L/h)': () => 36 });
    const said = await read(text, { fuelDensityKgM3: 750 });
    expect(one(said, 'fuelFlow').values[0]).toBeCloseTo(0.0075, 12);
    expect(keys(said)).not.toContain('fuel');
    expect(keys(await read(text))).toContain('fuel');
  });
});

describe('what users map', () => {
  it('wins over the header, and can set a channel aside', async () => {
    const text = sweep({ ...BASE, 'Wibble 1': (row) => row, 'Lambda 1': () => 0.9 });
    const file = await read(text, {
      mapping: {
        'Wibble 1': { quantity: 'knock', cylinder: 4 },
        'Lambda 1': { quantity: 'lambda', ignore: true },
        'Torque (Nm)': {
          quantity: 'torque',
          unit: 'lb-ft',
          basis: { air: 'observed', inertia: 'in' },
        },
      },
    });
    expect(one(file, 'knock')).toMatchObject({ header: 'Wibble 1', cylinder: 4 });
    expect(all(file, 'lambda')).toHaveLength(0);
    expect(one(file, 'torque').values[0]).toBeCloseTo(200 * 1.3558179483314, 9);
    expect(one(file, 'torque').basis).toEqual({ air: 'observed', inertia: 'in' });
  });

  it('gauge or absolute is asked where manifold pressure falls to nothing', async () => {
    const text = sweep({ ...BASE, 'Manifold Press (kPa)': (row) => row / 10 });
    const file = await read(text);
    expect(keys(file)).toContain('pressure:Manifold Press (kPa)');
    const answered = await read(
      text,
      file.questions.find(({ key }) => key.startsWith('pressure'))!.choices[1]!.answer,
    );
    expect(one(answered, 'manifoldPressure').pressureReference).toBe('gauge');
    expect(
      one(await read(sweep({ ...BASE, 'Oil Press (psi)': () => 60 })), 'oilPressure')
        .pressureReference,
    ).toBe('gauge');
  });

  it('lambda 1 and 2 are banks, 1 to 4 cylinders', async () => {
    const two = await read(sweep({ ...BASE, 'Lambda 1': () => 0.9, 'Lambda 2': () => 0.91 }));
    expect(all(two, 'lambda').map((channel) => channel.bank)).toEqual([1, 2]);
    const four = await read(
      sweep({
        ...BASE,
        'Lambda 1': () => 0.9,
        'Lambda 2': () => 0.91,
        'Lambda 3': () => 0.9,
        'Lambda 4': () => 0.9,
      }),
    );
    expect(all(four, 'lambda').map((channel) => channel.cylinder)).toEqual([1, 2, 3, 4]);
  });
});

describe('doubts that are said, not refused', () => {
  const warningsOf = async (text: string) => (await read(text)).recording.warnings.join('\n');

  it('duplicated stamps, steps back and gaps', async () => {
    const time = (row: number) =>
      (row === 50 ? 0.98 : row >= 150 ? row / 50 + 3 : row / 50).toFixed(2);
    const text = sweep({ ...BASE, 'Time (s)': time });
    expect(await warningsOf(text)).toMatch(/same time .* once, first on line 52/);
    expect(await warningsOf(text)).toMatch(/a gap, first before line 152, the longest of 3.02 s/);
    const twice = `${sweep(BASE)}${sweep(BASE).split('\n').slice(1).join('\n')}`;
    expect(await warningsOf(twice)).toMatch(/Time goes back once, first on line 202/);
  });

  it('values that a slow logger held', async () => {
    const held = (row: number) => 200 + Math.floor(row / 5) * 1.7;
    expect(await warningsOf(sweep({ ...BASE, 'Torque (Nm)': held }))).toMatch(
      /"Torque \(Nm\)" changes only every 5 rows/,
    );
    expect(await warningsOf(sweep(BASE))).not.toMatch(/changes only every/);
  });

  it('a saturated lambda', async () => {
    const saturated = (row: number) => (row > 120 && row < 160 ? 1.35 : 0.88 + (row % 5) / 500);
    expect(await warningsOf(sweep({ ...BASE, 'Lambda W': saturated }))).toMatch(
      /sits at its highest value, 1.35, on 39 rows/,
    );
    expect(
      await warningsOf(sweep({ ...BASE, 'Lambda W': (row) => 0.88 + (row % 5) / 500 })),
    ).not.toMatch(/sits at/);
  });

  it('a misfire that reads lean', async () => {
    const near = (row: number) => Math.abs(row - 100) < 4;
    const text = sweep({
      ...BASE,
      'Torque (Nm)': (row) => (near(row) ? 150 : 200 + row / 100),
      'Lambda W': (row) => (near(row) ? 1.2 : 0.88 + (row % 5) / 500),
    });
    expect(await warningsOf(text)).toMatch(/a misfire reads lean/);
    const lean = sweep({
      ...BASE,
      'Lambda W': (row) => (row > 100 ? 1.2 : 0.88 + (row % 5) / 500),
    });
    expect(await warningsOf(lean)).not.toMatch(/misfire/);
  });
});
