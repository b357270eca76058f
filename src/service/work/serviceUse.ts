/** What an engine has run since its last refresh, and how its cylinders were read since, out of the record. */
import {
  type CylinderReading,
  type RefreshUse,
  type UsedOn,
  type Wear,
  type WearMeasure,
  wearOf,
  wearSentences,
} from '../../build/index.ts';
import { fieldOf } from '../../build/sections/index.ts';
import { isEach, type Sheet } from '../../build/sheet/types.ts';
import { insideOf } from '../../build/sheet/units.ts';
import type { Engine, Id, Pull, ServiceEvent, ServiceReading } from '../../record/index.ts';
import type { UnitSystem } from '../../units/index.ts';

/** A build as far as its service goes. */
export interface RanBuild {
  readonly id: Id;
  readonly name: string;
  readonly assembledOn: string | null;
  readonly sheet: Sheet | null;
  /** Hours since refresh, as its sheet says [s]. */
  readonly hoursS: number | null;
  readonly days: readonly {
    readonly date: string | null;
    readonly pulls: readonly Pull[];
    /** Of each pull [s]; null: not known. */
    readonly timesS: readonly (number | null)[];
  }[];
}

/** When a build began: assembled, or else first tested; null: not known. */
const begunOn = ({ assembledOn, days }: RanBuild): string | null =>
  assembledOn ??
  days
    .flatMap(({ date }) => date ?? [])
    .sort()
    .at(0) ??
  null;

/** The last refresh: one that was written down, or the beginning of the newest build where that is later. */
function lastRefresh(builds: readonly RanBuild[], events: readonly ServiceEvent[]) {
  const newest = builds.at(-1);
  const refreshed = events.filter(({ kind }) => kind === 'refresh').at(-1) ?? null;
  const begun = newest === undefined ? null : begunOn(newest);
  return refreshed !== null && (begun === null || refreshed.doneOn >= begun)
    ? { event: refreshed, what: 'its refresh', on: refreshed.doneOn }
    : { event: null, what: newest?.name ?? 'it came', on: begun };
}
type LastRefresh = ReturnType<typeof lastRefresh>;

export function refreshUseOf(
  engine: Engine,
  builds: readonly RanBuild[],
  events: readonly ServiceEvent[],
  readings: readonly ServiceReading[],
): RefreshUse {
  const since = lastRefresh(builds, events);
  const all = builds.flatMap(({ days }) => days);
  // After a refresh within a build its days count from that date on; one without a date cannot be placed.
  const counted =
    since.event === null
      ? (builds.at(-1)?.days ?? [])
      : all.filter(({ date }) => date !== null && date >= since.event!.doneOn);
  const times = counted.flatMap(({ timesS }) => timesS);
  const sum = (values: readonly (number | null)[]) =>
    values.reduce<number>((total, one) => total + (one ?? 0), 0);
  const dated = all.flatMap(({ date, pulls, timesS }) =>
    date === null || pulls.length === 0 ? [] : [{ date, pulls: pulls.length, timesS }],
  );
  const log = hoursLog(events, readings);
  return {
    after: {
      runS: engine.refreshAfterS,
      pulls: engine.refreshAfterPulls,
      throttleS: engine.refreshAfterThrottleS,
      months: engine.refreshAfterMonths,
    },
    since: { what: since.what, on: since.on },
    ranS: ranSince(since, log) ?? (since.event === null ? (builds.at(-1)?.hoursS ?? null) : null),
    ranOn: log.map(({ date, hoursS }, at) => ({
      date,
      amount: at === 0 ? 0 : hoursS - log[at - 1]!.hoursS,
    })),
    pulls: times.length,
    pullsOn: dated.map(({ date, pulls }): UsedOn => ({ date, amount: pulls })),
    throttleS: sum(times),
    pullsOfUnknownTime: times.filter((time) => time === null).length,
    throttleOn: dated.map(({ date, timesS }) => ({ date, amount: sum(timesS) })),
  };
}

/** What the meter or log said by date, from where it last began anew. */
function hoursLog(events: readonly ServiceEvent[], readings: readonly ServiceReading[]) {
  const log = [
    ...events.map(({ doneOn, hoursS }) => ({ date: doneOn, hoursS })),
    ...readings.map(({ readOn, hoursS }) => ({ date: readOn, hoursS })),
  ]
    .flatMap(({ date, hoursS }) => (hoursS === null ? [] : [{ date, hoursS }]))
    .sort((a, b) => a.date.localeCompare(b.date) || a.hoursS - b.hoursS);
  const anew = log.findLastIndex(({ hoursS }, at) => at > 0 && hoursS < log[at - 1]!.hoursS);
  return anew < 0 ? log : log.slice(anew);
}

/** The last entry less the one of the day of the refresh; null where either is missing. */
function ranSince({ event, on }: LastRefresh, log: ReturnType<typeof hoursLog>): number | null {
  const from = event?.hoursS ?? log.find(({ date }) => date === on)?.hoursS ?? null;
  const to = log.at(-1);
  if (from === null || to === undefined || on === null || to.date < on) return null;
  // Another meter since: what this one says cannot be taken from what the other said.
  if (log[0]!.date > on) return null;
  return to.hoursS < from ? null : to.hoursS - from;
}

/** One reading of the cylinders, where it came from, and whether it is in the answer. */
export interface WearReading extends CylinderReading {
  readonly from: 'sheet' | 'reading';
  /** Of the reading or the build. */
  readonly id: Id;
  /** Since the last refresh: readings of before it say nothing of this state of the engine. */
  readonly counts: boolean;
}
export interface WearTold {
  readonly measure: WearMeasure;
  readonly readings: readonly WearReading[];
  readonly answer: Wear;
  readonly sentences: readonly string[];
}

const MEASURES = [
  ['leakDown', 'leakDown', 'leakDownError'],
  ['crankingPressure', 'crankingGaugePa', 'crankingErrorPa'],
] as const;

export function wearToldOf(
  builds: readonly RanBuild[],
  events: readonly ServiceEvent[],
  readings: readonly ServiceReading[],
  units: UnitSystem,
): WearTold[] {
  const { on } = lastRefresh(builds, events);
  return MEASURES.map(([measure, valuesOf, errorOf]) => {
    const all = [
      ...builds.flatMap((build) => sheetReading(build, measure) ?? []),
      ...readings.flatMap((one) =>
        one[valuesOf] === null
          ? []
          : [
              {
                date: one.readOn,
                values: one[valuesOf],
                error: one[errorOf],
                from: 'reading' as const,
                id: one.id,
              },
            ],
      ),
    ]
      .map((one): WearReading => ({ ...one, counts: on === null || one.date >= on }))
      .sort((a, b) => a.date.localeCompare(b.date));
    const answer = wearOf(
      all.filter(({ counts }) => counts),
      measure,
    );
    return { measure, readings: all, answer, sentences: wearSentences(answer, measure, units) };
  });
}

/** What a build's sheet says of its cylinders; it was measured when the build began. */
function sheetReading(build: RanBuild, measure: WearMeasure): Omit<WearReading, 'counts'> | null {
  const entry = build.sheet?.sections.condition?.values?.[measure];
  const date = begunOn(build);
  if (entry === undefined || !isEach(entry) || date === null) return null;
  const field = fieldOf(`condition.${measure}`)!;
  const inside = (value: number) => insideOf(field, value, entry.unit);
  return {
    date,
    values: entry.each.map((value) => (value === null ? null : inside(value))),
    error: entry.plusMinus === undefined ? null : inside(entry.plusMinus),
    from: 'sheet',
    id: build.id,
  };
}
