import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { StoreError } from '../errors.ts';
import { databaseFile } from './check.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { openRecord } from './open.ts';
import { oneDay, temporaryFolder } from './testing.ts';

async function inFolder(work: (folder: string) => Promise<void>): Promise<void> {
  const { folder, remove } = temporaryFolder();
  try {
    await work(folder);
  } finally {
    remove();
  }
}
const firstVersion = () =>
  gunzipSync(readFileSync(join(import.meta.dirname, 'fixtures', 'first-version.sqlite.gz')));

describe('opening a record', () => {
  it('finds everything again that was there when it was closed', () =>
    inFolder(async (folder) => {
      const first = await openRecord(folder);
      const { day } = await oneDay(first);
      await first.close();
      const second = await openRecord(folder);
      expect(second.isNew).toBe(false);
      expect(await second.days.get(day.id)).toEqual(day);
      await second.close();
    }));

  it('writes through to the disk before it acknowledges', () =>
    inFolder(async (folder) => {
      const record = await openRecord(folder);
      await oneDay(record);
      await record.close();
      const db = new Database(databaseFile(folder));
      expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
      db.close();
    }));

  it('brings a database of the first version forward, with all that is in it', () =>
    inFolder(async (folder) => {
      writeFileSync(databaseFile(folder), firstVersion());
      const record = await openRecord(folder);
      expect(await record.shop.get()).toMatchObject({
        name: 'Old shop',
        invented: false,
        units: 'metric',
      });
      const [pull] = await record.pulls.list({ dayId: 'day_1' });
      expect(pull).toMatchObject({ leadDeg: 28, knockHeard: 4500, specksOnPlug: false });
      expect(pull).toMatchObject({ lambdaMeasured: null, jets: null, loadPercent: null });
      // What the first version had no column for is kept beside it, and taken back with its event.
      const read = { lambdaMeasured: 0.853, lambdaErrorSd: 0.01, jets: '68, 76', loadPercent: 60 };
      expect(await record.pulls.update(pull!.id, read)).toMatchObject(read);
      const [event] = await record.events.list({ limit: 1 });
      expect(event!.summary).toContain('lambda measured, lambda error, jets, load');
      await record.events.undo();
      expect(await record.pulls.get(pull!.id)).toEqual(pull);
      expect(await record.days.get('day_1')).toMatchObject({
        fuelBatch: '',
        bandRpm: [3000, 5000],
      });
      const text = Buffer.from(await record.recordings.bytes(pull!.recordingSha256!)).toString();
      expect(text.split('\n')[1]).toBe('3000,400');
      // An event from before a field existed can still be taken back and brought back.
      await record.events.undo(1);
      expect(await record.pulls.list()).toEqual([]);
      await record.events.redo(1);
      expect(await record.pulls.get('pull_1')).toEqual(pull);
      const summary = await record.summary();
      expect(summary.latestDays[0]).toMatchObject({
        pullCount: 1,
        decisions: [{ kind: 'lead', use: 'bursts', setting: 26 }],
      });
      await record.close();
      const db = new Database(databaseFile(folder), { readonly: true });
      expect(db.prepare('SELECT name FROM migration ORDER BY position').pluck().all()).toEqual(
        MIGRATIONS.map((migration) => migration.name),
      );
      db.close();
    }));

  it('keeps what an older Pullbook had noted of its advice, in the record and in its events', () =>
    inFolder(async (folder) => {
      writeFileSync(databaseFile(folder), firstVersion());
      const db = new Database(databaseFile(folder));
      migrate(db, databaseFile(folder), '2026-02-01T08:00:00.000Z', MIGRATIONS.slice(0, 2));
      db.exec(`UPDATE decision SET advised_deg = 27, advised_why = 'two below the best'`);
      db.exec(
        `INSERT INTO event VALUES (2, '2026-01-09T12:00:00.000Z', '', 'change', 'new decision bursts', NULL, 0)`,
      );
      const told = {
        id: 'decision_1',
        ladderId: 'ladder_1',
        use: 'bursts',
        leadDeg: 26,
        who: 'The owner',
        decidedAt: '2026-01-09T12:00:00.000Z',
        why: 'knock at 28',
        advisedDeg: 27,
        advisedWhy: 'two below the best',
      };
      db.prepare(`INSERT INTO event_row VALUES (2, 0, 'decision', 'decision_1', NULL, ?)`).run(
        JSON.stringify(told),
      );
      db.exec(`UPDATE ladder SET step_deg = 0.5`);
      db.exec(
        `INSERT INTO event VALUES (3, '2026-01-09T13:00:00.000Z', '', 'change', 'ladder: step', NULL, 0)`,
      );
      db.exec(
        `INSERT INTO event_row VALUES (3, 0, 'ladder', 'ladder_1', '{"stepDeg":null}', '{"stepDeg":0.5}')`,
      );
      db.close();
      const record = await openRecord(folder);
      const [decision] = await record.decisions.list();
      expect(decision).toMatchObject({
        setting: 26,
        advice: { value: 27, why: 'two below the best', evidence: null },
      });
      expect(await record.ladders.get('ladder_1')).toMatchObject({ setting: 'lead', step: 0.5 });
      await record.events.undo(3);
      expect((await record.ladders.get('ladder_1')).step).toBeNull();
      await record.events.undo(2);
      expect(await record.decisions.list()).toEqual([]);
      await record.events.redo(2);
      expect(await record.decisions.list()).toEqual([decision]);
      await record.close();
    }));

  it('knows the demo of an older Pullbook, which told it by its name', () =>
    inFolder(async (folder) => {
      writeFileSync(databaseFile(folder), firstVersion());
      const db = new Database(databaseFile(folder));
      db.exec(`UPDATE shop SET name = 'Cove Shop (invented)'`);
      db.close();
      const record = await openRecord(folder);
      expect(await record.shop.get()).toMatchObject({ name: 'Cove Shop', invented: true });
      await record.shop.update({ name: 'Renamed' });
      expect(await record.shop.get()).toMatchObject({ name: 'Renamed', invented: true });
      await record.close();
    }));

  it('refuses a database of a newer Pullbook, and changes nothing in it', () =>
    inFolder(async (folder) => {
      await (await openRecord(folder)).close();
      const db = new Database(databaseFile(folder));
      db.exec("INSERT INTO migration VALUES (99, '0099_from_the_future', '2030-01-01')");
      db.pragma('journal_mode = DELETE');
      db.close();
      const before = readFileSync(databaseFile(folder));
      await expect(openRecord(folder)).rejects.toThrow(/written by a newer Pullbook; start that/);
      const again = new Database(databaseFile(folder));
      again.pragma('journal_mode = DELETE');
      again.close();
      expect(readFileSync(databaseFile(folder)).subarray(100).equals(before.subarray(100))).toBe(
        true,
      );
    }));

  it('refuses a history it does not know', () =>
    inFolder(async (folder) => {
      await (await openRecord(folder)).close();
      const db = new Database(databaseFile(folder));
      db.exec("UPDATE migration SET name = '0001_other' WHERE position = 1");
      db.close();
      const error = await openRecord(folder).catch((thrown: unknown) => thrown);
      expect(error).toBeInstanceOf(StoreError);
      expect((error as StoreError).place).toMatchObject({
        file: databaseFile(folder),
        found: 'migration 0001_other',
        expected: 'migration 0001_foundation',
      });
    }));

  it("refuses another program's database", () =>
    inFolder(async (folder) => {
      const db = new Database(databaseFile(folder));
      db.exec('CREATE TABLE songs (title TEXT)');
      db.close();
      await expect(openRecord(folder)).rejects.toThrow(/database of another program; move it away/);
    }));

  it.each([
    [
      'text in its place',
      () => Buffer.from('this is no database at all, but a letter\n'.repeat(50)),
    ],
    ['a page overwritten', (whole: Buffer) => damagedAt(whole, Math.floor(whole.length / 2))],
    ['the end cut off', (whole: Buffer) => whole.subarray(0, Math.floor(whole.length / 2))],
  ])('refuses a damaged file (%s) and says what to do', (_, damage) =>
    inFolder(async (folder) => {
      const record = await openRecord(folder);
      const { day } = await oneDay(record);
      for (let n = 0; n < 200; n += 1)
        await record.pulls.create({ dayId: day.id, note: `note ${n} `.repeat(20) });
      await record.close();
      const file = databaseFile(folder);
      writeFileSync(file, damage(readFileSync(file)));
      await expect(openRecord(folder)).rejects.toThrow(
        /pullbook\.sqlite is damaged; restore your newest backup/,
      );
    }),
  );

  it('lets one Pullbook in at a time, and the next when it has left', () =>
    inFolder(async (folder) => {
      const record = await openRecord(folder);
      await expect(openRecord(folder)).rejects.toThrow(
        `Another Pullbook (process ${process.pid}) has the folder ${folder} open; use that one, or stop it first.`,
      );
      await record.close();
      await (await openRecord(folder)).close();
    }));

  it('says so when the folder cannot be made', () =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'file'), '');
      await expect(openRecord(join(folder, 'file'))).rejects.toThrow(
        /cannot be made; choose another/,
      );
    }));
});

