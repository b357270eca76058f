import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { PullbookError } from '../../errors.ts';
import { type ArchiveEntry, packArchive, unpackArchive } from './archive.ts';

/** Of the seal at the end of an archive of ours. */
const COMMENT_LENGTH = 'SHA-256 of all bytes before this comment: '.length + 64;

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

/** One stored entry that stands in the directory many times, and says there that it unpacks to nothing. */
function manyOf(block: Buffer, count: number): Uint8Array {
  const own = Buffer.alloc(31, 'a');
  own.fill(0, 0, 30);
  own.writeUInt32LE(0x04034b50, 0);
  own.writeUInt32LE(block.length, 18);
  own.writeUInt16LE(1, 26);
  const directory = Buffer.concat(
    Array.from({ length: count }, (_, at) => {
      const name = `a${at}`;
      const entry = Buffer.alloc(46 + name.length);
      entry.writeUInt32LE(0x02014b50, 0);
      entry.writeUInt32LE(block.length, 20);
      entry.writeUInt16LE(name.length, 28);
      entry.write(name, 46);
      return entry;
    }),
  );
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(count, 8);
  end.writeUInt16LE(count, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(own.length + block.length, 16);
  return Buffer.concat([own, block, directory, end]);
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

  it('is not called whole where another name stands before an entry, or bytes between two', async () => {
    const make = (name: string) => packed([{ path: name, bytes: text('a') }]);
    const sealed = (zip: Buffer) => {
      const seal = createHash('sha256').update(zip).digest('hex');
      return Buffer.concat([zip, text(`SHA-256 of all bytes before this comment: ${seal}`)]);
    };
    const own = Buffer.from(await make('a.txt'));
    const open = own.subarray(0, -COMMENT_LENGTH);
    expect(sealed(open)).toEqual(own);
    const renamed = Buffer.from(open);
    renamed.write('b.txt', renamed.indexOf('a.txt'));
    expect(unpackArchive(sealed(renamed), 'x.zip').isWhole).toBe(false);
    const end = open.length - 22;
    const directory = open.readUInt32LE(end + 16);
    const longer = Buffer.concat([
      open.subarray(0, directory),
      text('hidden'),
      open.subarray(directory),
    ]);
    longer.writeUInt32LE(directory + 6, end + 6 + 16);
    expect(unpackArchive(sealed(longer), 'x.zip').entries.size).toBe(1);
    expect(unpackArchive(sealed(longer), 'x.zip').isWhole).toBe(false);
  });

  it('refuses before it unpacks where many entries would copy the same bytes', () => {
    expect(() => unpackArchive(manyOf(Buffer.alloc(1_000_000), 1100), 'x.zip')).toThrow(
      /there is too much in it/,
    );
  });

  it('refuses what leaves it and what is none, in a sentence', () => {
    for (const [name, why] of [
      ['../a.txt', /leaves the archive/],
      ['/a.txt', /leaves the archive/],
      ['C:/a.txt', /leaves the archive/],
      ['a\\..\\b.txt', /leaves the archive/],
      ['A.txt', /"A\.txt" stands in it twice/],
      ['txt\u202ecsv', /is not the name of a file/],
      ['a\u0000', /is not the name of a file/],
    ] as const)
      expect(
        () => unpackArchive(zipSync({ 'a.txt': text('a'), [name]: text('a') }), 'x.zip'),
        name,
      ).toThrow(why);
    const hidden = Buffer.from(zipSync({ aproto__a: text('a') })).toString('latin1');
    const named = Buffer.from(hidden.replaceAll('aproto__a', '__proto__'), 'latin1');
    expect(() => unpackArchive(named, 'x.zip')).toThrow(/is not the name of a file/);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(() => unpackArchive(bytes, 'x.zip')).toThrow(PullbookError);
      }),
      { numRuns: 300, seed: 4 },
    );
  });
});
