import { Matrix, pseudoInverse } from 'ml-matrix';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { basisAt, coefficientCount, type SplineFit } from '../numerics/spline.ts';
import type { ComparePull } from './types.ts';

const GRID = 81;
const SEGMENTS = 20;
/** Noise of the curves on the grid, and pull to pull [1]. */
const NOISE = 0.002;
const PULL_TO_PULL = 0.003;

/** Least squares on the grid, by the span of its speeds: the same for every pull. */
const operators = new Map<string, { readonly operator: Matrix; readonly square: Matrix }>();

function operatorOver(low: number, high: number) {
  const known = operators.get(`${low} ${high}`);
  if (known !== undefined) return known;
  const knots = { low, high, segments: SEGMENTS };
  const basis = Matrix.zeros(GRID, coefficientCount(knots));
  for (let g = 0; g < GRID; g++) {
    const four = new Float64Array(4);
    const first = basisAt(knots, low + ((high - low) * g) / (GRID - 1), four);
    four.forEach((value, k) => {
      basis.set(g, first + k, value);
    });
  }
  const operator = pseudoInverse(basis);
  const made = { operator, square: operator.mmul(operator.transpose()) };
  operators.set(`${low} ${high}`, made);
  return made;
}

/** The least-squares spline through a truth and seeded noise, with the covariance that belongs to it. */
export function fitOf(
  truth: (speedRpm: number) => number,
  [low, high]: readonly [number, number],
  seed: number,
  offset = 0,
): SplineFit {
  const { operator, square } = operatorOver(low, high);
  const normal = gaussian(seed);
  const observed = Array.from({ length: GRID }, (_, g) => {
    const speed = low + ((high - low) * g) / (GRID - 1);
    return truth(speed) * (1 + offset) + NOISE * truth(speed) * normal();
  });
  const sd = NOISE * truth((low + high) / 2);
  return {
    low,
    high,
    segments: SEGMENTS,
    coefficients: operator.mmul(Matrix.columnVector(observed)).to1DArray(),
    covariance: Matrix.mul(square, sd * sd).to1DArray(),
  };
}

/** Pulls of one truth, made on one day at these places of its order. */
export function pullsOf(
  truth: (speedRpm: number) => number,
  orders: readonly number[],
  seed: number,
): ComparePull[] {
  const normal = gaussian(1000 + seed);
  return orders.map((order) => ({
    id: `pull ${order}`,
    torque: fitOf(truth, [2500, 7500], 100 * seed + order, PULL_TO_PULL * normal()),
    day: 'one day',
    cell: 'cell',
    order,
    excludedBecause: null,
    configuration: null,
  }));
}
