/**
 * The sheet of each build: a head and a row a section, so that a save's event holds what changed, and a change of one
 * section can be taken back whatever was written into another since.
 */
import {
  type Attachment,
  inOrder,
  newSheetFrom,
  problemSentence,
  readSheet,
  type SectionData,
  type Sheet,
} from '../build/index.ts';
import { FormatError, InputError } from '../errors.ts';
import { fromRow } from './codec.ts';
import { type Draft, type Fields, inOneChange } from './draft.ts';
import { NotInRecordError, StaleSheetError } from './errors.ts';
import { buildFilesIn, fileIn } from './files.ts';
import { partsOfSheets, serialsOfSheets } from './parts.ts';
import type { Change, KeptSheet, PullbookRecord } from './repository.ts';
import type { Connections, Store } from './store.ts';
import type { Build, BuildFile, Id } from './types.ts';

const sheetId = (buildId: Id): Id => `${buildId}/sheet`;
const sectionId = (buildId: Id, section: string): Id => `${sheetId(buildId)}/${section}`;

export function makeSheets(at: Connections): PullbookRecord['sheets'] {
  /** One change of one sheet, and its version after it. */
  const change = async (
    buildId: Id,
    about: Change,
    work: (draft: Draft, build: Build, standing: KeptSheet) => Promise<Sheet>,
  ): Promise<KeptSheet> => {
    let made: { draft: Draft; build: Build; standing: KeptSheet; sheet: Sheet } | undefined;
    await inOneChange(
      at,
      about,
      (draft) => sentenceOf(draft, made!.build),
      async (draft) => {
        const build = await draft.get('build', buildId);
        const standing = await keptIn(draft.trx, buildId);
        const sheet = await work(draft, build, standing);
        await write(draft, buildId, standing.sheet, sheet);
        made = { draft, build, standing, sheet };
      },
    );
    const { draft, standing, sheet } = made!;
    return { buildId, version: draft.eventId ?? standing.version, sheet };
  };

  return {
    async get(buildId) {
      return at.reading.transaction().execute(async (trx) => {
        await buildIn(trx, buildId);
        return keptIn(trx, buildId);
      });
    },
    async save(buildId, given, from, about = {}) {
      const sheet = validated(given);
      return change(buildId, about, async (draft, build, standing) => {
        refuseStale(standing, from, build);
        await refuseUnknownFiles(draft, sheet.attachments ?? []);
        return sheet;
      });
    },
    async startBuild(fromBuildId, { name, notes = '', changed = [], id: wanted }, about = {}) {
      const id = wanted ?? at.newId('build');
      await inOneChange(
        at,
        about,
        () => `new build ${name}, begun as a copy`,
        async (draft) => {
          const last = await draft.get('build', fromBuildId);
          await draft.insert('build', id, { ...last, id, name, notes });
          const { sheet } = await keptIn(draft.trx, fromBuildId);
          if (sheet === null) return;
          const copy = newSheetFrom(sheet, changed, name);
          await write(draft, id, null, copy);
          for (const file of await buildFilesIn(draft.trx, fromBuildId))
            if (copy.attachments?.some((one) => isOf(file, one)) === true) {
              const own = at.newId('file');
              await draft.insert('buildFile', own, { ...file, id: own, buildId: id });
            }
        },
      );
      const row = await at.reading
        .selectFrom('build')
        .selectAll()
        .where('id', '=', id)
        .executeTakeFirstOrThrow();
      return fromRow('build', row);
    },
    withSerial: (serial) => partsOfSheets(at.reading, serial, (id) => keptIn(at.reading, id)),
    serials: () => serialsOfSheets(at.reading),
  };
}

/** @throws FormatError naming the first field that is wrong */
function validated(given: unknown): Sheet {
  const read = readSheet(given);
  if ('sheet' in read) return inOrder(read.sheet);
  const [first] = read.problems;
  throw new FormatError(`${problemSentence(first!)}.`, {
    column: first!.path,
    found: first!.found,
    expected: first!.expected,
  });
}

function refuseStale({ version }: KeptSheet, from: number, build: Build): void {
  if (version === from) return;
  throw new StaleSheetError(
    `The sheet of ${build.name} was changed after you opened it; load it again and put your changes to it.`,
    { found: `version ${from}`, expected: `version ${version}` },
  );
}

