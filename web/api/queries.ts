import { keepPreviousData, QueryClient, queryOptions } from '@tanstack/react-query';
import type { UnitSystem } from '../../src/units/index.ts';
import { ask, ServiceError } from './client.ts';
import type { AirStandard, LadderReading, PartWanted, SideWanted } from './types.gen.ts';

/** Everything the screens ask, under the keys by which a change makes it stale. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 30_000,
      refetchOnWindowFocus: true,
      // A refusal with a reason will be the same a second later; only silence is worth a second try.
      retry: (times, error) =>
        error instanceof ServiceError && error.code === 'silent' && times < 2,
    },
  },
});

export const shopQuery = queryOptions({
  queryKey: ['shop', 'summary'],
  queryFn: () => ask('GET /shop/summary', {}),
});

export const shopSettingsQuery = queryOptions({
  queryKey: ['shop', 'settings'],
  queryFn: () => ask('GET /shop', {}),
});

export const cellsQuery = queryOptions({
  queryKey: ['cells'],
  queryFn: () => ask('GET /cells', {}),
});

/** @param on  the day from which to look */
export const calibrationsQuery = (cellId: string, on: string) =>
  queryOptions({
    queryKey: ['cells', cellId, 'calibrations', on],
    queryFn: () => ask('GET /cells/{id}/calibrations', { params: { id: cellId }, query: { on } }),
  });

export const calibrationQuery = (id: string, on: string) =>
  queryOptions({
    queryKey: ['calibrations', id, on],
    queryFn: () => ask('GET /calibrations/{id}', { params: { id }, query: { on } }),
  });

export const enginePageQuery = (id: string) =>
  queryOptions({
    queryKey: ['engines', id, 'page'],
    queryFn: () => ask('GET /engines/{id}/page', { params: { id } }),
  });

export const buildQuery = (id: string) =>
  queryOptions({
    queryKey: ['builds', id],
    queryFn: () => ask('GET /builds/{id}', { params: { id } }),
  });

export const sheetQuery = (id: string) =>
  queryOptions({
    queryKey: ['builds', id, 'sheet'],
    queryFn: () => ask('GET /builds/{id}/sheet', { params: { id } }),
  });

export const buildFilesQuery = (id: string) =>
  queryOptions({
    queryKey: ['builds', id, 'files'],
    queryFn: () => ask('GET /builds/{id}/files', { params: { id } }),
  });

export const partsQuery = queryOptions({
  queryKey: ['parts'],
  queryFn: () => ask('GET /parts', {}),
});

/** @param on  the day from which to look at what is due */
export const serviceQuery = (id: string, on: string, units: UnitSystem) =>
  queryOptions({
    queryKey: ['engines', id, 'service', on, units],
    queryFn: () => ask('GET /engines/{id}/service', { params: { id }, query: { on, units } }),
    placeholderData: keepPreviousData,
  });

/** What was found before stays until the new finds are there. */
export const searchQuery = (q: string, units: UnitSystem) =>
  queryOptions({
    queryKey: ['search', q, units],
    queryFn: () => ask('GET /search', { query: { q, units } }),
    placeholderData: keepPreviousData,
    // Peaks are computed behind the first question; a second one has more of them.
    refetchInterval: ({ state }) => ((state.data?.peaksNotKnown ?? 0) > 0 ? 1500 : false),
  });

export const partHistoryQuery = (serial: string) =>
  queryOptions({
    queryKey: ['parts', serial],
    queryFn: () => ask('GET /parts/history', { query: { serial } }),
  });

export const planQuery = (dayId: string) =>
  queryOptions({
    queryKey: ['days', dayId, 'plan'],
    queryFn: () => ask('GET /days/{id}/plan', { params: { id: dayId } }),
  });

export const dayPageQuery = (id: string) =>
  queryOptions({
    queryKey: ['days', id, 'page'],
    queryFn: () => ask('GET /days/{id}/page', { params: { id } }),
  });

/** Left out where the day's own standard is wanted. */
const inStandard = (standard: AirStandard | null) => (standard === null ? {} : { standard });

/** The curves of a day; those of the standard shown before stay until the new ones are there. */
export const dayCurvesQuery = (id: string, standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['days', id, 'curves', standard],
    queryFn: () => ask('GET /days/{id}/curves', { params: { id }, query: inStandard(standard) }),
    placeholderData: keepPreviousData,
  });

export const bothQuery = (id: string, standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['days', id, 'both', standard],
    queryFn: () => ask('GET /days/{id}/both', { params: { id }, query: inStandard(standard) }),
    placeholderData: keepPreviousData,
  });

export const pullQuery = (id: string) =>
  queryOptions({
    queryKey: ['pulls', id],
    queryFn: () => ask('GET /pulls/{id}', { params: { id } }),
  });

export const pullCurveQuery = (id: string, standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['pulls', id, 'curve', standard],
    queryFn: () => ask('GET /pulls/{id}/curve', { params: { id }, query: inStandard(standard) }),
    placeholderData: keepPreviousData,
  });

/** Rows of a recording between which it is drawn, both included; null: all of it. */
export type RowWindow = { readonly fromRow: number; readonly toRow: number } | null;

export const traceQuery = (id: string, points: number, whole: boolean, rows: RowWindow) =>
  queryOptions({
    queryKey: ['pulls', id, 'trace', points, whole, rows],
    queryFn: () =>
      ask('GET /pulls/{id}/trace', {
        params: { id },
        query: { points, whole: whole ? 'true' : 'false', ...rows },
      }),
  });

