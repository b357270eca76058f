import { InputError, NonPhysicalError } from '../../errors.ts';
import { positive } from '../possible.ts';
import { type Thread, tensileAreaM2 } from './thread.ts';

/** Strength of one grade or property class in one span of sizes. */
export interface BoltGrade {
  readonly standard: 'SAE J429' | 'ISO 898-1';
  readonly grade: string;
  /** Sizes it holds for [m], both included. */
  readonly majorRangeM: readonly [least: number, largest: number];
  /** Stress that leaves no lasting stretch. */
  readonly proofPa: number;
  readonly yieldPa: number;
  readonly tensilePa: number;
}

const IN_M = 0.0254;
/** 1000 lbf/in². */
const KSI_PA = 4448.2216152605 / IN_M ** 2;

function sae(grade: string, rangeIn: readonly [number, number], ksi: readonly number[]): BoltGrade {
  return {
    standard: 'SAE J429',
    grade,
    majorRangeM: [rangeIn[0] * IN_M, rangeIn[1] * IN_M],
    proofPa: ksi[0]! * KSI_PA,
    yieldPa: ksi[1]! * KSI_PA,
    tensilePa: ksi[2]! * KSI_PA,
  };
}

function iso(grade: string, rangeMm: readonly [number, number], mpa: readonly number[]): BoltGrade {
  return {
    standard: 'ISO 898-1',
    grade,
    majorRangeM: [rangeMm[0] / 1000, rangeMm[1] / 1000],
    proofPa: mpa[0]! * 1e6,
    yieldPa: mpa[1]! * 1e6,
    tensilePa: mpa[2]! * 1e6,
  };
}

/**
 * Proof, yield and tensile stress, least values.
 * @source  SAE J429 as printed in Shigley & Mischke, 5th ed. 1989, p. 341 (web.mst.edu property reference); ISO 898-1:
 *          proof loads and tensile loads as restated in public tables, the stresses and yields from memory
 */
export const BOLT_GRADES: readonly BoltGrade[] = [
  sae('2', [0.25, 0.75], [55, 57, 74]),
  sae('2', [0.875, 1.5], [33, 36, 60]),
  sae('5', [0.25, 1], [85, 92, 120]),
  sae('5', [1.125, 1.5], [74, 81, 105]),
  sae('8', [0.25, 1.5], [120, 130, 150]),
  iso('4.6', [3, 39], [225, 240, 400]),
  iso('4.8', [3, 39], [310, 340, 420]),
  iso('5.8', [3, 39], [380, 420, 520]),
  iso('6.8', [3, 39], [440, 480, 600]),
  iso('8.8', [3, 16], [580, 640, 800]),
  iso('8.8', [18, 39], [600, 660, 830]),
  iso('9.8', [3, 16], [650, 720, 900]),
  iso('10.9', [3, 39], [830, 940, 1040]),
  iso('12.9', [3, 39], [970, 1100, 1220]),
];

/**
 * The row of a grade for a size.
 * @throws InputError        no such grade
 * @throws NonPhysicalError  the grade is not made in that size
 */
export function boltGrade(grade: string, majorM: number): BoltGrade {
  const rows = BOLT_GRADES.filter((row) => row.grade === grade);
  if (rows.length === 0) {
    const known = [...new Set(BOLT_GRADES.map((row) => row.grade))].join(', ');
    throw new InputError(`unknown bolt grade: ${grade}; expected one of ${known}`);
  }
  positive('thread diameter', majorM, 'm');
  // Sizes are nominal: a tenth of a millimetre is rounding, not another size.
  const row = rows.find(
    ({ majorRangeM: [least, largest] }) => majorM >= least - 1e-4 && majorM <= largest + 1e-4,
  );
  if (row === undefined)
    throw new NonPhysicalError(
      `invalid thread diameter: ${(majorM * 1000).toFixed(2)} mm; expected a size of grade ${grade}`,
    );
  return row;
}

/** Load [N] that a bolt of this thread and proof stress bears without lasting stretch. */
export function proofLoadN(thread: Thread, proofPa: number): number {
  return tensileAreaM2(thread) * positive('proof stress', proofPa, 'Pa');
}
