import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import { inOrder, type Sheet } from '../build/index.ts';
import { FormatError } from '../errors.ts';
import { restoreRecord } from './backup.ts';
import { StaleSheetError } from './errors.ts';
import { openRecord } from './open.ts';
import { sha256Of } from './pack.ts';
import { oneDay, withRecord } from './testing.ts';

const [came, refreshed] = demoSheets().map(({ sheet }) => sheet) as [Sheet, Sheet];

describe('the sheet of a build', () => {
  it('is none at first, then stands as it was saved, with a version that only rises', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const none = await record.sheets.get(day.buildId);
      expect(none).toEqual({ buildId: day.buildId, version: 0, sheet: null });
      const first = await record.sheets.save(day.buildId, came, 0);
      expect(first.sheet).toEqual(inOrder(came));
      expect(await record.sheets.get(day.buildId)).toEqual(first);
      const second = await record.sheets.save(day.buildId, refreshed, first.version);
      expect(second.version).toBeGreaterThan(first.version);
      expect((await record.sheets.get(day.buildId)).sheet).toEqual(inOrder(refreshed));
      // Taken back, the sheet is the first again, but its version is none that ever stood.
      await record.events.undo();
      const back = await record.sheets.get(day.buildId);
      expect(back.sheet).toEqual(first.sheet);
      expect(back.version).toBeGreaterThan(second.version);
    }));

  it('is refused where another save came between, and then stays as it was', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { version } = await record.sheets.save(day.buildId, came, 0);
      const named = await record.sheets.save(day.buildId, { ...came, name: 'Ann’s' }, version);
      const late = record.sheets.save(day.buildId, { ...came, name: 'Bo’s' }, version);
      await expect(late).rejects.toThrow(StaleSheetError);
      await expect(record.sheets.save(day.buildId, came, 0)).rejects.toThrow(/load it again/);
      expect(await record.sheets.get(day.buildId)).toEqual(named);
    }));

  it('notes only the sections that changed, so that each can be taken back by itself', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { version } = await record.sheets.save(day.buildId, came, 0);
      const noted = (section: string, notes: string, sheet: Sheet): Sheet => ({
        ...sheet,
        sections: { ...sheet.sections, [section]: { ...sheet.sections[section], notes } },
      });
      const one = await record.sheets.save(day.buildId, noted('block', 'honed', came), version);
      const [event] = await record.events.list({ limit: 1 });
      expect(event!.summary).toBe('sheet of First build: block');
      const touched = (await record.events.get(event!.id)).touched!;
      expect(touched.map(({ id }) => id)).toEqual([`${day.buildId}/sheet/block`]);
      expect(JSON.stringify(touched).length).toBeLessThan(JSON.stringify(came).length);
      await record.sheets.save(day.buildId, noted('crank', 'polished', one.sheet!), one.version);
      await record.events.undo(event!.id);
      const { sheet } = await record.sheets.get(day.buildId);
      expect(sheet!.sections.block).toEqual(inOrder(came).sections.block);
      expect(sheet!.sections.crank!.notes).toBe('polished');
      // A save that changes nothing is no event and leaves the version.
      const still = await record.sheets.get(day.buildId);
      const again = await record.sheets.save(day.buildId, sheet!, still.version);
      expect(again.version).toBe(still.version);
    }));

  it('is checked on the way in and names the field', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const wrong = { ...came, sections: { block: { values: { boreNominal: 'wide' } } } } as never;
      const saving = record.sheets.save(day.buildId, wrong, 0);
      await expect(saving).rejects.toThrow(FormatError);
      await expect(saving).rejects.toMatchObject({
        place: { column: 'sections.block.values.boreNominal' },
      });
      const dangling = { ...came, attachments: [{ sha256: 'a'.repeat(64), fileName: 'x.jpg' }] };
      await expect(record.sheets.save(day.buildId, dangling, 0)).rejects.toMatchObject({
        place: { column: 'attachments[0].sha256' },
      });
      expect((await record.sheets.get(day.buildId)).sheet).toBeNull();
      await expect(record.sheets.save('build_none', came, 0)).rejects.toThrow(/no build/);
    }));

  it('goes with its build and comes back with it', () =>
    withRecord(async (record) => {
      const { engine, day } = await oneDay(record);
      const kept = await record.sheets.save(day.buildId, came, 0);
      await record.engines.remove(engine.id);
      await expect(record.sheets.get(day.buildId)).rejects.toThrow(/no build/);
      await record.events.undo();
      expect((await record.sheets.get(day.buildId)).sheet).toEqual(kept.sheet);
    }));

  it('begins a new build as a copy, in one step, with the changed parts to be measured again', () =>
    withRecord(async (record) => {
      const { engine, day } = await oneDay(record);
      await record.sheets.save(day.buildId, came, 0);
      const fresh = await record.sheets.startBuild(day.buildId, {
        name: 'Second build',
        changed: ['block'],
      });
      expect(fresh).toMatchObject({ engineId: engine.id, name: 'Second build' });
      const { sheet } = await record.sheets.get(fresh.id);
      expect(sheet!.name).toBe('Second build');
      expect(sheet!.sections.crank).toEqual(inOrder(came).sections.crank);
      expect(sheet!.sections.block?.values?.boreNominal).toBeUndefined();
      await record.events.undo();
      expect((await record.builds.list()).map(({ name }) => name)).toEqual(['First build']);
    }));
});

