/** The archive of a whole shop, or of some of its engines. */
import { FormatError } from '../../errors.ts';
import type { Portion } from '../../record/index.ts';
import { type ArchiveEntry, packArchive, unpackArchive } from '../handover/archive.ts';

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

/**
 * What stands in an archive, unchecked but for its form.
 * @throws FormatError  no archive, a damaged one, one changed since it was made, or not one of a shop
 */
export function unpackShop(
  bytes: Uint8Array,
  file: string,
): { readonly json: unknown; readonly entries: ReadonlyMap<string, Uint8Array> } {
  const expected = 'an archive that “pullbook export” made';
  const { entries, isWhole } = unpackArchive(bytes, file, 'the archive of a shop');
  if (isWhole === false)
    throw new FormatError(
      `${file} was changed after it was made, or came over incomplete; nothing was taken in.`,
      { file, expected },
    );
  const text = entries.get('shop.json');
  if (text === undefined)
    throw new FormatError(`${file} holds no shop: there is no shop.json in it.`, {
      file,
      expected,
    });
  try {
    return { json: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(text)), entries };
  } catch (error) {
    throw new FormatError(
      `${file} cannot be read: its shop.json is damaged.`,
      { file, found: error instanceof Error ? error.message : String(error), expected },
      error,
    );
  }
}
