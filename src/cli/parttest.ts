import { type PartAnswer, type PartOrder, type PartPlan, planPartTest } from '../compare/index.ts';
import { InputError, UsageError } from '../errors.ts';
import { readSessionAt, type SessionPull } from '../intake/index.ts';
import type { PartTest, PullbookRecord } from '../record/index.ts';
import {
  type CompareWork,
  compareParts,
  partNotBegun,
  planPercent,
  type Repeatability,
  readPartTest,
  refusedObject,
  repeatabilityFrom,
} from '../report/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { namedSide } from './compare.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { cellNamed, readingShop, sideAt } from './shop.ts';
import { showRefusal } from './show/look.ts';
import { showPartTest } from './show/parttest.ts';

export interface PartFlags {
  readonly json?: boolean;
  readonly gain?: number;
  readonly repeatability?: number;
  readonly cell?: string;
  readonly order: keyof typeof ORDERS;
  readonly ranClean?: boolean;
  readonly seed: number;
  readonly data?: string;
  readonly units: UnitSystem;
}

/** A part test, planned or under way, as `pullbook parttest --json` publishes it; gains are of B over A. */
export interface PartObject extends Omit<PartAnswer, 'pulls' | 'blocks' | 'repeatabilityPercent'> {
  readonly gainPercent: number;
  /** Pull-to-pull sd that the plan rests on, and from what it is known. */
  readonly repeatabilityPercent: number;
  readonly repeatabilityFrom: Repeatability['from'] | 'plan';
  /** Most pulls of each. */
  readonly most: number;
  readonly order: readonly ('a' | 'b')[];
  readonly made: { readonly a: number; readonly b: number };
  /** Gain of B over A by block, the drift taken out, in the order made [%]; empty where there are no blocks. */
  readonly differencesPercent: readonly number[];
  readonly plan: string;
  /** The two sides compared, as a paragraph; null before each has a pull. */
  readonly sideBySide: string | null;
}

/** `pullbook parttest`: how many pulls of each and in which order, and after the pulls made whether to go on. */
export async function partTest(
  made: string | undefined,
  flags: PartFlags,
  io: CommandIo,
): Promise<number> {
  try {
    const object = await partObject(made, flags, io);
    io.out(flags.json ? jsonLine(object) : showPartTest(object, flags.units, io.columns));
    return EXIT.done;
  } catch (error) {
    if (io.signal.aborted || error instanceof UsageError) throw error;
    const object = refusedObject(made ?? 'part test', error);
    if (flags.json) io.out(jsonLine(object));
    else io.err(showRefusal(object));
    return EXIT.refused;
  }
}

async function partObject(
  made: string | undefined,
  flags: PartFlags,
  io: CommandIo,
): Promise<PartObject> {
  if (made === undefined) {
    const repeatability = await repeatabilityFor(flags, io);
    return objectOf(planned(flags, repeatability, flags.ranClean === true), repeatability, null);
  }
  const side = await namedSide(made, io);
  if (!('name' in side)) {
    if (side.kind !== 'day')
      throw new UsageError(
        `"${made}" is no session and no day of the shop; expected a session file, or a day such as day:2026-05-17`,
      );
    return readingShop(recordFolder(flags.data, io), async (record) => {
      const wanted = await sideAt(record, side);
      if (wanted.kind !== 'day') throw new UsageError('a part test is of a day, without a setting');
      return ofDay(record, wanted.dayId, flags);
    });
  }
  const session = await readSessionAt(side.path, side.name);
  const repeatability = await repeatabilityFor(flags, io);
  const isProven = flags.ranClean === true || ranClean(session.pulls);
  const plan = planned(flags, repeatability, isProven);
  const groups = new Set(session.pulls.map(({ group }) => group).filter((group) => group !== null));
  // Before each side has a pull there is nothing to look at yet.
  if (groups.size < 2) return objectOf(plan, repeatability, null, madeSoFar(session.pulls));
  return objectOf(plan, repeatability, await compareParts(side, { signal: io.signal }));
}

/** Pulls that count, of a session that has one group only. */
function madeSoFar(pulls: readonly SessionPull[]): { readonly a: number; readonly b: number } {
  const counted = pulls.filter(
    ({ aborted, excludedBecause }) => !aborted && excludedBecause === null,
  );
  const of = (side: string) => counted.filter(({ group }) => group?.toLowerCase() === side).length;
  return { a: of('a'), b: of('b') };
}

