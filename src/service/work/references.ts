/** What the shop's own repeated pulls say of its cells: how days differ, and how far two pulls of one day do. */
import type { Side } from '../../compare/index.ts';
import { curveIn, meanPowerW } from '../../pull/index.ts';
import type { Id, PullbookRecord } from '../../record/index.ts';
import { type Repeatability, repeatabilityFrom } from '../../report/index.ts';
import type { DayContext } from './context.ts';
import { type FittedPull, type SidePulls, setPulls } from './sidePulls.ts';
import { type ChosenPull, dayName, type Sides } from './sides.ts';

/** More reference pulls tell little more and make a comparison slow. */
const MOST_PULLS = 24;
const MOST_A_DAY = 2;
/** As many repeated pulls say how far two differ to within a tenth of it. */
const ENOUGH_REPEATS = 60;

/** Pulls of one unchanged build at one setting on one cell, of several days. */
export interface References {
  readonly groups: readonly Side[];
  /** The shop marked their days. */
  readonly marked: boolean;
}

/**
 * Repeated pulls of one unchanged build on several days, made on these cells: days that the shop marked where there are
 * any, else what the record shows by itself (the same build, cell, setting and configuration).
 * @param among  only these days; null: all of the record
 */
export async function referencesOn(
  record: PullbookRecord,
  sides: Sides,
  pulls: SidePulls,
  cellIds: ReadonlySet<Id>,
  among: ReadonlySet<Id> | null = null,
): Promise<References> {
  const days = (await record.days.list()).filter(
    ({ id, cellId }) => cellIds.has(cellId) && (among?.has(id) ?? true),
  );
  const marked = days.filter(({ isReference }) => isReference);
  // The newest first: a cell changes with the years.
  const looked = (marked.length > 0 ? marked : days).toReversed();
  const ofBuild = new Map<string, typeof looked>();
  for (const day of looked) {
    const key = `${day.buildId} ${day.cellId}`;
    ofBuild.set(key, [...(ofBuild.get(key) ?? []), day]);
  }
  const groups: Side[] = [];
  let left = MOST_PULLS;
  for (const own of ofBuild.values()) {
    if (new Set(own.map(({ date, id }) => date ?? id)).size < 2) continue;
    const chosen: ChosenPull[] = [];
    for (const { id } of own) {
      const context = await sides.contextOf(id);
      for (const pull of await sides.pullsOf(id))
        if (pull.excludedBecause === null && !pull.aborted && pull.recordingSha256 !== null)
          chosen.push({ pull, context, why: null });
    }
    for (const alike of alikeOnSeveralDays(chosen)) {
      const some = alike.slice(0, left);
      if (new Set(some.map(dayOf)).size < 2) continue;
      const fitted: FittedPull[] = [];
      for (const one of some) fitted.push(await pulls.fitted(one));
      const known = fitted.filter(({ fit }) => fit !== null);
      left -= known.length;
      groups.push({ name: dayName(some[0]!.context), pulls: setPulls([known])[0]! });
    }
  }
  return { groups, marked: marked.length > 0 };
}

const dayOf = ({ context: { day } }: ChosenPull) => day.date ?? day.id;

/** Pulls that nothing in the record tells apart but their day, by what they share; a few of each day. */
function alikeOnSeveralDays(pulls: readonly ChosenPull[]): ChosenPull[][] {
  const byState = new Map<string, ChosenPull[]>();
  for (const one of pulls) {
    const state = stateOf(one);
    const alike = byState.get(state) ?? [];
    if (alike.filter((other) => dayOf(other) === dayOf(one)).length < MOST_A_DAY)
      byState.set(state, [...alike, one]);
  }
  return [...byState.values()].filter((alike) => new Set(alike.map(dayOf)).size > 1);
}

/** All that the record says of how the engine stood at a pull. */
function stateOf({ pull, context: { day, engine } }: ChosenPull): string {
  const configuration = { ...day.configuration, ...pull.configuration };
  return JSON.stringify([
    pull.leadDeg,
    pull.lambdaTarget ?? day.lambdaTarget,
    pull.jets,
    pull.loadPercent,
    pull.group,
    day.fuel ?? engine.fuel,
    day.octane,
    Object.entries(configuration).sort(([a], [b]) => a.localeCompare(b)),
  ]);
}

/**
 * How far two pulls of one setting differ on the cell of a day: as the shop states it, else from all pulls that were
 * repeated within a day on that cell, the newest first, else as usual.
 */
export async function repeatabilityOn(
  record: PullbookRecord,
  sides: Sides,
  pulls: SidePulls,
  { shop, cell }: Pick<DayContext, 'shop' | 'cell'>,
): Promise<Repeatability> {
  if (shop.repeatabilityPercent !== null)
    return repeatabilityFrom({ statedPercent: shop.repeatabilityPercent });
  const squares: { square: number; freedom: number }[] = [];
  let counted = 0;
  const days = (await record.days.list()).filter(({ cellId }) => cellId === cell.id);
  for (const day of days.toReversed()) {
    if (counted >= ENOUGH_REPEATS) break;
    const context = await sides.contextOf(day.id);
    const byState = new Map<string, ChosenPull[]>();
    for (const pull of await sides.pullsOf(day.id)) {
      if (pull.excludedBecause !== null || pull.aborted || pull.recordingSha256 === null) continue;
      const one = { pull, context, why: null };
      byState.set(stateOf(one), [...(byState.get(stateOf(one)) ?? []), one]);
    }
    for (const alike of byState.values()) {
      if (alike.length < 2) continue;
      const logs: number[] = [];
      for (const one of alike) logs.push(...(await logPower(pulls, one)));
      if (logs.length < 2) continue;
      const mean = logs.reduce((sum, value) => sum + value, 0) / logs.length;
      squares.push({
        square: logs.reduce((sum, value) => sum + (value - mean) ** 2, 0),
        freedom: logs.length - 1,
      });
      counted += logs.length;
    }
  }
  return repeatabilityFrom({ squares, pulls: counted, cell: cell.name });
}

/** Log mean power of a pull over all it swept; nothing where it has no curve. */
async function logPower(pulls: SidePulls, one: ChosenPull): Promise<number[]> {
  const { fit } = await pulls.fitted(one);
  if (fit === null) return [];
  const { shop, day } = one.context;
  const curve = curveIn(fit, { standard: day.standard ?? shop.standard });
  const { low, high } = curve.spline;
  return [Math.log(meanPowerW(curve, [low, high]).value)];
}
