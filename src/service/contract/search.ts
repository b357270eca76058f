/** One question over everything in the shop. */
import { FOUND_KINDS, MOST_QUERY_LETTERS } from '../../record/index.ts';
import { list, numberOrNull, orNull, z } from '../schema/common.ts';
import { answers, createRoute } from './parts.ts';

const found = z
  .object({
    kind: z.enum(FOUND_KINDS),
    label: z.string(),
    trail: z.string().openapi({ description: 'What it stands under, outermost first.' }),
    page: z.string().openapi({ description: 'Address of its page in the workbook.' }),
    date: z.string().nullable(),
    peakPowerW: numberOrNull.openapi({ description: 'Of a pull, in the air of its day.' }),
    peakTorqueNm: numberOrNull,
  })
  .openapi('Found');
const finding = z
  .object({
    found: list(found),
    total: z.number().int().openapi({ description: 'All that fit, also those not told.' }),
    peaks: orNull(
      z.object({ of: z.enum(['power', 'torque']), low: numberOrNull, high: numberOrNull }),
    ).openapi({ description: 'The peak range asked for, in W or N·m; a null end is open.' }),
    days: z.tuple([z.string().nullable(), z.string().nullable()]).readonly().nullable(),
    peaksNotKnown: z.number().int().nullable().openapi({
      description: 'Pulls whose peaks are still to be computed; asking begins it.',
    }),
  })
  .openapi('Finding');

export const search = {
  ask: createRoute({
    method: 'get',
    path: '/search',
    tags: ['search'],
    summary:
      'Everything of the shop that has these words: engines, builds, parts and serials, days, ladders, decisions, hand-overs, services, plans with their ticks, part tests, comparisons, uses, vehicles, calibrations, notes, files, pulls; with peaks (`power 700-800`, `300 to 320 kW`, `torque over 500 lb-ft`) and days (`2026-05`, `2026-01..2026-05`, `May to July 2026`, `since 2026-05`)',
    request: {
      query: z.object({
        q: z.string().max(MOST_QUERY_LETTERS),
        units: z.enum(['us', 'metric']).default('us').openapi({
          description: 'Of a peak whose unit is not said: hp and lb-ft, or kW and N·m.',
        }),
        limit: z.coerce.number().int().min(1).max(100).default(24),
      }),
    },
    responses: answers(finding, 'What was found, by kind, the newest first'),
  }),
};
