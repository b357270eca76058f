import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../errors.ts';
import type { NewCalibration } from './repository.ts';
import { oneDay, withRecord } from './testing.ts';

const WEIGHTS = {
  kind: 'dead weights',
  arm: { lengthM: 0.6096, gravityMPerS2: 9.80665, offLevelDeg: 0 },
  uncertainty: {
    massRelative: 1e-4,
    armLengthRelative: 3e-4,
    gravityRelative: 2e-4,
    offLevelLimitDeg: 0.5,
  },
  resolutionNm: 0.1,
  points: [
    { massKg: 0, readingNm: 0.2, direction: 'up' },
    { massKg: 45.359237, readingNm: 271.7, direction: 'up' },
    { massKg: 90.718474, readingNm: 543.4, direction: 'up' },
    { massKg: 45.359237, readingNm: 272.1, direction: 'down' },
    { massKg: 0, readingNm: 0.4, direction: 'down' },
  ],
} as const;
const SENSOR = {
  kind: 'sensor',
  sensor: 'Oil temperature',
  unit: '°C',
  reference: 'ice water and steam',
  referenceUncertainty: 0.2,
  points: [
    { reading: 0.4, reference: 0 },
    { reading: 99.1, reference: 99.6 },
  ],
} as const;
const JANUARY = { doneOn: '2026-01-17', who: 'Ann', intervalMonths: 12, notes: 'arm levelled' };

