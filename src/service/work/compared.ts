/** Sides named by things of the shop, brought together and compared. */
import { begun, COMPARE_VERSION, type CompareAnswer } from '../../compare/index.ts';
import { InputError } from '../../errors.ts';
import { type AirStandard, CURVE_VERSION } from '../../pull/index.ts';
import type {
  BandRpm,
  ComparisonSaid,
  Id,
  PullbookRecord,
  SideWanted,
} from '../../record/index.ts';
import {
  answerPeaks,
  answerQuestion,
  type CompareQuestion,
  changesInWords,
  paperSide,
  questionOf,
  type ReadSide,
} from '../../report/index.ts';
import type { Curves } from './curves.ts';
import { type References, referencesOn } from './references.ts';
import {
  type FittedPull,
  peaksOfTyped,
  SidePulls,
  setPulls,
  settingOf,
  stepsLambda,
} from './sidePulls.ts';
import { type ChosenSide, dayName, namesOf, Sides } from './sides.ts';

export interface CompareWanted {
  readonly sides: readonly SideWanted[];
  readonly bandRpm?: BandRpm | undefined;
  readonly standard?: AirStandard | undefined;
  readonly correctBoosted?: boolean | undefined;
  /** One, where a use or a vehicle is asked about. */
  readonly leastSides?: 1 | 2;
  /** Days that may teach how days differ; left out: all of the record. */
  readonly referenceDays?: ReadonlySet<Id> | undefined;
}

/** One pull of a side as it is told: whether it counts, and what was known of it. */
export interface ToldPull {
  readonly pullId: Id;
  readonly dayId: Id;
  readonly label: string;
  readonly day: string;
  readonly date: string | null;
  readonly cell: string;
  readonly setting: string | null;
  readonly leadDeg: number | null;
  readonly lambda: number | null;
  readonly counted: boolean;
  readonly why: string | null;
  readonly correctionFactor: number | null;
  readonly airAsRecorded: string | null;
  readonly inertia: 'in' | 'out' | 'unknown' | null;
  readonly sweepRateRpmPerS: number | null;
  readonly lagS: number | null;
  readonly calibration: string | null;
  readonly configuration: string | null;
}
export interface ToldSide {
  readonly name: string;
  readonly wanted: SideWanted;
  readonly engineId: Id | null;
  readonly buildId: Id | null;
  readonly pulls: readonly ToldPull[];
  /** `peaks`: only they are known. */
  readonly known: 'curve' | 'peaks';
  readonly builtOtherwise: string | null;
}
export interface DayToDay {
  readonly from: 'one day' | 'reference pulls' | 'prior';
  readonly sentence: string;
  readonly pullIds: readonly Id[];
  readonly marked: boolean;
}

/** Sides of the shop brought together, and what each was made of. */
export interface Brought {
  readonly question: CompareQuestion;
  readonly sides: readonly ToldSide[];
  readonly dayToDay: DayToDay;
}

/** A side with its pulls fitted: what `questionOf` reads, and what is told of it. */
interface Prepared {
  readonly chosen: ChosenSide;
  readonly fitted: readonly FittedPull[];
  readonly read: ReadSide;
}

/** A side read from a file, and its place among all sides. */
export interface FileSideAt {
  readonly at: number;
  readonly side: ReadSide;
}

/**
 * @param files  sides from files among those of the shop, in the order of their places
 * @throws InputError  sides that are not there, hold nothing to compare, or cannot be brought together
 */
export async function bringTogether(
  record: PullbookRecord,
  curves: Curves,
  wanted: CompareWanted,
  files: readonly FileSideAt[] = [],
): Promise<Brought> {
  const sides = new Sides(record);
  const pulls = new SidePulls(record, curves, sides);
  const prepared = await prepare(record, wanted.sides, sides, pulls);
  const shop = await record.shop.get();
  const read = prepared.map((one) => one.read);
  for (const { at, side } of files) read.splice(at, 0, side);
  const cells = new Set(
    prepared.flatMap(({ fitted }) => fitted.map(({ context }) => context.cell.id)),
  );
  const days = new Set(
    read.flatMap((side) =>
      side.pulls.filter(({ excludedBecause }) => excludedBecause === null).map(({ day }) => day),
    ),
  );
  const references: References =
    days.size > 1 && cells.size > 0
      ? await referencesOn(record, sides, pulls, cells, wanted.referenceDays)
      : { groups: [], marked: false };
  const question = questionOf(read, {
    worthPercent: shop.worthPercent,
    repeatabilityPercent: shop.repeatabilityPercent,
    standard:
      wanted.standard ?? read.find(({ standard }) => standard !== null)?.standard ?? shop.standard,
    correctBoosted: wanted.correctBoosted ?? false,
    reference: references.groups,
    ...(wanted.bandRpm === undefined ? {} : { bandRpm: wanted.bandRpm }),
    ...(wanted.leastSides === undefined ? {} : { leastSides: wanted.leastSides }),
  });
  return {
    question,
    sides: told(prepared, question),
    dayToDay: dayToDayOf(question, references),
  };
}

