/** Tables of a test day, for a spreadsheet or a program. */
import { airStandard, id, z } from '../schema/common.ts';
import { createRoute, refusals, takenAs, takenContent } from './parts.ts';

export const dayTables = {
  get: createRoute({
    method: 'get',
    path: '/days/{id}/tables/{table}',
    tags: ['days'],
    summary:
      'The pulls of a day, or their curves, with the unit of every column: CSV, a workbook or Parquet',
    request: {
      params: z.object({
        id: id.openapi({ param: { name: 'id', in: 'path' } }),
        table: z.enum(['pulls', 'curves']).openapi({ param: { name: 'table', in: 'path' } }),
      }),
      query: z.object({
        as: takenAs.default('csv'),
        standard: airStandard.optional(),
      }),
    },
    responses: {
      200: {
        content: takenContent,
        description:
          'SI; each name ends in its unit; in Parquet also in the metadata `columns`, in a workbook in the heads and on its second sheet',
      },
      ...refusals,
    },
  }),
};
