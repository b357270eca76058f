import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { FormatError, InputError, PullbookError } from '../errors.ts';
import { readRunFile, readSession, type Session, type SessionPull } from '../intake/index.ts';
import {
  answerLadder,
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  type LadderAnswer,
  type LadderInput,
  SHIPPED_USES,
  SPARK_LEAD,
  WORTH_PERCENT,
} from '../ladder/index.ts';
import { type Curve, type CurveOptions, curveOf, findPulls } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { configurationWords } from './configuration.ts';
import { type DayPull, type LadderSettings, ladderInputOf } from './ladderInput.ts';
import type { FiledPull } from './ladderObject.ts';

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
  const session = readSession(await textOf(path, name), name);
  const standard = options.standard ?? session.standard;
  const warnings = [...session.warnings];
  const leftOut = partTests(session.pulls);
  const pulls: FiledPull[] = [];
  for (const [index, pull] of session.pulls.entries()) {
    options.signal?.throwIfAborted();
    if (pull.file !== null) options.onFile?.(pull.file, index, session.pulls.length);
    const excludedBecause = pull.excludedBecause ?? leftOut(pull);
    pulls.push(
      ...(await workPull(
        path,
        session,
        standard,
        { ...pull, excludedBecause },
        index,
        warnings,
        options,
      )),
    );
  }
  warnings.push(...typedPeaksWarnings(session, pulls));
  const input = ladderInputOf(pulls, settingsOf(session));
  return { session, standard, pulls, input, answer: answerLadder(input), warnings };
}

async function textOf(path: string, name: string): Promise<string> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new InputError(
      missing ? 'there is no such file' : 'the file cannot be read',
      { file: name },
      error,
    );
  }
}

/** What the shop has not said is as Pullbook ships it. */
export function settingsOf(session: Session): LadderSettings {
  if (session.use !== null && !SHIPPED_USES.some(({ name }) => name === session.use)) {
    const known = SHIPPED_USES.map(({ name }) => name).join(', ');
    throw new FormatError(`use: "${session.use}" is not a use that is known; expected ${known}`, {
      found: session.use,
      expected: known,
    });
  }
  return {
    kind: SPARK_LEAD,
    bandRpm: session.bandRpm,
    uses: SHIPPED_USES,
    aspiration: session.engine.aspiration,
    step: SPARK_LEAD.defaultStep,
    worthPercent: WORTH_PERCENT,
    repeatabilityPercent: null,
    worstInletDeltaK: 0,
    worstFuelDeltaOctane: 0,
    holdbackPer10K: HOLDBACK_PER_10K,
    holdbackPerOctane: HOLDBACK_PER_OCTANE,
  };
}

/** Options of a session's curves. */
export function curveOptionsOf(
  session: Session,
  standard: AirStandard,
  lambdaTarget: number | null,
): CurveOptions {
  return {
    standard,
    cell: session.cell,
    engine: session.engine,
    ...(session.bandRpm === null ? {} : { bandRpm: session.bandRpm }),
    ...(lambdaTarget === null ? {} : { lambdaTarget }),
  };
}

/** The pulls that a session's one entry stands for: one each pull found in its file, or the typed peaks. */
async function workPull(
  path: string,
  session: Session,
  standard: AirStandard,
  pull: SessionPull,
  index: number,
  warnings: string[],
  options: DayWorkOptions,
): Promise<FiledPull[]> {
  const base = {
    order: index,
    setting: pull.leadDeg,
    excludedBecause: pull.excludedBecause,
    watched: pull.watched,
    knockHeard: pull.knockHeard,
    aborted: pull.aborted,
    configuration: configurationWords(
      pull.configuration,
      session.pulls.map((one) => one.configuration),
    ),
    typedPowerSpeedRpm: null,
    typedTorqueSpeedRpm: null,
  } satisfies Partial<FiledPull>;
  if (pull.file === null)
    return [
      {
        ...base,
        id: `pull ${index + 1}`,
        file: null,
        pullOfFile: null,
        curve: null,
        peakPowerW: pull.peakPowerW,
        peakTorqueNm: pull.peakTorqueNm,
      },
    ];
  const { file } = pull;
  try {
    const curves = await curvesOfFile(path, session, standard, { ...pull, file }, options);
    for (const warning of curves.warnings) warnings.push(`${file}: ${warning}`);
    if (curves.curves.length > 1)
      warnings.push(
        `${file} holds ${curves.curves.length} pulls: each counts as a pull at ${pull.leadDeg} degrees.`,
      );
    return curves.curves.map((curve, at) => ({
      ...base,
      id: curves.curves.length === 1 ? file : `${file}, pull ${at + 1}`,
      order: index + at / (curves.curves.length + 1),
      file,
      pullOfFile: at + 1,
      curve,
      peakPowerW: null,
      peakTorqueNm: null,
    }));
  } catch (error) {
    if (pull.excludedBecause === null || !(error instanceof PullbookError)) throw error;
    warnings.push(
      `${file}, left out (${pull.excludedBecause}), could not be read: ${error.message}`,
    );
    return [
      {
        ...base,
        id: file,
        file,
        pullOfFile: null,
        curve: null,
        peakPowerW: null,
        peakTorqueNm: null,
      },
    ];
  }
}

async function curvesOfFile(
  path: string,
  session: Session,
  standard: AirStandard,
  pull: SessionPull & { readonly file: string },
  { signal }: DayWorkOptions,
): Promise<{ readonly curves: readonly Curve[]; readonly warnings: readonly string[] }> {
  const { recording } = await readRunFile(resolve(dirname(path), pull.file), {
    fileName: pull.file,
    torqueIs: pull.basis,
    fuel: session.engine.fuel,
    ...(signal === undefined ? {} : { signal }),
  });
  const options = curveOptionsOf(session, standard, pull.lambdaTarget);
  const curves = findPulls(recording).map((span) => curveOf(recording, span, options));
  return { curves, warnings: recording.warnings };
}

/**
 * Pulls of a part test stand in a group and are no rungs of the day's ladder, unless the whole day is one group.
 */
function partTests(pulls: readonly SessionPull[]): (pull: SessionPull) => string | null {
  const groups = new Set(pulls.map(({ group }) => group));
  if (groups.size <= 1) return () => null;
  const main = groups.has(null) ? null : pulls[0]!.group;
  return ({ group }) => (group === main ? null : `it belongs to the part test "${group}"`);
}

function typedPeaksWarnings(session: Session, pulls: readonly DayPull[]): readonly string[] {
  const counted = pulls.filter(({ excludedBecause }) => excludedBecause === null);
  const typed = counted.filter(({ curve }) => curve === null);
  if (typed.length === 0) return [];
  const warnings: string[] = [];
  if (typed.length < counted.length)
    warnings.push(
      'Some pulls are recordings and some typed peaks: all are compared by their peaks.',
    );
  const observed = session.pulls.some(
    ({ file, basis }) => file === null && (basis.air === 'observed' || basis.air === 'unknown'),
  );
  if (observed)
    warnings.push(
      'Typed peaks are taken as they stand: not corrected for air and without inertia put back, so a change of the weather between pulls stays in the gains.',
    );
  return warnings;
}
