import { InputError } from '../errors.ts';
import { functionalValue, meanFunctional } from '../numerics/spline.ts';
import {
  byLeastSquares,
  chanceAbove,
  chanceBelowOn,
  type Estimate,
  inBlocks,
  intervalOf,
  intervalOn,
  type PartPoint,
  whateverTheDay,
} from './partDrift.ts';
import { errorAt, FIRST_LOOK, lookAtPartTest, type PartLook, type PartPlan } from './partTest.ts';
import type { Change, ComparePull } from './types.ts';

/** A part test by its pulls in the order made. */
export interface PartAnswer {
  /** `blocks`: neighbours of A and B; `least squares`: any other order, such as A/B/A. */
  readonly by: 'blocks' | 'least squares';
  readonly pulls: { readonly a: number; readonly b: number };
  /** Gain of B over A in mean power [%]; null where it cannot be told from the drift or the days. */
  readonly gain: Change | null;
  /** Chance that B has more mean power. */
  readonly chanceAhead: number | null;
  readonly word: 'gain' | 'loss' | 'cannot be told from chance' | 'not known yet';
  /** Where it cannot be told: no difference larger than this [%]. */
  readonly noLargerThanPercent: number | null;
  /** Drift of mean power with each pull of the day, the part taken out [%]; null where it cannot be told. */
  readonly driftPercent: Change | null;
  /** Pull-to-pull sd of mean power, drift and part taken out [%]. */
  readonly repeatabilityPercent: number;
  /** Differences of B over A by block, the drift taken out [%]; empty where there are no blocks. */
  readonly blocks: readonly number[];
  readonly action: PartLook['action'];
  /** Which side to pull next, after the plan's order; null at its end or without a plan. */
  readonly next: 'a' | 'b' | null;
  readonly finding: string;
  readonly warnings: readonly string[];
}

const ERROR = 0.05;

/**
 * The pulls of one session as points of a part test.
 * @param bandRpm  speeds that all of them cover
 */
export function partPointsOf(
  a: readonly ComparePull[],
  b: readonly ComparePull[],
  bandRpm: readonly [number, number],
): PartPoint[] {
  const pointsOf = (pulls: readonly ComparePull[], group: 'a' | 'b') =>
    pulls
      .filter(({ excludedBecause }) => excludedBecause === null)
      .map(({ torque, day, order }): PartPoint => {
        const mean = functionalValue(torque, meanFunctional(torque, bandRpm[0], bandRpm[1], 1));
        return { group, day, order, logPowerPercent: 100 * Math.log(mean) };
      });
  const days = [...new Set([...a, ...b].map(({ day }) => day))];
  return [...pointsOf(a, 'a'), ...pointsOf(b, 'b')].sort(
    (one, other) => days.indexOf(one.day) - days.indexOf(other.day) || one.order - other.order,
  );
}

/**
 * What a part test says after the pulls made, and whether to go on.
 *
 * With a plan the error rates are those of its looks, and hold however often one looks. Without one the pulls are looked
 * at once: whoever looked before each pull and stopped when it pleased has more wrong findings than the 5 %.
 * @param points  pulls that count, in the order made
 * @param statedPercent  the cell's pull-to-pull sd that the shop states [%], or null
 * @param names  as the finding calls the sides
 * @throws InputError  no pull of one side
 */
export function answerPartTest(
  points: readonly PartPoint[],
  plan: PartPlan | null,
  statedPercent: number | null,
  names: { readonly a: string; readonly b: string } = { a: 'A', b: 'B' },
): PartAnswer {
  const pulls = {
    a: points.filter(({ group }) => group === 'a').length,
    b: points.filter(({ group }) => group === 'b').length,
  };
  if (pulls.a === 0 || pulls.b === 0)
    throw new InputError(
      `No pull of ${pulls.a === 0 ? names.a : names.b} counts yet; a part test takes pulls of both.`,
    );
  const whole = byLeastSquares(points, statedPercent);
  const blocked = plan?.isAba ? null : inBlocks(points);
  const isBlocks = blocked !== null && (plan !== null || blocked.differences.length >= FIRST_LOOK);
  const blocks = isBlocks ? blocked.differences : [];
  const shared = {
    pulls,
    driftPercent: whole.drift && intervalOf(whole.drift, ERROR),
    repeatabilityPercent: whole.repeatability.value,
    blocks,
    next: plan === null ? null : nextOf(plan, points.length),
  };
  const warnings = warningsOf(points, plan, blocked !== null);
  if (plan !== null && isBlocks) {
    const counted = blocks.slice(0, plan.blocks);
    const look = lookAtPartTest(plan, counted);
    const estimate = estimateOf(counted);
    const chance = estimate && chanceAbove(estimate);
    return answerOf('blocks', look.gain, chance, look.action, shared, warnings, names);
  }
  const isOver = plan === null || points.length >= plan.order.length;
  // A plan of blocks that were not made as blocks has its last look only.
  const leave = plan === null || plan.isAba ? ERROR : errorAt(plan.blocks, plan.blocks);
  const action = isOver ? 'stop' : 'go on';
  if (isBlocks) {
    const estimate = isOver ? estimateOf(blocks) : null;
    const gain = estimate && intervalOf(estimate, leave);
    const chance = estimate && chanceAbove(estimate);
    return answerOf('blocks', gain, chance, action, shared, warnings, names);
  }
  if (!isOver || whole.gain === null)
    return answerOf('least squares', null, null, action, shared, warnings, names);
  const days = whateverTheDay(points, statedPercent);
  const { value, low, high } = intervalOn(days, leave);
  const percent = (log: number) => 100 * Math.expm1(log / 100);
  const gain = { value: percent(value), low: percent(low), high: percent(high) };
  const chance = 1 - chanceBelowOn(days, 0);
  return answerOf('least squares', gain, chance, action, shared, warnings, names);
}

