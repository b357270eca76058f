import { dirname, resolve } from 'node:path';
import { FormatError, InputError, PullbookError } from '../errors.ts';
import { readRunFile, type Session, type SessionPull } from '../intake/index.ts';
import { findPulls, fitPull, type PullFit } from '../pull/index.ts';
import { configurationWords } from './configuration.ts';
import type { FiledPull } from './ladderObject.ts';
import { curveOptionsOf } from './sessionRules.ts';

/** What every pull of a session is worked with. */
interface SessionAround {
  /** Path of the session file; run files lie relative to it. */
  readonly path: string;
  readonly session: Session;
  readonly signal: AbortSignal | undefined;
}

/** A pull of the day before anyone has said in which air it is wanted. */
export type FittedPull = Omit<FiledPull, 'curve' | 'dayMarks'> & { readonly fit: PullFit | null };

interface WorkedPull {
  readonly pulls: readonly FittedPull[];
  readonly warnings: readonly string[];
}

/**
 * The pulls that a session's one entry stands for: one for each pull found in its file, or the typed peaks.
 * @throws FormatError, InputError  the run file is refused, named with its place; not where the pull is left out or was
 *                                  aborted, which does not stop the day
 */
export async function workPull(
  pull: SessionPull,
  index: number,
  around: SessionAround,
): Promise<WorkedPull> {
  const base = fieldsOf(pull, index, around.session);
  const { file } = pull;
  if (file === null) {
    const { peakPowerW, peakTorqueNm } = pull;
    return { pulls: [{ ...base, peakPowerW, peakTorqueNm }], warnings: [] };
  }
  try {
    const { fits, warnings } = await fitsOfFile(file, pull, around);
    return {
      pulls: fits.map((fit, at) => ({
        ...base,
        id: fits.length === 1 ? base.id : `${base.id}, pull ${at + 1}`,
        order: index + at / (fits.length + 1),
        pullOfFile: at + 1,
        fit,
      })),
      warnings: [
        ...warnings.map((warning) => `${file}: ${warning}`),
        ...(fits.length > 1
          ? [
              `${file} holds ${fits.length} pulls: each counts as a pull at ${pull.leadDeg} degrees.`,
            ]
          : []),
      ],
    };
  } catch (error) {
    const why = pull.excludedBecause ?? (pull.aborted ? 'aborted' : null);
    if (why === null || !(error instanceof PullbookError)) throw named(error, file);
    return {
      pulls: [base],
      warnings: [`${file}, left out (${why}), could not be read: ${error.message}`],
    };
  }
}

/** All of a pull but its fit. A file may stand in a session twice, an id may not. */
function fieldsOf(pull: SessionPull, index: number, { pulls }: Session): FittedPull {
  const { file } = pull;
  const twice = file !== null && pulls.filter((one) => one.file === file).length > 1;
  return {
    id: file === null || twice ? `${file ?? 'pull'} #${index + 1}` : file,
    order: index,
    setting: pull.leadDeg,
    leadDeg: pull.leadDeg,
    lambdaTarget: pull.lambdaTarget,
    lambdaMeasured: pull.lambdaMeasured,
    lambdaErrorSd: pull.lambdaErrorSd,
    jets: pull.jets,
    loadPercent: pull.loadPercent,
    fit: null,
    peakPowerW: null,
    peakTorqueNm: null,
    excludedBecause: pull.excludedBecause,
    watched: pull.watched,
    knockHeard: pull.knockHeard,
    aborted: pull.aborted,
    configuration: configurationWords(
      pull.configuration,
      pulls.map((one) => one.configuration),
    ),
    file,
    pullOfFile: null,
    typedPowerSpeedRpm: null,
    typedTorqueSpeedRpm: null,
  };
}

async function fitsOfFile(
  file: string,
  pull: SessionPull,
  { path, session, signal }: SessionAround,
): Promise<{ readonly fits: readonly PullFit[]; readonly warnings: readonly string[] }> {
  const { recording } = await readRunFile(resolve(dirname(path), file), {
    fileName: file,
    torqueIs: pull.basis,
    brakeRatio: session.cell.ratio,
    fuel: session.engine.fuel,
    ...(signal === undefined ? {} : { signal }),
  });
  const options = curveOptionsOf(session, pull.lambdaTarget);
  const fits = findPulls(recording).map((span) => fitPull(recording, span, options));
  return { fits, warnings: recording.warnings };
}

/** The computing rooms do not know file names: a refusal of theirs gets the run file's. */
function named(error: unknown, file: string): unknown {
  if (!(error instanceof PullbookError) || error.place.file !== undefined) return error;
  const place = { ...error.place, file };
  if (error instanceof FormatError) return new FormatError(error.message, place, error);
  if (error instanceof InputError) return new InputError(error.message, place, error);
  return error;
}