describe('calibrations of a cell', () => {
  it('come back as they were read off, in the order of their days, and are changed and removed', () =>
    withRecord(async (record) => {
      const { cell } = await oneDay(record);
      const { calibrations } = record;
      const late = await calibrations.create({ ...JANUARY, cellId: cell.id, measured: WEIGHTS });
      const early = await calibrations.create({
        cellId: cell.id,
        doneOn: '2025-06-01',
        who: 'Bo',
        measured: SENSOR,
      });
      expect(late).toEqual({ ...JANUARY, id: late.id, cellId: cell.id, measured: WEIGHTS });
      expect(early).toMatchObject({ intervalMonths: null, notes: '', measured: SENSOR });
      expect(await calibrations.list({ cellId: cell.id })).toEqual([early, late]);
      const moved = await calibrations.update(late.id, { doneOn: '2025-01-17' });
      expect(await calibrations.list({ cellId: cell.id })).toEqual([moved, early]);
      await calibrations.remove(early.id);
      const [event] = await record.events.list({ limit: 1 });
      expect(event!.summary).toBe('removed calibration of 2025-06-01');
      await record.events.undo();
      expect(await calibrations.get(early.id)).toEqual(early);
      // A cell that a day stands on stays; one that none stands on goes with its calibrations, and comes back with them.
      const spare = await record.cells.create({ name: 'Spare' });
      const own = await calibrations.create({ ...JANUARY, cellId: spare.id, measured: SENSOR });
      await record.cells.remove(spare.id);
      expect(await calibrations.find(own.id)).toBeNull();
      await record.events.undo();
      expect(await calibrations.get(own.id)).toEqual(own);
    }));

  it('are refused with the field that is wrong, new or changed, and then nothing is kept', () =>
    withRecord(async (record) => {
      const { cell } = await oneDay(record);
      const good = { ...JANUARY, cellId: cell.id, measured: WEIGHTS };
      const kept = await record.calibrations.create(good);
      const points = (change: (all: object[]) => object[]) => ({
        measured: { ...WEIGHTS, points: change([...WEIGHTS.points]) },
      });
      const heavy = { massKg: 45, readingNm: 270, direction: 'up' };
      const wrong: readonly (readonly [string, object])[] = [
        ['doneOn', { doneOn: '2026-02-30' }],
        ['doneOn', { doneOn: '17.1.2026' }],
        ['intervalMonths', { intervalMonths: 1.5 }],
        ['intervalMonths', { intervalMonths: 0 }],
        ['who', { who: 7 }],
        ['notes', { notes: null }],
        ['measured', { measured: null }],
        ['measured.kind', { measured: { ...WEIGHTS, kind: 'weights' } }],
        [
          'measured.arm.lengthM',
          { measured: { ...WEIGHTS, arm: { ...WEIGHTS.arm, lengthM: 609.6 } } },
        ],
        ['measured.arm.length', { measured: { ...WEIGHTS, arm: { ...WEIGHTS.arm, length: 1 } } }],
        [
          'measured.uncertainty.massRelative',
          {
            measured: { ...WEIGHTS, uncertainty: { ...WEIGHTS.uncertainty, massRelative: -1e-4 } },
          },
        ],
        ['measured.resolutionNm', { measured: { ...WEIGHTS, resolutionNm: Number.NaN } }],
        ['measured.points', points((all) => all.slice(0, 2))],
        [
          'measured.points[1].massKg',
          points((all) => [all[0]!, { ...heavy, massKg: -1 }, all[2]!]),
        ],
        ['measured.points[5].direction', points((all) => [...all, { ...heavy, direction: 'on' }])],
        ['measured.points[5].readingNm', points((all) => [...all, { ...heavy, readingNm: '270' }])],
        ['measured.points', points(() => [heavy, heavy, heavy])],
        ['measured.points', points((all) => all.map((one, i) => ({ ...one, readingNm: -i })))],
        ['measured.unit', { measured: { ...SENSOR, unit: 'furlong' } }],
        ['measured.sensor', { measured: { ...SENSOR, sensor: ' ' } }],
        ['measured.points', { measured: { ...SENSOR, points: [] } }],
        [
          'measured.points',
          { measured: { ...SENSOR, points: [SENSOR.points[0], SENSOR.points[0]] } },
        ],
      ];
      for (const [column, change] of wrong) {
        const refused = { place: { column } };
        const fresh = record.calibrations.create({ ...good, ...change } as NewCalibration);
        await expect(fresh, column).rejects.toMatchObject(refused);
        const changed = record.calibrations.update(kept.id, change as never);
        await expect(changed, column).rejects.toMatchObject(refused);
        await expect(changed).rejects.toThrow(FormatError);
      }
      expect(await record.calibrations.list()).toEqual([kept]);
    }));

  it('whatever is put into a field, it is kept whole or refused by name, never half (500 at random)', async () => {
    await withRecord(async (record) => {
      const { cell } = await oneDay(record);
      const good = { ...JANUARY, cellId: cell.id, measured: WEIGHTS };
      const kept = await record.calibrations.create(good);
      const odd = fc.oneof(
        fc.constantFrom(null, undefined, '', [], {}, -1, 1e300, Number.NaN, true),
        fc.jsonValue({ maxDepth: 1 }),
      );
      const paths = leavesOf(good.measured);
      await fc.assert(
        fc.asyncProperty(fc.constantFrom(...paths), odd, async (path, value) => {
          const measured = withAt(good.measured, path, value);
          const answer = await record.calibrations
            .update(kept.id, { measured } as never)
            .catch((error: unknown) => error);
          if (answer instanceof Error) {
            expect(answer).toBeInstanceOf(FormatError);
            expect((answer as FormatError).place.column).toMatch(/^measured\.[a-z]/);
          } else expect(answer).toMatchObject({ measured });
        }),
        { seed: 376, numRuns: 500 },
      );
    });
  });
});

type Path = readonly (string | number)[];

/** Every place in a value, inner and outer. */
function leavesOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Object.entries(value).flatMap(([key, one]) =>
    leavesOf(one, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return path.length === 0 ? inner : [path, ...inner];
}

function withAt(value: unknown, [key, ...rest]: Path, put: unknown): unknown {
  if (key === undefined) return put;
  if (Array.isArray(value))
    return value.map((one, index) => (index === key ? withAt(one, rest, put) : one));
  const fields = value as Record<string, unknown>;
  return { ...fields, [key]: withAt(fields[key], rest, put) };
}

describe('windows of the shop', () => {
  it('come back as they were set, and go with an undo', () =>
    withRecord(async (record) => {
      const windows = [
        {
          name: 'quench',
          uses: ['bursts'],
          when: { rodMaterial: 'steel' },
          low: 0.0009,
          high: 0.0011,
          stopBelow: 0.0008,
          stopAbove: null,
          perM: false,
          source: 'the shop’s own',
        },
      ];
      const before = await record.shop.get();
      expect((await record.shop.update({ windows })).windows).toEqual(windows);
      expect((await record.shop.get()).windows).toEqual(windows);
      await record.events.undo();
      expect(await record.shop.get()).toEqual(before);
      await record.events.redo();
      expect((await record.shop.get()).windows).toEqual(windows);
    }));
});
