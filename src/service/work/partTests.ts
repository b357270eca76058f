/** A fair test of a part: its plan from what the cell repeats, and how it stands after the pulls made. */
import { randomInt } from 'node:crypto';
import {
  type CompareInput,
  lookAtPartTest,
  type PartLook,
  type PartOrder,
  paragraphOf,
  planPartTest,
} from '../../compare/index.ts';
import { InputError, PullbookError } from '../../errors.ts';
import { isSameGroup } from '../../ladder/index.ts';
import { type AirStandard, curveIn, meanPowerW } from '../../pull/index.ts';
import type { BandRpm, Id, PartTest, Pull, PullbookRecord } from '../../record/index.ts';
import {
  answerQuestion,
  type CompareQuestion,
  listed,
  type Repeatability,
} from '../../report/index.ts';
import { bringTogether } from './compared.ts';
import type { Curves } from './curves.ts';
import { repeatabilityOn } from './references.ts';
import { SidePulls } from './sidePulls.ts';
import { Sides } from './sides.ts';

export interface PartWanted {
  readonly gainPercent: number;
  readonly repeatabilityPercent?: number | undefined;
  readonly order: PartOrder;
  readonly groupA: string;
  readonly groupB: string;
  readonly seed?: number | undefined;
}

export async function repeatabilityOfDay(
  record: PullbookRecord,
  curves: Curves,
  dayId: Id,
): Promise<Repeatability> {
  const sides = new Sides(record);
  const context = await sides.contextOf(dayId);
  return repeatabilityOn(record, sides, new SidePulls(record, curves, sides), context);
}

/**
 * The plan of a part test on a day.
 * @throws InputError  both groups the same, an order drawn for what has not run clean, a gain that no day's work shows
 */
export async function planOn(
  record: PullbookRecord,
  curves: Curves,
  dayId: Id,
  wanted: PartWanted,
) {
  const { gainPercent, order, groupA, groupB } = wanted;
  if (isSameGroup(groupA, groupB))
    throw new InputError(`Both sides of a part test are called "${groupA}"; call one otherwise.`);
  const repeatability = await repeatabilityOfDay(record, curves, dayId);
  const percent = wanted.repeatabilityPercent ?? round(repeatability.percent.value);
  const pulls = await record.pulls.list({ dayId });
  const whyNotProven = whyNotClean(pulls, [groupA, groupB]);
  const provenClean = whyNotProven === null;
  if (order === 'randomised' && !provenClean)
    throw new InputError(
      `The order can be drawn only once both sides have run clean: ${whyNotProven} Make the pulls by turns until then.`,
    );
  const seed = wanted.seed ?? randomInt(2 ** 31 - 1);
  const plan = planPartTest(gainPercent, percent, order, provenClean, seed);
  return { plan, repeatability, provenClean, whyNotProven, percent };
}

/** Kept to what a plan can use; a stated figure stays as stated. */
const round = (percent: number) => Math.max(0.01, Math.round(100 * percent) / 100);

/** A side is proven clean by a pull that somebody or something watched, in which nothing knocked. */
function whyNotClean(pulls: readonly Pull[], groups: readonly string[]): string | null {
  const isClean = (pull: Pull) =>
    pull.excludedBecause === null &&
    !pull.aborted &&
    pull.watched !== null &&
    pull.watched !== 'not' &&
    pull.knockHeard === false &&
    !pull.specksOnPlug;
  const unproven = groups.filter(
    (group) => !pulls.some((pull) => isSameGroup(pull.group, group) && isClean(pull)),
  );
  if (unproven.length === 0) return null;
  return `no pull of ${listed(unproven.map((group) => `"${group}"`))} was watched and ran clean yet.`;
}

interface MadePull {
  readonly pull: Pull;
  readonly side: 'a' | 'b';
  readonly counted: boolean;
  readonly why: string | null;
  readonly block: number | null;
}

/** A part test after the pulls made: blocks, whether to go on, which pull is next, and both groups side by side. */
export async function readPartTest(record: PullbookRecord, curves: Curves, id: Id) {
  const partTest = await record.partTests.get(id);
  const { groupA, groupB, plan, dayId } = partTest;
  const warnings: string[] = [];
  const made = (await record.pulls.list({ dayId })).flatMap((pull) => {
    const side = isSameGroup(pull.group, groupA)
      ? ('a' as const)
      : isSameGroup(pull.group, groupB)
        ? ('b' as const)
        : null;
    return side === null ? [] : [{ pull, side }];
  });
  const question = await questionOn(record, curves, partTest, made, warnings);
  const whyOf = new Map(
    question?.taken.sides.flatMap(({ pulls }) =>
      pulls.map((pull) => [pull.id, pull.excludedBecause] as const),
    ) ?? [],
  );
  const ranks = { a: 0, b: 0 };
  const told: MadePull[] = made.map(({ pull, side }) => {
    const own = pull.excludedBecause ?? (pull.aborted ? 'aborted' : null);
    const why = whyOf.has(pull.id)
      ? whyOf.get(pull.id)!
      : (own ?? (question === null ? null : 'it has no curve'));
    return { pull, side, counted: why === null, why, block: why === null ? ranks[side]++ : null };
  });
  const blocks = question === null ? [] : blocksOf(told, question);
  const counted = told.filter((one) => one.counted);
  const inPlan = blocks.slice(0, plan.blocks);
  if (blocks.length > plan.blocks)
    warnings.push(
      `More pulls were made than planned; the look counts the first ${plan.blocks} of each, as its error rates ask.`,
    );
  if (counted.some(({ side }, i) => plan.order[i] !== undefined && plan.order[i] !== side))
    warnings.push(
      'The pulls were not made in the order of the plan; a drift of the day is then less well taken out.',
    );
  const look = lookAtPartTest(
    plan,
    inPlan.map(({ gainPercent }) => gainPercent),
  );
  const answered = question === null ? null : answeredOr(question, warnings);
  return {
    partTest,
    pulls: told,
    blocks,
    look,
    next: look.action === 'stop' ? null : nextSide(plan.order, counted),
    standard: question?.standard ?? null,
    input: question?.input ?? null,
    answer: answered?.answer ?? null,
    finding: answered === null ? null : paragraphOf(answered.answer, question!.taken.sentence),
    warnings: [...new Set([...warnings, ...(answered?.warnings ?? question?.warnings ?? [])])],
  } satisfies {
    partTest: PartTest;
    pulls: readonly MadePull[];
    look: PartLook;
    standard: AirStandard | null;
    input: CompareInput | null;
    [key: string]: unknown;
  };
}

