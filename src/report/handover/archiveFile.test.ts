import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../../errors.ts';
import { packArchive } from './archive.ts';
import { openArchive, SHOP_LIMITS } from './archiveFile.ts';

const GIVEN = {
  'shop.json': strToU8(JSON.stringify({ rows: Array.from({ length: 400 }, (_, n) => n * 7) })),
  'recordings/a': new Uint8Array(5000).map((_, n) => (n * 7919) % 251),
  'files/b': new Uint8Array(0),
};
const opened = (zip: Uint8Array) =>
  openArchive(zip, 'x.zip', { what: 'an archive', limits: SHOP_LIMITS });
async function allOf(zip: Uint8Array): Promise<Record<string, Uint8Array>> {
  const archive = await opened(zip);
  const all: Record<string, Uint8Array> = {};
  for (const path of archive.entries.keys()) {
    const pieces: Uint8Array[] = [];
    for await (const piece of archive.read(path)) pieces.push(piece.slice());
    all[path] = new Uint8Array(Buffer.concat(pieces));
  }
  return all;
}

describe('an archive read where it lies', () => {
  it('gives what was put in, also where another program packed it (fflate as the second reader)', async () => {
    const pieces: Uint8Array[] = [];
    const entries = Object.entries(GIVEN).map(([path, bytes]) => ({ path, bytes }));
    await packArchive(entries, async (piece) => void pieces.push(piece.slice()));
    const ours = new Uint8Array(Buffer.concat(pieces));
    expect(await allOf(ours)).toEqual(GIVEN);
    expect(unzipSync(ours)).toEqual(GIVEN);
    expect((await opened(ours)).isWhole).toBe(true);
    for (const level of [0, 9] as const) {
      const theirs = zipSync(GIVEN, { level });
      expect(await allOf(theirs)).toEqual(GIVEN);
      expect((await opened(theirs)).isWhole).toBeNull();
    }
  });

  it('is read as it was or refused with a sentence, whatever byte is changed or cut (200 at random)', async () => {
    const zip = zipSync(GIVEN);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(zip.length - 1),
        fc.integer({ min: 1, max: 255 }),
        fc.boolean(),
        async (at, flip, isCut) => {
          const changed = isCut ? zip.slice(0, at) : zip.slice();
          if (!isCut) changed[at]! ^= flip;
          const read = await allOf(changed).catch((error: unknown) => error);
          if (read instanceof Error) {
            expect(read).toBeInstanceOf(FormatError);
            return;
          }
          // A changed name is all that the structure of a zip does not notice.
          for (const [path, bytes] of Object.entries(read as typeof GIVEN))
            expect(bytes).toEqual(GIVEN[path as keyof typeof GIVEN] ?? bytes);
        },
      ),
      { numRuns: 200, seed: 26 },
    );
  });

  it('is refused where a path leaves it, or stands in it twice', async () => {
    for (const path of ['../x', '/x', 'a/../../x', 'a\\x'])
      await expect(opened(zipSync({ [path]: strToU8('x') }))).rejects.toThrow(/leaves the archive/);
    const twice = zipSync({ aa: strToU8('x'), ab: strToU8('y') });
    const renamed = twice.map((byte) => (byte === 0x62 ? 0x61 : byte));
    await expect(opened(renamed)).rejects.toThrow(/stands in it twice/);
  });
});
