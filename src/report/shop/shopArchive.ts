/** The archive of a whole shop, or of some of its engines. */
import { FormatError } from '../../errors.ts';
import type { Portion } from '../../record/index.ts';
import { type ArchiveEntry, packArchive } from '../handover/archive.ts';
import {
  type ArchiveLimits,
  type OpenArchive,
  openArchive,
  SHOP_LIMITS,
} from '../handover/archiveFile.ts';

export const SHOP_FORMAT = 'shop/1';

export interface ShopArchive {
  readonly format: typeof SHOP_FORMAT;
  readonly shop: string;
  readonly madeAt: string;
  /** Version of the program that made it. */
  readonly pullbook: string;
  readonly portion: Portion;
}

const README = `This archive is a shop of Pullbook, or some engines of it.

shop.json          every row, by kind: engines, builds, test days, pulls and what stands under them.
                   Numbers are in SI with their unit in the name: torqueNm [N.m], powerW [W], speedRpm [1/min],
                   leadDeg [degrees of crank angle], temperatureK [K], pressureAbsPa [Pa], volume M3 [m^3].
recordings/SHA256  run files byte for byte as they came; their names stand in shop.json
files/SHA256       photos and files of builds, byte for byte

"pullbook take FILE.zip", or the settings of the workbook, brings it into another shop.
`;

/** Packs a shop piece by piece. @returns its size [bytes] */
export function packShop(
  archive: Omit<ShopArchive, 'format'>,
  bytes: (kind: 'recordings' | 'files', sha256: string) => AsyncIterable<Uint8Array>,
  write: (piece: Uint8Array) => Promise<void>,
): Promise<number> {
  const encoder = new TextEncoder();
  const { recordings, files } = archive.portion;
  const entries: ArchiveEntry[] = [
    { path: 'README.txt', bytes: encoder.encode(README) },
    {
      path: 'shop.json',
      bytes: encoder.encode(`${JSON.stringify({ format: SHOP_FORMAT, ...archive }, null, 1)}\n`),
    },
    ...recordings.map(({ sha256 }) => ({
      path: `recordings/${sha256}`,
      bytes: bytes('recordings', sha256),
    })),
    ...files.map(({ sha256 }) => ({ path: `files/${sha256}`, bytes: bytes('files', sha256) })),
  ];
  return packArchive(entries, write);
}

/** More rows than this no shop has; they are read into memory, the bytes of recordings and files are not. */
const MOST_ROWS_BYTES = 2 ** 28;

/**
 * What stands in an archive, unchecked but for its form. Whoever opens it closes it.
 * @param given  its bytes, or the path where it lies
 * @throws FormatError  no archive, a damaged one, one changed since it was made, or not one of a shop
 */
export async function openShop(
  given: Uint8Array | string,
  file: string,
  limits: ArchiveLimits = SHOP_LIMITS,
): Promise<{ readonly json: unknown; readonly archive: OpenArchive }> {
  const expected = 'an archive that “pullbook export” made';
  const archive = await openArchive(given, file, { what: 'the archive of a shop', limits });
  try {
    if (archive.isWhole === false)
      throw new FormatError(
        `${file} was changed after it was made, or came over incomplete; nothing was taken in.`,
        { file, expected },
      );
    const rows = archive.entries.get('shop.json');
    if (rows === undefined)
      throw new FormatError(`${file} holds no shop: there is no shop.json in it.`, {
        file,
        expected,
      });
    if (rows.sizeBytes > MOST_ROWS_BYTES)
      throw new FormatError(`${file} cannot be read: its shop.json is larger than 256 MB.`, {
        file,
        expected,
      });
    return { json: await jsonOf(archive, file, expected), archive };
  } catch (error) {
    await archive.close();
    throw error;
  }
}

async function jsonOf(archive: OpenArchive, file: string, expected: string): Promise<unknown> {
  const pieces: Uint8Array[] = [];
  for await (const piece of archive.read('shop.json')) pieces.push(piece.slice());
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(pieces)));
  } catch (error) {
    throw new FormatError(
      `${file} cannot be read: its shop.json is damaged.`,
      { file, found: error instanceof Error ? error.message : String(error), expected },
      error,
    );
  }
}
