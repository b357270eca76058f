/** Keeps the index in step: called in the transaction of every change with the rows that it touched. */
import { sql } from 'kysely';
import { fromRow, TABLES } from '../codec.ts';
import type { Fields } from '../draft.ts';
import type { Connections, Store } from '../store.ts';
import type { EntityName, Id, Touched } from '../types.ts';
import { forgetPeaks, keepTypedPeaks } from './peaks.ts';
import { rowNumber } from './rowNumbers.ts';
import { FINDABLE, WORDS_VERSION } from './words.ts';

const ORDER = Object.keys(FINDABLE) as EntityName[];
/** SQLite takes a limited number of values in one statement. */
const SLICE = 500;

const UNDER_A_DAY = [
  ['pull', 'pull'],
  ['ladder', 'ladder'],
  ['plan', 'plan'],
] as const;

/** What stands under a thing takes over from it. */
interface Above {
  readonly words: string;
  readonly trail: string;
  readonly onDate: string;
}
const NOTHING: Above = { words: '', trail: '', onDate: '' };

export async function keepFindable(trx: Store, touched: readonly Touched[]): Promise<void> {
  const byEntity = new Map<EntityName, Set<Id>>();
  for (const { entity, id } of touched) {
    if (!byEntity.has(entity)) byEntity.set(entity, new Set());
    byEntity.get(entity)!.add(id);
  }
  for (const { entity, id, after, before } of touched) {
    // What stands under a day without a date of its own has the day's.
    if (entity !== 'day' || before === null || after === null || !('date' in after)) continue;
    for (const [under, kind] of UNDER_A_DAY) {
      const rows = await trx
        .selectFrom('search_row')
        .select('source')
        .where('parent', '=', id)
        .where('kind', '=', kind)
        .execute();
      if (!byEntity.has(under)) byEntity.set(under, new Set());
      for (const { source } of rows) byEntity.get(under)!.add(source as Id);
    }
  }
  // A plan is found by who ticked what of it.
  for (const { entity, before, after } of touched) {
    if (entity !== 'tick') continue;
    const planId = (after ?? before)?.planId as Id | undefined;
    if (planId === undefined) continue;
    if (!byEntity.has('plan')) byEntity.set('plan', new Set());
    byEntity.get('plan')!.add(planId);
  }
  await forgetPeaks(trx, touched);
  const above = new Map<Id, Above>();
  for (const entity of ORDER) {
    const ids = [...(byEntity.get(entity) ?? [])];
    for (let from = 0; from < ids.length; from += SLICE) {
      const slice = ids.slice(from, from + SLICE);
      await trx.deleteFrom('search_row').where('source', 'in', slice).execute();
      const rows = await trx
        .selectFrom(TABLES[entity].table)
        .selectAll()
        .where('id', 'in', slice)
        .execute();
      await put(
        trx,
        entity,
        rows.map((row) => fromRow(entity, row) as unknown as Fields),
        above,
      );
      if (entity === 'pull') await keepTypedPeaks(trx, slice);
    }
    for (const id of ids) await handDown(trx, id);
  }
}

/** Fills the index anew where it was made with other words. */
export async function refillFindable(at: Connections): Promise<void> {
  const state = await at.writing.selectFrom('search_state').select('version').executeTakeFirst();
  if (state?.version === WORDS_VERSION) return;
  await at.writing.transaction().execute(async (trx) => {
    await trx.deleteFrom('search_row').execute();
    await trx.deleteFrom('pull_peak').execute();
    await trx.deleteFrom('search_state').execute();
    await trx
      .insertInto('search_state')
      .values({ id: 1, version: WORDS_VERSION, next: 1 })
      .execute();
    const above = new Map<Id, Above>();
    for (const entity of ORDER) {
      const rows = await trx.selectFrom(TABLES[entity].table).selectAll().execute();
      const all = rows.map((row) => fromRow(entity, row) as unknown as Fields);
      await put(trx, entity, all, above);
    }
    await keepTypedPeaks(trx, null);
  });
}

async function put(
  trx: Store,
  entity: EntityName,
  all: readonly Fields[],
  known: Map<Id, Above>,
): Promise<void> {
  const { parent, tell } = FINDABLE[entity]!;
  const rows = [];
  let running = await nextOf(trx);
  for (const row of all) {
    const fields = entity === 'plan' ? { ...row, ticks: await ticksOf(trx, row.id as Id) } : row;
    const named = parent === null ? null : (fields[parent] as Id);
    const parentId = entity === 'sheetSection' ? await buildOf(trx, named!) : named;
    const from = parentId === null ? NOTHING : await aboveOf(trx, parentId, known);
    for (const { kind, label, page, own, onDate } of tell(fields, parentId ?? '')) {
      const date = (onDate ?? null) === null ? from.onDate : onDate!.slice(0, 10);
      rows.push({
        row: rowNumber(kind, date, running++),
        kind,
        // There is one shop, and it has no id of its own.
        source: (fields.id ?? 'shop') as Id,
        parent: parentId,
        label: label.slice(0, 300),
        trail: from.trail,
        page,
        on_date: date,
        own,
        above: from.words,
      });
    }
  }
  if (rows.length === 0) return;
  await trx.updateTable('search_state').set({ next: running }).execute();
  for (let from = 0; from < rows.length; from += SLICE)
    await trx
      .insertInto('search_row')
      .values(rows.slice(from, from + SLICE))
      .execute();
}

async function ticksOf(trx: Store, planId: Id): Promise<Fields[]> {
  const rows = await trx.selectFrom('tick').selectAll().where('plan_id', '=', planId).execute();
  return rows.map((row) => fromRow('tick', row) as unknown as Fields);
}

async function nextOf(trx: Store): Promise<number> {
  const { next } = await trx.selectFrom('search_state').select('next').executeTakeFirstOrThrow();
  return next as number;
}

async function aboveOf(trx: Store, id: Id, known: Map<Id, Above>): Promise<Above> {
  const had = known.get(id);
  if (had !== undefined) return had;
  const row = await trx
    .selectFrom('search_row')
    .select(['own', 'above', 'label', 'trail', 'on_date'])
    .where('source', '=', id)
    .executeTakeFirst();
  const found: Above =
    row === undefined
      ? NOTHING
      : {
          words: `${row.above} ${row.own}`.trim(),
          trail: row.trail === '' ? String(row.label) : `${row.trail}, ${row.label}`,
          onDate: String(row.on_date),
        };
  known.set(id, found);
  return found;
}

async function buildOf(trx: Store, sheetId: Id): Promise<Id> {
  const row = await trx
    .selectFrom('sheet')
    .select('build_id')
    .where('id', '=', sheetId)
    .executeTakeFirst();
  return (row?.build_id ?? '') as Id;
}

/** Gives a thing's words on to all that stands under it, where they are not there already. */
async function handDown(trx: Store, id: Id): Promise<void> {
  const above = await aboveOf(trx, id, new Map());
  const { rows } = await sql<{ source: Id }>`UPDATE search_row
    SET above = ${above.words}, trail = ${above.trail}
    WHERE parent = ${id} AND (above <> ${above.words} OR trail <> ${above.trail})
    RETURNING source`.execute(trx);
  for (const child of new Set(rows.map(({ source }) => source))) await handDown(trx, child);
}