/** Each group of a session has a pull that was watched and in which nothing knocked. */
function ranClean(pulls: readonly SessionPull[]): boolean {
  const clean = pulls.filter(
    ({ watched, knockHeard, aborted, excludedBecause }) =>
      watched !== null &&
      watched !== 'not' &&
      knockHeard === false &&
      !aborted &&
      excludedBecause === null,
  );
  return new Set(clean.map(({ group }) => group).filter((group) => group !== null)).size > 1;
}

async function repeatabilityFor(flags: PartFlags, io: CommandIo): Promise<Repeatability> {
  const { repeatability, cell } = flags;
  if (repeatability !== undefined) return repeatabilityFrom({ statedPercent: repeatability });
  if (cell === undefined)
    return repeatabilityFrom({ squares: [], pulls: 0, cell: 'a cell of which nothing is said' });
  const { Curves, Readings, repeatabilityOfCell } = await import('../service/work/index.ts');
  return readingShop(recordFolder(flags.data, io), async (record) =>
    repeatabilityOfCell(
      record,
      new Curves(record, new Readings(record)),
      (await cellNamed(record, cell)).id,
    ),
  );
}

const ORDERS = { 'by-turns': 'by turns', drawn: 'randomised', 'a-b-a': 'A/B/A' } as const;
const orderOf = ({ order }: PartFlags): PartOrder => ORDERS[order];

function gainOf({ gain }: PartFlags): number {
  if (gain === undefined)
    throw new UsageError('--gain is missing: the gain of mean power to be seen, such as --gain 1');
  return gain;
}

function planned(flags: PartFlags, repeatability: Repeatability, isProven: boolean): PartPlan {
  if (flags.order === 'drawn' && !isProven)
    throw new InputError(
      'The order can be drawn only once both sides have run clean: make the pulls by turns until then, or say --ran-clean where they have.',
    );
  return planPartTest(
    gainOf(flags),
    planPercent(repeatability),
    orderOf(flags),
    isProven,
    flags.seed,
  );
}

function objectOf(
  plan: PartPlan,
  repeatability: Repeatability,
  work: CompareWork | null,
  made = { a: 0, b: 0 },
): PartObject {
  const percent = planPercent(repeatability);
  const stated = repeatability.from === 'stated' ? percent : null;
  const look = work === null ? partNotBegun(plan, percent, made) : readPartTest(work, plan, stated);
  return published(look, plan, {
    repeatabilityPercent: percent,
    repeatabilityFrom: repeatability.from,
    plan: `${repeatability.sentence} ${plan.sentence}`,
    sideBySide: work?.finding ?? null,
    warnings: [...new Set([...look.warnings, ...(work?.warnings ?? [])])],
  });
}

function published(
  { pulls, blocks, repeatabilityPercent: _, ...look }: PartAnswer,
  { gainPercent, blocks: most, order }: PartPlan,
  about: Pick<
    PartObject,
    'repeatabilityPercent' | 'repeatabilityFrom' | 'plan' | 'sideBySide' | 'warnings'
  >,
): PartObject {
  return { gainPercent, most, order, made: pulls, differencesPercent: blocks, ...look, ...about };
}

/** The part test that is kept with a day of the shop, else one planned now over its groups "a" and "b". */
async function ofDay(record: PullbookRecord, dayId: string, flags: PartFlags): Promise<PartObject> {
  const { Curves, planOn, Readings, readPart } = await import('../service/work/index.ts');
  const curves = new Curves(record, new Readings(record));
  const kept = (await record.partTests.list({ dayId })).at(-1);
  const fresh = async (): Promise<PartTest> => {
    const gainPercent = gainOf(flags);
    const groups = { groupA: 'a', groupB: 'b' };
    const { plan, percent } = await planOn(record, curves, dayId, {
      ...groups,
      gainPercent,
      order: orderOf(flags),
      seed: flags.seed,
      repeatabilityPercent: flags.repeatability,
    });
    const repeatabilityPercent = percent;
    const about = { id: '', name: '', who: '', madeAt: '', bandRpm: null };
    return { ...about, ...groups, dayId, gainPercent, repeatabilityPercent, plan };
  };
  const test = kept ?? (await fresh());
  const reading = await readPart(record, curves, test);
  return published(reading.look, test.plan, {
    repeatabilityPercent: test.repeatabilityPercent,
    repeatabilityFrom: 'plan',
    plan: test.plan.sentence,
    sideBySide: reading.finding,
    warnings: reading.warnings,
  });
}
