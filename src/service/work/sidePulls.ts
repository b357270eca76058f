/** Pulls of sides with all that is needed to bring them together: day, cell, calibration, setting, configuration. */
import type { PeakSide } from '../../compare/index.ts';
import { calibrationRelSd, type PullFit } from '../../pull/index.ts';
import type { Calibration, Id, Pull, PullbookRecord } from '../../record/index.ts';
import { configurationWords, type SetPull } from '../../report/index.ts';
import type { DayContext } from './context.ts';
import type { Curves } from './curves.ts';
import { configurationFields } from './ladders.ts';
import { type ChosenPull, dayName, type Sides, settingWords } from './sides.ts';

/** A chosen pull with its fit, or why it has none. */
export interface FittedPull extends ChosenPull {
  readonly fit: PullFit | null;
  readonly day: string;
  readonly order: number;
  readonly calibration: Calibration | null;
  /** Lambda of the pull, else of its day. */
  readonly lambda: number | null;
  readonly label: string;
}

/** Fits pulls of the record for one comparison; what several sides share is asked for once. */
export class SidePulls {
  readonly #record: PullbookRecord;
  readonly #curves: Curves;
  readonly #sides: Sides;
  readonly #orders = new Map<string, ReadonlyMap<Id, number>>();

  constructor(record: PullbookRecord, curves: Curves, sides: Sides) {
    this.#record = record;
    this.#curves = curves;
    this.#sides = sides;
  }

