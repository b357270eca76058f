import {
  type CompareAnswer,
  type CompareGroup,
  type CompareInput,
  compareGroups,
  comparePeaks,
  type PeakSide,
  type PeaksAnswer,
  paragraphOf,
  peakSideOf,
  prepareCompare,
  type Reconciled,
  reconcile,
  type Side,
  type TypedTable,
  typedGroup,
} from '../compare/index.ts';
import { InputError } from '../errors.ts';
import { curveIn, meanPowerW } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { type Alike, alikePulls, type SetSide } from './compareAlike.ts';
import { bandFromCurves, NO_BAND_RPM } from './ladderInput.ts';

/** One side read from files, from the record or from paper, before anything is brought together. */
export interface ReadSide extends SetSide {
  /** A table typed from paper; the side then has no pulls. */
  readonly typed?: TypedTable;
  /** Only the peaks are known; the side then has no pulls. */
  readonly peaks?: PeakSide;
  readonly warnings: readonly string[];
  /** What its session or day wants; null: nothing. */
  readonly standard: AirStandard | null;
  readonly bandRpm: readonly [number, number] | null;
  /** How its build differs from the first side's, in a sentence; null or left out: not, or not known. */
  readonly builtOtherwise?: string | null;
}

export interface SidesWish {
  readonly bandRpm?: readonly [number, number];
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  /** Pulls of an unchanged engine on several days, by what they have in common. */
  readonly reference?: readonly Side[];
  readonly repeatabilityPercent?: number | null;
  readonly worthPercent: number;
  /** Fewest sides that make sense; two unless said. A use or a vehicle asks about one build too. */
  readonly leastSides?: 1 | 2;
}

/** Sides brought together: the question, ready to be answered here or in a browser. */
export interface CompareQuestion {
  readonly standard: AirStandard;
  /** One group for each side that has a curve, in their order; it can be answered where there are two. */
  readonly input: CompareInput;
  /** Sides of which only the peaks are known. */
  readonly peakSides: readonly PeakSide[];
  /** The first of all sides is one of these. */
  readonly peaksFirst: boolean;
  /** Every side, its pulls as they were taken. */
  readonly taken: Alike;
  readonly warnings: readonly string[];
}

/** Two or more sides read, brought together and compared. */
export interface CompareWork extends CompareQuestion {
  /** Null where fewer than two sides have a curve. */
  readonly answer: CompareAnswer | null;
  /** Of each side known by its peaks, with the first side. */
  readonly peaks: readonly PeaksAnswer[];
  readonly finding: string;
}

interface Air {
  readonly standard: AirStandard;
  readonly correctBoosted: boolean;
}

/**
 * Brings sides to one air and one setting.
 * @throws InputError  fewer than two sides, a side without a pull that counts, the same pull on two sides, or sides
 *                     that cannot be brought together
 */
export function questionOf(sides: readonly ReadSide[], wish: SidesWish): CompareQuestion {
  if (sides.length < (wish.leastSides ?? 2))
    throw new InputError('A comparison needs two sides at least.');
  const air = airOf(sides, wish);
  const measured = sides.filter(isMeasured);
  const all = measured.length === 0 ? null : reconcile(measured, air);
  const warnings = sides.flatMap((side) => side.warnings);
  const bandRpm = bandOf(sides, all, wish, warnings);
  const alike =
    all === null
      ? { sides: [], sentence: '', warnings: [] }
      : alikePulls(measured, powerIn(measured, all, bandRpm));
  refuseShared(alike.sides);
  const brought = all === null ? null : reconcile(alike.sides, air);
  const standard = brought?.standard ?? air.standard;
  const groups = groupsOf(sides, brought, standard);
  const reference = referenceIn(wish.reference ?? [], alike.sides, standard, air);
  return {
    standard,
    input: {
      groups: groups.map(({ group }) => group),
      bandRpm,
      reference,
      repeatabilityPercent: wish.repeatabilityPercent ?? null,
      calibrationRelSd: Object.assign(
        {},
        ...(wish.reference ?? []).map(calibrationsOf),
        ...groups.map((one) => one.calibrationRelSd),
      ),
      worthPercent: wish.worthPercent,
    },
    peakSides: sides.flatMap(({ peaks }) => (peaks === undefined ? [] : [peaks])),
    peaksFirst: sides[0]!.peaks !== undefined,
    taken: { ...alike, sides: inPlace(sides, alike.sides) },
    warnings: [
      ...new Set([
        ...warnings,
        ...(brought?.warnings ?? []),
        ...alike.warnings,
        ...groups.flatMap((one) => one.warnings),
      ]),
    ],
  };
}

