/**
 * A part of a shop that stands by itself: one engine, or all of them, with everything under them, the cells they were
 * tested on and the digests of the bytes they rest on. It leaves one record and is taken into another with its ids.
 */
import { sql } from 'kysely';
import { columnOf, fromRow, TABLES } from './codec.ts';
import { type Draft, type Fields, inOneChange, isAlike } from './draft.ts';
import { ConflictError } from './errors.ts';
import { fileIn, storeFile } from './files.ts';
import { recordingIn, storeBytes } from './recordings.ts';
import type { Change, Portion, PortionBytes, PortionLook, PullbookRecord } from './repository.ts';
import { mergedSettings, type SettingsMerged } from './settings.ts';
import type { Connections, Store } from './store.ts';
import { ENTITIES, type EntityName, type Id, type Shop } from './types.ts';

type Kept = Exclude<EntityName, 'shop'>;

/** Parents before what names them. */
const IN_ORDER: readonly Kept[] = parentsFirst();

export function makePortions(at: Connections): PullbookRecord['portions'] {
  return {
    of: (engineIds) =>
      at.reading.transaction().execute(async (trx) => {
        const rows = await rowsUnder(trx, engineIds);
        const shop = engineIds === 'all' ? { shop: await shopIn(trx) } : {};
        return { ...shop, rows, ...(await bytesNamedBy(trx, rows)) };
      }),
    look: (portion) => look(at, portion),
    take: (portion, bytes, change = {}) => take(at, portion, bytes, change),
  };
}

/** The same without some rows, what stands under them, and bytes that nothing names any more. */
export function narrowed(
  portion: Portion,
  isWanted: (entity: Kept, fields: Fields) => boolean,
): Portion {
  const kept = new Map<string, Set<unknown>>();
  const rows: Record<string, readonly Fields[]> = {};
  for (const entity of IN_ORDER) {
    const refs = Object.entries(TABLES[entity].refs);
    const own = (portion.rows[entity] ?? []).filter(
      (fields) =>
        isWanted(entity, fields) &&
        refs.every(([field, parent]) => kept.get(parent)?.has(fields[field])),
    );
    kept.set(entity, new Set(own.map((fields) => fields.id)));
    rows[entity] = own;
  }
  const { recordings, files } = namedBy(rows);
  return {
    ...(portion.shop === undefined ? {} : { shop: portion.shop }),
    rows,
    recordings: portion.recordings.filter(({ sha256 }) => recordings.has(sha256)),
    files: portion.files.filter(({ sha256 }) => files.has(sha256)),
  };
}

/** All rows under these engines and under the cells of their days. */
async function rowsUnder(store: Store, engineIds: readonly Id[] | 'all'): Promise<Portion['rows']> {
  const found = new Map<Kept, Map<Id, Fields>>(IN_ORDER.map((entity) => [entity, new Map()]));
  const gather = async (entity: Kept, field: string | null, ids: readonly Id[]): Promise<void> => {
    // In slices, because SQLite takes a limited number of values in one statement.
    const fresh: Id[] = [];
    for (let from = 0; from < Math.max(1, ids.length); from += 500) {
      let query = store.selectFrom(TABLES[entity].table).selectAll();
      if (field !== null) query = query.where(columnOf(field), 'in', ids.slice(from, from + 500));
      for (const column of TABLES[entity].order) query = query.orderBy(column);
      for (const row of await query.execute()) {
        const fields = fromRow(entity, row) as unknown as Fields;
        fresh.push(fields.id as Id);
        found.get(entity)!.set(fields.id as Id, fields);
      }
    }
    if (fresh.length === 0) return;
    for (const child of TABLES[entity].children) {
      if (child.onRemove === 'along') await gather(child.entity as Kept, child.field, fresh);
    }
  };
  if (engineIds === 'all') {
    await gather('engine', null, []);
    await gather('cell', null, []);
  } else if (engineIds.length > 0) {
    await gather('engine', 'id', engineIds);
    const cells = new Set([...found.get('day')!.values()].map((day) => day.cellId as Id));
    if (cells.size > 0) await gather('cell', 'id', [...cells]);
  }
  return Object.fromEntries(
    IN_ORDER.map((entity) => [entity, [...found.get(entity)!.values()]]),
  ) as Portion['rows'];
}

/** Digests of the recordings and files that rows name. */
function namedBy(rows: Portion['rows']) {
  return {
    recordings: new Set((rows.pull ?? []).map((pull) => pull.recordingSha256 as string | null)),
    files: new Set([
      ...(rows.buildFile ?? []).map((one) => one.sha256 as string),
      ...(rows.handOver ?? []).flatMap((one) => [
        one.documentSha256 as string,
        one.partSha256 as string,
      ]),
    ]),
  };
}

async function bytesNamedBy(store: Store, rows: Portion['rows']) {
  const named = namedBy(rows);
  const known = async <T>(
    names: Iterable<string | null>,
    find: (sha: string) => Promise<T | null>,
  ) => {
    const all: T[] = [];
    for (const name of names) {
      const one = name === null ? null : await find(name);
      if (one !== null) all.push(one);
    }
    return all;
  };
  return {
    recordings: await known(named.recordings, (sha) => recordingIn(store, sha)),
    files: await known(named.files, (sha) => fileIn(store, sha)),
  };
}

