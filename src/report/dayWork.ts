import { readSessionAt, type Session } from '../intake/index.ts';
import { answerLadder, type LadderAnswer, type LadderInput } from '../ladder/index.ts';
import { checkDay } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { ladderInputOf } from './ladderInput.ts';
import type { FiledPull } from './ladderObject.ts';
import { workPull } from './sessionPull.ts';
import { partTests, settingsOf, typedPeaksWarnings } from './sessionRules.ts';

/** A test day worked from its session file to its answer. */
export interface DayWork {
  readonly session: Session;
  readonly standard: AirStandard;
  readonly pulls: readonly FiledPull[];
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  /** What the reader of the answer should know: of the session, of its files, of typed peaks. */
  readonly warnings: readonly string[];
}

export interface DayWorkOptions {
  /** Name of the session in messages; its path unless said. */
  readonly name?: string;
  /** Instead of the session's own. */
  readonly standard?: AirStandard;
  /** Correct a boosted or nitrous engine all the same. */
  readonly correctBoosted?: boolean;
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
  const settings = settingsOf(session);
  const standard = options.standard ?? session.standard;
  const { correctBoosted = false, signal } = options;
  const around = { path, session, standard, correctBoosted, signal };
  const leftOut = partTests(session.pulls);
  const warnings = [...session.warnings];
  const worked: FiledPull[] = [];
  for (const [index, pull] of session.pulls.entries()) {
    options.signal?.throwIfAborted();
    if (pull.file !== null) options.onFile?.(pull.file, index, session.pulls.length);
    const excludedBecause = pull.excludedBecause ?? leftOut(pull);
    const one = await workPull({ ...pull, excludedBecause }, index, around);
    worked.push(...one.pulls);
    warnings.push(...one.warnings);
  }
  const pulls = besideEachOther(worked);
  warnings.push(...typedPeaksWarnings(session, pulls));
  const input = ladderInputOf(pulls, settings);
  return { session, standard, pulls, input, answer: answerLadder(input), warnings };
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
