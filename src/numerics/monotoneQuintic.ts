import { Matrix, solve } from 'ml-matrix';
import { InputError } from '../errors.ts';

/**
 * A curve through points that has two continuous derivatives and never turns between two points: pieces of fifth degree.
 *
 * First the smoothest curve is sought: the slopes and curvatures at the points that make ∫ f‴² least (a linear system,
 * as f is linear in them). Where that curve would turn between two points, slope and curvature there are brought down
 * together, a tenth at a time, until it no longer does. This ends: with both at zero a piece is y₀ + Δ(10t³ − 15t⁴ + 6t⁵),
 * which only runs one way. Monotone pieces are told exactly, by the Bernstein coefficients of their derivative.
 * Plain data: it crosses to the browser as JSON.
 */
export interface QuinticCurve {
  readonly places: readonly number[];
  /** Piece by piece the six coefficients of t⁰ to t⁵, t running from 0 to 1 between two places. */
  readonly pieces: readonly (readonly number[])[];
  /** Whether slopes had to be brought down: the curve is then less smooth than its points alone would make it. */
  readonly limited: boolean;
}

export interface QuinticPoint {
  readonly place: number;
  readonly value: number;
  /** `level`: slope zero here, as at a turning point. `rest`: slope and curvature zero. */
  readonly kind?: 'level' | 'rest';
}

/**
 * The curve through points of rising place. A point where the values turn round has slope zero whether said or not.
 * @throws InputError  for fewer than two points, or places that do not rise
 */
export function monotoneQuintic(points: readonly QuinticPoint[]): QuinticCurve {
  if (points.length < 2)
    throw new InputError(`missing points: ${points.length} given; expected 2 or more`);
  points.forEach(({ place, value }, index) => {
    if (!Number.isFinite(place) || !Number.isFinite(value))
      throw new InputError(`invalid point ${index + 1}: ${value} at ${place}; expected numbers`);
    if (index > 0 && !(place > points[index - 1]!.place))
      throw new InputError(
        `invalid point ${index + 1}: place ${place} after ${points[index - 1]!.place}; expected rising places`,
      );
  });
  const span = points.at(-1)!.place - points[0]!.place;
  const widths = points.slice(1).map(({ place }, i) => (place - points[i]!.place) / span);
  const rises = points.slice(1).map(({ value }, i) => value - points[i]!.value);
  const { slopes, curvatures } = smoothest(points, widths);
  clampTurned(points, rises, slopes, curvatures);
  const limited = bringDown(points, widths, slopes, curvatures);
  return {
    places: points.map(({ place }) => place),
    pieces: widths.map((width, i) =>
      powers(pieceOf(points[i]!.value, points[i + 1]!.value, width, i, slopes, curvatures)),
    ),
    limited,
  };
}

/** Value (order 0) or a derivative per unit of place (order 1 to 3) of the curve. Throws InputError outside it. */
export function quinticAt(curve: QuinticCurve, place: number, order: 0 | 1 | 2 | 3 = 0): number {
  const index = pieceIndex(curve, place);
  const width = curve.places[index + 1]! - curve.places[index]!;
  const t = (place - curve.places[index]!) / width;
  let coefficients = curve.pieces[index]!;
  for (let k = 0; k < order; k++)
    coefficients = coefficients.slice(1).map((coefficient, j) => (coefficient * (j + 1)) / width);
  return horner(coefficients, t);
}

/** Integral of the curve from one place to another, exact. Throws InputError when it leaves the curve. */
export function quinticIntegral(curve: QuinticCurve, from: number, to: number): number {
  if (to < from) return -quinticIntegral(curve, to, from);
  const [first, last] = [pieceIndex(curve, from), pieceIndex(curve, to)];
  let sum = 0;
  for (let i = first; i <= last; i++) {
    const [start, end] = [curve.places[i]!, curve.places[i + 1]!];
    const raised = [0, ...curve.pieces[i]!.map((coefficient, j) => coefficient / (j + 1))];
    const upTo = (place: number) => horner(raised, (place - start) / (end - start));
    sum += (end - start) * (upTo(Math.min(to, end)) - upTo(Math.max(from, start)));
  }
  return sum;
}

