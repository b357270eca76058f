import { readSessionAt, type Session, type SessionSetting } from '../intake/index.ts';
import {
  answerLadder,
  LAMBDA,
  type LadderAnswer,
  type LadderInput,
  type SettingName,
} from '../ladder/index.ts';
import { type AirWish, checkDay, curveIn } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { bandFromCurves, ladderInputOf } from './ladderInput.ts';
import type { FiledPull } from './ladderObject.ts';
import { belowFullThrottle, heldLead, lambdasOf, steppedSetting } from './pullSettings.ts';
import { type FittedPull, workPull } from './sessionPull.ts';
import { partTests, settingsOf, typedPeaksWarnings } from './sessionRules.ts';
import { type LoadAnswer, twoByLoad, twoUses } from './twoWork.ts';

/** A test day worked from its session file to its answer. */
export interface DayWork {
  readonly session: Session;
  readonly standard: AirStandard;
  readonly pulls: readonly FiledPull[];
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  /** What the reader of the answer should know: of the session, of its files, of typed peaks. */
  readonly warnings: readonly string[];
  /** Whether the session, or who asked, wants lead and lambda at once. */
  readonly wantsBoth: boolean;
  /** Lead and lambda at once, one answer a load. */
  both(): readonly LoadAnswer[];
  /** The same day in another standard, from the same fits. */
  inStandard(standard: AirStandard): DayWork;
}

export interface DayWorkOptions {
  /** Name of the session in messages; its path unless said. */
  readonly name?: string;
  /** Instead of the session's own. */
  readonly standard?: AirStandard;
  /** Correct a boosted or nitrous engine all the same. */
  readonly correctBoosted?: boolean;
  /** What the pulls step, instead of what the session says or shows. */
  readonly setting?: SessionSetting;
  readonly signal?: AbortSignal;
  readonly onFile?: (file: string, index: number, count: number) => void;
}

/**
 * The whole way of one test day: session file → recordings → curves → the ladder's question → its answer.
 * @throws FormatError, InputError  a session or run file that is refused, naming file and place; a pull that is left
 *                                  out by the operator may be unreadable and does not stop the day
 */
export async function workSession(path: string, options: DayWorkOptions = {}): Promise<DayWork> {
  const name = options.name ?? path;
  const session = await readSessionAt(path, name);
  const around = { path, session, signal: options.signal };
  const leftOut = partTests(session.pulls);
  const pulls: FittedPull[] = [];
  const warnings = [...session.warnings];
  for (const [index, pull] of session.pulls.entries()) {
    options.signal?.throwIfAborted();
    if (pull.file !== null) options.onFile?.(pull.file, index, session.pulls.length);
    const excludedBecause = pull.excludedBecause ?? leftOut(pull);
    const one = await workPull({ ...pull, excludedBecause }, index, around);
    pulls.push(...one.pulls);
    warnings.push(...one.warnings);
  }
  const { standard = session.standard, correctBoosted = false } = options;
  const chosen = options.setting ?? session.setting;
  return answerIn({ standard, correctBoosted }, { session, chosen, pulls, warnings });
}

interface FittedDay {
  readonly session: Session;
  readonly chosen: SessionSetting | null;
  readonly pulls: readonly FittedPull[];
  readonly warnings: readonly string[];
}

/** The day's answer in one air: its fits scaled, nothing read or fitted again. */
function answerIn(wish: AirWish, day: FittedDay): DayWork {
  const { session, chosen } = day;
  const made = besideEachOther(
    day.pulls.map(({ fit, ...pull }) => ({
      ...pull,
      curve: fit === null ? null : curveIn(fit, wish),
      dayMarks: [],
    })),
  );
  const stepped = chosen === null || chosen === 'both' ? steppedSetting(made) : chosen;
  const settings = settingsOf(session, stepped);
  const pulls = asRungs(made, stepped, session.bandRpm);
  const input = ladderInputOf(pulls, settings);
  return {
    session,
    standard: wish.standard,
    pulls,
    input,
    answer: answerLadder(input),
    warnings: [...day.warnings, ...typedPeaksWarnings(session, pulls)],
    wantsBoth: chosen === 'both',
    both: () =>
      twoByLoad(made, {
        ...settingsOf(session, 'lead'),
        uses: twoUses(settingsOf(session, 'lead').uses, settingsOf(session, 'lambda').uses),
        stepLambda: LAMBDA.defaultStep,
      }),
    inStandard: (standard) => answerIn({ ...wish, standard }, day),
  };
}

/** The pulls in the ladder's own setting, with what is not of this ladder left out and the reason. */
function asRungs(
  pulls: readonly FiledPull[],
  stepped: SettingName,
  bandRpm: readonly [number, number] | null,
): readonly FiledPull[] {
  if (stepped === 'lead')
    return pulls.map((pull) => ({
      ...pull,
      excludedBecause: pull.excludedBecause ?? belowFullThrottle(pull),
    }));
  const elsewhere = heldLead(pulls);
  const lambdas = lambdasOf(pulls, bandRpm ?? bandFromCurves(pulls.map(({ curve }) => curve)));
  return pulls.map((pull, i) => ({
    ...pull,
    setting: lambdas[i]!.lambda,
    settingSd: lambdas[i]!.sd,
    setBy: pull.jets,
    excludedBecause: pull.excludedBecause ?? belowFullThrottle(pull) ?? elsewhere(pull),
  }));
}

/** The pulls with what is seen only beside the others of the day; a session does not say when each was made. */
function besideEachOther(pulls: readonly FiledPull[]): readonly FiledPull[] {
  const recorded = pulls.flatMap(({ id, curve }) =>
    curve === null ? [] : [{ id, curve, sinceLastPullS: null }],
  );
  const marks = checkDay(recorded);
  const byId = new Map(recorded.map(({ id }, index) => [id, marks[index]!]));
  return pulls.map((pull) => ({ ...pull, dayMarks: byId.get(pull.id) ?? [] }));
}
