import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutOf } from '../build/index.ts';
import { ConflictError } from './errors.ts';
import type { PullbookRecord } from './repository.ts';
import { oneDay, withRecord } from './testing.ts';

/** Everything a person can see of the record. */
async function everything(record: PullbookRecord) {
  const { shop, cells, mappings, engines, builds, days, pulls, ladders, decisions } = record;
  const { calibrations, sheets } = record;
  return {
    shop: await shop.get(),
    cells: await cells.list(),
    mappings: await mappings.list(),
    engines: await engines.list(),
    builds: await builds.list(),
    days: await days.list(),
    pulls: await pulls.list(),
    ladders: await ladders.list(),
    decisions: await decisions.list(),
    calibrations: await calibrations.list(),
    sheets: await Promise.all(
      (await builds.list()).map(async ({ id }) => (await sheets.get(id)).sheet),
    ),
  };
}

describe('events', () => {
  it('tell who did what and which rows it touched, before and after', () =>
    withRecord(async (record) => {
      const cell = await record.cells.create({ name: 'Cell' }, { who: 'Ann' });
      await record.cells.update(cell.id, { ratio: 2.5 }, { who: 'Bo' });
      const [newest, first] = await record.events.list();
      expect(newest).toMatchObject({
        who: 'Bo',
        kind: 'change',
        summary: 'cell: ratio',
        undone: false,
      });
      expect(first).toMatchObject({ who: 'Ann', summary: 'new cell Cell' });
      expect((await record.events.get(newest!.id)).touched).toEqual([
        { entity: 'cell', id: cell.id, before: { ratio: 1 }, after: { ratio: 2.5 } },
      ]);
    }));

  it('bring an engine back with all under it', () =>
    withRecord(async (record) => {
      const { engine, day } = await oneDay(record);
      const [ladder] = await record.ladders.list({ dayId: day.id });
      await record.pulls.create({ dayId: day.id, leadDeg: 28 });
      await record.decisions.create({
        ladderId: ladder!.id,
        use: 'bursts',
        setting: 26,
        who: 'Ann',
        why: 'clean',
      });
      const before = await everything(record);
      await record.engines.remove(engine.id);
      expect((await everything(record)).pulls).toEqual([]);
      const undo = await record.events.undo();
      expect(undo).toMatchObject({ kind: 'undo', summary: 'took back: removed engine Engine' });
      expect(await everything(record)).toEqual(before);
      await record.events.redo();
      expect(await record.engines.list()).toEqual([]);
    }));

  it('take back an older change where nothing later stands in its way', () =>
    withRecord(async (record) => {
      const cell = await record.cells.create({ name: 'Cell' });
      await record.cells.update(cell.id, { ratio: 2 });
      const [ratio] = await record.events.list();
      await record.cells.update(cell.id, { notes: 'moved' });
      await record.events.undo(ratio!.id);
      expect(await record.cells.get(cell.id)).toMatchObject({ ratio: 1, notes: 'moved' });
    }));

  it('refuse to take back what a later change rests on, and name that change', () =>
    withRecord(async (record) => {
      const cell = await record.cells.create({ name: 'Cell' });
      const [made] = await record.events.list();
      await record.cells.update(cell.id, { ratio: 2 });
      await expect(record.events.undo(made!.id)).rejects.toThrow(
        'Event 1 (new cell Cell) cannot be turned: event 2 (cell: ratio) came after it and touched the same cell; take that back first.',
      );
      const engine = await record.engines.create({ name: 'Engine' });
      await record.builds.create({ engineId: engine.id, name: 'Build' });
      await expect(record.events.undo(3)).rejects.toThrow(/event 4 \(new build Build\)/);
      await expect(record.events.undo(99)).rejects.toThrow(/no event with the id 99/);
      await expect(record.events.redo(1)).rejects.toThrow(ConflictError);
    }));

  it('say so where there is nothing to take back or bring back', () =>
    withRecord(async (record) => {
      await expect(record.events.undo()).rejects.toThrow('There is nothing to take back.');
      await expect(record.events.redo()).rejects.toThrow('There is nothing to bring back.');
      await record.cells.create({ name: 'Cell' });
      await record.events.undo();
      await expect(record.events.undo(2)).rejects.toThrow(/itself an undo; redo event 1 instead/);
      await expect(record.events.undo(1)).rejects.toThrow(/taken back already/);
    }));

  it('undone one by one lead back through every state, and redone forward again', async () => {
    const step = fc.record({
      what: fc.constantFrom(...Object.keys(STEPS)),
      which: fc.nat(),
      text: fc.string({ minLength: 1 }),
      number: fc.double({ min: -20, max: 60, noNaN: true }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 14 }), async (steps) => {
        await withRecord(async (record) => {
          await oneDay(record);
          const states = [await everything(record)];
          for (const one of steps) {
            const before = (await record.events.list({ limit: 1 }))[0]!.id;
            await STEPS[one.what]!(record, one);
            if ((await record.events.list({ limit: 1 }))[0]!.id > before)
              states.push(await everything(record));
          }
          for (let at = states.length - 2; at >= 0; at -= 1) {
            await record.events.undo();
            expect(await everything(record)).toEqual(states[at]);
          }
          for (let at = 1; at < states.length; at += 1) {
            await record.events.redo();
            expect(await everything(record)).toEqual(states[at]);
          }
        });
      }),
      { seed: 20260517, numRuns: 15 },
    );
  });
});

