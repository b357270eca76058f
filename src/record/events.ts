/** The list of all changes, and taking them back. */
import type { Row } from './codec.ts';
import { TABLES } from './codec.ts';
import { Draft, type Fields, sameValue, writeEvent } from './draft.ts';
import { ConflictError, NotInRecordError } from './errors.ts';
import type { Change, PullbookRecord } from './repository.ts';
import { type Connections, type Store, storeErrorOf } from './store.ts';
import type { EntityName, Id, RecordEvent, Touched } from './types.ts';

type Direction = 'undo' | 'redo';

export function makeEvents(at: Connections): PullbookRecord['events'] {
  const turn = async (direction: Direction, id: number | undefined, change: Change) => {
    try {
      const made = await at.writing.transaction().execute(async (trx) => {
        const draft = new Draft(trx);
        const event = await eventToTurn(trx, direction, id);
        const rows = await touchedBy(trx, event.id);
        for (const row of direction === 'undo' ? [...rows].reverse() : rows) {
          const step = direction === 'undo' ? swapped(row) : row;
          await apply(draft, step, event);
          draft.touched.push(step);
        }
        await trx
          .updateTable('event')
          .set({ undone: direction === 'undo' ? 1 : 0 })
          .where('id', '=', event.id)
          .execute();
        const summary =
          change.summary ??
          `${direction === 'undo' ? 'took back' : 'brought back'}: ${event.summary}`;
        return writeEvent(draft, at.now(), { ...change, kind: direction, of: event.id }, summary);
      });
      return eventById(at.reading, made);
    } catch (error) {
      throw storeErrorOf(error, at.file);
    }
  };

  return {
    async list({ before, limit = 100 } = {}) {
      let query = at.reading.selectFrom('event').selectAll().orderBy('id', 'desc').limit(limit);
      if (before !== undefined) query = query.where('id', '<', before);
      return (await query.execute()).map(eventOf);
    },
    get: (id) => eventById(at.reading, id),
    undo: (id, change = {}) => turn('undo', id, change),
    redo: (id, change = {}) => turn('redo', id, change),
  };
}

const swapped = (row: Touched): Touched => ({ ...row, before: row.after, after: row.before });

const eventOf = (row: Row): RecordEvent => ({
  id: row.id as number,
  at: row.at as string,
  who: row.who as string,
  kind: row.kind as RecordEvent['kind'],
  summary: row.summary as string,
  of: row.of_event as number | null,
  undone: row.undone === 1,
});

async function eventById(store: Store, id: number): Promise<RecordEvent> {
  const row = await store.selectFrom('event').selectAll().where('id', '=', id).executeTakeFirst();
  if (row === undefined) throw new NotInRecordError('event', id);
  return { ...eventOf(row), touched: await touchedBy(store, id) };
}

async function touchedBy(store: Store, eventId: number): Promise<Touched[]> {
  const rows = await store
    .selectFrom('event_row')
    .selectAll()
    .where('event_id', '=', eventId)
    .orderBy('position')
    .execute();
  const parsed = (text: unknown) => (text === null ? null : (JSON.parse(text as string) as Fields));
  return rows.map((row) => ({
    entity: row.entity as EntityName,
    id: row.entity_id as Id,
    before: parsed(row.before),
    after: parsed(row.after),
  }));
}

async function eventToTurn(store: Store, direction: Direction, id: number | undefined) {
  if (id === undefined) return latestToTurn(store, direction);
  const event = await eventById(store, id);
  if (event.kind === 'undo' || event.kind === 'redo') {
    throw new ConflictError(
      `Event ${id} is itself an ${event.kind}; ${event.kind === 'undo' ? 'redo' : 'undo'} event ${event.of} instead.`,
    );
  }
  if (event.undone === (direction === 'undo')) {
    throw new ConflictError(
      direction === 'undo'
        ? `Event ${id} (${event.summary}) is taken back already.`
        : `Event ${id} (${event.summary}) stands; there is nothing to bring back.`,
    );
  }
  return event;
}

/** Undo: the newest change that stands. Redo: the one whose undo is the newest. */
async function latestToTurn(store: Store, direction: Direction): Promise<RecordEvent> {
  const query =
    direction === 'undo'
      ? store
          .selectFrom('event')
          .selectAll()
          .where('kind', 'in', ['change', 'import'])
          .where('undone', '=', 0)
          .orderBy('id', 'desc')
      : store
          .selectFrom('event as undo')
          .innerJoin('event', 'event.id', 'undo.of_event')
          .selectAll('event')
          .where('undo.kind', '=', 'undo')
          .where('event.undone', '=', 1)
          .orderBy('undo.id', 'desc');
  const row = await query.limit(1).executeTakeFirst();
  if (row === undefined) {
    throw new ConflictError(
      direction === 'undo' ? 'There is nothing to take back.' : 'There is nothing to bring back.',
    );
  }
  return eventOf(row as Row);
}

/** Makes `after` of `before`, only where the row still stands as `before` says. */
async function apply(draft: Draft, step: Touched, event: RecordEvent): Promise<void> {
  const { entity, id, before, after } = step;
  const current = (await draft.find(entity, id)) as Fields | null;
  const asExpected =
    before === null
      ? current === null
      : current !== null && Object.keys(before).every((f) => sameValue(before[f], current[f]));
  if (!asExpected) throw await inTheWay(draft, event, [id], TABLES[entity].one);
  if (after === null) {
    const children = await childrenOf(draft, entity, id);
    if (children.length > 0) throw await inTheWay(draft, event, children, TABLES[entity].one);
    await draft.erase(entity, id);
  } else if (before === null) {
    const parents = Object.keys(TABLES[entity].refs).map((field) => after[field] as Id);
    for (const [field, target] of Object.entries(TABLES[entity].refs)) {
      if ((await draft.find(target, after[field] as Id)) === null) {
        throw await inTheWay(draft, event, parents, TABLES[target].one);
      }
    }
    await draft.write(entity, id, after);
  } else {
    await draft.overwrite(entity, id, after);
  }
}

async function childrenOf(draft: Draft, entity: EntityName, id: Id): Promise<Id[]> {
  const found: Id[] = [];
  for (const child of TABLES[entity].children) {
    found.push(...(await draft.childIds(child.entity, child.field, id)));
  }
  return found;
}

/** The refusal, naming the newest standing event that touched what is in the way. */
async function inTheWay(draft: Draft, event: RecordEvent, ids: readonly Id[], one: string) {
  const later = await draft.trx
    .selectFrom('event_row')
    .innerJoin('event', 'event.id', 'event_row.event_id')
    .select(['event.id', 'event.summary'])
    .where('event_row.entity_id', 'in', [...ids])
    .where('event.id', '!=', event.id)
    .where('event.kind', 'in', ['change', 'import'])
    .where('event.undone', '=', 0)
    .orderBy('event.id', 'desc')
    .limit(1)
    .executeTakeFirst();
  const blocker =
    later === undefined
      ? 'what it changed no longer stands as it left it'
      : `event ${later.id} (${later.summary}) came after it and touched the same ${one}; take that back first`;
  return new ConflictError(`Event ${event.id} (${event.summary}) cannot be turned: ${blocker}.`);
}
