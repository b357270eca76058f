/**
 * Photos and files of builds: their bytes stored once under their SHA-256, read back and checked against it, never
 * removed; and what is said of them on the build they were put to.
 */
import { sectionOf } from '../build/sections/index.ts';
import { InputError } from '../errors.ts';
import { fromRow, type Row } from './codec.ts';
import { type Draft, inOneChange } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import { sha256Of } from './pack.ts';
import { piecesOf, writePieces } from './pieces.ts';
import type { PullbookRecord, SpooledFile } from './repository.ts';
import { makeShelf } from './shelf.ts';
import type { Connections, Store } from './store.ts';
import type { BuildFile, Id, IsoTime, StoredFile } from './types.ts';

const MOST_FILES = 1000;

export function makeFiles(at: Connections): PullbookRecord['files'] {
  async function* pieces(sha256: string): AsyncGenerator<Uint8Array> {
    const file = await fileIn(at.reading, sha256);
    if (file === null) throw new NotInRecordError('file', sha256.slice(0, 64));
    yield* piecesOf(at, 'file_piece', file);
  }
  return { find: (sha256) => fileIn(at.reading, sha256), pieces };
}

export function makeBuildFiles(at: Connections): PullbookRecord['buildFiles'] {
  const { list, get, update, remove } = makeShelf<'buildFile', never, { buildId: Id }>(
    at,
    'buildFile',
    { defaults: {} },
  );
  return {
    list,
    get,
    remove,
    async update(id, patch, change) {
      if (patch.section != null) refuseUnknownSection(patch.section);
      return update(id, patch, change);
    },
    async put({ buildId, bytes, mediaType, fileName, section = null, caption = '' }, about = {}) {
      if (section !== null) refuseUnknownSection(section);
      let name = '';
      const { id, isNew } = await inOneChange(
        at,
        about,
        () => `put ${fileName} to ${name}`,
        async (draft) => {
          ({ name } = await draft.get('build', buildId));
          const standing = await buildFilesIn(draft.trx, buildId);
          const sha256 = await storeFile(at, draft, { fileName, bytes, mediaType });
          const known = standing.find((one) => one.sha256 === sha256 && one.section === section);
          if (known !== undefined) return { id: known.id, isNew: false };
          if (standing.length >= MOST_FILES)
            throw new InputError('This build has 1000 files; take some off it first.');
          const own = at.newId('file');
          await draft.insert('buildFile', own, {
            id: own,
            buildId,
            sha256,
            fileName,
            section,
            caption,
            who: about.who ?? '',
            putAt: at.now().toISOString(),
          } satisfies BuildFile);
          return { id: own, isNew: true };
        },
      );
      return { file: await get(id), isNew };
    },
  };
}

function refuseUnknownSection(section: string): void {
  if (sectionOf(section) !== undefined) return;
  throw new InputError('The build sheet has no such section.', {
    column: 'section',
    found: section.slice(0, 40),
    expected: 'the name of a section, such as "block"',
  });
}

/** In the order in which they were put there. */
export async function buildFilesIn(store: Store, buildId: Id): Promise<BuildFile[]> {
  const rows = await store
    .selectFrom('build_file')
    .selectAll()
    .where('build_id', '=', buildId)
    .orderBy('put_at')
    .orderBy('id')
    .execute();
  return rows.map((row) => fromRow('buildFile', row));
}

/** Stores the bytes where they are not in the record yet. @returns their SHA-256 */
export async function storeFile(
  at: Connections,
  draft: Draft,
  from: {
    readonly fileName: string;
    readonly bytes: Uint8Array | SpooledFile;
    readonly mediaType: string;
    readonly storedAt?: IsoTime;
  },
): Promise<string> {
  const { bytes } = from;
  const sha256 = bytes instanceof Uint8Array ? sha256Of(bytes) : bytes.sha256;
  if ((await fileIn(draft.trx, sha256)) !== null) return sha256;
  await draft.trx
    .insertInto('file')
    .values({
      sha256,
      file_name: from.fileName,
      size_bytes: bytes instanceof Uint8Array ? bytes.length : bytes.sizeBytes,
      stored_bytes: 0,
      media_type: from.mediaType,
      stored_at: from.storedAt ?? at.now().toISOString(),
    } satisfies Row)
    .execute();
  const storedBytes = await writePieces(draft, 'file_piece', sha256, from.fileName, bytes);
  await draft.trx
    .updateTable('file')
    .set({ stored_bytes: storedBytes })
    .where('sha256', '=', sha256)
    .execute();
  return sha256;
}

export async function fileIn(store: Store, sha256: string): Promise<StoredFile | null> {
  const row = await store
    .selectFrom('file')
    .selectAll()
    .where('sha256', '=', sha256)
    .executeTakeFirst();
  if (row === undefined) return null;
  return {
    sha256: row.sha256 as string,
    fileName: row.file_name as string,
    sizeBytes: row.size_bytes as number,
    storedBytes: row.stored_bytes as number,
    mediaType: row.media_type as string,
    storedAt: row.stored_at as string,
  };
}