describe('photos and files of a build', () => {
  it('are stored once under their SHA-256, stand on the sheet, and leave its version alone', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { buildId } = day;
      const bytes = Buffer.from('a photo'.repeat(1000));
      const photo = { buildId, fileName: 'a.png', mediaType: 'image/png', section: 'block', bytes };
      const { version } = await record.sheets.save(buildId, came, 0);
      const { file, isNew } = await record.buildFiles.put(photo, { who: 'Ann' });
      expect(isNew).toBe(true);
      const sha256 = sha256Of(bytes);
      expect(file).toMatchObject({ sha256, fileName: 'a.png', section: 'block', who: 'Ann' });
      expect(await record.buildFiles.put(photo)).toEqual({ file, isNew: false });
      const elsewhere = await record.buildFiles.put({ ...photo, section: null });
      expect(elsewhere.isNew).toBe(true);
      await expect(record.buildFiles.put({ ...photo, section: 'engine room' })).rejects.toThrow(
        /no such section/,
      );
      const kept = await record.sheets.get(buildId);
      expect(kept.version).toBe(version);
      expect(kept.sheet!.attachments).toEqual([
        { sha256, fileName: 'a.png', section: 'block' },
        { sha256, fileName: 'a.png' },
      ]);
      // Whoever worked at the sheet meanwhile takes none of them away.
      await record.sheets.save(buildId, refreshed, version);
      expect(await record.buildFiles.list({ buildId })).toHaveLength(2);

      await record.buildFiles.update(file.id, { caption: 'before the hone' });
      await record.buildFiles.remove(file.id);
      expect(await record.buildFiles.list({ buildId })).toEqual([elsewhere.file]);
      const parts: Uint8Array[] = [];
      for await (const piece of record.files.pieces(sha256)) parts.push(piece);
      expect(Buffer.concat(parts).equals(bytes)).toBe(true);
      expect(await record.files.find(sha256)).toMatchObject({ mediaType: 'image/png' });
      await record.events.undo();
      expect(await record.buildFiles.get(file.id)).toMatchObject({ caption: 'before the hone' });
    }));

  it('go with their build and come back, follow a copy where its section stays, and are in the backup', () =>
    withRecord(async (record, folder) => {
      const { engine, day } = await oneDay(record);
      const { buildId } = day;
      await record.sheets.save(buildId, came, 0);
      const put = (section: string | null, text: string) =>
        record.buildFiles.put({
          buildId,
          fileName: `${text}.txt`,
          mediaType: 'text/plain',
          section,
          bytes: Buffer.from(text),
        });
      await put('block', 'bores');
      await put('crank', 'journals');
      await put(null, 'on the stand');
      const next = await record.sheets.startBuild(buildId, { name: 'Next', changed: ['block'] });
      const copied = await record.buildFiles.list({ buildId: next.id });
      const names = copied.map(({ fileName }) => fileName).sort();
      expect(names).toEqual(['journals.txt', 'on the stand.txt']);
      await record.engines.remove(engine.id);
      await record.events.undo();
      const files = await record.buildFiles.list({ buildId });
      expect(files).toHaveLength(3);
      const { sha256 } = files.find(({ fileName }) => fileName === 'bores.txt')!;

      const copy = join(folder, 'copy.sqlite');
      await record.backup(copy);
      restoreRecord(join(folder, 'restored'), copy, new Date());
      const restored = await openRecord(join(folder, 'restored'));
      try {
        expect(await restored.buildFiles.list({ buildId })).toEqual(files);
        const pieces: Uint8Array[] = [];
        for await (const piece of restored.files.pieces(sha256)) pieces.push(piece);
        expect(Buffer.concat(pieces).toString()).toBe('bores');
      } finally {
        await restored.close();
      }
    }));
});

describe('parts with a serial', () => {
  it('are found in every build that has them, with the days they ran', () =>
    withRecord(async (record) => {
      const { engine, day } = await oneDay(record);
      const withRods = (serial: string): Sheet => ({
        ...came,
        sections: { rods: { parts: [{ name: 'Rods', serial }, { name: 'Bolts' }] } },
      });
      await record.sheets.save(day.buildId, withRods('R-7'), 0);
      await record.pulls.create({ dayId: day.id, leadDeg: 28, peakPowerW: 1e5 });
      const other = await record.engines.create({ name: 'Other engine' });
      const build = await record.builds.create({ engineId: other.id, name: 'With the rods' });
      await record.sheets.save(build.id, withRods(' r-7 '), 0);
      const found = await record.sheets.withSerial('R-7');
      expect(found).toMatchObject([
        {
          engineId: engine.id,
          buildId: day.buildId,
          lines: [{ section: 'rods', name: 'Rods', serial: 'R-7', note: null }],
          days: [{ id: day.id, date: '2026-05-17', pullCount: 1 }],
        },
        { engineName: 'Other engine', buildName: 'With the rods', days: [] },
      ]);
      expect(await record.sheets.serials()).toMatchObject([{ name: 'Rods', builds: 2 }]);
      expect(await record.sheets.withSerial('R-8')).toEqual([]);
    }));
});

describe('the plan of a day', () => {
  it('stays as it was made; ticks come and go, each an event', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const made = { dayId: day.id, version: 1, plan: { items: [{ id: 'oil' }] } };
      const plan = await record.plans.create(made);
      expect(plan.plan).toEqual(made.plan);
      const ticks = await record.plans.tick(plan.id, 'oil', true, { who: 'Ann' });
      expect(ticks).toMatchObject([{ itemId: 'oil', who: 'Ann' }]);
      // Twice is once, and keeps who did it first.
      expect(await record.plans.tick(plan.id, 'oil', true, { who: 'Bo' })).toEqual(ticks);
      expect(await record.plans.tick(plan.id, 'oil', false)).toEqual([]);
      await record.events.undo();
      expect(await record.plans.ticks(plan.id)).toEqual(ticks);
      await record.days.remove(day.id);
      await record.events.undo();
      expect(await record.plans.ticks(plan.id)).toEqual(ticks);
    }));
});