const isMeasured = ({ typed, peaks }: ReadSide) => typed === undefined && peaks === undefined;

/** A paper's air is not known, so its standard is the one that measured pulls are brought to. */
function airOf(sides: readonly ReadSide[], wish: SidesWish): Air {
  const said = (side: ReadSide) => side.standard !== null;
  const from = sides.find((side) => !isMeasured(side) && said(side)) ?? sides.find(said);
  return {
    standard: wish.standard ?? from?.standard ?? 'SAE J1349',
    correctBoosted: wish.correctBoosted ?? false,
  };
}

/** Groups of measured and of typed sides in the order of the sides; those known by peaks have none. */
function groupsOf(
  sides: readonly ReadSide[],
  brought: Reconciled | null,
  standard: AirStandard,
): {
  readonly group: CompareGroup;
  readonly calibrationRelSd: Readonly<Record<string, number>>;
  readonly warnings: readonly string[];
}[] {
  const measured = [...(brought?.groups ?? [])];
  return sides.flatMap((side) => {
    if (side.peaks !== undefined) return [];
    if (side.typed !== undefined) return [typedGroup(side.typed, standard)];
    const { builtOtherwise = null } = side;
    const own = measured.shift()!;
    // What is left out would only make what crosses to a browser larger.
    const group = {
      ...own,
      pulls: own.pulls.filter(({ excludedBecause }) => excludedBecause === null),
    };
    return [
      {
        group: builtOtherwise === null ? group : { ...group, builtOtherwise },
        calibrationRelSd: brought!.calibrationRelSd,
        warnings: [],
      },
    ];
  });
}

const calibrationsOf = ({ pulls }: Side) =>
  Object.fromEntries(pulls.map(({ cell, calibrationRelSd }) => [cell, calibrationRelSd]));

/** Every side in its place; what is not measured has no pulls. */
function inPlace(sides: readonly ReadSide[], measured: readonly Side[]): Side[] {
  const left = [...measured];
  return sides.map((side) => (isMeasured(side) ? left.shift()! : { name: side.name, pulls: [] }));
}

/** @throws InputError  the pulls share too little of the band, or peaks that cannot be compared */
export function answerQuestion(question: CompareQuestion): CompareWork {
  const { input, peakSides, standard, taken } = question;
  const answer = input.groups.length < 2 ? null : compareGroups(input);
  const peaks = answerPeaks(question);
  const findings = [
    ...(answer === null ? [] : [paragraphOf(answer, '')]),
    ...peaks.map(({ finding }) => finding),
    taken.sentence,
  ];
  return {
    ...question,
    answer,
    peaks,
    finding: findings.filter((one) => one !== '').join(' '),
    warnings: [
      ...new Set([
        ...question.warnings,
        ...(answer?.warnings ?? []),
        ...peaks.flatMap((one) => one.warnings),
        ...(standard === 'none' && peakSides.length > 0
          ? ['Measured pulls stand as observed, typed peaks in the air of their paper.']
          : []),
      ]),
    ],
  };
}

/**
 * Each side known by its peaks, with the first side; empty where all have curves.
 * @throws InputError  peaks that cannot be compared
 */
export function answerPeaks(question: CompareQuestion): readonly PeaksAnswer[] {
  const { input, peakSides, peaksFirst } = question;
  if (peakSides.length === 0) return [];
  const measured = peaksFirst ? input.groups : input.groups.slice(0, 1);
  const curves = measured.map((group) => peaksOf(group, question));
  const [first, ...others] = peaksFirst ? [...peakSides, ...curves] : [...curves, ...peakSides];
  return others.map((other) => comparePeaks(first!, other, input.bandRpm));
}

