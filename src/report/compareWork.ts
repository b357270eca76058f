import { resolve } from 'node:path';
import { InputError } from '../errors.ts';
import { readRunFile, readSessionAt, type Session } from '../intake/index.ts';
import { WORTH_PERCENT } from '../ladder/index.ts';
import { type CellSetup, defaultCell, findPulls, fitPull } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import type { SetPull } from './compareAlike.ts';
import { answerQuestion, type CompareWork, questionOf, type ReadSide } from './compareSides.ts';
import { workPull } from './sessionPull.ts';

/** A side read from a file; it knows whether its file says on which day it was made. */
export interface FileSide extends ReadSide {
  readonly saysDay: boolean;
}

export interface CompareOptions {
  readonly bandRpm?: readonly [number, number];
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly signal?: AbortSignal;
  readonly onFile?: (file: string, index: number, count: number) => void;
}

/** Where one side comes from: a session file or a run file. */
export interface Source {
  /** As messages call it. */
  readonly name: string;
  readonly path: string;
  readonly kind: 'session' | 'run file';
}

/**
 * Sides of files in the order of their days. Of two files of one day nobody knows which was made first: the order in
 * which they are named is taken.
 */
export function filesInOrder(sides: readonly FileSide[]): {
  readonly inOrder: readonly FileSide[];
  readonly warnings: readonly string[];
} {
  const warnings: string[] = [];
  if (sides.some(({ saysDay }) => !saysDay))
    warnings.push(
      'Not every file says on which day it was made ("day" in a session file), so each is taken as a day of its own.',
    );
  const inOrder: FileSide[] = [];
  for (const side of sides) {
    const days = new Set(side.pulls.map(({ day }) => day));
    const before = inOrder.filter(({ pulls }) => pulls.some(({ day }) => days.has(day)));
    const last = before.flatMap(({ pulls }) => pulls.map(({ order }) => order));
    if (before.length > 0)
      warnings.push(
        `Of one day: the pulls of ${before.map(({ name }) => name).join(' and ')} are taken as made before those of ${side.name}.`,
      );
    const after = before.length === 0 ? 0 : Math.ceil(Math.max(...last) + 1);
    inOrder.push({
      ...side,
      pulls: side.pulls.map((pull) => ({ ...pull, order: pull.order + after })),
    });
  }
  return { inOrder, warnings };
}

/**
 * A session that is a part test: its two groups, in the order made.
 * @throws InputError  pulls of none, one, or more than two groups
 */
export async function compareParts(
  source: Source,
  options: CompareOptions = {},
): Promise<CompareWork> {
  if (source.kind !== 'session')
    throw new InputError('One run file is compared with nothing; name a second one.', {
      file: source.name,
    });
  const session = await readSessionAt(source.path, source.name);
  const groups = [...new Set(session.pulls.map(({ group }) => group))]
    .filter((group) => group !== null)
    .sort();
  if (groups.length !== 2)
    throw new InputError(
      `The session holds ${groups.length === 0 ? 'no groups' : `the groups ${groups.join(', ')}`}; a part test is two, as "group": "a" or "b" of each pull.`,
      { file: source.name },
    );
  const [a, b] = groups as [string, string];
  const side = (own: string, others: boolean) =>
    readSessionSide(source, session, options, {
      name: own,
      keeps: ({ group }) => group === own,
      reads: others,
    });
  const first = await side(a, true);
  const second = await side(b, false);
  const left = session.pulls.filter(({ group }) => group === null).length;
  const warnings =
    left === 0 ? [] : [`${left} of the session's pulls are in no group; they are left out.`];
  return compared([first, second], warnings, options);
}

function compared(
  sides: readonly ReadSide[],
  before: readonly string[],
  options: CompareOptions,
): CompareWork {
  const { bandRpm, standard, correctBoosted } = options;
  const work = answerQuestion(
    questionOf(sides, {
      worthPercent: WORTH_PERCENT,
      ...(bandRpm === undefined ? {} : { bandRpm }),
      ...(standard === undefined ? {} : { standard }),
      ...(correctBoosted === undefined ? {} : { correctBoosted }),
    }),
  );
  return { ...work, warnings: [...new Set([...before, ...work.warnings])] };
}

