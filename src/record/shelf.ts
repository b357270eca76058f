/** The six verbs that every kind of entity has, over its table. */
import { columnOf, fromRow, TABLES } from './codec.ts';
import { type Draft, type Fields, inOneChange } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import type { Change, Shelf } from './repository.ts';
import { sentenceFor } from './sentences.ts';
import { type Connections, storeErrorOf } from './store.ts';
import type { EntityName, EntityTypes, Id } from './types.ts';

interface ShelfOptions {
  readonly defaults: Fields | ((draft: Draft, fresh: Fields) => Promise<Fields>);
  /** @throws FormatError naming the field: what is no such thing is not kept. Of a change it sees the fields given. */
  readonly check?: (fields: Fields) => void;
  /** The same of all fields together, as they would stand after a change too. */
  readonly checkWhole?: (fields: Fields) => void;
  /** What else comes with a new one, in the same change. */
  readonly along?: (draft: Draft, fields: Fields) => Promise<void>;
}

export function makeShelf<E extends Exclude<EntityName, 'shop'>, N, P>(
  at: Connections,
  entity: E,
  options: ShelfOptions,
): Shelf<EntityTypes[E], N, P> {
  type T = EntityTypes[E];
  const { table, one, order } = TABLES[entity];

  const find = async (id: Id): Promise<T | null> => {
    const row = await at.reading
      .selectFrom(table)
      .selectAll()
      .where('id', '=', id)
      .executeTakeFirst()
      .catch((error: unknown) => {
        throw storeErrorOf(error, at.file);
      });
    return row === undefined ? null : fromRow(entity, row);
  };
  const get = async (id: Id): Promise<T> => {
    const found = await find(id);
    if (found === null) throw new NotInRecordError(one, id);
    return found;
  };
  const say = (draft: Draft) => sentenceFor(draft.touched);

  return {
    find,
    get,
    async list(parent?: P) {
      let query = at.reading.selectFrom(table).selectAll();
      for (const [field, id] of Object.entries(parent ?? {})) {
        query = query.where(columnOf(field), '=', id as Id);
      }
      for (const column of order) query = query.orderBy(column);
      return (await query.execute()).map((row) => fromRow(entity, row));
    },
    async create(fresh: N, change: Change = {}) {
      const given = fresh as unknown as Fields;
      const id = (given.id as Id | undefined) ?? at.newId(entity);
      await inOneChange(at, change, say, async (draft) => {
        const defaults =
          typeof options.defaults === 'function'
            ? await options.defaults(draft, given)
            : options.defaults;
        const fields = { ...defaults, ...withoutUndefined(given), id };
        options.check?.(fields);
        options.checkWhole?.(fields);
        await draft.insert(entity, id, fields);
        await options.along?.(draft, fields);
      });
      return get(id);
    },
    async update(id, patch, change = {}) {
      options.check?.(withoutUndefined(patch as Fields));
      await inOneChange(at, change, say, async (draft) => {
        await draft.update(entity, id, patch as Fields);
        options.checkWhole?.((await draft.get(entity, id)) as unknown as Fields);
      });
      return get(id);
    },
    async remove(id, change = {}) {
      await inOneChange(at, change, say, (draft) => draft.remove(entity, id));
    },
  };
}

export const withoutUndefined = (fields: Fields): Fields =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