async function prepare(
  record: PullbookRecord,
  wanted: readonly SideWanted[],
  sides: Sides,
  pulls: SidePulls,
): Promise<readonly Prepared[]> {
  const chosen: ChosenSide[] = [];
  for (const one of wanted) chosen.push(await sides.choose(one));
  const names = namesOf(chosen);
  const fitted: FittedPull[][] = [];
  for (const side of chosen) {
    const own: FittedPull[] = [];
    for (const one of side.pulls) own.push(await pulls.fitted(one));
    fitted.push(own);
  }
  const built = await builtOtherwise(record, chosen, names);
  const typed = chosen.map((side, g) =>
    side.wanted.kind === 'paper' ? null : peaksOfTyped(names[g]!, fitted[g]!),
  );
  const marked = fitted.map((own, g) =>
    own.map((one) => ({ ...one, why: whyNot(one, typed[g]!) })),
  );
  const set = setPulls(marked);
  return chosen.map((side, g) => {
    const own = marked[g]!;
    const name = names[g]!;
    if (side.wanted.kind === 'paper')
      return { chosen: side, fitted: own, read: paperSide(name, side.wanted) };
    if (own.every(({ why }) => why !== null))
      throw new InputError(begun(`${name} has no pull that counts: ${own[0]!.why}`));
    const { chosen: keeps, standard, bandRpm } = side;
    const read: ReadSide = {
      name,
      pulls: [],
      chosen: keeps,
      warnings: [],
      standard,
      bandRpm,
      builtOtherwise: built[g]!,
      engine: side.pulls[0]?.context.engine.id,
      ...(typed[g] === null ? { pulls: set[g]! } : { peaks: typed[g]!.side }),
    };
    return { chosen: side, fitted: own, read };
  });
}

/** Why a pull does not count; typed peaks do only where their side has nothing else, at one setting. */
function whyNot(one: FittedPull, typed: ReturnType<typeof peaksOfTyped>): string | null {
  if (one.why !== null) return one.why;
  if (typed !== null)
    return typed.pulls.some(({ pull }) => pull.id === one.pull.id)
      ? null
      : 'its typed peaks are of another setting than the strongest';
  return one.fit === null ? 'its peaks were typed, so it has no curve' : null;
}

/** How the build of each side differs from the first one's, where each is of one build. */
async function builtOtherwise(
  record: PullbookRecord,
  sides: readonly ChosenSide[],
  names: readonly string[],
): Promise<readonly (string | null)[]> {
  const contexts = sides.map(({ pulls }) => {
    const own = new Map(pulls.map(({ context }) => [context.build.id, context]));
    return own.size === 1 ? [...own.values()][0]! : null;
  });
  const [first] = contexts;
  const out: (string | null)[] = [];
  for (const [g, context] of contexts.entries()) {
    if (first == null || context === null || context.build.id === first.build.id) {
      out.push(null);
      continue;
    }
    if (context.engine.id !== first.engine.id) {
      out.push(`They are different engines, ${first.engine.name} and ${context.engine.name}.`);
      continue;
    }
    const [before, after] = await Promise.all([
      record.sheets.get(first.build.id),
      record.sheets.get(context.build.id),
    ]);
    const { windows, units } = context.shop;
    const words =
      before.sheet === null || after.sheet === null
        ? null
        : changesInWords(before.sheet, after.sheet, windows, units);
    const of = names[g] === context.build.name ? names[g] : `${names[g]} (${context.build.name})`;
    out.push(
      words !== null
        ? `By their sheets ${of} has other parts or measures than ${first.build.name}: ${words}.`
        : before.sheet === null || after.sheet === null
          ? `They are different builds, ${first.build.name} and ${context.build.name}; ${before.sheet === null && after.sheet === null ? 'neither has' : 'not both have'} a sheet that would say what was changed.`
          : `They are different builds, ${first.build.name} and ${context.build.name}; their sheets say the same of both.`,
    );
  }
  return out;
}

