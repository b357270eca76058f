import type { Counted } from './band.ts';
import { intervalOf } from './interval.ts';
import { crossing } from './knee.ts';
import type { ResponseDraws } from './posterior.ts';
import { bandOf, quantileOf } from './quantiles.ts';
import type { LadderInput, MixtureAnswer, SettingInterval } from './types.ts';
import { chosenPercentText, percentText, settingText } from './words.ts';

/*
 * What a mixture ladder says beside its best: how much power each mixture gives up, and what it burns.
 *
 * At full throttle the air is given, so the fuel goes as 1/lambda: against the best mixture b a pull at λ burns b/λ of
 * its fuel, and for the same power b/λ · P(b)/P(λ). Both follow from the ladder's own response and need no flow meter;
 * the fuel for power that the cell measured stands beside it, pull by pull. Leaner costs from where the loss has grown
 * to what is worth having: the ladder's own word for it, seen from the other side.
 */

/** How far leaner of the best the cost is looked for [rungs]. */
const FARTHEST_RUNGS = 20;

/**
 * Power and fuel along the mixture, and where leaner costs.
 *
 * @param reach  settings beyond which nothing is said
 */
export function mixtureOf(
  input: LadderInput,
  draws: ResponseDraws,
  counted: readonly Counted[],
  best: SettingInterval,
  reach: readonly [number, number],
  rung: number,
): MixtureAnswer {
  const worth = input.worthPercent / 100;
  const { loss } = draws.shape;
  const lossAt = (d: number, u: number) =>
    loss(u - draws.best[d]!, draws.curvature[d]!, draws.lean[d]!);
  const column = (of: (d: number) => number) =>
    Float64Array.from({ length: draws.count }, (_, d) => of(d));
  const costs = column((d) => {
    const [k, c] = [draws.curvature[d]!, draws.lean[d]!];
    const past = crossing((e) => loss(e, k, c) - worth, 0, FARTHEST_RUNGS * rung);
    return Number.isFinite(past) ? draws.best[d]! + past : Number.POSITIVE_INFINITY;
  }).sort();
  const costsFrom: SettingInterval =
    best.value === null
      ? { value: null, low: null, high: null }
      : intervalOf(
          quantileOf(costs, 0.5),
          quantileOf(costs, 0.025),
          quantileOf(costs, 0.975),
          reach,
          1,
        );
  const settings = [...new Set(counted.map(({ u }) => Number(u.toFixed(4))))].sort((a, b) => a - b);
  const rows =
    best.value === null
      ? []
      : settings.map((lambda) => ({
          lambda,
          lossPercent: bandOf(column((d) => 100 * lossAt(d, lambda))),
          fuelPercent: 100 * (best.value! / lambda - 1),
          fuelForPowerPercent: bandOf(
            column((d) => 100 * (best.value! / (lambda * (1 - lossAt(d, lambda))) - 1)),
          ),
        }));
  const measured = counted.flatMap(({ pull, u }) =>
    pull.bsfcKgPerJ === undefined || pull.bsfcKgPerJ === null
      ? []
      : [{ id: pull.id, lambda: u, bsfcKgPerJ: pull.bsfcKgPerJ }],
  );
  const savesPercent =
    best.value === null || costsFrom.value === null
      ? null
      : 100 * (1 - best.value / costsFrom.value);
  return {
    costsFrom,
    rows,
    measured,
    savesPercent,
    sentence: sentenceOf(input, best, costsFrom, savesPercent, settings.at(-1) ?? null),
  };
}

function sentenceOf(
  { kind, worthPercent }: LadderInput,
  best: SettingInterval,
  costsFrom: SettingInterval,
  savesPercent: number | null,
  leanest: number | null,
): string {
  if (best.value === null)
    return 'Where leaner begins to cost is not known yet: the ladder has not shown its best.';
  if (costsFrom.value === null || savesPercent === null)
    return `Leaner than ${settingText(best.value, kind)} costs power; from where it costs ${chosenPercentText(worthPercent)} the ladder does not reach.`;
  const unrun =
    leanest !== null && costsFrom.value > leanest
      ? ` Nothing leaner than ${settingText(leanest, kind)} was run: this is no advice to go there.`
      : '';
  return `Leaner than ${settingText(costsFrom.value, kind)} costs more than ${chosenPercentText(worthPercent)} of the best power; from the best to there leaning saves ${percentText(savesPercent)} of the fuel.${unrun}`;
}

/** Nothing but mixture has an answer of mixture. */
export const isMixture = ({ kind }: Pick<LadderInput, 'kind'>): boolean => kind.name === 'lambda';
