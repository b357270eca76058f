import { join } from 'node:path';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openDatabase } from '../record/engine.ts';
import type { PullbookRecord } from '../record/index.ts';
import { withRecord } from '../record/testing.ts';
import { fillEveryTable } from './wholeShop.fixture.ts';
import { exportShop, lookAtShopFile, takeShopFile, withShopFile } from './work/shopFile.ts';

/** What does not travel, and why. A new table stands here by decision, or travels. */
const STAYS: Readonly<Record<string, string>> = {
  migration: 'says how this database came about',
  event: 'the list of changes is of the machine on which they were made',
  event_row: 'as its events',
  derived: 'results that are computed again',
  pull_peak: 'results that are computed again',
  search_row: 'the index is made from the rows',
  search_state: 'the index is made from the rows',
  search_words: 'the index is made from the rows',
  shop_key: 'the secret that a shop signs with never leaves in an archive; a backup has it',
};

const exported = async (record: PullbookRecord): Promise<Uint8Array> => {
  const pieces: Uint8Array[] = [];
  const about = { madeAt: '2026-07-02T10:00:00.000Z', pullbook: '0.0.0' };
  await exportShop(record, 'all', about, async (piece) => void pieces.push(piece.slice()));
  return new Uint8Array(Buffer.concat(pieces));
};
const take = (record: PullbookRecord, zip: Uint8Array) =>
  withShopFile(zip, 'shop.zip', (given) => takeShopFile(record, given, {}));
const portionOf = (zip: Uint8Array) =>
  withShopFile(zip, 'shop.zip', async ({ portion, archive }) => ({
    portion,
    bytes: new Map(archive.entries),
  })).then(({ portion, bytes }) => {
    // Where it lies in the archive follows from how its rows are written.
    const sizes = [...bytes].filter(([path]) => path !== 'shop.json');
    return { portion, sizes: sizes.map(([path, { sizeBytes }]) => [path, sizeBytes]) };
  });

type Rows = Record<string, readonly unknown[]>;
/** Every table of the database but those that stay, each row with its texts of JSON read. */
function tablesOf(folder: string): Rows {
  const db = openDatabase(join(folder, 'pullbook.sqlite'), { readonly: true });
  try {
    const names = db
      .prepare(`SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`)
      .pluck()
      .all() as string[];
    const ours = names.filter((name) => !name.startsWith('search_words_') && !(name in STAYS));
    return Object.fromEntries(
      ours.map((name) => [
        name,
        db.prepare(`SELECT * FROM "${name}" ORDER BY 1, 2`).all().map(read),
      ]),
    );
  } finally {
    db.close();
  }
}
const read = (row: unknown) =>
  Object.fromEntries(
    Object.entries(row as object).map(([column, value]) => [
      column,
      typeof value === 'string' && /^[[{]/.test(value) ? JSON.parse(value) : value,
    ]),
  );

describe('a whole shop on another machine', () => {
  it('stands there as it stood here, every row of every table', () =>
    withRecord((here, from) =>
      withRecord(async (there, to) => {
        await fillEveryTable(here);
        const zip = await exported(here);
        await take(there, zip);
        const rows = tablesOf(from);
        // A table that the fixture leaves empty would prove nothing.
        for (const [table, all] of Object.entries(rows)) expect(all, table).not.toEqual([]);
        expect(tablesOf(to)).toEqual(rows);
        expect(await portionOf(await exported(there))).toEqual(await portionOf(zip));
        await there.events.undo();
        const left = Object.entries(tablesOf(to)).filter(([, all]) => all.length > 0);
        // Bytes are never destroyed, not even by undo.
        expect(left.map(([table]) => table).sort()).toEqual(
          ['file', 'file_piece', 'recording', 'recording_piece', 'shop'].sort(),
        );
        expect((await there.shop.get()).name).toBe('My shop');
      }),
    ));

  it('never writes over the settings of another shop, and says what it took, kept and renamed', () =>
    withRecord((here) =>
      withRecord(async (there) => {
        await fillEveryTable(here);
        const zip = await exported(here);
        const own = await there.shop.get();
        const stands = own.uses.map((use) => ({ ...use }));
        await there.shop.update({
          standard: 'ISO 1585',
          uses: [...stands, { ...stands[0]!, name: 'hill climb', holdbackDeg: 4 }],
        });
        const before = await there.shop.get();
        const look = await withShopFile(zip, 'shop.zip', (given) => lookAtShopFile(there, given));
        expect(look.settings).toEqual({
          taken: ['the name', 'the address', 'the window “leakDown”'],
          kept: ['the air standard'],
          renamed: ['the use “hill climb” comes in as “hill climb (Lathe and Lantern)”'],
        });
        expect(look.sentence).toMatch(/As they are here stay the air standard\.$/);
        await take(there, zip);
        const after = await there.shop.get();
        expect(after).toMatchObject({
          name: 'Lathe and Lantern',
          address: '4 Mill Lane',
          standard: 'ISO 1585',
        });
        expect(after.uses.slice(0, before.uses.length)).toEqual(before.uses);
        expect(after.uses.at(-1)).toMatchObject({
          name: 'hill climb (Lathe and Lantern)',
          holdbackDeg: 1,
        });
        // Again it brings nothing.
        const again = await withShopFile(zip, 'shop.zip', (given) => lookAtShopFile(there, given));
        expect(again).toMatchObject({ fresh: {}, settings: { taken: [], renamed: [] } });
        await take(there, zip);
        expect(await there.shop.get()).toEqual(after);
        await there.events.undo();
        expect(await there.shop.get()).toEqual(before);
      }),
    ));

  it('is refused where it holds more than is taken, and leaves nothing behind where it breaks off', () =>
    withRecord((here) =>
      withRecord(async (there, to) => {
        await fillEveryTable(here);
        const zip = await exported(here);
        const small = (mostBytes: number, mostEntries: number) =>
          withShopFile(zip, 'shop.zip', async () => {}, { mostBytes, mostEntries });
        await expect(small(5000, 100)).rejects.toThrow(/too much in it/);
        await expect(small(1e6, 3)).rejects.toThrow(/too much in it/);
        await small(1e6, 100);
        // The last of the files is not what its name says.
        const parts = new Map<string, Uint8Array>();
        await withShopFile(zip, 'shop.zip', async ({ archive }) => {
          for (const path of archive.entries.keys())
            for await (const piece of archive.read(path)) parts.set(path, piece.slice());
        });
        const last = [...parts.keys()].at(-1)!;
        parts.set(
          last,
          parts.get(last)!.map((byte) => byte ^ 1),
        );
        const empty = tablesOf(to);
        await expect(take(there, zipSync(Object.fromEntries(parts)))).rejects.toThrow(/changed/);
        expect(tablesOf(to)).toEqual(empty);
        expect(await there.events.list()).toEqual([]);
      }),
    ));
});
