/** A shop as an archive: out of the record, and into it after every row was checked as a request would be. */
import { parseSheet } from '../../build/sheet/read.ts';
import { FormatError } from '../../errors.ts';
import { checkCalibration } from '../../record/calibrations.ts';
import {
  type Change,
  type EntityName,
  type Id,
  NEW_BUILD,
  NEW_CALIBRATION,
  NEW_CELL,
  NEW_COMPARISON,
  NEW_DAY,
  NEW_DECISION,
  NEW_ENGINE,
  NEW_LADDER,
  NEW_PART_TEST,
  NEW_PULL,
  NEW_SERVICE_EVENT,
  NEW_SERVICE_READING,
  type Portion,
  type PortionLook,
  type PullbookRecord,
} from '../../record/index.ts';
import { checkReading } from '../../record/service.ts';
import { checkUse, checkVehicle } from '../../record/uses.ts';
import type { ArchiveLimits, OpenArchive } from '../../report/handover/archiveFile.ts';
import { listed, openShop, packShop, SHOP_FORMAT } from '../../report/index.ts';
import { measured } from '../schema/calibrations.ts';
import { isoDate, isoTime, label, list, text, z } from '../schema/common.ts';
import * as compare from '../schema/compare.ts';
import { decision } from '../schema/decisions.ts';
import * as e from '../schema/entities.ts';
import * as service from '../schema/service.ts';
import * as uses from '../schema/uses.ts';

/** Writes these engines, or all, in pieces. */
export async function exportShop(
  record: PullbookRecord,
  engineIds: readonly Id[] | 'all',
  about: { readonly madeAt: string; readonly pullbook: string },
  write: (piece: Uint8Array) => Promise<void>,
): Promise<number> {
  const portion = await record.portions.of(engineIds);
  const { name } = await record.shop.get();
  return packShop(
    { shop: name, ...about, portion },
    (kind, sha256) =>
      kind === 'recordings' ? record.recordings.pieces(sha256) : record.files.pieces(sha256),
    write,
  );
}

/** An archive that was read and found sound: what it would bring is known, nothing was written. */
export interface ShopFile {
  readonly shop: string;
  readonly madeAt: string;
  readonly portion: Portion;
  readonly archive: OpenArchive;
}

/**
 * Opens an archive, does the work and closes it. Recordings and files stay where they lie until they are asked for.
 * @param given  its bytes, or the path where it lies
 * @throws FormatError naming the kind, the row and the field that cannot be
 */
export async function withShopFile<T>(
  given: Uint8Array | string,
  file: string,
  work: (shopFile: ShopFile) => Promise<T>,
  limits?: ArchiveLimits,
): Promise<T> {
  const { json, archive } = await openShop(given, file, limits);
  try {
    return await work({ ...checkedShop(json, archive, file), archive });
  } finally {
    await archive.close();
  }
}

function checkedShop(
  json: unknown,
  { entries }: OpenArchive,
  file: string,
): Omit<ShopFile, 'archive'> {
  const archive = checked(ARCHIVE, json, file, 'shop.json');
  const { rows } = archive.portion;
  const portion = {
    ...archive.portion,
    rows: Object.fromEntries(
      Object.entries(ROWS).map(([entity, { schema, unsaid, check }]) => [
        entity,
        ((rows as Record<string, readonly unknown[] | undefined>)[entity] ?? []).map((row, at) => {
          const place = `${entity} ${at + 1}`;
          const whole = { ...unsaid, ...(row as object) };
          const fields = checked(schema, whole, file, place) as Record<string, unknown>;
          try {
            check?.(fields);
          } catch (error) {
            throw new FormatError(
              `${file}, ${place}: ${(error as Error).message}`,
              { file },
              error,
            );
          }
          return fields;
        }),
      ]),
    ),
  } as Portion;
  checkSheets(portion, file);
  for (const kind of ['recordings', 'files'] as const)
    for (const { sha256, sizeBytes } of portion[kind])
      if (entries.get(`${kind}/${sha256}`)?.sizeBytes !== sizeBytes)
        throw new FormatError(`${file} names ${kind} that are not in it; nothing was taken in.`, {
          file,
          found: sha256,
        });
  return {
    shop: archive.shop,
    madeAt: archive.madeAt,
    portion,
  };
}

