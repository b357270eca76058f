/** One change being made: a transaction that notes every row it touches and ends with its event. */
import type { Transaction } from 'kysely';
import { columnOf, fromRow, type Row, TABLES, toRow } from './codec.ts';
import { ConflictError, NotInRecordError } from './errors.ts';
import type { Change } from './repository.ts';
import { keepFindable } from './search/index.ts';
import { type Connections, storeErrorOf, type Tables } from './store.ts';
import type { EntityName, EntityTypes, Id, RecordEvent, Touched } from './types.ts';

export type Fields = Readonly<Record<string, unknown>>;

export class Draft {
  readonly touched: Touched[] = [];
  /** Once its event is written. */
  eventId: number | null = null;
  readonly trx: Transaction<Tables>;

  constructor(trx: Transaction<Tables>) {
    this.trx = trx;
  }

  async find<E extends EntityName>(entity: E, id: Id): Promise<EntityTypes[E] | null> {
    const row = await this.trx
      .selectFrom(TABLES[entity].table)
      .selectAll()
      .where('id', '=', id)
      .executeTakeFirst();
    return row === undefined ? null : fromRow(entity, row);
  }

  async get<E extends EntityName>(entity: E, id: Id): Promise<EntityTypes[E]> {
    const found = await this.find(entity, id);
    if (found === null) throw new NotInRecordError(TABLES[entity].one, id);
    return found;
  }

  async insert(entity: EntityName, id: Id, fields: Fields): Promise<void> {
    await this.checkRefs(entity, fields);
    await this.write(entity, id, fields);
    this.touched.push({ entity, id, before: null, after: fields });
  }

  /** Only fields that really change are written and noted. */
  async update(entity: EntityName, id: Id, patch: Fields): Promise<void> {
    const current = (await this.get(entity, id)) as unknown as Fields;
    const changed = Object.keys(patch).filter(
      (field) =>
        field !== 'id' &&
        patch[field] !== undefined &&
        field in TABLES[entity].kinds &&
        !sameValue(patch[field], current[field]),
    );
    if (changed.length === 0) return;
    const after = pick(patch, changed);
    await this.checkRefs(entity, after);
    await this.overwrite(entity, id, after);
    this.touched.push({ entity, id, before: pick(current, changed), after });
  }

  /** Removes the row with all under it, deepest first, so that undo can bring them back in reverse. */
  async remove(entity: EntityName, id: Id): Promise<void> {
    const current = (await this.get(entity, id)) as unknown as Fields;
    for (const child of TABLES[entity].children) {
      const ids = await this.childIds(child.entity, child.field, id);
      if (ids.length > 0 && child.onRemove === 'refuse') {
        const { one } = TABLES[child.entity];
        throw new ConflictError(
          `This ${TABLES[entity].one} is used by ${ids.length} ${one}${ids.length === 1 ? '' : 's'}; remove or move ${ids.length === 1 ? 'it' : 'them'} first.`,
        );
      }
      for (const childId of ids) await this.remove(child.entity, childId);
    }
    await this.erase(entity, id);
    this.touched.push({ entity, id, before: current, after: null });
  }

  async write(entity: EntityName, id: Id, fields: Fields): Promise<void> {
    await this.trx
      .insertInto(TABLES[entity].table)
      .values({ ...toRow(entity, fields), id })
      .execute();
  }

  async overwrite(entity: EntityName, id: Id, fields: Fields): Promise<void> {
    await this.trx
      .updateTable(TABLES[entity].table)
      .set(toRow(entity, fields))
      .where('id', '=', id)
      .execute();
  }

  async erase(entity: EntityName, id: Id): Promise<void> {
    await this.trx.deleteFrom(TABLES[entity].table).where('id', '=', id).execute();
  }

  async childIds(entity: EntityName, field: string, parent: Id): Promise<Id[]> {
    const rows = await this.trx
      .selectFrom(TABLES[entity].table)
      .select('id')
      .where(columnOf(field), '=', parent)
      .execute();
    return rows.map((row) => row.id as Id);
  }

  private async checkRefs(entity: EntityName, fields: Fields): Promise<void> {
    for (const [field, target] of Object.entries(TABLES[entity].refs)) {
      const id = fields[field];
      if (id !== undefined) await this.get(target, id as Id);
    }
  }
}

export const sameValue = (a: unknown, b: unknown) =>
  a === b || JSON.stringify(a ?? null) === JSON.stringify(b ?? null);

/** The same whatever the order of keys: what went through a file or a request may have them in another. */
export const isAlike = (a: unknown, b: unknown): boolean => inOrder(a) === inOrder(b);
const inOrder = (value: unknown): string =>
  JSON.stringify(value ?? null, (_key, one: unknown) =>
    typeof one === 'object' && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );

const pick = (from: Fields, fields: readonly string[]): Fields =>
  Object.fromEntries(fields.map((field) => [field, from[field]]));

/**
 * Runs the work in one transaction and writes its event in the same one. Work that touches nothing leaves no event.
 * @throws whatever the work throws; then nothing of it is stored.
 */
export async function inOneChange<T>(
  at: Connections,
  about: Change & { readonly kind?: RecordEvent['kind']; readonly of?: number },
  sentence: (draft: Draft) => string,
  work: (draft: Draft) => Promise<T>,
): Promise<T> {
  try {
    return await at.writing.transaction().execute(async (trx) => {
      const draft = new Draft(trx);
      const result = await work(draft);
      if (draft.touched.length > 0) {
        draft.eventId = await writeEvent(draft, at.now(), about, about.summary ?? sentence(draft));
      }
      return result;
    });
  } catch (error) {
    throw storeErrorOf(error, at.file);
  }
}

export async function writeEvent(
  draft: Draft,
  at: Date,
  about: Change & { readonly kind?: RecordEvent['kind']; readonly of?: number },
  summary: string,
): Promise<number> {
  await keepFindable(draft.trx, draft.touched);
  const { insertId } = await draft.trx
    .insertInto('event')
    .values({
      at: at.toISOString(),
      who: about.who ?? '',
      kind: about.kind ?? 'change',
      summary,
      of_event: about.of ?? null,
    } satisfies Row)
    .executeTakeFirstOrThrow();
  const eventId = Number(insertId);
  // In slices, because SQLite takes a limited number of values in one statement.
  for (let from = 0; from < draft.touched.length; from += 500) {
    await draft.trx
      .insertInto('event_row')
      .values(
        draft.touched.slice(from, from + 500).map((row, index) => ({
          event_id: eventId,
          position: from + index,
          entity: row.entity,
          entity_id: row.id,
          before: row.before === null ? null : JSON.stringify(row.before),
          after: row.after === null ? null : JSON.stringify(row.after),
        })),
      )
      .execute();
  }
  return eventId;
}