/** One side from a session file or a run file. @throws InputError, FormatError  a file that is refused */
export async function readFileSide(source: Source, options: CompareOptions): Promise<FileSide> {
  if (source.kind === 'run file') return readRun(source, options);
  const session = await readSessionAt(source.path, source.name);
  return readSessionSide(source, session, options, {
    name: source.name,
    keeps: () => true,
    reads: true,
  });
}

/** The same settings are the same cell, for a session has no name for it. */
const cellKey = (cell: CellSetup) =>
  [cell.inertiaKgM2, cell.sensorLagS, cell.ratio, cell.calibrationRelSd].join(' ');

async function readSessionSide(
  source: Source,
  session: Session,
  options: CompareOptions,
  wanted: {
    readonly name: string;
    readonly keeps: (pull: Session['pulls'][number]) => boolean;
    /** Whether what the session itself warns of is said with this side. */
    readonly reads: boolean;
  },
): Promise<FileSide> {
  const pulls: SetPull[] = [];
  const warnings: string[] = wanted.reads ? [...session.warnings] : [];
  for (const [index, pull] of session.pulls.entries()) {
    options.signal?.throwIfAborted();
    if (!wanted.keeps(pull)) continue;
    if (pull.file === null) {
      warnings.push(`Pull ${index + 1} of ${source.name} is typed peaks without a curve.`);
      continue;
    }
    options.onFile?.(pull.file, index, session.pulls.length);
    const excludedBecause = pull.excludedBecause ?? (pull.aborted ? 'aborted' : null);
    const { path } = source;
    const worked = await workPull({ ...pull, excludedBecause }, index, {
      path,
      session,
      signal: options.signal,
    });
    warnings.push(...worked.warnings);
    for (const one of worked.pulls) {
      if (one.fit === null) continue;
      pulls.push({
        id: `${source.name}/${one.id}`,
        label: one.id,
        fit: one.fit,
        day: session.day ?? source.path,
        cell: cellKey(session.cell),
        calibrationRelSd: session.cell.calibrationRelSd,
        fuel: session.engine.fuel,
        order: one.order,
        excludedBecause: one.excludedBecause,
        configuration: one.configuration,
        setting: one.setting === null ? null : `${one.setting} degrees of lead`,
      });
    }
  }
  return {
    name: wanted.name,
    pulls,
    warnings,
    standard: session.standard,
    bandRpm: session.bandRpm,
    saysDay: session.day !== null,
  };
}

/** A run file by itself: a cell and an engine of which nothing is known. */
async function readRun({ name, path }: Source, options: CompareOptions): Promise<FileSide> {
  options.onFile?.(name, 0, 1);
  const { recording, questions } = await readRunFile(path, {
    fileName: name,
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const cell = defaultCell();
  const fuel = 'gasoline';
  const pulls = findPulls(recording).map(
    (span, index): SetPull => ({
      id: `${name}, pull ${index + 1}`,
      fit: fitPull(recording, span, {
        cell,
        engine: {
          name,
          cylinders: null,
          displacementM3: null,
          strokeM: null,
          compressionRatio: null,
          cycle: 4,
          aspiration: 'natural',
          fuel,
        },
      }),
      day: resolve(path),
      cell: cellKey(cell),
      calibrationRelSd: cell.calibrationRelSd,
      fuel,
      order: index,
      excludedBecause: null,
      configuration: null,
      setting: null,
    }),
  );
  const silent = questions.some(({ key }) => key === 'torqueIs')
    ? [
        `The header of ${name} does not say what its torque is: it was taken as observed, with inertia out, of a naturally aspirated engine on gasoline; a session file says otherwise.`,
      ]
    : [];
  return {
    name,
    pulls,
    warnings: [...recording.warnings.map((one) => `${name}: ${one}`), ...silent],
    standard: null,
    bandRpm: null,
    saysDay: false,
  };
}
