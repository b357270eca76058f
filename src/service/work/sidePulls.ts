/** Pulls of sides with all that is needed to bring them together: day, cell, calibration, setting, configuration. */
import { calibrationRelSd, type PullFit } from '../../pull/index.ts';
import type { Calibration, Id, Pull, PullbookRecord } from '../../record/index.ts';
import { configurationWords, fitPaper, type SetPull } from '../../report/index.ts';
import type { DayContext } from './context.ts';
import type { Curves } from './curves.ts';
import { configurationFields } from './ladders.ts';
import { type ChosenPull, type ChosenSide, dayName, type Sides, settingWords } from './sides.ts';

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
    const found = await this.#fit(context, pull);
    const why = chosen.why ?? ('whyNone' in found ? found.whyNone : null);
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

  async #fit(context: DayContext, pull: Pull): ReturnType<Curves['fitOf']> {
    if (pull.recordingSha256 !== null) return this.#curves.fitOf(context, pull);
    const { peakTorqueNm, peakTorqueSpeedRpm, peakPowerW, peakPowerSpeedRpm, peaksAre } = pull;
    if (
      peakTorqueNm === null ||
      peakTorqueSpeedRpm === null ||
      peakPowerW === null ||
      peakPowerSpeedRpm === null
    )
      return {
        whyNone: 'Its peaks were typed; both with their speeds would give a curve between them.',
      };
    try {
      const { fit } = fitPaper('its typed peaks', {
        basis: peaksAre ?? { air: 'unknown', inertia: 'unknown' },
        sdPercent: 0,
        table: null,
        peaks: {
          torqueNm: peakTorqueNm,
          torqueSpeedRpm: peakTorqueSpeedRpm,
          powerW: peakPowerW,
          powerSpeedRpm: peakPowerSpeedRpm,
        },
      });
      return { fit };
    } catch (error) {
      return { whyNone: (error as Error).message };
    }
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

/** Lambda is a setting where a day steps it; else it belongs to how the engine stood. */
export function stepsLambda(pulls: readonly FittedPull[]): boolean {
  const byDay = new Map<Id, Set<number | null>>();
  for (const { pull, lambda, why } of pulls) {
    if (why !== null) continue;
    if (!byDay.has(pull.dayId)) byDay.set(pull.dayId, new Set());
    byDay.get(pull.dayId)!.add(lambda);
  }
  return [...byDay.values()].some((values) => values.size > 1);
}

/** How the engine was set at a pull, in words; null: nobody said. */
export function settingOf({ pull, lambda }: FittedPull, withLambda: boolean): string | null {
  const words = [
    ...(pull.leadDeg === null ? [] : [settingWords('lead', pull.leadDeg)]),
    ...(withLambda && lambda !== null ? [settingWords('lambda', lambda)] : []),
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
          // Typed peaks were fitted without their cell.
          calibrationRelSd:
            pull.recordingSha256 === null ? cell.calibrationRelSd : calibrationRelSd(fit),
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

/** The one pull of a curve from paper, and what has to be said of it. */
export function paperPulls(
  { wanted }: ChosenSide,
  name: string,
): { readonly pulls: readonly SetPull[]; readonly says: readonly string[] } {
  if (wanted.kind !== 'paper') return { pulls: [], says: [] };
  const { fit, relSd, says } = fitPaper(name, wanted);
  const own = `paper: ${name}`;
  const pull: SetPull = {
    id: own,
    label: name,
    fit,
    day: own,
    cell: own,
    cellName: `whatever ${name} was measured on`,
    calibrationRelSd: relSd,
    fuel: null,
    order: 0,
    excludedBecause: null,
    configuration: null,
    setting: null,
  };
  return { pulls: [pull], says };
}