function pieceIndex({ places }: QuinticCurve, place: number): number {
  if (!(place >= places[0]! && place <= places.at(-1)!))
    throw new InputError(`${place} lies outside the curve from ${places[0]} to ${places.at(-1)}.`);
  let [low, high] = [0, places.length - 2];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (places[middle]! <= place) low = middle;
    else high = middle - 1;
  }
  return low;
}

function horner(coefficients: readonly number[], t: number): number {
  let sum = 0;
  for (let j = coefficients.length - 1; j >= 0; j--) sum = sum * t + coefficients[j]!;
  return sum;
}

/** What fixes a piece: value, slope × width, curvature × width² at its start, then at its end. */
type Piece = readonly [number, number, number, number, number, number];

function pieceOf(
  from: number,
  to: number,
  width: number,
  index: number,
  slopes: readonly number[],
  curvatures: readonly number[],
): Piece {
  return [
    from,
    slopes[index]! * width,
    curvatures[index]! * width ** 2,
    to,
    slopes[index + 1]! * width,
    curvatures[index + 1]! * width ** 2,
  ];
}

/** Coefficients of t⁰ to t⁵ from the two ends: solve f, f′, f″ at t = 1 for the last three. */
function powers([y0, s0, c0, y1, s1, c1]: Piece): number[] {
  const rise = y1 - y0 - s0 - c0 / 2;
  const slope = s1 - s0 - c0;
  const bend = c1 - c0;
  return [
    y0,
    s0,
    c0 / 2,
    10 * rise - 4 * slope + bend / 2,
    -15 * rise + 7 * slope - bend,
    6 * rise - 3 * slope + bend / 2,
  ];
}

/** ∫₀¹ f‴ g‴ dt of the six unit pieces: f‴ is a parabola, so three Gauss points are exact. */
const ENERGY = (() => {
  const offset = Math.sqrt(3 / 5) / 2;
  const thirds = Array.from({ length: 6 }, (_, k) => {
    const p = powers([0, 1, 2, 3, 4, 5].map((j) => (j === k ? 1 : 0)) as unknown as Piece);
    return [0.5 - offset, 0.5, 0.5 + offset].map(
      (t) => 6 * p[3]! + 24 * p[4]! * t + 60 * p[5]! * t * t,
    );
  });
  const weights = [5 / 18, 8 / 18, 5 / 18];
  return thirds.map((one) =>
    thirds.map((other) => weights.reduce((sum, w, g) => sum + w * one[g]! * other[g]!, 0)),
  );
})();

/** Slopes and curvatures (places scaled to a span of one) that make ∫ f‴² least. */
function smoothest(points: readonly QuinticPoint[], widths: readonly number[]) {
  const free: number[] = [];
  const slotOf = points.map(({ kind }) => ({
    slope: kind === undefined ? free.push(0) - 1 : -1,
    curvature: kind === 'rest' ? -1 : free.push(0) - 1,
  }));
  const slopes = points.map(() => 0);
  const curvatures = points.map(() => 0);
  if (free.length === 0) return { slopes, curvatures };
  const system = Matrix.zeros(free.length, free.length);
  const right = Matrix.zeros(free.length, 1);
  widths.forEach((width, i) => {
    const [here, next] = [slotOf[i]!, slotOf[i + 1]!];
    const slots = [-1, here.slope, here.curvature, -1, next.slope, next.curvature];
    const scales = [1, width, width ** 2, 1, width, width ** 2];
    const known = [points[i]!.value, 0, 0, points[i + 1]!.value, 0, 0];
    slots.forEach((row, k) => {
      if (row < 0) return;
      slots.forEach((column, l) => {
        const entry = (ENERGY[k]![l]! * scales[k]! * scales[l]!) / width ** 5;
        if (column >= 0) system.set(row, column, system.get(row, column) + entry);
        else right.set(row, 0, right.get(row, 0) - entry * known[l]!);
      });
    });
  });
  const solution = solve(system, right).to1DArray();
  slotOf.forEach(({ slope, curvature }, i) => {
    if (slope >= 0) slopes[i] = solution[slope]!;
    if (curvature >= 0) curvatures[i] = solution[curvature]!;
  });
  return { slopes, curvatures };
}

