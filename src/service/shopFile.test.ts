import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { PullbookError } from '../errors.ts';
import { type Asked, withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';
import { withShopFile } from './work/shopFile.ts';

const readShopFile = (bytes: Uint8Array, name: string) =>
  withShopFile(bytes, name, async ({ portion }) => portion);

async function exported(asked: Asked, query = ''): Promise<Uint8Array> {
  const answer = await asked.ask('GET', `/api/v1/export${query}`);
  expect(answer.status).toBe(200);
  return new Uint8Array(await answer.arrayBuffer());
}

async function filled(asked: Asked) {
  const { day, engine } = await aDay(asked);
  await post(asked, day.id, 'pull-01.csv', sweep());
  await asked.record.engines.create({ name: 'Other' });
  return engine;
}

describe('a shop as an archive', () => {
  it('goes to another shop with its curves, is looked at first, and is taken back as one change', () =>
    withApp((here) =>
      withApp(async (there) => {
        const engine = await filled(here);
        const zip = await exported(here);
        const look = await there.json('POST', '/take/look?name=shop.zip', zip);
        expect(look).toMatchObject({
          conflicts: [],
          sentence: expect.stringMatching(/^2 engines, 1 build, 1 test day, 1 pull, 1 cell/),
        });
        await there.json('POST', '/take?name=shop.zip', zip, 201);
        const [days] = [await there.record.daysOfEngine(engine.id)];
        const curve = async (asked: Asked) =>
          (await asked.json<{ curve: object }[]>('GET', `/days/${days[0]!.id}/curves`))[0]!.curve;
        expect(await curve(there)).toEqual(await curve(here));
        expect(await there.json('POST', '/take/look?name=shop.zip', zip)).toMatchObject({
          fresh: {},
          sentence: 'Everything in it is in this shop already.',
        });
        await there.record.engines.update(engine.id, { owner: 'Somebody else' });
        const conflict = await there.json('POST', '/take/look?name=shop.zip', zip);
        expect(conflict.sentence).toMatch(/^Nothing can be taken in: The engine Eight .* owner/);
        await there.json('POST', '/take?name=shop.zip', zip, 409);
        await there.json('POST', '/undo');
        await there.json('POST', '/undo');
        expect(await there.record.engines.list()).toEqual([]);
        const one = await exported(here, `?engine=${engine.id}`);
        expect((await readShopFile(one, 'one.zip')).rows.engine).toHaveLength(1);
      }),
    ));

  it('is refused by its place where a row is not what a request could bring', () =>
    withApp(async (asked) => {
      await filled(asked);
      const entries = unzipSync(await exported(asked));
      const shop = JSON.parse(new TextDecoder().decode(entries['shop.json']!));
      const changed = (change: (rows: Record<string, Record<string, unknown>[]>) => void) => {
        const copy = structuredClone(shop);
        change(copy.portion.rows);
        return zipSync({ ...entries, 'shop.json': strToU8(JSON.stringify(copy)) }, { level: 0 });
      };
      // Packed anew by another program it is still read.
      const same = changed(() => {});
      expect((await readShopFile(same, 'x.zip')).rows.pull).toHaveLength(1);
      // So is one of before a kind of row was known.
      const older = changed((rows) => {
        delete rows.serviceEvent;
        delete rows.engine![0]!.refreshAfterPulls;
      });
      expect((await readShopFile(older, 'x.zip')).rows).toMatchObject({
        serviceEvent: [],
        engine: expect.arrayContaining([expect.objectContaining({ refreshAfterPulls: null })]),
      });
      const refused = (change: Parameters<typeof changed>[0]) =>
        expect(readShopFile(changed(change), 'x.zip')).rejects;
      await refused((rows) => (rows.pull![0]!.leadDeg = 9999)).toThrow(/pull 1, leadDeg/);
      await refused((rows) => (rows.engine![0]!.id = '../../x')).toThrow(/engine 1, id/);
      await refused((rows) => (rows.engine![0]!.isAdmin = true)).toThrow(/engine 1/);
      await refused((rows) => (rows.day![0]!.date = 'yesterday')).toThrow(/day 1, date/);
      await refused((rows) => (rows.secrets = [])).toThrow(/portion, rows/);
      const { [Object.keys(entries).find((name) => name.startsWith('recordings/'))!]: _, ...less } =
        entries;
      await expect(readShopFile(zipSync(less), 'x.zip')).rejects.toThrow(/not in it/);
      // A reference to what is nowhere leaves nothing behind.
      const lost = changed((rows) => (rows.pull![0]!.dayId = 'day_nowhere'));
      await asked.record.engines.remove(shop.portion.rows.engine[0].id);
      const before = await asked.record.events.list();
      expect((await asked.ask('POST', '/api/v1/take?name=x.zip', lost)).status).toBeGreaterThan(
        399,
      );
      expect(await asked.record.events.list()).toEqual(before);
    }));

  it('is read or refused with a sentence, whatever its bytes and values are (300 at random)', () =>
    withApp(async (asked) => {
      await filled(asked);
      const zip = await exported(asked);
      const entries = unzipSync(zip);
      const text = new TextDecoder().decode(entries['shop.json']!);
      const holds = async (bytes: Uint8Array) => {
        try {
          await readShopFile(bytes, 'x.zip');
        } catch (error) {
          expect(error).toBeInstanceOf(PullbookError);
        }
      };
      await fc.assert(
        fc.asyncProperty(
          fc.nat(zip.length - 1),
          fc.integer({ min: 1, max: 255 }),
          async (at, flip) => {
            const changed = zip.slice();
            changed[at]! ^= flip;
            // One changed byte is always noticed.
            await expect(readShopFile(changed, 'x.zip')).rejects.toThrow(PullbookError);
          },
        ),
        { numRuns: 100, seed: 3 },
      );
      const values = [...text.matchAll(/: ([^[{\s][^\n]*?),?\n/g)];
      await fc.assert(
        fc.asyncProperty(fc.nat(values.length - 1), fc.jsonValue(), async (at, value) => {
          const { index, 0: whole, 1: old } = values[at]!;
          const put = whole.replace(old!, () => JSON.stringify(value));
          const json = text.slice(0, index) + put + text.slice(index + whole.length);
          await holds(zipSync({ ...entries, 'shop.json': strToU8(json) }, { level: 0 }));
        }),
        { numRuns: 200, seed: 4 },
      );
    }));
});
