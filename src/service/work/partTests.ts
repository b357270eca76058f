/** A fair test of a part: its plan from what the cell repeats, and how it stands after the pulls made. */
import { randomInt } from 'node:crypto';
import {
  type CompareAnswer,
  type CompareInput,
  type PartAnswer,
  type PartOrder,
  planPartTest,
} from '../../compare/index.ts';
import { InputError, PullbookError } from '../../errors.ts';
import { isSameGroup } from '../../ladder/index.ts';
import type { AirStandard } from '../../pull/index.ts';
import type { BandRpm, Change, Id, PartTest, Pull, PullbookRecord } from '../../record/index.ts';
import {
  answerQuestion,
  type CompareQuestion,
  listed,
  partNotBegun,
  planPercent,
  type Repeatability,
  readPartTest,
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

/** The same of a cell by itself. */
export async function repeatabilityOfCell(
  record: PullbookRecord,
  curves: Curves,
  cellId: Id,
): Promise<Repeatability> {
  const sides = new Sides(record);
  const [shop, cell] = await Promise.all([record.shop.get(), record.cells.get(cellId)]);
  return repeatabilityOn(record, sides, new SidePulls(record, curves, sides), { shop, cell });
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
  const percent = wanted.repeatabilityPercent ?? planPercent(repeatability);
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

/** A part test as it is asked for. */
export interface FreshPartTest extends PartWanted {
  readonly dayId: Id;
  readonly name?: string | undefined;
  readonly bandRpm?: BandRpm | null | undefined;
}

/** Plans a part test and keeps it with its day. @throws InputError  as `planOn` */
export async function makePartTest(
  record: PullbookRecord,
  curves: Curves,
  { dayId, name, bandRpm = null, ...wanted }: FreshPartTest,
  change: Change = {},
): Promise<PartTest> {
  const { plan, percent } = await planOn(record, curves, dayId, wanted);
  const { gainPercent, groupA, groupB } = wanted;
  return record.partTests.create(
    {
      dayId,
      gainPercent,
      groupA,
      groupB,
      bandRpm,
      plan,
      repeatabilityPercent: percent,
      who: change.who ?? '',
      ...(name === undefined || name === '' ? {} : { name }),
    },
    change,
  );
}

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

/** A pull of a part test as it is told. */
export interface MadePull {
  readonly pull: Pull;
  readonly side: 'a' | 'b';
  readonly counted: boolean;
  readonly why: string | null;
}

/** A part test as it stands after the pulls made. */
export interface PartReading {
  readonly partTest: PartTest;
  readonly pulls: readonly MadePull[];
  readonly look: PartAnswer;
  readonly standard: AirStandard | null;
  readonly input: CompareInput | null;
  /** Both groups side by side; null before each has a pull that counts. */
  readonly answer: CompareAnswer | null;
  readonly finding: string | null;
  readonly warnings: readonly string[];
}

export async function readPart(
  record: PullbookRecord,
  curves: Curves,
  partTest: PartTest,
): Promise<PartReading> {
  const { groupA, groupB, plan, dayId } = partTest;
  const warnings: string[] = [];
  const sideOf = ({ group }: Pull): 'a' | 'b' | null =>
    isSameGroup(group, groupA) ? 'a' : isSameGroup(group, groupB) ? 'b' : null;
  const made = (await record.pulls.list({ dayId })).flatMap((pull) => {
    const side = sideOf(pull);
    return side === null ? [] : [{ pull, side }];
  });
  const question = await questionOn(record, curves, partTest, made, warnings);
  const pulls = made.map((one) => ({ ...one, ...whetherCounted(one.pull, question) }));
  const count = (side: 'a' | 'b') => pulls.filter((one) => one.counted && one.side === side).length;
  const { repeatabilityPercent: stated } = await record.shop.get();
  const look =
    question === null
      ? partNotBegun(plan, partTest.repeatabilityPercent, { a: count('a'), b: count('b') })
      : readPartTest(question, plan, stated);
  const answered = question === null ? null : answerQuestion(question);
  return {
    partTest,
    pulls,
    look,
    standard: question?.standard ?? null,
    input: question?.input ?? null,
    answer: answered?.answer ?? null,
    finding: answered?.finding ?? null,
    warnings: [...new Set([...warnings, ...look.warnings, ...(answered?.warnings ?? [])])],
  };
}

function whetherCounted(
  pull: Pull,
  question: CompareQuestion | null,
): Pick<MadePull, 'counted' | 'why'> {
  const own = pull.excludedBecause ?? (pull.aborted ? 'aborted' : null);
  if (question === null) return { counted: own === null, why: own };
  const taken = question.taken.sides.flatMap((side) => side.pulls).find(({ id }) => id === pull.id);
  const why = taken === undefined ? (own ?? 'it has no curve') : taken.excludedBecause;
  return { counted: why === null, why };
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
    // Speeds that they do not share show only here.
    answerQuestion(brought.question);
    return brought.question;
  } catch (error) {
    if (!(error instanceof PullbookError) || error.code === 'store') throw error;
    warnings.push(error.message);
    return null;
  }
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
