import { InputError } from '../errors.ts';
import { factorInPlace, inverseFromFactor, solveFactored } from '../numerics/cholesky.ts';
import { penaltyMatrix } from '../numerics/penalty.ts';
import { basisAt, coefficientCount, type SplineFit } from '../numerics/spline.ts';
import type { AirStandard } from '../trade/index.ts';
import { PAPER_CELL_REL_SD, TABLE_READING_REL_SD, TABLE_ROUGHNESS } from './priors.ts';
import type { CompareGroup } from './types.ts';

/** A curve typed from paper: torque at speeds, in rising order or not. */
export interface TypedTable {
  readonly name: string;
  readonly points: readonly { readonly speedRpm: number; readonly torqueNm: number }[];
  /** The air standard that the paper names; null: it names none. */
  readonly standard: AirStandard | null;
  /** Relative sd that the paper states for its level; null: it states none. */
  readonly relSd: number | null;
}

/** A typed curve as a group of one pull, of a day and a cell of its own. */
export interface TypedGroup {
  readonly group: CompareGroup;
  /** Goes into `calibrationRelSd` of the comparison. */
  readonly calibrationRelSd: Readonly<Record<string, number>>;
  readonly warnings: readonly string[];
}

const SEGMENTS = 20;
/** A parabola takes three points; one more says something of how the curve bends. */
const LEAST_POINTS = 4;
const ROUGHNESSES = 9;

/**
 * A typed table as a side of a comparison.
 *
 * The level may be off by what the paper states, else by what is usual for a cell of which nothing is known; day and
 * repeatability come on top as for any single pull. Between the points the band widens as torque curves bend.
 * @param standard  the air standard in which the other sides stand
 * @throws InputError  fewer than four speeds, figures that are not above zero, a speed typed twice, or a paper of
 *                     another air standard: its own air is not known, so it cannot be brought over
 */
export function typedGroup(table: TypedTable, standard: AirStandard): TypedGroup {
  if (table.standard !== null && table.standard !== standard)
    throw new InputError(
      `${table.name} is typed in ${table.standard} and the other side stands in ${standard}: compare in ${table.standard}, for the air of a typed curve is not known.`,
    );
  const key = `typed: ${table.name}`;
  return {
    group: {
      name: table.name,
      pulls: [
        {
          id: table.name,
          torque: typedSpline(table),
          day: key,
          cell: key,
          order: 0,
          excludedBecause: null,
          configuration: null,
        },
      ],
    },
    calibrationRelSd: { [key]: table.relSd ?? PAPER_CELL_REL_SD },
    warnings: [
      ...(table.relSd === null
        ? [
            `The paper of ${table.name} does not say how far its figures may be off: ${(100 * PAPER_CELL_REL_SD).toFixed(0)} % (1 sd) is taken for its cell, and how days usually differ comes on top.`,
          ]
        : []),
      ...(table.standard === null
        ? [
            `The paper of ${table.name} does not name its air standard; it is taken as ${standard === 'none' ? 'observed' : standard}. Standards differ by up to 5 %, and that is not in the band.`,
          ]
        : []),
    ],
  };
}

/**
 * The curve through typed points: y = S(x) + e, e ~ N(0, s²) the reading, third differences of the coefficients
 * ~ N(0, τ²), parabolas free. Given τ the posterior is N(A⁻¹Bᵀy/s², A⁻¹), A = BᵀB/s² + P/τ²; τ is summed over a grid
 * by its restricted likelihood and prior, mean and covariance being those of the mixture.
 * @throws InputError  see `typedGroup`
 */
function typedSpline({ name, points }: TypedTable): SplineFit {
  const sorted = [...points].sort((a, b) => a.speedRpm - b.speedRpm);
  for (const [i, { speedRpm, torqueNm }] of sorted.entries()) {
    if (!(speedRpm > 0 && torqueNm > 0 && Number.isFinite(speedRpm) && Number.isFinite(torqueNm)))
      throw new InputError(
        `A typed curve needs speeds and torques above zero; ${name} has ${torqueNm} N·m at ${speedRpm} rev/min.`,
      );
    if (sorted[i - 1]?.speedRpm === speedRpm)
      throw new InputError(`${name} has ${speedRpm} rev/min twice; leave one of them out.`);
  }
  if (sorted.length < LEAST_POINTS)
    throw new InputError(
      `${name} has ${sorted.length} speeds, and a curve takes ${LEAST_POINTS}; with fewer, type its peaks.`,
    );
  const knots = { low: sorted[0]!.speedRpm, high: sorted.at(-1)!.speedRpm, segments: SEGMENTS };
  const size = coefficientCount(knots);
  const level = Math.max(...sorted.map(({ torqueNm }) => torqueNm));
  const s2 = (TABLE_READING_REL_SD * level) ** 2;
  // About the level, so that what cancels in the likelihood is small.
  const gram = new Float64Array(size * size);
  const right = new Float64Array(size);
  let square = 0;
  const four = new Float64Array(4);
  for (const { speedRpm, torqueNm } of sorted) {
    const first = basisAt(knots, speedRpm, four);
    const y = torqueNm - level;
    square += (y * y) / s2;
    for (let i = 0; i < 4; i++) {
      right[first + i]! += (four[i]! * y) / s2;
      for (let j = 0; j < 4; j++)
        gram[(first + i) * size + first + j]! += (four[i]! * four[j]!) / s2;
    }
  }
  const penalty = penaltyMatrix(knots, 3);
  const parts = Array.from({ length: ROUGHNESSES }, (_, i) => {
    const at = 2.6 * ((2 * i) / (ROUGHNESSES - 1) - 1);
    const tau2 = (level * TABLE_ROUGHNESS.median * Math.exp(at * TABLE_ROUGHNESS.logSd)) ** 2;
    const factor = gram.map((value, k) => value + penalty[k]! / tau2);
    const logDeterminant = factorInPlace(factor, size);
    const mean = solveFactored(factor, size, right);
    const explained = mean.reduce((sum, value, k) => sum + value * right[k]!, 0);
    const log =
      -0.5 * (at * at + logDeterminant + (size - 3) * Math.log(tau2) + (square - explained));
    return { factor, mean, log };
  });
  const top = Math.max(...parts.map(({ log }) => log));
  const total = parts.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  const mean = new Float64Array(size);
  for (const part of parts)
    for (let k = 0; k < size; k++) mean[k]! += (Math.exp(part.log - top) / total) * part.mean[k]!;
  const covariance = new Float64Array(size * size);
  const inverse = new Float64Array(size * size);
  for (const part of parts) {
    const weight = Math.exp(part.log - top) / total;
    inverseFromFactor(part.factor, size, inverse);
    for (let i = 0; i < size; i++)
      for (let j = 0; j <= i; j++) {
        const apart = (part.mean[i]! - mean[i]!) * (part.mean[j]! - mean[j]!);
        covariance[i * size + j]! += weight * (inverse[i * size + j]! + apart);
        covariance[j * size + i] = covariance[i * size + j]!;
      }
  }
  return {
    ...knots,
    coefficients: Array.from(mean, (value) => value + level),
    covariance: Array.from(covariance),
  };
}