/** What an archive would bring, in a sentence; `conflicts` say why nothing of it would be taken. */
export async function lookAtShopFile(record: PullbookRecord, { shop, madeAt, portion }: ShopFile) {
  const look = await record.portions.look(portion);
  return { shop, madeAt, ...look, sentence: sentenceOf(look) };
}

/** Takes it in, in one change. @throws ConflictError where something stands here otherwise */
export function takeShopFile(
  record: PullbookRecord,
  { portion, archive }: ShopFile,
  change: Change,
) {
  const bytes = async (sha256: string) => {
    const path = [`recordings/${sha256}`, `files/${sha256}`].find((one) =>
      archive.entries.has(one),
    )!;
    const { sizeBytes } = archive.entries.get(path)!;
    return { sha256, sizeBytes, read: () => archive.read(path) };
  };
  return record.portions.take(portion, bytes, change);
}

const COUNTED = [
  ['engine', 'engine'],
  ['build', 'build'],
  ['day', 'test day'],
  ['pull', 'pull'],
  ['cell', 'cell'],
  ['calibration', 'calibration'],
  ['handOver', 'hand-over'],
] as const;

/** What becomes of the shop's own settings, nothing of which is ever written over. */
function settingsSentence({ taken, kept, renamed }: PortionLook['settings']): string {
  return [
    taken.length === 0 ? '' : `Of its settings ${listed(taken)} would come in.`,
    renamed.length === 0 ? '' : `This shop has rules of its own: ${listed(renamed)}.`,
    kept.length === 0 ? '' : `As they are here stay ${listed(kept)}.`,
  ]
    .filter(Boolean)
    .join(' ');
}

function sentenceOf({ fresh, known, conflicts, settings }: PortionLook): string {
  const parts = COUNTED.flatMap(([entity, one]) => {
    const n = fresh[entity] ?? 0;
    return n === 0 ? [] : [`${n} ${one}${n === 1 ? '' : 's'}`];
  });
  const all = Object.values(fresh).reduce((sum, n) => sum + n, 0);
  const ofShop = settingsSentence(settings);
  const comes =
    all === 0
      ? ofShop === ''
        ? 'Everything in it is in this shop already.'
        : 'All engines, cells and what is under them are in this shop already.'
      : `${parts.length === 0 ? `${all} things` : parts.join(', ')} would come in${known > 0 ? `; ${known} things are here already` : ''}.`;
  if (conflicts.length === 0) return [comes, ofShop].filter(Boolean).join(' ');
  const more = conflicts.length > 1 ? ` (and ${conflicts.length - 1} more like it)` : '';
  return `Nothing can be taken in: ${conflicts[0]!.sentence.replace(/\.$/, '')}${more}. Take it into an empty shop, or bring both to the same first.`;
}

/** Ids as they are made here and were made before; nothing that could be more than a name. */
const rowId = z
  .string()
  .regex(/^\w[\w.-]*(\/\w[\w.-]*)*$/)
  .max(200);
const sha = z.string().regex(/^[0-9a-f]{64}$/);
const size = z.number().int().nonnegative();
const MOST_ROWS = 500_000;

const ARCHIVE = z.object({
  format: z.literal(SHOP_FORMAT),
  shop: label,
  madeAt: isoTime,
  portion: z.object({
    shop: e.shop.optional(),
    // A shop of an older version has not all of them.
    rows: z.partialRecord(
      z.enum([
        ...['cell', 'mapping', 'engine', 'build', 'day', 'pull', 'ladder', 'decision'],
        ...['sheet', 'sheetSection', 'buildFile', 'plan', 'tick', 'calibration'],
        ...['comparison', 'partTest', 'vehicle', 'engineUse', 'handOver'],
        ...['serviceEvent', 'serviceReading'],
      ] as [string, ...string[]]),
      z.array(z.record(z.string(), z.unknown())).max(MOST_ROWS),
    ),
    recordings: z.array(e.storedRecording.extend({ sha256: sha, fileName: label.max(255) })),
    files: z.array(
      z.object({
        sha256: sha,
        fileName: z.string().max(255),
        sizeBytes: size,
        storedBytes: size,
        mediaType: z
          .string()
          .regex(/^[\w.+-]+\/[\w.+-]+$/)
          .max(100),
        storedAt: isoTime,
      }),
    ),
  }),
});

