import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { InputError } from '../errors.ts';
import { tQuantile } from '../numerics/studentT.ts';

/*
 * A fair test of a part: blocks of one pull of A and one of B, looked at after every block. Within a block the day
 * drifts little, and blocks that begin with A and with B by turns take a steady drift out of the mean.
 *
 * Each look k of at most K is Student's test of the blocks' differences at α_k, and Σ α_k = 5 %: by the union bound a
 * true zero is called a difference in at most 5 % of tests, however the looks hang together. Late looks get most
 * (α_k ∝ k²), as early ones on two or three blocks could hardly tell anything. Bonferroni's inequality; the shares are
 * ours.
 */

const ERROR = 0.05;
const POWER = 0.8;
/** A block or two have no scatter to speak of. */
const FIRST_LOOK = 3;
const MOST_BLOCKS = 60;

export type PartOrder = 'by turns' | 'randomised';

export interface PartPlan {
  /** Most blocks that will be made; each is one pull of A and one of B. */
  readonly blocks: number;
  /** The pulls in the order to make them, as far as the plan goes. */
  readonly order: readonly ('a' | 'b')[];
  readonly gainPercent: number;
  readonly sentence: string;
}

/** Two-sided error of look k, counted in blocks. */
function errorAt(block: number, blocks: number): number {
  if (block < FIRST_LOOK) return 0;
  let total = 0;
  for (let k = FIRST_LOOK; k <= blocks; k++) total += k * k;
  return (ERROR * block * block) / total;
}

/**
 * How many pulls show a gain, and in which order to make them.
 * @param gainPercent  gain of mean power that must be seen with 80 % (within one day)
 * @param repeatabilityPercent  sd of mean power from pull to pull on this cell [%]
 * @param order  A B B A by turns, or each block's order drawn with the seed
 * @param provenClean  both settings have run clean before: only then is an order drawn
 * @throws InputError  figures that are not above zero, an order drawn for settings not proven clean, or a gain that
 *                     no day's work would show
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
  const sd = Math.SQRT2 * repeatabilityPercent;
  let blocks = FIRST_LOOK;
  while (!isEnough(blocks, gainPercent, sd)) {
    blocks++;
    if (blocks > MOST_BLOCKS)
      throw new InputError(
        `A gain of ${gainPercent} % takes more than ${2 * MOST_BLOCKS} pulls on a cell that repeats within ${repeatabilityPercent} %.`,
      );
  }
  return {
    blocks,
    order: orderOf(blocks, order, seed),
    gainPercent,
    sentence: `At most ${blocks} pulls of each show a gain of ${gainPercent} % with 80 % or more, where pulls of one setting scatter by ${repeatabilityPercent} % (1 sd) and all are made on one day; on different days the days' own difference comes on top, and more pulls do not shrink it.`,
  };
}

/** Power of the last look alone, by the sum of the two Student points: a little less than all looks together have. */
function isEnough(blocks: number, gain: number, sd: number): boolean {
  const freedom = blocks - 1;
  const needed = tQuantile(1 - errorAt(blocks, blocks) / 2, freedom) + tQuantile(POWER, freedom);
  return (gain / sd) * Math.sqrt(blocks) >= needed;
}

function orderOf(blocks: number, order: PartOrder, seed: number): ('a' | 'b')[] {
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