async function take(at: Connections, portion: Portion, bytes: PortionBytes, change: Change) {
  let taken = 0;
  let known = 0;
  const say = () => `took in ${taken} thing${taken === 1 ? '' : 's'} from another shop`;
  let settings: SettingsMerged | null = null;
  await inOneChange(at, { ...change, kind: 'import' }, say, async (draft) => {
    settings = await settingsFrom(draft.trx, portion);
    for (const recording of portion.recordings) {
      if ((await recordingIn(draft.trx, recording.sha256)) !== null) continue;
      await storeBytes(at, draft, recording.sha256, {
        ...recording,
        bytes: await bytes(recording.sha256),
      });
    }
    for (const file of portion.files)
      await storeFile(at, draft, { ...file, bytes: await bytes(file.sha256) });
    for (const entity of IN_ORDER) {
      for (const fields of portion.rows[entity] ?? []) {
        if (await standsAlike(draft, entity, fields)) known += 1;
        else {
          await draft.insert(entity, fields.id as Id, fields);
          taken += 1;
        }
      }
    }
    if (settings !== null) await draft.update('shop', 'shop', { ...settings.patch });
  }).finally(() => letGo(at));
  return { taken, known, settings: toldOf(settings) };
}

/** The log that a change of gigabytes has filled would keep its size on the disk, also where the change failed. */
async function letGo(at: Connections): Promise<void> {
  await sql`PRAGMA wal_checkpoint(TRUNCATE)`.execute(at.writing).catch(() => {});
}

const shopIn = async (store: Store): Promise<Shop> =>
  fromRow('shop', await store.selectFrom('shop').selectAll().executeTakeFirstOrThrow());

/** What becomes of the settings that come along; null where none do. */
async function settingsFrom(
  store: Store,
  { shop: given }: Portion,
): Promise<SettingsMerged | null> {
  if (given === undefined) return null;
  const { rows } = await sql<{ n: number }>`SELECT
    EXISTS (SELECT 1 FROM engine) OR EXISTS (SELECT 1 FROM cell) AS n`.execute(store);
  return mergedSettings(await shopIn(store), given, {
    from: given.name,
    isEmpty: rows[0]!.n === 0,
  });
}

function toldOf(settings: SettingsMerged | null) {
  const { taken, kept, renamed } = settings ?? { taken: [], kept: [], renamed: [] };
  return { taken, kept, renamed };
}

/** @throws ConflictError where the same id stands with other contents: two shops worked on one engine apart */
async function standsAlike(draft: Draft, entity: Kept, fields: Fields): Promise<boolean> {
  const standing = (await draft.find(entity, fields.id as Id)) as Fields | null;
  if (standing === null) return false;
  const other = otherwise(entity, fields, standing);
  if (other === null) return true;
  throw new ConflictError(
    `${other}; nothing was taken in. Take it into an empty shop, or bring both to the same first.`,
  );
}

/** In which way a row stands here otherwise; null: it stands alike. */
function otherwise(entity: Kept, fields: Fields, standing: Fields): string | null {
  const other = Object.keys(TABLES[entity].kinds).find(
    (field) => field in fields && !isAlike(fields[field], standing[field]),
  );
  return other === undefined
    ? null
    : `The ${TABLES[entity].one} ${nameOf(standing)} is in this shop already and its ${other} was changed on one side`;
}

async function look(at: Connections, portion: Portion): Promise<PortionLook> {
  const fresh: Partial<Record<EntityName, number>> = {};
  const conflicts: { sentence: string }[] = [];
  let known = 0;
  for (const entity of IN_ORDER) {
    const given = portion.rows[entity] ?? [];
    for (let from = 0; from < given.length; from += 500) {
      const slice = given.slice(from, from + 500);
      const rows = await at.reading
        .selectFrom(TABLES[entity].table)
        .selectAll()
        .where(
          'id',
          'in',
          slice.map((fields) => fields.id as Id),
        )
        .execute();
      const standing = new Map(rows.map((row) => [row.id, fromRow(entity, row)]));
      for (const fields of slice) {
        const one = standing.get(fields.id as Id) as unknown as Fields | undefined;
        if (one === undefined) fresh[entity] = (fresh[entity] ?? 0) + 1;
        else {
          const other = otherwise(entity, fields, one);
          if (other === null) known += 1;
          else conflicts.push({ sentence: `${other}.` });
        }
      }
    }
  }
  return { fresh, known, conflicts, settings: toldOf(await settingsFrom(at.reading, portion)) };
}

const nameOf = (fields: Fields): string => String(fields.name || fields.id);

function parentsFirst(): Kept[] {
  const order: Kept[] = [];
  const visit = (entity: EntityName): void => {
    if (entity === 'shop' || order.includes(entity)) return;
    for (const parent of Object.values(TABLES[entity].refs)) visit(parent);
    order.push(entity);
  };
  for (const entity of ENTITIES) visit(entity);
  return order;
}
