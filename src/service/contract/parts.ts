/** What every route of the contract is made of. */
import { createRoute } from '@hono/zod-openapi';
import { airStandard, errorBody, id, z } from '../schema/common.ts';

export { createRoute };

export const json = <T extends z.ZodType>(schema: T, description: string) => ({
  content: { 'application/json': { schema } },
  description,
});
export const body = <T extends z.ZodType>(schema: T) => ({
  content: { 'application/json': { schema } },
  required: true,
});
/** Every route may refuse; the sentence says why and what to do. */
export const refusals = { default: json(errorBody, 'Refused; the sentence says why.') };
export const nothing = { 204: { description: 'Done.' }, ...refusals };
export const answers = <T extends z.ZodType>(schema: T, description: string) => ({
  200: json(schema, description),
  ...refusals,
});

export const rawFile = {
  content: {
    'application/octet-stream': { schema: z.any().openapi({ type: 'string', format: 'binary' }) },
  },
  description: 'The bytes of the file.',
};
/** What a table can be taken as. */
export const takenAs = z.enum(['csv', 'xlsx', 'parquet']);
export const takenContent = {
  'text/csv': { schema: z.string() },
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': { schema: z.any() },
  'application/vnd.apache.parquet': { schema: z.any() },
};
export const nameQuery = z.object({
  name: z.string().min(1).max(255).openapi({ description: 'File name, shown and kept as text.' }),
});

const inPath = (name: string) =>
  z
    .string()
    .min(1)
    .max(128)
    .openapi({ param: { name, in: 'path' } });
export const byId = z.object({ id: id.openapi({ param: { name: 'id', in: 'path' } }) });
export const noParams = z.object({});
export const bySha = z.object({ sha256: inPath('sha256') });
export const byCellAndShape = z.object({ id: inPath('id'), shape: inPath('shape') });
export const standardQuery = z.object({
  standard: airStandard
    .optional()
    .openapi({ description: "Left out: the day's, then the shop's." }),
});

/** Five routes for one kind of entity: list and create under its parent, read, change and remove by id. */
export function shelfRoutes<
  E extends z.ZodType,
  N extends z.ZodType,
  P extends z.ZodType,
  L extends z.ZodType,
  Q extends z.ZodObject,
>(names: {
  tag: string;
  one: string;
  /** Path of the list without `/{id}`: `/cells`, or `/engines/{id}/builds` under a parent. */
  listPath: string;
  listParams: Q;
  onePath: string;
  entity: E;
  entities: L;
  fresh: N;
  patch: P;
}) {
  const { tag, one, listPath, listParams, onePath, entity, entities, fresh, patch } = names;
  const tags = [tag];
  return {
    list: createRoute({
      method: 'get',
      path: listPath,
      tags,
      summary: `All of its ${tag}`,
      request: { params: listParams },
      responses: answers(entities, tag),
    }),
    create: createRoute({
      method: 'post',
      path: listPath,
      tags,
      summary: `A new ${one}`,
      request: { params: listParams, body: body(fresh) },
      responses: { 201: json(entity, `The new ${one}`), ...refusals },
    }),
    get: createRoute({
      method: 'get',
      path: onePath,
      tags,
      summary: `One ${one}`,
      request: { params: byId },
      responses: answers(entity, `The ${one}`),
    }),
    update: createRoute({
      method: 'patch',
      path: onePath,
      tags,
      summary: `Change a ${one}; fields left out stay`,
      request: { params: byId, body: body(patch) },
      responses: answers(entity, `The ${one} as it now stands`),
    }),
    remove: createRoute({
      method: 'delete',
      path: onePath,
      tags,
      summary: `Remove a ${one} with all under it; POST /undo brings it back`,
      request: { params: byId },
      responses: nothing,
    }),
  };
}
