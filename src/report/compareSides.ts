import {
  type CompareAnswer,
  type CompareGroup,
  type CompareInput,
  compareGroups,
  type Reconciled,
  reconcile,
  type Side,
} from '../compare/index.ts';
import { InputError } from '../errors.ts';
import { curveIn, meanPowerW } from '../pull/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { type Alike, alikePulls, type SetSide } from './compareAlike.ts';
import { bandFromCurves } from './ladderInput.ts';

/** One side read from files or from the record, before anything is brought together. */
export interface ReadSide extends SetSide {
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
  readonly input: CompareInput;
  readonly taken: Alike;
  readonly warnings: readonly string[];
}

/** Two or more sides read, brought together and compared. */
export interface CompareWork extends CompareQuestion {
  readonly answer: CompareAnswer;
}

/**
 * Brings sides to one air and one setting.
 * @throws InputError  fewer than two sides, a side without a pull that counts, the same pull on two sides, or sides
 *                     that cannot be brought together
 */
export function questionOf(sides: readonly ReadSide[], wish: SidesWish): CompareQuestion {
  if (sides.length < (wish.leastSides ?? 2))
    throw new InputError('A comparison needs two sides at least.');
  const air = {
    standard:
      wish.standard ?? sides.find(({ standard }) => standard !== null)?.standard ?? 'SAE J1349',
    correctBoosted: wish.correctBoosted ?? false,
  };
  const all = reconcile(sides, air);
  const warnings = sides.flatMap((side) => side.warnings);
  const bandRpm = bandOf(sides, all, wish, warnings);
  const taken = alikePulls(sides, powerIn(sides, all, bandRpm));
  refuseShared(taken.sides);
  const brought = reconcile(taken.sides, air);
  const reference = referenceIn(wish.reference ?? [], taken.sides, brought.standard, air);
  return {
    standard: brought.standard,
    input: {
      groups: brought.groups.map((group, g) => {
        const { builtOtherwise = null } = sides[g]!;
        return builtOtherwise === null ? group : { ...group, builtOtherwise };
      }),
      bandRpm,
      reference,
      repeatabilityPercent: wish.repeatabilityPercent ?? null,
      calibrationRelSd: {
        ...Object.fromEntries(
          (wish.reference ?? []).flatMap(({ pulls }) =>
            pulls.map(({ cell, calibrationRelSd }) => [cell, calibrationRelSd] as const),
          ),
        ),
        ...brought.calibrationRelSd,
      },
      worthPercent: wish.worthPercent,
    },
    taken,
    warnings: [...new Set([...warnings, ...brought.warnings, ...taken.warnings])],
  };
}

/** @throws InputError  the pulls share too little of the band */
export function answerQuestion(question: CompareQuestion): CompareWork {
  const answer = compareGroups(question.input);
  return {
    ...question,
    answer,
    warnings: [...new Set([...question.warnings, ...answer.warnings])],
  };
}

function bandOf(
  sides: readonly ReadSide[],
  all: Reconciled,
  wish: SidesWish,
  warnings: string[],
): readonly [number, number] {
  const said = sides.flatMap(({ name, bandRpm }) => (bandRpm === null ? [] : [{ name, bandRpm }]));
  const [first] = said;
  if (wish.bandRpm === undefined && new Set(said.map(({ bandRpm }) => bandRpm.join())).size > 1)
    warnings.push(`The sides choose different bands; that of ${first!.name} is taken.`);
  const bandRpm = wish.bandRpm ?? first?.bandRpm ?? bandFromCurves(all.curves.flat());
  if (bandRpm === null) throw new InputError('The pulls have no speeds in common.');
  return bandRpm;
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
      if (other !== undefined && other !== name)
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
  air: { readonly correctBoosted: boolean },
): CompareGroup[] {
  const onSides = new Set(
    sides.flatMap(({ pulls }) =>
      pulls.filter(({ excludedBecause }) => excludedBecause === null).map(({ id }) => id),
    ),
  );
  return groups.flatMap(({ name, pulls }) => {
    const left = pulls.flatMap((pull) => {
      if (pull.excludedBecause !== null || onSides.has(pull.id)) return [];
      const curve = curveIn(pull.fit, { ...air, standard });
      return curve.standard === standard ? [{ ...pull, torque: curve.spline }] : [];
    });
    if (new Set(left.map(({ day }) => day)).size < 2) return [];
    return [
      {
        name,
        pulls: left.map(({ id, torque, day, cell, order, excludedBecause, configuration }) => ({
          id,
          torque,
          day,
          cell,
          order,
          excludedBecause,
          configuration,
        })),
      },
    ];
  });
}
