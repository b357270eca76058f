import { describe, expect, it } from 'vitest';
import { NEW_CELL, NEW_SHOP } from './defaults.ts';
import { ConflictError, NotInRecordError } from './errors.ts';
import { oneDay, withRecord } from './testing.ts';

describe('the shelves of the record', () => {
  it('starts as a new shop with nothing recorded', () =>
    withRecord(async (record) => {
      expect(record.isNew).toBe(true);
      expect(await record.shop.get()).toEqual(NEW_SHOP);
      expect(await record.events.list()).toEqual([]);
      const changed = await record.shop.update({ units: 'metric', worthPercent: 0.5 });
      expect(changed).toEqual({ ...NEW_SHOP, units: 'metric', worthPercent: 0.5 });
    }));

  it('gives back what was made, with defaults for what was not said', () =>
    withRecord(async (record) => {
      const cell = await record.cells.create({ name: 'North cell', inertiaKgM2: 0.77 });
      expect(cell).toEqual({ ...NEW_CELL, name: 'North cell', inertiaKgM2: 0.77, id: cell.id });
      expect(await record.cells.get(cell.id)).toEqual(cell);
      expect(await record.cells.list()).toEqual([cell]);
      expect(await record.cells.find('cell_none')).toBeNull();
      await expect(record.cells.get('cell_none')).rejects.toThrow(NotInRecordError);
    }));

  it('keeps every kind of field of a pull as it was given', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const fields = {
        dayId: day.id,
        leadDeg: 28.5,
        knockHeard: 5200,
        specksOnPlug: true,
        aborted: true,
        watched: 'ear',
        group: 'carburettor',
        excludedBecause: 'fuel ran out; "quoted"',
        configuration: { oil: '20W-50', baseTimingDeg: 10 },
        peakPowerW: 412_000,
        peaksAre: { air: 'SAE J1349', inertia: 'in' },
      } as const;
      const pull = await record.pulls.create(fields);
      expect(await record.pulls.get(pull.id)).toMatchObject(fields);
      const updated = await record.pulls.update(pull.id, { knockHeard: false, leadDeg: null });
      expect(updated).toMatchObject({ ...fields, knockHeard: false, leadDeg: null });
    }));

  it('gives a new day its spark-lead ladder in the same change', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const ladders = await record.ladders.list({ dayId: day.id });
      expect(ladders).toHaveLength(1);
      expect(ladders[0]).toMatchObject({ setting: 'lead', group: null, dayId: day.id });
      const [newest] = await record.events.list();
      expect((await record.events.get(newest!.id)).touched).toHaveLength(2);
    }));

  it('puts pulls in the order they were made', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      for (const leadDeg of [30, 28, 32]) await record.pulls.create({ dayId: day.id, leadDeg });
      const pulls = await record.pulls.list({ dayId: day.id });
      expect(pulls.map((pull) => [pull.order, pull.leadDeg])).toEqual([
        [0, 30],
        [1, 28],
        [2, 32],
      ]);
    }));

  it('changes a pasted table in one event, or nothing of it', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const a = await record.pulls.create({ dayId: day.id });
      const b = await record.pulls.create({ dayId: day.id });
      const before = (await record.events.list()).length;
      await record.pulls.updateMany([
        { id: a.id, patch: { leadDeg: 28 } },
        { id: b.id, patch: { leadDeg: 30 } },
      ]);
      const events = await record.events.list();
      expect(events).toHaveLength(before + 1);
      expect(events[0]!.summary).toBe('2 pulls: lead');
      const bad = record.pulls.updateMany([
        { id: a.id, patch: { leadDeg: 40 } },
        { id: 'pull_none', patch: { leadDeg: 40 } },
      ]);
      await expect(bad).rejects.toThrow(NotInRecordError);
      expect((await record.pulls.get(a.id)).leadDeg).toBe(28);
    }));

  it('notes nothing where nothing changed', () =>
    withRecord(async (record) => {
      const { cell } = await oneDay(record);
      const before = await record.events.list();
      await record.cells.update(cell.id, { name: cell.name, notes: '' });
      expect(await record.events.list()).toEqual(before);
    }));

  it('refuses a child of a parent that is not there, and a cell that days still use', () =>
    withRecord(async (record) => {
      const { cell } = await oneDay(record);
      await expect(record.builds.create({ engineId: 'engine_none', name: 'B' })).rejects.toThrow(
        NotInRecordError,
      );
      await expect(record.cells.remove(cell.id)).rejects.toThrow(
        new ConflictError('This cell is used by 1 test day; remove or move it first.'),
      );
    }));

  it('refuses a number that is none, with its name', () =>
    withRecord(async (record) => {
      await expect(record.cells.create({ name: 'C', ratio: Number.NaN })).rejects.toThrow(
        /ratio.*not a number/,
      );
    }));
});
