/** Tables of a test day, for a spreadsheet or a program. */
import { airStandard, id, z } from '../schema/common.ts';
import { createRoute, refusals } from './parts.ts';

export const dayTables = {
  get: createRoute({
    method: 'get',
    path: '/days/{id}/tables/{table}',
    tags: ['days'],
    summary: 'The pulls of a day, or their curves, with the unit of every column: CSV or Parquet',
    request: {
      params: z.object({
        id: id.openapi({ param: { name: 'id', in: 'path' } }),
        table: z.enum(['pulls', 'curves']).openapi({ param: { name: 'table', in: 'path' } }),
      }),
      query: z.object({
        as: z.enum(['csv', 'parquet']).default('csv'),
        standard: airStandard.optional(),
      }),
    },
    responses: {
      200: {
        content: {
          'text/csv': { schema: z.any() },
          'application/vnd.apache.parquet': { schema: z.any() },
        },
        description: 'SI; each name ends in its unit, in Parquet also in the metadata `columns`',
      },
      ...refusals,
    },
  }),
};
