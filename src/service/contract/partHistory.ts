/** Parts that move between engines, by the shop's own serial. */
import { id, isoDate, list, z } from '../schema/common.ts';
import { answers, createRoute, noParams } from './parts.ts';

const partSerial = z
  .object({
    serial: z.string(),
    name: z.string(),
    section: z.string(),
    builds: z.number().int().openapi({ description: 'In how many builds it stands.' }),
  })
  .openapi('PartSerial');
const partStay = z
  .looseObject({ engine: z.string(), build: z.string(), section: z.string(), name: z.string() })
  .openapi('PartStay', {
    description:
      'One build that the part was in: what its sheet says of date, hours and pulls, and what was measured in its section, as typed.',
  });
const partHistory = z
  .object({
    serial: z.string(),
    stays: list(
      z.object({
        engineId: id,
        buildId: id,
        stay: partStay,
        days: list(
          z.object({
            id,
            name: z.string(),
            date: isoDate.nullable(),
            pullCount: z.number().int(),
          }),
        ).openapi({ description: 'Test days of the build, in the order of their dates.' }),
      }),
    ),
  })
  .openapi('PartHistory', {
    description: 'Where a part has been; no stay where no sheet names it.',
  });

export const parts = {
  list: createRoute({
    method: 'get',
    path: '/parts',
    tags: ['parts'],
    summary: 'All parts of the shop that have a serial',
    request: { params: noParams },
    responses: answers(list(partSerial), 'Parts by serial'),
  }),
  history: createRoute({
    method: 'get',
    path: '/parts/history',
    tags: ['parts'],
    summary: 'Where a part has been, what was measured of it, and the pulls it has seen',
    request: { query: z.object({ serial: z.string().trim().min(1).max(200) }) },
    responses: answers(partHistory, 'Its stays, by date of assembly'),
  }),
};