/** Both groups brought together; null before each has a pull that counts, or where they cannot be, which is said. */
async function questionOn(
  record: PullbookRecord,
  curves: Curves,
  { dayId, groupA, groupB, bandRpm }: PartTest,
  made: readonly { readonly side: 'a' | 'b' }[],
  warnings: string[],
): Promise<CompareQuestion | null> {
  if (!made.some(({ side }) => side === 'a') || !made.some(({ side }) => side === 'b')) return null;
  const sideOf = (group: string) => ({ kind: 'group' as const, dayId, group });
  try {
    const brought = await bringTogether(record, curves, {
      sides: [sideOf(groupA), sideOf(groupB)],
      ...(bandRpm === null ? {} : { bandRpm }),
    });
    return brought.question;
  } catch (error) {
    if (!(error instanceof PullbookError) || error.code === 'store') throw error;
    warnings.push(error.message);
    return null;
  }
}

function answeredOr(question: CompareQuestion, warnings: string[]) {
  try {
    return answerQuestion(question);
  } catch (error) {
    if (!(error instanceof PullbookError)) throw error;
    warnings.push(error.message);
    return null;
  }
}

/** The k-th pulls of both sides are a block: gain of B over A in mean power over the speeds that all cover [%]. */
function blocksOf(told: readonly MadePull[], { taken, input, standard }: CompareQuestion) {
  const fits = new Map(
    taken.sides.flatMap(({ pulls }) => pulls.map(({ id, fit }) => [id, fit] as const)),
  );
  const curveOf = ({ pull }: MadePull) => curveIn(fits.get(pull.id)!, { standard });
  const counted = told.filter((one) => one.counted);
  const curves = new Map(counted.map((one) => [one.pull.id, curveOf(one)]));
  const all = [...curves.values()].map(({ spline }) => spline);
  const band: BandRpm = [
    Math.max(input.bandRpm[0], ...all.map(({ low }) => low)),
    Math.min(input.bandRpm[1], ...all.map(({ high }) => high)),
  ];
  if (!(band[1] > band[0])) return [];
  const [a, b] = (['a', 'b'] as const).map((side) => counted.filter((one) => one.side === side));
  const power = (one: MadePull) => meanPowerW(curves.get(one.pull.id)!, band).value;
  return a!.slice(0, b!.length).map((one, k) => ({
    aPullId: one.pull.id,
    bPullId: b![k]!.pull.id,
    gainPercent: 100 * (power(b![k]!) / power(one) - 1),
  }));
}

/** The first of the plan's order that the pulls made do not fill; null at its end. */
function nextSide(
  order: readonly ('a' | 'b')[],
  made: readonly { readonly side: 'a' | 'b' }[],
): 'a' | 'b' | null {
  const left = { a: 0, b: 0 };
  for (const { side } of made) left[side]++;
  return order.find((side) => left[side]-- <= 0) ?? null;
}

/**
 * Says which side pulls of the test's day are of, in one change.
 * @throws InputError  a pull of another day
 */
export async function putPulls(
  record: PullbookRecord,
  id: Id,
  pullIds: readonly Id[],
  side: 'a' | 'b' | null,
  change: { readonly who?: string },
): Promise<void> {
  const { dayId, groupA, groupB, name } = await record.partTests.get(id);
  const own = new Set((await record.pulls.list({ dayId })).map((pull) => pull.id));
  const stranger = pullIds.find((pullId) => !own.has(pullId));
  if (stranger !== undefined)
    throw new InputError('A part test is made within one day; this pull is of another.', {
      found: stranger,
    });
  const group = side === null ? null : side === 'a' ? groupA : groupB;
  const count = `${pullIds.length} ${pullIds.length === 1 ? 'pull' : 'pulls'}`;
  await record.pulls.updateMany(
    pullIds.map((pullId) => ({ id: pullId, patch: { group } })),
    {
      ...change,
      summary: group === null ? `${count} taken off ${name}` : `${count} of "${group}" in ${name}`,
    },
  );
}