/** What each side was made of, with the reason of each pull that does not count. */
function told(prepared: readonly Prepared[], { taken, standard }: CompareQuestion): ToldSide[] {
  const withLambda = stepsLambda(prepared.flatMap(({ fitted }) => fitted));
  return prepared.map(({ chosen, fitted, read }) => {
    const own = taken.sides.find(({ name }) => name === read.name)!;
    const stood = new Map(read.pulls.map((pull) => [pull.id, pull.configuration]));
    const after = new Map(own.pulls.map((pull) => [pull.id, pull.excludedBecause]));
    const pulls = fitted.map((one): ToldPull => {
      const { pull, context, fit } = one;
      const why = after.get(pull.id) ?? one.why;
      return {
        pullId: pull.id,
        dayId: pull.dayId,
        label: pull.fileName ?? `pull ${pull.order + 1}`,
        day: dayName(context),
        date: context.day.date,
        cell: context.cell.name,
        setting: settingOf(one, withLambda),
        leadDeg: pull.leadDeg,
        lambda: one.lambda,
        counted: why === null,
        why,
        ...factsOf(fit, standard),
        calibration: one.calibration?.doneOn ?? null,
        configuration: stood.get(pull.id) ?? null,
      };
    });
    const ids = (read: (one: FittedPull) => Id) => {
      const found = new Set(fitted.map(read));
      return found.size === 1 ? [...found][0]! : null;
    };
    return {
      name: read.name,
      wanted: chosen.wanted,
      engineId: ids(({ context }) => context.engine.id),
      buildId: ids(({ context }) => context.build.id),
      pulls,
      known: read.peaks === undefined ? 'curve' : 'peaks',
      builtOtherwise: read.builtOtherwise ?? null,
    };
  });
}

function factsOf(fit: FittedPull['fit'], standard: AirStandard) {
  const { conditions } = fit?.asRecorded ?? { conditions: null };
  return {
    correctionFactor:
      fit === null || fit.basis.air !== 'observed' ? null : fit.air.factors[standard],
    airAsRecorded: fit?.basis.air ?? null,
    inertia: fit?.basis.inertia ?? null,
    sweepRateRpmPerS: conditions?.sweepRateRpmPerS ?? null,
    lagS: fit?.asRecorded.lagS ?? null,
  };
}

function dayToDayOf({ input }: CompareQuestion, { marked }: References): DayToDay {
  const days = new Set(
    input.groups.flatMap(({ pulls }) =>
      pulls.filter(({ excludedBecause }) => excludedBecause === null).map(({ day }) => day),
    ),
  );
  const reference = input.reference.flatMap(({ pulls }) => pulls);
  if (days.size < 2)
    return {
      from: 'one day',
      sentence: 'All pulls were made on one day, so how days differ does not come in.',
      pullIds: [],
      marked: false,
    };
  if (reference.length === 0)
    return {
      from: 'prior',
      sentence:
        'No reference pulls of an unchanged engine on several days are in the record for this cell: how days differ is taken from what handbooks give, 1 to 2 %.',
      pullIds: [],
      marked: false,
    };
  const on = new Set(reference.map(({ day }) => day)).size;
  return {
    from: 'reference pulls',
    sentence: `How days differ is learned from ${reference.length} ${marked ? 'reference pulls of' : 'repeated pulls of an unchanged build on'} ${on} days.`,
    pullIds: reference.map(({ id }) => id),
    marked,
  };
}

export function membersOf({ question, sides, dayToDay }: Brought) {
  const { input, peakSides } = question;
  const peaks = answerPeaks(question);
  const warnings = [...question.warnings, ...peaks.flatMap((one) => one.warnings)];
  return {
    ...aboutOf({ ...question, warnings: [...new Set(warnings)] }, sides, dayToDay),
    input: input.groups.length < 2 ? null : input,
    peakSides,
    peaks,
  };
}

export function comparisonOf({ question, sides, dayToDay }: Brought) {
  const { answer, peaks, finding, warnings } = answerQuestion(question);
  return { ...aboutOf({ ...question, warnings }, sides, dayToDay), answer, peaks, finding };
}

const aboutOf = (
  { standard, taken, warnings }: CompareQuestion,
  sides: readonly ToldSide[],
  dayToDay: DayToDay,
) => ({ standard, sides, taken: taken.sentence, dayToDay, warnings });

/** What a comparison says now, to be kept with it. */
export function saidBy({
  standard,
  sides,
  answer,
  finding,
}: {
  readonly standard: AirStandard;
  readonly sides: readonly ToldSide[];
  readonly answer: CompareAnswer | null;
  readonly finding: string;
}): ComparisonSaid {
  return {
    compareVersion: COMPARE_VERSION,
    curveVersion: CURVE_VERSION,
    standard,
    bandRpm: answer?.bandRpm ?? null,
    sides: sides.map(({ name, pulls }) => ({
      name,
      pullIds: pulls.flatMap(({ pullId, counted }) => (counted ? [pullId] : [])),
    })),
    gains: (answer?.pairs ?? []).map(({ gain, word }) => ({ ...gain, word })),
    finding,
  };
}