interface RowRule {
  readonly schema: z.ZodType;
  /** What an older shop had not. */
  readonly unsaid?: object;
  readonly check?: (fields: Record<string, unknown>) => void;
}
const plain = z.record(z.string(), z.unknown());
const rule = (
  schema: z.ZodObject,
  refs: readonly string[],
  more: Omit<RowRule, 'schema'> = {},
) => ({
  schema: schema.extend(Object.fromEntries(['id', ...refs].map((name) => [name, rowId]))).strict(),
  ...more,
});

const ROWS: Readonly<Record<Exclude<EntityName, 'shop'>, RowRule>> = {
  cell: rule(e.cell, [], { unsaid: NEW_CELL }),
  mapping: rule(e.mapping, ['cellId']),
  engine: rule(e.engine, [], { unsaid: NEW_ENGINE }),
  build: rule(e.build, ['engineId'], { unsaid: NEW_BUILD }),
  day: rule(e.day, ['buildId', 'cellId'], { unsaid: NEW_DAY }),
  pull: rule(e.pull.extend({ recordingSha256: sha.nullable() }), ['dayId'], { unsaid: NEW_PULL }),
  ladder: rule(e.ladder, ['dayId'], { unsaid: NEW_LADDER }),
  decision: rule(decision, ['ladderId'], { unsaid: NEW_DECISION }),
  sheet: rule(
    z.object({
      name: label.nullable(),
      layout: plain,
      use: label.nullable(),
      attachments: z.array(z.unknown()).max(0),
    }),
    ['buildId'],
  ),
  sheetSection: rule(z.object({ section: label, data: plain }), ['sheetId']),
  buildFile: rule(
    z.object({
      sha256: sha,
      fileName: z.string().max(255),
      section: label.nullable(),
      caption: text,
      who: label,
      putAt: isoTime,
    }),
    ['buildId'],
  ),
  plan: rule(z.object({ madeAt: isoTime, who: label, version: z.number().int(), plan: plain }), [
    'dayId',
  ]),
  tick: rule(z.object({ itemId: label, who: label, tickedAt: isoTime }), ['planId']),
  calibration: rule(
    z.object({
      doneOn: isoDate,
      who: label,
      intervalMonths: z.number().int().nullable(),
      notes: text,
      measured,
    }),
    ['cellId'],
    { unsaid: NEW_CALIBRATION, check: checkCalibration },
  ),
  comparison: rule(compare.comparison.extend({ engineIds: list(rowId) }), ['engineId'], {
    unsaid: NEW_COMPARISON,
  }),
  partTest: rule(compare.partTest, ['dayId'], { unsaid: NEW_PART_TEST }),
  vehicle: rule(uses.keptVehicle, ['engineId'], { check: checkVehicle }),
  engineUse: rule(uses.keptUse, ['engineId'], { check: checkUse }),
  handOver: rule(
    z.object({
      madeAt: isoTime,
      madeBy: label,
      pullbook: label,
      choice: plain,
      documentSha256: sha,
      partSha256: sha,
    }),
    ['buildId'],
  ),
  serviceEvent: rule(service.serviceEvent, ['engineId'], { unsaid: NEW_SERVICE_EVENT }),
  serviceReading: rule(service.serviceReading, ['engineId'], {
    unsaid: NEW_SERVICE_READING,
    check: checkReading,
  }),
};

/** A sheet is read as one from a file is: head and sections together. */
function checkSheets({ rows }: Portion, file: string): void {
  for (const head of rows.sheet ?? []) {
    const own = (rows.sheetSection ?? []).filter(({ sheetId }) => sheetId === head.id);
    parseSheet(
      {
        format: 'sheet/1',
        ...(head.name === null ? {} : { name: head.name }),
        layout: head.layout,
        ...(head.use === null ? {} : { use: head.use }),
        sections: Object.fromEntries(own.map(({ section, data }) => [section, data])),
      },
      file,
    );
  }
}

function checked<T extends z.ZodType>(schema: T, value: unknown, file: string, place: string) {
  const read = schema.safeParse(value);
  if (read.success) return read.data as z.output<T>;
  const issue = read.error.issues[0]!;
  const where = [place, ...issue.path.map(String)].join(', ').slice(0, 120);
  throw new FormatError(`${file} cannot be taken in: ${where}: ${issue.message}`, {
    file,
    column: where,
    expected: issue.message,
  });
}