async function refuseUnknownFiles(draft: Draft, files: readonly Attachment[]): Promise<void> {
  for (const [index, { sha256, fileName }] of files.entries()) {
    if ((await fileIn(draft.trx, sha256)) !== null) continue;
    throw new InputError(`The file ${fileName} of this sheet is not in the record; put it there.`, {
      column: `attachments[${index}].sha256`,
      found: sha256.slice(0, 64),
      expected: 'the SHA-256 of a file that was put to a sheet',
    });
  }
}

async function buildIn(store: Store, buildId: Id): Promise<void> {
  const row = await store
    .selectFrom('build')
    .select('id')
    .where('id', '=', buildId)
    .executeTakeFirst();
  if (row === undefined) throw new NotInRecordError('build', buildId);
}

/** The sheet as it stands. Its version is the event that touched it last, undo included, so that it never comes again. */
async function keptIn(store: Store, buildId: Id): Promise<KeptSheet> {
  const id = sheetId(buildId);
  const { version } = await store
    .selectFrom('event_row')
    .select(({ fn }) => fn.max<number | null>('event_id').as('version'))
    .where((where) =>
      where.or([
        where('entity_id', '=', id),
        // Its sections: all ids that go on behind a stroke ('0' follows '/').
        where.and([where('entity_id', '>', `${id}/`), where('entity_id', '<', `${id}0`)]),
      ]),
    )
    .executeTakeFirstOrThrow();
  const row = await store.selectFrom('sheet').selectAll().where('id', '=', id).executeTakeFirst();
  if (row === undefined) return { buildId, version: version ?? 0, sheet: null };
  const head = fromRow('sheet', row);
  const rows = await store
    .selectFrom('sheet_section')
    .selectAll()
    .where('sheet_id', '=', id)
    .execute();
  const sections = rows.map((one) => fromRow('sheetSection', one));
  const attachments = (await buildFilesIn(store, buildId)).map(attachmentOf);
  const sheet = inOrder({
    format: 'sheet/1',
    ...(head.name === null ? {} : { name: head.name }),
    layout: head.layout,
    ...(head.use === null ? {} : { use: head.use }),
    sections: Object.fromEntries(sections.map(({ section, data }) => [section, data])),
    ...(attachments.length === 0 ? {} : { attachments }),
  });
  return { buildId, version: version ?? 0, sheet };
}

const attachmentOf = ({ sha256, fileName, section, caption }: BuildFile): Attachment => ({
  sha256,
  fileName,
  ...(section === null ? {} : { section }),
  ...(caption === '' ? {} : { note: caption }),
});
const isOf = (file: BuildFile, one: Attachment) =>
  file.sha256 === one.sha256 && file.section === (one.section ?? null);

/** Only what differs is written and noted. */
async function write(draft: Draft, buildId: Id, before: Sheet | null, given: Sheet): Promise<void> {
  const after = inOrder(given);
  const id = sheetId(buildId);
  const head: Fields = {
    name: after.name ?? null,
    layout: after.layout,
    use: after.use ?? null,
    attachments: [],
  };
  if (before === null) await draft.insert('sheet', id, { id, buildId, ...head });
  else await draft.update('sheet', id, head);
  const old: Readonly<Record<string, SectionData>> = before?.sections ?? {};
  for (const section of Object.keys(old))
    if (after.sections[section] === undefined)
      await draft.remove('sheetSection', sectionId(buildId, section));
  for (const [section, data] of Object.entries(after.sections)) {
    const own = sectionId(buildId, section);
    if (old[section] === undefined)
      await draft.insert('sheetSection', own, { id: own, sheetId: id, section, data });
    else await draft.update('sheetSection', own, { data });
  }
}

function sentenceOf(draft: Draft, build: Build): string {
  const made = draft.touched.some(({ entity, before }) => entity === 'sheet' && before === null);
  if (made) return `new sheet of ${build.name}`;
  const what = draft.touched.map(({ entity, id, after }) =>
    entity === 'sheet' ? Object.keys(after ?? {}).join(', ') : id.slice(id.lastIndexOf('/') + 1),
  );
  return `sheet of ${build.name}: ${what.join(', ')}`;
}
