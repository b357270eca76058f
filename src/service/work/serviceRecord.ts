/** What the record says of an engine's service, put together for the room that judges it. */
import {
  type BuildSheet,
  type Drift,
  type DueItem,
  driftOf,
  dueOf,
  type PlanOfDay,
  partOverTime,
  type RefreshDue,
  refreshDueOf,
} from '../../build/index.ts';
import type { Plan } from '../../build/plan/index.ts';
import { fieldOf } from '../../build/sections/index.ts';
import { type Entry, isEach } from '../../build/sheet/types.ts';
import { insideOf } from '../../build/sheet/units.ts';
import { type Curve, meanCurve } from '../../pull/index.ts';
import type { AirStandard } from '../../pull/recording.ts';
import type { Build, Id, Pull, PullbookRecord, TestDay } from '../../record/index.ts';
import type { UnitSystem } from '../../units/index.ts';
import { calibrationOn } from './calibrations.ts';
import type { Curves } from './curves.ts';
import { type RanBuild, refreshUseOf, wearToldOf } from './serviceUse.ts';

interface Banded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
/** A test day as the service record tells it. */
export interface ServiceDay {
  readonly dayId: Id;
  readonly buildId: Id;
  readonly name: string;
  readonly date: string | null;
  readonly pulls: number;
  /** Of the pulls that stand at the setting of most days; null: the day has none. */
  readonly power: {
    readonly pulls: number;
    readonly leadDeg: number | null;
    readonly peakPowerW: Banded;
    /** Over the speeds that all of these days of its build share. */
    readonly meanPowerW: Banded;
  } | null;
}
export interface ServiceBuild {
  readonly buildId: Id;
  readonly name: string;
  readonly assembledOn: string | null;
  readonly pulls: number;
  /** Of the pulls whose speeds and sweep rate are known. */
  readonly fullThrottleS: number;
  readonly pullsOfUnknownTime: number;
  /** As the sheet says, since refresh. */
  readonly hoursS: number | null;
  readonly bandRpm: readonly [number, number] | null;
  readonly leadDeg: number | null;
  readonly drift: Drift;
}

interface Worked {
  readonly day: TestDay;
  readonly pulls: readonly Pull[];
  readonly curves: readonly (Curve | null)[];
}

/** @param on  ISO day from which to look at what is due */
export async function serviceRecordOf(
  record: PullbookRecord,
  curves: Curves,
  engineId: Id,
  { on, units }: { readonly on: string; readonly units: UnitSystem },
) {
  const engine = await record.engines.get(engineId);
  const builds = await record.builds.list({ engineId });
  const { repeatabilityPercent, standard } = await record.shop.get();
  const told: ServiceBuild[] = [];
  const days: ServiceDay[] = [];
  const sheets: BuildSheet[] = [];
  const ran: RanBuild[] = [];
  for (const build of builds) {
    const worked: Worked[] = [];
    for (const day of await record.days.list({ buildId: build.id })) {
      const pulls = await record.pulls.list({ dayId: day.id });
      const of = await curves.ofDay(day.id, { standard });
      worked.push({ day, pulls, curves: of.map(({ curve }) => curve) });
    }
    const { sheet } = await record.sheets.get(build.id);
    if (sheet !== null)
      sheets.push({
        engine: engine.name,
        build: build.name,
        sheet,
        testedOn: worked.find(({ day }) => day.date !== null)?.day.date ?? null,
      });
    const condition = sheet?.sections.condition?.values;
    const { bandRpm, leadDeg, ofDay } = powerOf(worked, repeatabilityPercent);
    const own = worked.map(
      ({ day, pulls }, at): ServiceDay => ({
        dayId: day.id,
        buildId: build.id,
        name: day.name,
        date: day.date,
        pulls: pulls.length,
        power: ofDay[at]!,
      }),
    );
    days.push(...own);
    const dayTimes = worked.map(({ day, pulls, curves: all }) => ({
      date: day.date,
      pulls,
      timesS: pulls.map((pull, at) => throttleS(pull, all[at] ?? null)),
    }));
    const times = dayTimes.flatMap(({ timesS }) => timesS);
    const hoursS = numberOf('condition.hours', condition?.hours);
    const assembledOn = wordOf(condition?.assembled);
    ran.push({ id: build.id, name: build.name, assembledOn, sheet, hoursS, days: dayTimes });
    told.push({
      buildId: build.id,
      name: build.name,
      assembledOn,
      pulls: times.length,
      fullThrottleS: times.reduce<number>((sum, time) => sum + (time ?? 0), 0),
      pullsOfUnknownTime: times.filter((time) => time === null).length,
      hoursS,
      bandRpm,
      leadDeg,
      drift: driftOf(
        own.flatMap(({ date, power }) =>
          date === null || power === null ? [] : [{ date, meanPowerW: power.meanPowerW.value }],
        ),
      ),
    });
  }
  const newest = builds.at(-1);
  const events = await record.serviceEvents.list({ engineId });
  const readings = await record.serviceReadings.list({ engineId });
  const refresh = refreshDueOf(refreshUseOf(engine, ran, events, readings), on);
  const due = newest === undefined ? [] : await dueItems(record, newest, refresh, on, units);
  return {
    engine,
    standard: standard as AirStandard,
    builds: told,
    days,
    condition: conditionOf(sheets),
    refresh,
    events,
    readings,
    wear: wearToldOf(ran, events, readings, units),
    due,
  };
}

