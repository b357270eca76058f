import fc from 'fast-check';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { PullbookError } from '../../errors.ts';
import { type ArchiveEntry, packArchive, unpackArchive } from './archive.ts';

const text = (words: string) => new TextEncoder().encode(words);

async function packed(entries: readonly ArchiveEntry[]): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  const size = await packArchive(entries, async (piece) => {
    pieces.push(piece.slice());
  });
  const whole = new Uint8Array(Buffer.concat(pieces));
  expect(whole.length).toBe(size);
  return whole;
}

async function* inPieces(...parts: string[]) {
  for (const part of parts) yield text(part);
}

describe('an archive', () => {
  it('gives back what went in, whole or in pieces, and is the same bytes every time', async () => {
    const make = () =>
      packed([
        { path: 'a/readme.txt', bytes: text('read me\n') },
        { path: 'a/long.csv', bytes: inPieces('1,2\n', '3,4\n') },
        { path: 'empty', bytes: new Uint8Array(0), isPacked: true },
      ]);
    const bytes = await make();
    const { entries, isWhole } = unpackArchive(bytes, 'x.zip');
    expect(isWhole).toBe(true);
    expect([...entries].map(([path, one]) => [path, Buffer.from(one).toString()])).toEqual([
      ['a/readme.txt', 'read me\n'],
      ['a/long.csv', '1,2\n3,4\n'],
      ['empty', ''],
    ]);
    expect(await make()).toEqual(bytes);
  });

  it('notices every single byte that is changed', async () => {
    const bytes = await packed([
      { path: 'manifest.json', bytes: text('{"format": "x"}') },
      { path: 'pull.csv', bytes: text('speed,torque\n'.repeat(20)) },
    ]);
    for (let at = 0; at < bytes.length; at++) {
      const changed = bytes.slice();
      changed[at]! ^= 0x11;
      const isNoticed = (() => {
        try {
          return unpackArchive(changed, 'x.zip').isWhole !== true;
        } catch (error) {
          return error instanceof PullbookError;
        }
      })();
      expect(isNoticed, `byte ${at} of ${bytes.length}`).toBe(true);
    }
  });

  it('is read, but not called whole, where another program packed it', () => {
    const { entries, isWhole } = unpackArchive(zipSync({ 'a.txt': text('a') }), 'x.zip');
    expect(isWhole).toBeNull();
    expect(entries.size).toBe(1);
  });

  it('refuses what leaves it and what is none, in a sentence', () => {
    expect(() => unpackArchive(zipSync({ '../a.txt': text('a') }), 'x.zip')).toThrow(
      /leaves the archive/,
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(() => unpackArchive(bytes, 'x.zip')).toThrow(PullbookError);
      }),
      { numRuns: 300, seed: 4 },
    );
  });
});