describe('backup and restore', () => {
  it('copy the whole record while it is written to, and put it back', () =>
    inFolder(async (folder) => {
      const record = await openRecord(join(folder, 'shop'));
      const { day } = await oneDay(record);
      const { recording } = await record.recordings.import({
        dayId: day.id,
        fileName: 'pull.csv',
        bytes: Buffer.from('speed,torque\n'.repeat(1000)),
        kind: 'time series',
        rows: 1000,
        shape: '',
        pulls: [{ leadDeg: 28 }],
      });
      const copy = join(folder, 'copy.sqlite');
      const shares: number[] = [];
      await Promise.all([
        record.backup(copy, (share) => shares.push(share)),
        record.pulls.create({ dayId: day.id, leadDeg: 30 }),
        record.pulls.create({ dayId: day.id, leadDeg: 32 }),
      ]);
      expect(shares.at(-1)).toBe(1);
      await expect(record.backup(copy)).rejects.toThrow(/a backup is never overwritten/);
      await record.engines.remove((await record.engines.list())[0]!.id);
      const { restoreRecord } = await import('./backup.ts');
      expect(() => restoreRecord(join(folder, 'shop'), copy, new Date())).toThrow(/stop it first/);
      await record.close();
      const aside = restoreRecord(join(folder, 'shop'), copy, new Date('2026-05-17T10:00:00Z'));
      expect(aside).toBe(join(folder, 'shop', 'replaced-2026-05-17T10-00-00-000Z'));
      const restored = await openRecord(join(folder, 'shop'));
      expect((await restored.pulls.list())[0]).toMatchObject({ leadDeg: 28 });
      expect(await restored.recordings.bytes(recording.sha256)).toHaveLength(13_000);
      await restored.close();
      const replaced = await openRecord(aside!);
      expect(await replaced.engines.list()).toEqual([]);
      await replaced.close();
    }));

  it('never replace a record by something that is not one', () =>
    inFolder(async (folder) => {
      const { restoreRecord, backupRecord } = await import('./backup.ts');
      const shop = join(folder, 'shop');
      const record = await openRecord(shop);
      await oneDay(record);
      await record.close();
      const bad = join(folder, 'bad.sqlite');
      copyFileSync(databaseFile(shop), bad);
      writeFileSync(bad, readFileSync(bad).subarray(0, 9000));
      expect(() => restoreRecord(shop, bad, new Date())).toThrow(/damaged/);
      writeFileSync(bad, '');
      expect(() => restoreRecord(shop, bad, new Date())).toThrow(/is empty/);
      expect(() => restoreRecord(shop, join(folder, 'none'), new Date())).toThrow(/no file/);
      await expect(backupRecord(join(folder, 'none'), bad)).rejects.toThrow(/no record in/);
      const again = await openRecord(shop);
      expect(await again.engines.list()).toHaveLength(1);
      await again.close();
    }));
});

function damagedAt(whole: Buffer, from: number): Buffer {
  const copy = Buffer.from(whole);
  for (let at = from; at < from + 8192 && at < copy.length; at += 1) copy[at] = 0xa5;
  return copy;
}