/** From the speeds a pull went through and how fast [s]; null where either is not known. */
function throttleS({ span }: Pull, curve: Curve | null): number | null {
  const rate = Math.abs(curve?.conditions.sweepRateRpmPerS ?? 0);
  return span === null || rate === 0 ? null : Math.abs(span.toRpm - span.fromRpm) / rate;
}

/** The power of each day at the setting that most days have, over the speeds that those days share. */
function powerOf(worked: readonly Worked[], repeatabilityPercent: number | null) {
  const chosen = worked.map(({ pulls, curves }) =>
    pulls.flatMap((pull, at) =>
      pull.excludedBecause === null && !pull.aborted && curves[at] != null
        ? [{ leadDeg: pull.leadDeg, curve: curves[at]! }]
        : [],
    ),
  );
  const daysAt = new Map<number | null, number>();
  for (const of of chosen)
    for (const lead of new Set(of.map(({ leadDeg }) => leadDeg)))
      daysAt.set(lead, (daysAt.get(lead) ?? 0) + 1);
  // Of settings that as many days have, the one of most pulls, then the later one.
  const pullsAt = (lead: number | null) =>
    chosen.flat().filter(({ leadDeg }) => leadDeg === lead).length;
  const leadDeg =
    [...daysAt.keys()].sort(
      (a, b) => daysAt.get(b)! - daysAt.get(a)! || pullsAt(b) - pullsAt(a),
    )[0] ?? null;
  const means = chosen.map((of) => {
    const at = of.filter((one) => one.leadDeg === leadDeg).map(({ curve }) => curve);
    if (at.length === 0) return null;
    try {
      return meanCurve(at, ...(repeatabilityPercent === null ? [] : [repeatabilityPercent / 100]));
    } catch {
      // Pulls without speeds in common have no mean.
      return null;
    }
  });
  const known = means.filter((mean) => mean !== null);
  const low = Math.max(...known.map(({ speedRpm }) => speedRpm[0]!));
  const high = Math.min(...known.map(({ speedRpm }) => speedRpm.at(-1)!));
  const bandRpm = known.length > 0 && high > low ? ([low, high] as const) : null;
  const ofDay = means.map((mean): ServiceDay['power'] => {
    if (mean === null || bandRpm === null) return null;
    const { value, low, high } = mean.peakPower;
    return {
      pulls: mean.pulls,
      leadDeg,
      peakPowerW: { value, low, high },
      meanPowerW: mean.over(bandRpm).powerW,
    };
  });
  return { bandRpm, leadDeg: known.length === 0 ? null : leadDeg, ofDay };
}

/** What was measured of its condition at each build, in the order of the builds. */
function conditionOf(sheets: readonly BuildSheet[]) {
  const stays = sheets.map(({ sheet }) => ({
    section: 'condition',
    measured: sheet.sections.condition?.values ?? {},
    tables: {},
  }));
  const wanted = new Set(['condition.leakDown', 'condition.crankingPressure']);
  return {
    builds: sheets.map(({ build, sheet, testedOn }) => ({
      name: build,
      on: wordOf(sheet.sections.condition?.values?.assembled) ?? testedOn ?? null,
    })),
    measures: partOverTime(stays).measures.filter(({ path }) => wanted.has(path)),
  };
}

async function dueItems(
  record: PullbookRecord,
  build: Build,
  refresh: RefreshDue,
  on: string,
  units: UnitSystem,
): Promise<DueItem[]> {
  const plans: PlanOfDay[] = [];
  const cellIds = new Set<Id>();
  for (const day of await record.days.list({ buildId: build.id })) {
    cellIds.add(day.cellId);
    const newest = [...(await record.plans.list({ dayId: day.id }))].sort((a, b) =>
      a.madeAt.localeCompare(b.madeAt),
    );
    const plan = newest.at(-1);
    if (plan === undefined) continue;
    const ticks = await record.plans.ticks(plan.id);
    plans.push({
      date: day.date,
      plan: plan.plan as Plan,
      ticks: ticks.map(({ itemId, who, tickedAt }) => ({ itemId, who, at: tickedAt })),
    });
  }
  const cells = [];
  for (const id of cellIds) {
    const cell = await record.cells.get(id);
    const { torque } = (await calibrationOn(record, cell, on)).state;
    cells.push({
      cell: cell.name,
      doneOn: torque?.doneOn ?? null,
      dueIso: torque?.due?.dueIso ?? null,
      isDue: torque?.due?.isDue ?? false,
    });
  }
  return dueOf(plans, cells, refresh, units);
}

type Measured = Entry | { readonly each: readonly (number | null)[] } | undefined;
function wordOf(entry: Measured): string | null {
  return entry !== undefined && 'value' in entry && typeof entry.value === 'string'
    ? entry.value
    : null;
}
function numberOf(path: string, entry: Measured): number | null {
  if (entry === undefined || isEach(entry as Entry) || !('value' in entry)) return null;
  return typeof entry.value === 'number' ? insideOf(fieldOf(path)!, entry.value, entry.unit) : null;
}
