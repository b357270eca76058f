/** A shop as an archive: out of the record, and into it after every row was checked as a request would be. */
import { parseSheet } from '../../build/sheet/read.ts';
import { FormatError } from '../../errors.ts';
import { checkCalibration } from '../../record/calibrations.ts';
import {
  type Change,
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
  type Portion,
  type PortionLook,
  type PullbookRecord,
} from '../../record/index.ts';
import { checkUse, checkVehicle } from '../../record/uses.ts';
import { packShop, SHOP_FORMAT, unpackShop } from '../../report/index.ts';
import { measured } from '../schema/calibrations.ts';
import { isoDate, isoTime, label, list, text, z } from '../schema/common.ts';
import * as compare from '../schema/compare.ts';
import { decision } from '../schema/decisions.ts';
import * as e from '../schema/entities.ts';
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
  readonly bytes: (sha256: string) => Uint8Array;
}

/** @throws FormatError naming the kind, the row and the field that cannot be */
export function readShopFile(bytes: Uint8Array, file: string): ShopFile {
  const { json, entries } = unpackShop(bytes, file);
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
    for (const { sha256 } of portion[kind])
      if (!entries.has(`${kind}/${sha256}`))
        throw new FormatError(`${file} names ${kind} that are not in it; nothing was taken in.`, {
          file,
          found: sha256,
        });
  return {
    shop: archive.shop,
    madeAt: archive.madeAt,
    portion,
    bytes: (sha256) => entries.get(`recordings/${sha256}`) ?? entries.get(`files/${sha256}`)!,
  };
}

/** What an archive would bring, in a sentence; `conflicts` say why nothing of it would be taken. */
export async function lookAtShopFile(record: PullbookRecord, { shop, madeAt, portion }: ShopFile) {
  const look = await record.portions.look(portion);
  return { shop, madeAt, ...look, sentence: sentenceOf(look) };
}

/** Takes it in, in one change. @throws ConflictError where something stands here otherwise */
export function takeShopFile(record: PullbookRecord, shopFile: ShopFile, change: Change) {
  return record.portions.take(shopFile.portion, async (sha256) => shopFile.bytes(sha256), change);
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

function sentenceOf({ fresh, known, conflicts }: PortionLook): string {
  const parts = COUNTED.flatMap(([entity, one]) => {
    const n = fresh[entity] ?? 0;
    return n === 0 ? [] : [`${n} ${one}${n === 1 ? '' : 's'}`];
  });
  const all = Object.values(fresh).reduce((sum, n) => sum + n, 0);
  const comes =
    all === 0
      ? 'Everything in it is in this shop already.'
      : `${parts.length === 0 ? `${all} things` : parts.join(', ')} would come in${known > 0 ? `; ${known} things are here already` : ''}.`;
  if (conflicts.length === 0) return comes;
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
    rows: z.record(
      z.enum([
        ...['cell', 'mapping', 'engine', 'build', 'day', 'pull', 'ladder', 'decision'],
        ...['sheet', 'sheetSection', 'buildFile', 'plan', 'tick', 'calibration'],
        ...['comparison', 'partTest', 'vehicle', 'engineUse', 'handOver'],
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

const ROWS: Readonly<Record<string, RowRule>> = {
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