/** Mean of differences with its standard error; null before there is a scatter to speak of. */
function estimateOf(differences: readonly number[]): Estimate | null {
  const made = differences.length;
  if (made < FIRST_LOOK) return null;
  const value = differences.reduce((sum, one) => sum + one, 0) / made;
  const square = differences.reduce((sum, one) => sum + (one - value) ** 2, 0);
  return { value, error: Math.sqrt(square / (made - 1) / made), freedom: made - 1 };
}

const nextOf = (plan: PartPlan, made: number): 'a' | 'b' | null => plan.order[made] ?? null;

function answerOf(
  by: PartAnswer['by'],
  gain: Change | null,
  chanceAhead: number | null,
  action: PartAnswer['action'],
  shared: Pick<PartAnswer, 'pulls' | 'driftPercent' | 'repeatabilityPercent' | 'blocks' | 'next'>,
  warnings: readonly string[],
  names: { readonly a: string; readonly b: string },
): PartAnswer {
  const word =
    gain === null
      ? 'not known yet'
      : gain.low > 0
        ? 'gain'
        : gain.high < 0
          ? 'loss'
          : 'cannot be told from chance';
  const answer: Omit<PartAnswer, 'finding'> = {
    by,
    ...shared,
    gain,
    chanceAhead,
    word,
    noLargerThanPercent:
      gain !== null && word === 'cannot be told from chance'
        ? Math.max(-gain.low, gain.high)
        : null,
    action,
    next: action === 'stop' ? null : shared.next,
    warnings,
  };
  return { ...answer, finding: findingOf(answer, names) };
}

/** `19 to 1`, as far as odds are worth saying. */
function oddsOf(chance: number): string {
  const odds = Math.max(chance, 1 - chance) / Math.min(chance, 1 - chance);
  if (!(odds < 1000)) return 'more than 1000 to 1';
  return odds < 9.5 ? `${odds.toFixed(1)} to 1` : `${odds.toFixed(0)} to 1`;
}

function findingOf(
  {
    gain,
    word,
    chanceAhead,
    noLargerThanPercent,
    driftPercent,
    pulls,
    action,
    next,
  }: Omit<PartAnswer, 'finding'>,
  { a, b }: { readonly a: string; readonly b: string },
): string {
  const made = `${pulls.a} ${pulls.a === 1 ? 'pull' : 'pulls'} of ${a} and ${pulls.b} of ${b}`;
  const minus = (text: string) => text.replaceAll('-', '−');
  const said = (one: Change, digits: number) =>
    minus(`${one.low.toFixed(digits)} to ${one.high.toFixed(digits)} %`);
  const side = (chanceAhead ?? 0) >= 0.5 ? b : a;
  const odds =
    chanceAhead === null ? '' : ` The odds are ${oddsOf(chanceAhead)} that ${side} is ahead.`;
  const part =
    gain === null
      ? action === 'go on'
        ? `After ${made} nothing is said yet.`
        : `After ${made} the part cannot be told from the day: pull ${a} again after ${b}.`
      : word === 'cannot be told from chance'
        ? `After ${made} there is no difference larger than ${noLargerThanPercent!.toFixed(1)} % of mean power (95 %: ${said(gain, 1)}).${odds}`
        : `After ${made}, ${b} ${word === 'gain' ? 'gains' : 'costs'} ${Math.abs(gain.value).toFixed(1)} % of mean power (95 %: ${said(gain, 1)}), the drift of the day taken out.${odds}`;
  const drift =
    driftPercent === null
      ? ''
      : driftPercent.low > 0 || driftPercent.high < 0
        ? ` The day itself drifted by ${minus(driftPercent.value.toFixed(2))} % with each pull (${said(driftPercent, 2)}).`
        : ` The day did not drift by more than ${Math.max(-driftPercent.low, driftPercent.high).toFixed(2)} % a pull.`;
  const on = action === 'go on' && next !== null ? ` Next: a pull of ${next === 'a' ? a : b}.` : '';
  return `${part}${drift}${on}`;
}

function warningsOf(
  points: readonly PartPoint[],
  plan: PartPlan | null,
  areBlocks: boolean,
): string[] {
  const out: string[] = [];
  const days = new Set(points.map(({ day }) => day));
  const shared = [...days].filter((day) =>
    (['a', 'b'] as const).every((side) =>
      points.some((point) => point.day === day && point.group === side),
    ),
  );
  if (shared.length === 0)
    out.push(
      'No day has pulls of both sides: how days differ cannot be told from the part, and more pulls do not shrink it. Make both on one day.',
    );
  else if (shared.length < days.size)
    out.push('Pulls of a day that has one side only tell nothing of the part.');
  if (plan === null) return out;
  const isOther = points.some(({ group }, i) => i < plan.order.length && plan.order[i] !== group);
  if (isOther && (plan.isAba || !areBlocks))
    out.push(
      'The pulls were not made in the order of the plan, so its looks do not hold: they are judged once, at their end.',
    );
  if (points.length > plan.order.length)
    out.push(
      `More pulls were made than planned; the looks count the first ${plan.blocks} of each, as their error rates ask.`,
    );
  return out;
}
