import type { Counted } from './band.ts';
import { nextGains } from './decide.ts';
import type { ResponseDraws } from './posterior.ts';
import { quantileOf } from './quantiles.ts';
import { relativePower, type SpeedModel } from './speeds.ts';
import type { StepAnswer, StepWord } from './types.ts';

/*
 * What each step gained, read off the posterior of the whole ladder: for every draw of the response the gain is
 * (1 − loss(to))/(1 − loss(from)) − 1, so a step is judged with the help of all the other rungs, and the offset that a
 * pull happened to have does not pass for a gain. On simulated days whose shape is not the model's this halves the
 * interval of the plain difference between two pulls and still holds the truth (test/truth). That plain difference
 * stands beside it as `measuredPercent`, for whoever wants to see what these two rungs alone say.
 */

export interface Rung {
  readonly u: number;
  readonly pulls: readonly Counted[];
}

export function rungsOf(counted: readonly Counted[]): Rung[] {
  const rungs = new Map<number, Counted[]>();
  for (const one of counted) {
    const key = [...rungs.keys()].find((u) => Math.abs(u - one.u) < 1e-6) ?? one.u;
    rungs.set(key, [...(rungs.get(key) ?? []), one]);
  }
  return [...rungs.entries()].sort((a, b) => a[0] - b[0]).map(([u, pulls]) => ({ u, pulls }));
}

const meanOf = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * `real` asks that the step's own pulls show the gain too: what only the shape of the rest promises is called small.
 *
 * @param gain  the smaller of what the ladder as a whole and what the step's own pulls say [%]
 */
function wordFor(gain: number, low: number, high: number, worth: number): StepWord {
  if (high < 0) return 'loss';
  if (low > 0) return gain >= worth ? 'real' : 'small';
  return 'cannot be told from chance';
}

function besides(one: Rung, other: Rung): string | null {
  const texts = (rung: Rung) =>
    new Set(
      rung.pulls.flatMap(({ pull }) => (pull.configuration === null ? [] : [pull.configuration])),
    );
  const [a, b] = [texts(one), texts(other)];
  const differing = [...new Set([...a, ...b])].filter((text) => a.has(text) !== b.has(text));
  return differing.length === 0 ? null : differing.join('; ');
}

export function stepsOf(
  rungs: readonly Rung[],
  response: ResponseDraws,
  speeds: SpeedModel | null,
  worthPercent: number,
  middle: number,
  mirror: number,
): StepAnswer[] {
  const powers =
    speeds === null ? null : rungs.map(({ u }) => relativePower(u, response, speeds, middle));
  return rungs.slice(1).map((to, i) => {
    const from = rungs[i]!;
    const powerOf = (rung: Rung) => meanOf(rung.pulls.map((one) => one.power));
    const gains = nextGains(response, from.u, to.u).map((gain) => 100 * gain);
    const gainPercent = meanOf([...gains]);
    const measuredPercent = 100 * (powerOf(to) / powerOf(from) - 1);
    gains.sort();
    const lowPercent = quantileOf(gains, 0.025);
    const highPercent = quantileOf(gains, 0.975);
    return {
      from: mirror * from.u,
      to: mirror * to.u,
      gainPercent,
      lowPercent,
      highPercent,
      measuredPercent,
      word: wordFor(Math.min(gainPercent, measuredPercent), lowPercent, highPercent, worthPercent),
      besides: besides(from, to),
      bySpeed:
        speeds === null || powers === null ? EMPTY : bySpeed(powers[i]!, powers[i + 1]!, speeds),
    };
  });
}

const EMPTY: StepAnswer['bySpeed'] = {
  speedRpm: [],
  gainPercent: [],
  lowPercent: [],
  highPercent: [],
  chancePercent: [],
  toldFromChance: [],
};

/** Share of the draws that the band holds at all speeds at once. */
const AT_ONCE = 0.95;

/**
 * The step speed by speed with a band that holds at all speeds at once: mean ± c·sd over the draws, c the 95 % quantile
 * of the draws' largest distance from the mean in sds.
 */
function bySpeed(
  before: Float64Array,
  after: Float64Array,
  { draws, speedRpm }: SpeedModel,
): StepAnswer['bySpeed'] {
  const grid = speedRpm.length;
  const gains = before.map((power, i) => 100 * (after[i]! / power - 1));
  const mean = new Float64Array(grid);
  const variance = new Float64Array(grid);
  gains.forEach((gain, i) => {
    mean[i % grid]! += gain / draws;
  });
  gains.forEach((gain, i) => {
    variance[i % grid]! += (gain - mean[i % grid]!) ** 2 / draws;
  });
  const sds = variance.map(Math.sqrt);
  const furthest = new Float64Array(draws);
  gains.forEach((gain, i) => {
    const [d, m] = [Math.floor(i / grid), i % grid];
    if (sds[m]! > 0) furthest[d] = Math.max(furthest[d]!, Math.abs(gain - mean[m]!) / sds[m]!);
  });
  const c = quantileOf(furthest.sort(), AT_ONCE);
  const gainPercent = [...mean];
  const half = [...sds].map((sd) => c * sd);
  return {
    speedRpm,
    gainPercent,
    lowPercent: gainPercent.map((gain, m) => gain - half[m]!),
    highPercent: gainPercent.map((gain, m) => gain + half[m]!),
    chancePercent: half,
    toldFromChance: gainPercent.map((gain, m) => Math.abs(gain) > half[m]!),
  };
}
