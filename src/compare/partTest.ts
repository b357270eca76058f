import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { InputError } from '../errors.ts';
import { tQuantile } from '../numerics/studentT.ts';

/*
 * A fair test of a part, planned, and looked at while it is made.
 *
 * By turns, or in a drawn order: blocks of one pull of A and one of B, looked at after every block. Within a block the
 * day drifts little, and `partDrift.ts` takes a steady drift out. Each look k of at most K is Student's test of the
 * blocks' differences at α_k, and Σ α_k = 5 %: by the union bound a true zero is called a difference in at most 5 % of
 * tests, however the looks hang together. Late looks get most (α_k ∝ k²), as early ones on two or three blocks could
 * hardly tell anything. Bonferroni's inequality; the shares are ours.
 *
 * A/B/A: half of A, all of B, the other half of A, for a part that nobody changes twenty times. It is looked at once, at
 * its end. A steady drift leaves the difference of the means alone, for both stand at the same middle of the day; it
 * costs one degree of freedom. A step within the day does not; `partDrift.ts` says what then can still be told. The more
 * pulls, the smaller the gain they are to show beside the same step: of simulated tests of 14 pulls of each, planned for
 * 0.5 %, 65 to 76 % found it on days that drift or step, and 6 to 8 % called a true zero a gain. So it is not planned
 * longer than `MOST_ABA`: of 8 of each, planned for 0.66 %, 65 to 68 % found it on such days (83 % on a steady one), and
 * 2 to 4 % called a true zero a gain.
 */

const ERROR = 0.05;
/** Planned for a little more than the 80 % promised: taking out the drift and small changes of the day cost some. */
const POWER = 0.85;
/** A block or two have no scatter to speak of. */
export const FIRST_LOOK = 3;
const MOST_BLOCKS = 60;
/** Two pulls on either side and in the middle: fewer leave no scatter to judge by. */
const LEAST_ABA = 4;
/** Most pulls of each in A/B/A. */
const MOST_ABA = 8;

export type PartOrder = 'by turns' | 'randomised' | 'A/B/A';

export interface PartPlan {
  /** Most pulls of each that will be made; by turns, each block is one pull of A and one of B. */
  readonly blocks: number;
  /** Left out: by turns or randomised, which are looked at after every block; A/B/A is looked at once, at its end. */
  readonly isAba?: true;
  /** The pulls in the order to make them, as far as the plan goes. */
  readonly order: readonly ('a' | 'b')[];
  readonly gainPercent: number;
  readonly sentence: string;
}

/** Two-sided error of look k, counted in blocks. */
export function errorAt(block: number, blocks: number): number {
  if (block < FIRST_LOOK) return 0;
  let total = 0;
  for (let k = FIRST_LOOK; k <= blocks; k++) total += k * k;
  return (ERROR * block * block) / total;
}

/**
 * How many pulls show a gain, and in which order to make them.
 * @param gainPercent  gain of mean power that must be seen with 80 % (within one day)
 * @param repeatabilityPercent  sd of mean power from pull to pull on this cell [%]
 * @param order  A B B A by turns, each block's order drawn with the seed, or half of A, all of B, half of A
 * @param provenClean  both settings have run clean before: only then is an order drawn
 * @throws InputError  figures that are not above zero, an order drawn for settings not proven clean, a gain that no
 *                     day's work would show, or one for which A/B/A would be long
 */
export function planPartTest(
  gainPercent: number,
  repeatabilityPercent: number,
  order: PartOrder,
  provenClean: boolean,
  seed = 0,
): PartPlan {
  if (!(gainPercent > 0 && repeatabilityPercent > 0))
    throw new InputError('The gain to be seen and the repeatability must both be above zero.');
  if (order === 'randomised' && !provenClean)
    throw new InputError(
      'Only settings that have run clean are put in a drawn order; make the pulls by turns.',
    );
  const isAba = order === 'A/B/A';
  const isEnough = isAba ? isEnoughOnce : isEnoughInBlocks;
  let blocks = isAba ? LEAST_ABA : FIRST_LOOK;
  while (!isEnough(blocks, gainPercent, repeatabilityPercent)) {
    // Half of A stands on either side of B.
    blocks += isAba ? 2 : 1;
    if (isAba && blocks > MOST_ABA) throw tooLongForAba(gainPercent, repeatabilityPercent);
    if (blocks > MOST_BLOCKS)
      throw new InputError(
        `A gain of ${gainPercent} % takes more than ${2 * MOST_BLOCKS} pulls on a cell that repeats within ${repeatabilityPercent} %.`,
      );
  }
  const most = isAba ? `${blocks} pulls of each` : `At most ${blocks} pulls of each`;
  const guard = isAba
    ? ' The part is changed twice only; a steady drift of the day is taken out, but on a day that drifts or steps the gain is found less often than that, and a sudden change can look like the part: watch that both halves of A agree. By turns is safer.'
    : '';
  return {
    blocks,
    ...(isAba ? { isAba } : {}),
    order: isAba ? abaOrder(blocks) : orderOf(blocks, order, seed),
    gainPercent,
    sentence: `${most} show a gain of ${gainPercent} % with 80 % or more, where pulls of one setting scatter by ${repeatabilityPercent} % (1 sd) and all are made on one day; on different days the days' own difference comes on top, and more pulls do not shrink it.${guard}`,
  };
}

