import { resolve } from 'node:path';
import {
  type CompareAnswer,
  type CompareInput,
  compareGroups,
  reconcile,
  type Side,
  type SidePull,
} from '../compare/index.ts';
import { InputError } from '../errors.ts';
import { readRunFile, readSessionAt, type Session } from '../intake/index.ts';
import { WORTH_PERCENT } from '../ladder/index.ts';
import { type CellSetup, defaultCell, findPulls, fitPull, meanPowerW } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { type Alike, alikePulls } from './compareAlike.ts';
import { bandFromCurves } from './ladderInput.ts';
import { workPull } from './sessionPull.ts';

/** A pull of one side with the setting at which it was made; null: not known, as of a run file alone. */
export interface SetPull extends SidePull {
  readonly setting: number | null;
}

interface ReadSide extends Side {
  readonly pulls: readonly SetPull[];
  readonly warnings: readonly string[];
  readonly session: Session | null;
}

export interface CompareOptions {
  readonly bandRpm?: readonly [number, number];
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly signal?: AbortSignal;
  readonly onFile?: (file: string, index: number, count: number) => void;
}

/** Two sides read, brought together and compared. */
export interface CompareWork {
  readonly standard: AirStandard;
  readonly input: CompareInput;
  readonly answer: CompareAnswer;
  readonly taken: Alike;
  readonly warnings: readonly string[];
}

/** Where one side comes from: a session file or a run file. */
export interface Source {
  /** As messages call it. */
  readonly name: string;
  readonly path: string;
  readonly kind: 'session' | 'run file';
}

/** @throws InputError, FormatError  a file that is refused, or sides that cannot be compared */
export async function compareSources(
  sources: readonly [Source, Source],
  options: CompareOptions = {},
): Promise<CompareWork> {
  const [a, b] = [
    await readSide(sources[0], options, ''),
    await readSide(sources[1], options, sources[0].path),
  ];
  const warnings: string[] = [];
  if ([a, b].some(({ session }) => session === null || session.day === null))
    warnings.push(
      'Not every file says on which day it was made ("day" in a session file), so each is taken as a day of its own.',
    );
  const days = new Set(a.pulls.map(({ day }) => day));
  if (!b.pulls.some(({ day }) => days.has(day))) return compared([a, b], warnings, options);
  // Of two files of one day nobody knows which was made first: the order in which they are named is taken.
  warnings.push(`Of one day: the pulls of ${a.name} are taken as made before those of ${b.name}.`);
  const after = Math.ceil(Math.max(...a.pulls.map(({ order }) => order)) + 1);
  const later = b.pulls.map((pull) => ({ ...pull, order: pull.order + after }));
  return compared([a, { ...b, pulls: later }], warnings, options);
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
  sides: readonly [ReadSide, ReadSide],
  before: readonly string[],
  options: CompareOptions,
): CompareWork {
  const [a, b] = sides;
  const wish = {
    standard: options.standard ?? a.session?.standard ?? b.session?.standard ?? 'SAE J1349',
    correctBoosted: options.correctBoosted ?? false,
  };
  const all = reconcile(sides, wish);
  const warnings = [...before, ...a.warnings, ...b.warnings];
  const bands = sides.map(({ session }) => session?.bandRpm ?? null);
  const [own, other] = bands;
  if (options.bandRpm === undefined && own && other && own.join() !== other.join())
    warnings.push(`The sessions choose different bands; that of ${a.name} is taken.`);
  const bandRpm = options.bandRpm ?? own ?? other ?? bandFromCurves(all.curves.flat());
  if (bandRpm === null) throw new InputError('The pulls have no speeds in common.');
  const curves = all.curves.flat();
  const from = Math.max(bandRpm[0], ...curves.map(({ spline }) => spline.low));
  const to = Math.min(bandRpm[1], ...curves.map(({ spline }) => spline.high));
  const curveOf = new Map(
    sides.flatMap(({ pulls }, g) =>
      pulls
        .filter(({ excludedBecause }) => excludedBecause === null)
        .map((pull, i) => [pull.id + g, all.curves[g]![i]!] as const),
    ),
  );
  // Without speeds in common there is nothing to choose by, and the comparison itself refuses.
  const taken = alikePulls(sides, ({ id }, g) =>
    to > from ? meanPowerW(curveOf.get(id + g)!, [from, to]).value : 0,
  );
  const brought = reconcile(taken.sides, wish);
  const input: CompareInput = {
    groups: brought.groups,
    bandRpm,
    reference: [],
    repeatabilityPercent: null,
    calibrationRelSd: brought.calibrationRelSd,
    worthPercent: WORTH_PERCENT,
  };
  const answer = compareGroups(input);
  return {
    standard: brought.standard,
    input,
    answer,
    taken,
    warnings: [
      ...new Set([...warnings, ...brought.warnings, ...taken.warnings, ...answer.warnings]),
    ],
  };
}

async function readSide(
  source: Source,
  options: CompareOptions,
  otherPath: string,
): Promise<ReadSide> {
  if (source.kind === 'run file') return readRun(source, options);
  const session = await readSessionAt(source.path, source.name);
  if (source.path === otherPath)
    throw new InputError('Both sides are the same file.', { file: source.name });
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
): Promise<ReadSide> {
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
        id: one.id,
        fit: one.fit,
        day: session.day ?? source.path,
        cell: cellKey(session.cell),
        calibrationRelSd: session.cell.calibrationRelSd,
        fuel: session.engine.fuel,
        order: one.order,
        excludedBecause: one.excludedBecause,
        configuration: one.configuration,
        setting: one.setting,
      });
    }
  }
  return { name: wanted.name, pulls, warnings, session };
}

/** A run file by itself: a cell and an engine of which nothing is known. */
async function readRun({ name, path }: Source, options: CompareOptions): Promise<ReadSide> {
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
    session: null,
  };
}