interface Step {
  readonly which: number;
  readonly text: string;
  readonly number: number;
}
const pick = <T>(all: readonly T[], { which }: Step): T | undefined =>
  all[which % (all.length || 1)];

/** What a person may do; where there is nothing to do it to, nothing happens. */
const STEPS: Readonly<Record<string, (record: PullbookRecord, step: Step) => Promise<unknown>>> = {
  cell: (record, { text }) => record.cells.create({ name: text }),
  shop: (record, { number }) => record.shop.update({ worthPercent: number }),
  async build(record, step) {
    const engine = pick(await record.engines.list(), step);
    if (engine !== undefined) await record.builds.create({ engineId: engine.id, name: step.text });
  },
  async day(record, step) {
    const build = pick(await record.builds.list(), step);
    const cell = pick(await record.cells.list(), step);
    if (build !== undefined) await record.days.create({ buildId: build.id, cellId: cell!.id });
  },
  async pull(record, step) {
    const day = pick(await record.days.list(), step);
    if (day !== undefined) await record.pulls.create({ dayId: day.id, leadDeg: step.number });
  },
  async decide(record, step) {
    const ladder = pick(await record.ladders.list(), step);
    const decision = { use: 'bursts', setting: step.number, who: step.text, why: '' };
    if (ladder !== undefined) await record.decisions.create({ ...decision, ladderId: ladder.id });
  },
  async change(record, step) {
    const pull = pick(await record.pulls.list(), step);
    const patch = { note: step.text, configuration: { oil: step.text } };
    if (pull !== undefined) await record.pulls.update(pull.id, patch);
  },
  async removePull(record, step) {
    const pull = pick(await record.pulls.list(), step);
    if (pull !== undefined) await record.pulls.remove(pull.id);
  },
  async calibrate(record, step) {
    const cell = pick(await record.cells.list(), step)!;
    const at = (reading: number) => ({ reading, reference: reading + step.number });
    const measured = {
      kind: 'sensor',
      sensor: 'Oil temperature',
      unit: '°C',
      reference: step.text,
      referenceUncertainty: 0.1,
      points: [at(0), at(100)],
    } as const;
    const fresh = { cellId: cell.id, doneOn: '2026-01-17', who: step.text, measured };
    await record.calibrations.create(fresh);
  },
  async recalibrate(record, step) {
    const one = pick(await record.calibrations.list(), step);
    const patch = { notes: step.text, intervalMonths: 1 + (step.which % 24) };
    if (one !== undefined) await record.calibrations.update(one.id, patch);
  },
  async removeCalibration(record, step) {
    const one = pick(await record.calibrations.list(), step);
    if (one !== undefined) await record.calibrations.remove(one.id);
  },
  windows: (record, { number, text }) =>
    record.shop.update({
      windows: [
        {
          name: text,
          uses: null,
          when: {},
          low: number,
          high: null,
          stopBelow: null,
          stopAbove: null,
          perM: false,
          source: text,
        },
      ],
    }),
  async sheet(record, step) {
    const build = pick(await record.builds.list(), step);
    if (build === undefined) return;
    const { version } = await record.sheets.get(build.id);
    const sections = { block: { notes: step.text } };
    const sheet = { format: 'sheet/1', layout: layoutOf(6), sections } as const;
    await record.sheets.save(build.id, sheet, version);
  },
  async removeDay(record, step) {
    const day = pick(await record.days.list(), step);
    if (day !== undefined) await record.days.remove(day.id);
  },
  async removeEngine(record, step) {
    const engine = pick(await record.engines.list(), step);
    if (engine !== undefined) await record.engines.remove(engine.id);
  },
};