/** A slope against its neighbours' direction, or at a turn, is zero; a curvature there must lead into the next piece. */
function clampTurned(
  points: readonly QuinticPoint[],
  rises: readonly number[],
  slopes: number[],
  curvatures: number[],
): void {
  points.forEach((_, i) => {
    const before = Math.sign(rises[i - 1] ?? rises[i]!);
    const after = Math.sign(rises[i] ?? rises[i - 1]!);
    if (before !== after || Math.sign(slopes[i]!) !== after) slopes[i] = 0;
    if (slopes[i] !== 0) return;
    // With the slope zero, f″ must be of the sign of the piece that starts here and against that of the one that ends.
    const starts = i < rises.length ? after : 0;
    const ends = i > 0 ? -before : 0;
    const wrong = (sign: number) => sign !== 0 && Math.sign(curvatures[i]!) !== sign;
    if (wrong(starts) || wrong(ends) || before === 0 || after === 0) curvatures[i] = 0;
  });
}

const BRING_DOWN = 0.9;
/** 0.9 to this power is 5e-19. */
const BRING_DOWN_TIMES = 400;

/** Halvings when a piece is looked at; what is still open then counts as turning. */
const HALVINGS = 12;

function bringDown(
  points: readonly QuinticPoint[],
  widths: readonly number[],
  slopes: number[],
  curvatures: number[],
): boolean {
  let limited = false;
  // Each round can only lower what a neighbour left; more rounds than points means numbers beyond reckoning.
  let rounds = 0;
  for (let again = true; again && rounds < 50 * points.length; rounds++) {
    again = false;
    widths.forEach((width, i) => {
      const [from, to] = [points[i]!.value, points[i + 1]!.value];
      for (let times = 1; !runsOneWay(pieceOf(from, to, width, i, slopes, curvatures)); times++) {
        // Zero ends it; the limit is for numbers so small or large that a tenth off no longer brings them there.
        if (times > BRING_DOWN_TIMES + 1) break;
        for (const end of [i, i + 1]) {
          slopes[end] = times > BRING_DOWN_TIMES ? 0 : slopes[end]! * BRING_DOWN;
          curvatures[end] = times > BRING_DOWN_TIMES ? 0 : curvatures[end]! * BRING_DOWN;
        }
        limited = true;
        again = true;
      }
    });
  }
  return limited;
}

function runsOneWay(piece: Piece): boolean {
  const rise = piece[3] - piece[0];
  if (rise === 0) return piece[1] === 0 && piece[2] === 0 && piece[4] === 0 && piece[5] === 0;
  const p = powers(piece);
  const derivative = [1, 2, 3, 4, 5].map((j) => (j * p[j]!) / rise);
  return neverNegative(bernstein(derivative), HALVINGS);
}

/** Bernstein coefficients on [0, 1] of a quartic given by powers: b_i = Σ_j C(i,j)/C(4,j) a_j. */
function bernstein(a: readonly number[]): number[] {
  return [
    a[0]!,
    a[0]! + a[1]! / 4,
    a[0]! + a[1]! / 2 + a[2]! / 6,
    a[0]! + (3 * a[1]!) / 4 + a[2]! / 2 + a[3]! / 4,
    a[0]! + a[1]! + a[2]! + a[3]! + a[4]!,
  ];
}

/** A polynomial lies within the hull of its Bernstein coefficients; halving (de Casteljau) draws the hull tight. */
function neverNegative(b: readonly number[], depth: number): boolean {
  // The ends are values of the polynomial; a zero slope at an end may round to either side.
  const slack = -1e-12;
  if (b[0]! < slack || b[4]! < slack) return false;
  if (b.every((value) => value >= slack)) return true;
  if (depth === 0) return false;
  const left: number[] = [];
  const right: number[] = [];
  let row = [...b];
  while (row.length > 0) {
    left.push(row[0]!);
    right.unshift(row.at(-1)!);
    row = row.slice(1).map((value, i) => (value + row[i]!) / 2);
  }
  return neverNegative(left, depth - 1) && neverNegative(right, depth - 1);
}