  async fitted(chosen: ChosenPull): Promise<FittedPull> {
    const { pull, context } = chosen;
    const found = await this.#curves.fitOf(context, pull);
    // Typed peaks count where a side has nothing else.
    const isTyped = pull.recordingSha256 === null;
    const why = chosen.why ?? ('whyNone' in found && !isTyped ? found.whyNone : null);
    const name = pull.fileName ?? `pull ${pull.order + 1}`;
    return {
      ...chosen,
      why,
      fit: 'fit' in found ? found.fit : null,
      day: dayKey(context),
      order: (await this.#orderOf(context)).get(pull.id) ?? pull.order,
      calibration: context.calibration.torque,
      lambda: pull.lambdaTarget ?? context.day.lambdaTarget,
      label: `${name} of ${dayName(context)}`,
    };
  }

  /** Places of the pulls of one date on one cell, left out ones counted; days of one date one after the other. */
  async #orderOf(context: DayContext): Promise<ReadonlyMap<Id, number>> {
    const key = dayKey(context);
    const known = this.#orders.get(key);
    if (known !== undefined) return known;
    const { day } = context;
    const days =
      day.date === null
        ? [day]
        : (await this.#record.days.list()).filter(
            (other) => other.date === day.date && other.cellId === day.cellId,
          );
    const pulls: Pull[] = [];
    for (const { id } of days) pulls.push(...(await this.#sides.pullsOf(id)));
    if (days.length > 1 && pulls.every(({ madeAt }) => madeAt !== null))
      pulls.sort((a, b) => a.madeAt!.localeCompare(b.madeAt!));
    const order = new Map(pulls.map(({ id }, at) => [id, at]));
    this.#orders.set(key, order);
    return order;
  }
}

/** Days of one date on one cell are one day; a day without a date is a day of its own. */
const dayKey = ({ day }: DayContext) => (day.date === null ? day.id : `${day.date} ${day.cellId}`);

/** The mixture, by its lambda or its jets, is a setting where a day steps it; else it belongs to how the engine stood. */
export function stepsLambda(pulls: readonly FittedPull[]): boolean {
  const byDay = new Map<Id, Set<string>>();
  for (const { pull, lambda, why } of pulls) {
    if (why !== null) continue;
    if (!byDay.has(pull.dayId)) byDay.set(pull.dayId, new Set());
    byDay.get(pull.dayId)!.add(`${lambda} ${pull.jets}`);
  }
  return [...byDay.values()].some((values) => values.size > 1);
}

/** How the engine was set at a pull, in words; null: nobody said. */
export function settingOf({ pull, lambda }: FittedPull, withLambda: boolean): string | null {
  const words = [
    ...(pull.leadDeg === null ? [] : [settingWords('lead', pull.leadDeg)]),
    ...(withLambda && lambda !== null ? [settingWords('lambda', lambda)] : []),
    ...(withLambda && pull.jets !== null ? [`jets ${pull.jets}`] : []),
  ];
  return words.length === 0 ? null : words.join(', ');
}

/** How the engine stood, as names and words. */
export const stoodAt = (
  { pull, context, lambda }: FittedPull,
  withLambda: boolean,
): Readonly<Record<string, string>> => ({
  ...configurationFields({ ...context.day.configuration, ...pull.configuration }),
  ...(withLambda || lambda === null ? {} : { lambda: String(lambda) }),
  ...(withLambda || pull.jets === null ? {} : { jets: pull.jets }),
  ...(pull.loadPercent === null ? {} : { load: `${pull.loadPercent} %` }),
  ...(context.day.octane === null ? {} : { octane: String(context.day.octane) }),
});

/** Pulls of all sides as the comparison takes them; those without a fit are told beside them. */
export function setPulls(sides: readonly (readonly FittedPull[])[]): SetPull[][] {
  const all = sides.flat();
  const withLambda = stepsLambda(all);
  const words = all.filter(({ why }) => why === null).map((one) => stoodAt(one, withLambda));
  return sides.map((pulls) =>
    pulls.flatMap((one) => {
      const { fit, pull, context, calibration } = one;
      if (fit === null) return [];
      const { cell, engine, day } = context;
      return [
        {
          id: pull.id,
          label: one.label,
          fit,
          day: one.day,
          cell: `${cell.id} ${calibration?.id ?? 'none'}`,
          cellName: cell.name,
          calibrationRelSd: calibrationRelSd(fit),
          fuel: day.fuel ?? engine.fuel,
          order: one.order,
          excludedBecause: one.why,
          configuration: configurationWords(stoodAt(one, withLambda), words),
          setting: settingOf(one, withLambda),
        },
      ];
    }),
  );
}

/**
 * A side of pulls that were all typed as peaks: the mean peaks of its strongest setting, as a side known by its peaks.
 * Null where it has pulls with a curve, or none that counts.
 */
export function peaksOfTyped(
  name: string,
  pulls: readonly FittedPull[],
): { readonly side: PeakSide; readonly pulls: readonly FittedPull[] } | null {
  const own = pulls.filter(({ pull, why }) => pull.recordingSha256 === null && why === null);
  if (own.length === 0 || pulls.some(({ fit, why }) => fit !== null && why === null)) return null;
  const bySetting = new Map<number | null, FittedPull[]>();
  for (const one of own)
    bySetting.set(one.pull.leadDeg, [...(bySetting.get(one.pull.leadDeg) ?? []), one]);
  const level = (some: readonly FittedPull[]) =>
    meanOf(some.map(({ pull }) => pull.peakPowerW ?? pull.peakTorqueNm)) ?? 0;
  const best = [...bySetting.values()].reduce((most, some) =>
    level(some) > level(most) ? some : most,
  );
  const peak = (value: number | null, speedRpm: number | null) =>
    value === null ? null : { value, relSd: null, speedRpm, speedSdRpm: null };
  const mean = (read: (pull: Pull) => number | null) => meanOf(best.map(({ pull }) => read(pull)));
  const airs = new Set(best.map(({ pull }) => pull.peaksAre?.air ?? 'unknown'));
  const [air] = airs.size === 1 ? [...airs] : ['unknown' as const];
  const side: PeakSide = {
    name,
    peakPowerW: peak(
      mean((pull) => pull.peakPowerW),
      mean((pull) => pull.peakPowerSpeedRpm),
    ),
    peakTorqueNm: peak(
      mean((pull) => pull.peakTorqueNm),
      mean((pull) => pull.peakTorqueSpeedRpm),
    ),
    standard: air === 'observed' ? 'none' : air === 'unknown' ? null : air!,
    curve: null,
  };
  return { side, pulls: best };
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return null;
  return known.reduce((sum, value) => sum + value, 0) / known.length;
}