export const understoodQuery = (sha256: string, cellId: string) =>
  queryOptions({
    queryKey: ['understood', sha256, cellId],
    queryFn: () =>
      ask('GET /recordings/{sha256}/understood', { params: { sha256 }, query: { cellId } }),
  });

export const ladderQuery = (id: string) =>
  queryOptions({
    queryKey: ['ladders', id],
    queryFn: () => ask('GET /ladders/{id}', { params: { id } }),
  });

export const readingQuery = (id: string, standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['ladders', id, 'reading', standard],
    queryFn: async () =>
      revived(
        await ask('GET /ladders/{id}/reading', { params: { id }, query: inStandard(standard) }),
      ),
    placeholderData: keepPreviousData,
  });

/** JSON has no NaN: bins of a knock channel without samples cross as null and become NaN again here. */
export function revived(reading: LadderReading): LadderReading {
  if (reading.input === null) return reading;
  const pulls = reading.input.pulls.map((pull) =>
    pull.knock === null
      ? pull
      : { ...pull, knock: { ...pull.knock, level: pull.knock.level.map(orNaN) } },
  );
  return { ...reading, input: { ...reading.input, pulls } };
}

const orNaN = (value: number | null): number => value ?? Number.NaN;

/** Sides brought together, their curves included; the browser compares them itself. */
export const membersQuery = (sides: readonly SideWanted[], standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['compare', sides, standard],
    queryFn: () => ask('POST /compare/members', { body: { sides, ...inStandard(standard) } }),
    placeholderData: keepPreviousData,
  });

export const partTestsQuery = (dayId: string) =>
  queryOptions({
    queryKey: ['days', dayId, 'part tests'],
    queryFn: () => ask('GET /days/{id}/part-tests', { params: { id: dayId } }),
  });

/** What a part test would take; the plan before stays until the new one is there. */
export const partPreviewQuery = (dayId: string, wanted: PartWanted) =>
  queryOptions({
    queryKey: ['days', dayId, 'part plan', wanted],
    queryFn: () => ask('POST /days/{id}/part-tests/plan', { params: { id: dayId }, body: wanted }),
    placeholderData: keepPreviousData,
  });

export const partReadingQuery = (id: string) =>
  queryOptions({
    queryKey: ['part tests', id],
    queryFn: () => ask('GET /part-tests/{id}/reading', { params: { id } }),
  });

/** Builds brought together for a use or a vehicle; one is enough. */
export const useMembersQuery = (sides: readonly SideWanted[], standard: AirStandard | null) =>
  queryOptions({
    queryKey: ['use', sides, standard],
    queryFn: () => ask('POST /use/members', { body: { sides, ...inStandard(standard) } }),
    placeholderData: keepPreviousData,
  });

export const vehiclesQuery = (engineId: string) =>
  queryOptions({
    queryKey: ['engines', engineId, 'vehicles'],
    queryFn: () => ask('GET /engines/{id}/vehicles', { params: { id: engineId } }),
  });

export const usesQuery = (engineId: string) =>
  queryOptions({
    queryKey: ['engines', engineId, 'uses'],
    queryFn: () => ask('GET /engines/{id}/uses', { params: { id: engineId } }),
  });

export const comparisonsQuery = (engineId: string) =>
  queryOptions({
    queryKey: ['engines', engineId, 'comparisons'],
    queryFn: () => ask('GET /engines/{id}/comparisons', { params: { id: engineId } }),
  });

export const handOversQuery = (buildId: string) =>
  queryOptions({
    queryKey: ['builds', buildId, 'hand-overs'],
    queryFn: () => ask('GET /builds/{id}/handovers', { params: { id: buildId } }),
  });

export const standingQuery = (buildId: string, standard: AirStandard | null, units: UnitSystem) =>
  queryOptions({
    queryKey: ['builds', buildId, 'findings', standard, units],
    queryFn: () =>
      ask('GET /builds/{id}/findings', {
        params: { id: buildId },
        query: { units, ...inStandard(standard) },
      }),
    placeholderData: keepPreviousData,
  });

export const findingsQuery = (id: string, language: 'en' | 'de', units: UnitSystem) =>
  queryOptions({
    queryKey: ['hand-overs', id, 'findings', language, units],
    queryFn: () =>
      ask('GET /handovers/{id}/findings', { params: { id }, query: { language, units } }),
    placeholderData: keepPreviousData,
  });

export const handOverReplayQuery = (id: string, language: 'en' | 'de', units: UnitSystem) =>
  queryOptions({
    queryKey: ['hand-overs', id, 'replay', language, units],
    queryFn: () =>
      ask('GET /handovers/{id}/replay', { params: { id }, query: { language, units } }),
    retry: false,
  });

export const pullReplayQuery = (
  id: string,
  beside: string | null,
  standard: AirStandard | null,
  units: UnitSystem,
) =>
  queryOptions({
    queryKey: ['pulls', id, 'replay', beside, standard, units],
    queryFn: () =>
      ask('GET /pulls/{id}/replay', {
        params: { id },
        query: { units, ...inStandard(standard), ...(beside === null ? {} : { beside }) },
      }),
    placeholderData: keepPreviousData,
  });

export const shopKeyQuery = queryOptions({
  queryKey: ['shop', 'key'],
  queryFn: () => ask('GET /shop/key', {}),
});

export const EVENTS_A_PAGE = 60;

export const eventsQuery = (before: number | null) =>
  queryOptions({
    queryKey: ['events', before],
    queryFn: () =>
      ask('GET /events', {
        query: { limit: EVENTS_A_PAGE, ...(before === null ? {} : { before }) },
      }),
  });