/** Names the order by turns; a gain that this does not show either is refused as such. */
function tooLongForAba(gain: number, repeatability: number): InputError {
  const { blocks } = planPartTest(gain, repeatability, 'by turns', false);
  return new InputError(
    `A gain of ${gain} % takes more than ${MOST_ABA} pulls of each on a cell that repeats within ${repeatability} %. Where half of A, all of B and half of A are made, a change of the day over so many can pass for the part. Make the pulls by turns, A B B A: at most ${blocks} of each.`,
  );
}

/** Power of the last look alone, by the sum of the two Student points: a little less than all looks together have. */
function isEnoughInBlocks(blocks: number, gain: number, repeatability: number): boolean {
  const freedom = blocks - 1;
  const needed = tQuantile(1 - errorAt(blocks, blocks) / 2, freedom) + tQuantile(POWER, freedom);
  return (gain / (Math.SQRT2 * repeatability)) * Math.sqrt(blocks) >= needed;
}

/** One look at the two means, with the drift's one degree of freedom gone. */
function isEnoughOnce(pulls: number, gain: number, repeatability: number): boolean {
  const freedom = 2 * pulls - 3;
  const needed = tQuantile(1 - ERROR / 2, freedom) + tQuantile(POWER, freedom);
  return (gain / (Math.SQRT2 * repeatability)) * Math.sqrt(pulls) >= needed;
}

const abaOrder = (pulls: number): ('a' | 'b')[] =>
  Array.from({ length: 2 * pulls }, (_, i) => (i < pulls / 2 || i >= 1.5 * pulls ? 'a' : 'b'));

function orderOf(blocks: number, order: Exclude<PartOrder, 'A/B/A'>, seed: number): ('a' | 'b')[] {
  const generator = xoroshiro128plus(seed);
  return Array.from({ length: blocks }, (_, k) => {
    const aFirst = order === 'by turns' ? k % 2 === 0 : (generator.next() >>> 16) % 2 === 0;
    return aFirst ? (['a', 'b'] as const) : (['b', 'a'] as const);
  }).flat();
}

export interface PartLook {
  readonly action: 'go on' | 'stop';
  /** Null before the first look. With these ends the truth lies inside at every look of the test at once, 95 %. */
  readonly gain: { readonly value: number; readonly low: number; readonly high: number } | null;
  readonly finding: string;
}

/**
 * Whether to go on after the blocks that were made.
 * @param differencesPercent  gain of B over A in mean power by block [%]
 * @throws InputError  more blocks than were planned
 */
export function lookAtPartTest(plan: PartPlan, differencesPercent: readonly number[]): PartLook {
  const made = differencesPercent.length;
  if (made > plan.blocks)
    throw new InputError(`${made} blocks were made where ${plan.blocks} were planned.`);
  if (made < FIRST_LOOK)
    return {
      action: 'go on',
      gain: null,
      finding: `Nothing is said before ${FIRST_LOOK} pulls of each.`,
    };
  const value = differencesPercent.reduce((sum, one) => sum + one, 0) / made;
  const square = differencesPercent.reduce((sum, one) => sum + (one - value) ** 2, 0);
  const error = errorAt(made, plan.blocks);
  const half = tQuantile(1 - error / 2, made - 1) * Math.sqrt(square / (made - 1) / made);
  const [low, high] = [value - half, value + half];
  const said = `${low.toFixed(1)} to ${high.toFixed(1)} %`.replaceAll('-', '−');
  const gain = { value, low, high };
  if (low > 0 || high < 0)
    return {
      action: 'stop',
      gain,
      finding: `The part ${value > 0 ? 'gains' : 'costs'} ${Math.abs(value).toFixed(1)} % of mean power (95 %: ${said}).`,
    };
  const most = Math.max(-low, high);
  const none = `no difference larger than ${most.toFixed(1)} % (95 %: ${said})`;
  if (most < plan.gainPercent)
    return { action: 'stop', gain, finding: `There is ${none}, less than was looked for.` };
  return made === plan.blocks
    ? { action: 'stop', gain, finding: `The test is at its end: ${none}.` }
    : { action: 'go on', gain, finding: `Not decided after ${made} pulls of each: ${none}.` };
}
