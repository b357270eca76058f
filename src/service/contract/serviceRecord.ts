/** The service record of an engine. */
import {
  airStandard,
  banded,
  bandRpm,
  id,
  isoDate,
  list,
  numberOrNull,
  orNull,
  z,
} from '../schema/common.ts';
import { engine } from '../schema/entities.ts';
import * as s from '../schema/service.ts';
import { answers, byId, createRoute, shelfRoutes } from './parts.ts';

const drift = z
  .object({
    changePercent: orNull(banded).openapi({
      description: 'Of mean power from the first of these days to the last; null: not known yet.',
    }),
    word: z.enum(['falls', 'rises', 'cannot be told from chance', 'not known yet']),
    fromDate: z.string().nullable(),
    toDate: z.string().nullable(),
    days: z.number().int(),
    sentence: z.string(),
  })
  .openapi('Drift');
const reading = z.object({
  low: numberOrNull,
  high: numberOrNull,
  mean: numberOrNull,
  count: z.number().int(),
  words: z.string().nullable(),
});
const serviceRecordBody = z
  .object({
    engine,
    standard: airStandard,
    builds: list(
      z.object({
        buildId: id,
        name: z.string(),
        assembledOn: z.string().nullable(),
        pulls: z.number().int(),
        fullThrottleS: z.number(),
        pullsOfUnknownTime: z.number().int(),
        hoursS: numberOrNull.openapi({ description: 'Since refresh, as the sheet says.' }),
        bandRpm: orNull(bandRpm).openapi({
          description: 'The speeds that all of its days below share.',
        }),
        leadDeg: numberOrNull.openapi({ description: 'The setting that most of its days have.' }),
        drift,
      }),
    ),
    days: list(
      z.object({
        dayId: id,
        buildId: id,
        name: z.string(),
        date: z.string().nullable(),
        pulls: z.number().int(),
        power: orNull(
          z.object({
            pulls: z.number().int(),
            leadDeg: numberOrNull,
            peakPowerW: banded,
            meanPowerW: banded,
          }),
        ).openapi({ description: 'Mean of its pulls at that setting; null: it has none.' }),
      }),
    ),
    condition: z.object({
      builds: list(z.object({ name: z.string(), on: z.string().nullable() })),
      measures: list(
        z.object({
          path: z.string(),
          label: z.string(),
          shown: z.string().nullable(),
          readings: list(orNull(reading)).openapi({ description: 'One for each of the builds.' }),
          by: numberOrNull,
        }),
      ),
    }),
    due: list(
      z.object({
        what: z.enum(['lash', 'head bolts', 'refresh', 'calibration']),
        state: z.enum(['due', 'not due', 'done', 'not known']),
        sentence: z.string(),
        on: z.string().nullable(),
      }),
    ),
  })
  .openapi('ServiceRecord');

export const serviceRecord = {
  get: createRoute({
    method: 'get',
    path: '/engines/{id}/service',
    tags: ['engines'],
    summary: 'What an engine has run, its condition and power over time, and what is due',
    request: {
      params: byId,
      query: z.object({
        on: isoDate
          .optional()
          .openapi({ description: 'The day from which to look; today where left out.' }),
        units: z
          .enum(['us', 'metric'])
          .optional()
          .openapi({ description: 'Of figures in sentences.' }),
      }),
    },
    responses: answers(serviceRecordBody, 'The service record'),
  }),
};

export const serviceEvents = shelfRoutes({
  tag: 'services',
  one: 'service of an engine',
  listPath: '/engines/{id}/service-events',
  listParams: byId,
  onePath: '/service-events/{id}',
  entity: s.serviceEvent,
  entities: list(s.serviceEvent),
  fresh: s.newServiceEvent,
  patch: s.serviceEventPatch,
});

export const serviceReadings = shelfRoutes({
  tag: 'service readings',
  one: 'service reading',
  listPath: '/engines/{id}/service-readings',
  listParams: byId,
  onePath: '/service-readings/{id}',
  entity: s.serviceReading,
  entities: list(s.serviceReading),
  fresh: s.newServiceReading,
  patch: s.serviceReadingPatch,
});
