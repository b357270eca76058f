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
const iso = z.string().nullable();
const refreshDue = z
  .object({
    state: z.enum(['due', 'not due', 'not known']),
    since: z.object({ what: z.string(), on: iso }),
    lines: list(
      z.object({
        by: z.enum(['hours', 'pulls', 'full throttle', 'months']),
        after: z.number().openapi({ description: '[s], a number of pulls, or months.' }),
        used: numberOrNull,
        isDue: z.boolean(),
        on: iso,
        earliest: iso,
        latest: iso,
        why: z.enum(['too few days', 'has stood', 'not read', 'no day']).nullable().openapi({
          description: 'Why no day is known.',
        }),
      }),
    ),
    on: iso.openapi({ description: 'Of the line that comes first.' }),
    sentence: z.string(),
  })
  .openapi('RefreshDue', { description: 'By what the shop states; whichever comes first.' });
const change = { value: z.number(), low: z.number(), high: z.number() };
const wear = z
  .object({
    measure: z.enum(['leakDown', 'crankingPressure']),
    readings: list(
      z.object({
        date: z.string(),
        values: list(numberOrNull).openapi({ description: 'By cylinder: a share, or Pa.' }),
        error: numberOrNull,
        from: z.enum(['sheet', 'reading']),
        id,
        counts: z.boolean().openapi({ description: 'It was read since the last refresh.' }),
      }),
    ),
    answer: z.object({
      word: z.enum(['moved', 'cannot be told from chance', 'not known yet']),
      fromDate: iso,
      toDate: iso,
      dates: z.number().int(),
      cylinders: z.number().int(),
      moved: list(z.object({ cylinder: z.number().int(), against: z.object(change) })),
      together: orNull(z.object({ ...change, moved: z.boolean() })),
      newest: orNull(
        z.object({
          date: z.string(),
          worstCylinder: z.number().int(),
          worst: z.number(),
          mean: z.number(),
          spread: numberOrNull,
        }),
      ),
    }),
    sentences: list(z.string()),
  })
  .openapi('WearTold', {
    description:
      'Leak-down or cranking pressure over time. Changes are from the first date to the last; intervals are 95 % over all that is asked of one measure.',
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
    refresh: refreshDue,
    events: list(s.serviceEvent),
    readings: list(s.serviceReading),
    wear: list(wear),
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