/** What one group's curve is like, by itself. */
function peaksOf(group: CompareGroup, { input, standard }: CompareQuestion): PeakSide {
  const { groups } = prepareCompare({ ...input, groups: [group] }).over(input.bandRpm);
  return peakSideOf(groups[0]!, standard);
}

function bandOf(
  sides: readonly ReadSide[],
  all: Reconciled | null,
  wish: SidesWish,
  warnings: string[],
): readonly [number, number] {
  const said = sides.flatMap(({ name, bandRpm }) => (bandRpm === null ? [] : [{ name, bandRpm }]));
  const [first] = said;
  if (wish.bandRpm === undefined && new Set(said.map(({ bandRpm }) => bandRpm.join())).size > 1)
    warnings.push(`The sides choose different bands; that of ${first!.name} is taken.`);
  const bandRpm =
    wish.bandRpm ??
    first?.bandRpm ??
    (all === null ? typedBand(sides) : bandFromCurves(all.curves.flat()));
  if (bandRpm === null) throw new InputError('The pulls have no speeds in common.');
  return bandRpm;
}

/** Speeds that all typed tables cover; peaks alone stand for no speeds. */
function typedBand(sides: readonly ReadSide[]): readonly [number, number] | null {
  const tables = sides.flatMap(({ typed }) =>
    typed === undefined ? [] : [typed.points.map(({ speedRpm }) => speedRpm)],
  );
  if (tables.length === 0) return NO_BAND_RPM;
  const low = Math.max(...tables.map((speeds) => Math.min(...speeds)));
  const high = Math.min(...tables.map((speeds) => Math.max(...speeds)));
  return high > low ? [low, high] : null;
}

/** Mean power of a pull over the part of the band that all pulls cover; 0 where they share nothing. */
function powerIn(
  sides: readonly ReadSide[],
  all: Reconciled,
  bandRpm: readonly [number, number],
): (pull: { readonly id: string }, side: number) => number {
  const curves = all.curves.flat();
  const from = Math.max(bandRpm[0], ...curves.map(({ spline }) => spline.low));
  const to = Math.min(bandRpm[1], ...curves.map(({ spline }) => spline.high));
  const curveOf = sides.map(
    ({ pulls }, g) =>
      new Map(
        pulls
          .filter(({ excludedBecause }) => excludedBecause === null)
          .map(({ id }, i) => [id, all.curves[g]![i]!] as const),
      ),
  );
  // Without speeds in common there is nothing to choose by, and the comparison itself refuses.
  return ({ id }, g) => (to > from ? meanPowerW(curveOf[g]!.get(id)!, [from, to]).value : 0);
}

/** A pull on both sides would make them alike by itself. */
function refuseShared(sides: readonly Side[]): void {
  const sideOf = new Map<string, string>();
  for (const { name, pulls } of sides)
    for (const pull of pulls.filter(({ excludedBecause }) => excludedBecause === null)) {
      const other = sideOf.get(pull.id);
      if (other !== undefined)
        throw new InputError(
          `${pull.label ?? pull.id} stands on both sides, ${other} and ${name}; a pull is compared with others, not with itself.`,
        );
      sideOf.set(pull.id, name);
    }
}

/**
 * Reference pulls in the standard of the comparison. One that is on a side already, or that cannot be brought there,
 * does not count twice; what is left must still be of two days.
 */
function referenceIn(
  groups: readonly Side[],
  sides: readonly Side[],
  standard: AirStandard,
  { correctBoosted }: Air,
): CompareGroup[] {
  const onSides = new Set(
    sides.flatMap(({ pulls }) =>
      pulls.filter(({ excludedBecause }) => excludedBecause === null).map(({ id }) => id),
    ),
  );
  return groups.flatMap(({ name, pulls }) => {
    const left = pulls.flatMap(
      ({ id, fit, day, cell, order, excludedBecause, configuration }): CompareGroup['pulls'] => {
        if (excludedBecause !== null || onSides.has(id)) return [];
        const curve = curveIn(fit, { standard, correctBoosted });
        const torque = curve.spline;
        return curve.standard === standard
          ? [{ id, torque, day, cell, order, excludedBecause, configuration }]
          : [];
      },
    );
    return new Set(left.map(({ day }) => day)).size < 2 ? [] : [{ name, pulls: left }];
  });
}
