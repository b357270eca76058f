import { normalFraction } from './evenly.ts';

/*
 * A knock channel against the setting and the speed: a background, and beyond the limit a rise in proportion to how
 * far past it the setting stands,
 *
 *   level(u, s) = exp(g₀ + g₁x) + r·max(0, u − L(x)),   L(x) = l₀ + l₁x + l₂x²,   x the speed scaled to −1 … 1.
 *
 * Levels scatter like counts: variance ψ·level, with ψ learned from neighbouring bins, so that a channel in counts and
 * one in volts are treated alike. The six numbers are found at the top of their posterior and their spread from its
 * curvature there. A limit is said to be located only where the rise explains the levels far better than a background
 * alone does; a channel that saw nothing leaves the limit above the highest rung by an unknown amount.
 */

interface KnockPull {
  readonly u: number;
  readonly speedRpm: readonly number[];
  readonly level: readonly number[];
}

export interface KnockLimit {
  readonly fromRpm: number;
  readonly toRpm: number;
  /** Middle estimate and 2.5 % quantile of the limit at a speed. */
  readonly at: (speedRpm: number) => { readonly value: number; readonly low: number };
  /** Middle estimate of the lowest limit between two speeds (null: all that were swept). */
  readonly lowestOver: (speedsRpm: readonly [number, number] | null) => number;
  /** Equally likely lowest limits between two speeds. */
  readonly drawsOver: (speedsRpm: readonly [number, number]) => Float64Array;
}

const GROUPS = 10;
const DRAWS = 128;
const PROPOSALS = 500;
const PROPOSAL_WIDTH = 1.5;
/** Twice the gain in log likelihood that a rise must bring over a background alone (6 numbers against 2). */
const LOCATED = 14;
/** Least sd of the limit at a speed [rungs]: no bend is exactly where a line says. */
const LEAST_SD_RUNGS = 0.12;

interface Point {
  readonly u: number;
  readonly group: number;
  readonly level: number;
}

/** Minimises f by the simplex of Nelder and Mead (1965); small, smooth problems with few numbers only. */
function simplex(
  f: (at: Float64Array) => number,
  start: readonly number[],
  steps: readonly number[],
  rounds: number,
  settled: number,
): { at: Float64Array; value: number } {
  const n = start.length;
  const corners = Array.from({ length: n + 1 }, (_, i) => {
    const at = Float64Array.from(start);
    if (i > 0) at[i - 1]! += steps[i - 1]!;
    return { at, value: f(at) };
  });
  const between = (from: Float64Array, to: Float64Array, t: number) => {
    const at = from.map((value, i) => value + t * (to[i]! - value));
    return { at, value: f(at) };
  };
  for (let round = 0; round < rounds; round++) {
    corners.sort((a, b) => a.value - b.value);
    const worst = corners[n]!;
    if (worst.value - corners[0]!.value < settled) break;
    const centre = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) centre[j]! += corners[i]!.at[j]! / n;
    }
    const reflected = between(centre, worst.at, -1);
    if (reflected.value < corners[0]!.value) {
      const further = between(centre, worst.at, -2);
      corners[n] = further.value < reflected.value ? further : reflected;
    } else if (reflected.value < corners[n - 1]!.value) {
      corners[n] = reflected;
    } else {
      const inside = between(centre, worst.at, reflected.value < worst.value ? -0.5 : 0.5);
      if (inside.value < Math.min(worst.value, reflected.value)) corners[n] = inside;
      else {
        for (let i = 1; i <= n; i++) corners[i] = between(corners[0]!.at, corners[i]!.at, 0.5);
      }
    }
  }
  corners.sort((a, b) => a.value - b.value);
  return corners[0]!;
}

/** Covariance from the curvature of f at its minimum, by central differences; null where it is not a minimum. */
function laplace(
  f: (at: Float64Array) => number,
  at: Float64Array,
  steps: readonly number[],
): Float64Array[] | null {
  const n = at.length;
  const shifted = (i: number, di: number, j: number, dj: number) => {
    const to = Float64Array.from(at);
    to[i]! += di;
    to[j]! += dj;
    return f(to);
  };
  const h = Array.from({ length: n }, () => new Float64Array(n));
  const f0 = f(at);
  for (let i = 0; i < n; i++) {
    const [hi] = [steps[i]!];
    h[i]![i] = (shifted(i, hi, i, 0) - 2 * f0 + shifted(i, -hi, i, 0)) / (hi * hi);
    for (let j = 0; j < i; j++) {
      const hj = steps[j]!;
      const value =
        (shifted(i, hi, j, hj) -
          shifted(i, hi, j, -hj) -
          shifted(i, -hi, j, hj) +
          shifted(i, -hi, j, -hj)) /
        (4 * hi * hj);
      h[i]![j] = value;
      h[j]![i] = value;
    }
  }
  // Inverse Cholesky factor: covariance = M Mᵀ with M the inverse transpose of the factor of h.
  const l = h.map((row) => Float64Array.from(row));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = l[i]![j]!;
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      if (i === j) {
        if (!(sum > 1e-9)) return null;
        l[i]![i] = Math.sqrt(sum);
      } else l[i]![j] = sum / l[j]![j]!;
    }
  }
  return l;
}

/** Solves Lᵀx = z for the lower factor L: x then has covariance (LLᵀ)⁻¹ when z is standard normal. */
function backSolve(l: readonly Float64Array[], z: readonly number[]): number[] {
  const n = l.length;
  const x = [...z];
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k]![i]! * x[k]!;
    x[i]! /= l[i]![i]!;
  }
  return x;
}

/** The limit from the knock channel of the pulls, or null where it was not located. `rung`: usual distance of rungs. */
export function locateKnock(pulls: readonly KnockPull[], rung: number): KnockLimit | null {
  const speeds = pulls.flatMap((pull) => pull.speedRpm);
  if (speeds.length === 0) return null;
  const [fromRpm, toRpm] = [Math.min(...speeds), Math.max(...speeds)];
  if (!(toRpm > fromRpm)) return null;
  const scaled = (speed: number) => (2 * speed - fromRpm - toRpm) / (toRpm - fromRpm);
  const points: Point[] = [];
  let scatter = 0;
  let sums = 0;
  for (const { u, speedRpm, level } of pulls) {
    const groups = Array.from({ length: GROUPS }, () => ({ level: 0, count: 0 }));
    let last = Number.NaN;
    speedRpm.forEach((speed, i) => {
      const value = level[i]!;
      if (!Number.isFinite(value)) return;
      const x = scaled(speed);
      const group = groups[Math.min(GROUPS - 1, Math.floor(((x + 1) / 2) * GROUPS))]!;
      group.level += Math.max(0, value);
      group.count += 1;
      if (Number.isFinite(last)) {
        scatter += (value - last) ** 2;
        sums += Math.abs(value) + Math.abs(last);
      }
      last = value;
    });
    groups.forEach(({ level: sum, count }, group) => {
      if (count > 0) points.push({ u, group, level: sum / count });
    });
  }
  const top = Math.max(0, ...points.map((point) => point.level));
  if (points.length < 2 || !(sums > 0) || top <= 0) return null;
  const binsPerGroup = Math.max(1, speeds.length / points.length);
  const psi = Math.max(scatter / sums / binsPerGroup, 1e-6);
  const us = pulls.map((pull) => pull.u);
  const [uLow, uHigh] = [Math.min(...us), Math.max(...us)];
  const mean = points.reduce((sum, point) => sum + point.level, 0) / points.length;
  const floor = 0.02 * mean;

  const misfit = (level: number, mu: number) =>
    (level === 0 ? mu : mu - level * Math.log(mu)) / psi;
  const centres = Array.from({ length: GROUPS }, (_, i) => (2 * (i + 0.5)) / GROUPS - 1);
  const quietAt = new Float64Array(GROUPS);
  const limitAt = new Float64Array(GROUPS);
  const background = (q: Float64Array) => {
    centres.forEach((x, i) => {
      quietAt[i] = Math.exp(q[0]! + q[1]! * x) + floor / 10;
    });
    let sum = 0.5 * q[1]! ** 2;
    for (const { group, level } of points) sum += misfit(level, quietAt[group]!);
    return sum;
  };
  const rising = (q: Float64Array) => {
    centres.forEach((x, i) => {
      quietAt[i] = Math.exp(q[0]! + q[1]! * x) + floor / 10;
      limitAt[i] = q[3]! + q[4]! * x + q[5]! * x * x;
    });
    let sum =
      0.5 * q[1]! ** 2 +
      0.5 * ((q[2]! - Math.log(top / (0.6 * rung))) / 1.2) ** 2 +
      0.5 * (q[4]! / (1.5 * rung)) ** 2 +
      0.5 * (q[5]! / (0.4 * rung)) ** 2;
    const outside = Math.max(0, uLow - 3 * rung - q[3]!, q[3]! - uHigh - rung);
    sum += 5 * (outside / rung) ** 2;
    const rise = Math.exp(q[2]!);
    for (const { u, group, level } of points) {
      const past = u - limitAt[group]!;
      sum += misfit(level, quietAt[group]! + (past > 0 ? rise * past : 0));
    }
    return sum;
  };
  const flat = simplex(background, [Math.log(mean), 0], [0.5, 0.3], 80, 0.05);
  const quiet = Math.log(Math.max(floor, Math.min(...us.map((u) => levelAt(points, u)))));
  const starts = [0.1, 0.45, 0.8].map((part) => uLow + part * (uHigh - uLow));
  let found: { at: Float64Array; value: number } = {
    at: new Float64Array(6),
    value: Number.POSITIVE_INFINITY,
  };
  for (const l0 of starts) {
    const tried = simplex(
      rising,
      [quiet, 0, Math.log(top / (0.6 * rung)), l0, 0, 0],
      [0.7, 0.3, 0.4, 0.5 * rung, 0.4 * rung, 0.15 * rung],
      120,
      0.3,
    );
    if (tried.value < found.value) found = tried;
  }
  const polished = simplex(
    rising,
    [...found.at],
    [0.3, 0.2, 0.2, 0.2 * rung, 0.2 * rung, 0.1 * rung],
    250,
    0.01,
  );
  if (polished.value < found.value) found = polished;
  if (2 * (flat.value - found.value) < LOCATED) return null;

  const lines = linesOf(rising, found, rung);
  const limitOf = (line: readonly number[], x: number) =>
    line[0]! + line[1]! * x + line[2]! * x * x;
  const middleLine = [found.at[3]!, found.at[4]!, found.at[5]!];
  const lowest = (line: readonly number[], from: number, to: number) => {
    let low = Number.POSITIVE_INFINITY;
    for (let i = 0; i <= 12; i++) low = Math.min(low, limitOf(line, from + ((to - from) * i) / 12));
    return low;
  };
  const clip = (x: number) => Math.min(1.3, Math.max(-1.3, x));
  return {
    fromRpm,
    toRpm,
    at: (speedRpm) => {
      const x = clip(scaled(speedRpm));
      const sorted = lines.map((line) => limitOf(line, x)).sort((a, b) => a - b);
      return { value: limitOf(middleLine, x), low: sorted[Math.floor(0.025 * DRAWS)]! };
    },
    lowestOver: (range) =>
      range === null
        ? lowest(middleLine, -1, 1)
        : lowest(middleLine, clip(scaled(range[0])), clip(scaled(range[1]))),
    drawsOver: (range) =>
      Float64Array.from(lines, (line) =>
        lowest(line, clip(scaled(range[0])), clip(scaled(range[1]))),
      ),
  };
}

/**
 * Equally likely lines of the limit: evenly spread points of a Gaussian half as wide again as the curvature at the top
 * says, weighted by the true posterior over it, and drawn again by weight. So a limit that only the highest rung has
 * touched keeps its skewed tail.
 */
function linesOf(
  f: (at: Float64Array) => number,
  top: { readonly at: Float64Array; readonly value: number },
  rung: number,
): number[][] {
  const steps = [0.1, 0.1, 0.03, 0.04 * rung, 0.04 * rung, 0.04 * rung];
  const factor = laplace(f, top.at, steps);
  const proposals = Array.from({ length: PROPOSALS }, (_, i) => {
    const z = [0, 1, 2, 3, 4, 5].map((j) => PROPOSAL_WIDTH * normalFraction(i, j));
    const shift =
      factor === null ? z.map((value, j) => 5 * steps[j]! * value) : backSolve(factor, z);
    const at = top.at.map((value, j) => value + shift[j]!);
    const square = z.reduce((sum, value) => sum + value * value, 0);
    return { at, log: top.value - f(at) + (0.5 * square) / PROPOSAL_WIDTH ** 2 };
  });
  const best = Math.max(...proposals.map((one) => one.log));
  const weights = proposals.map((one) => Math.exp(one.log - best));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const lines: number[][] = [];
  let before = 0;
  let from = 0;
  for (let i = 0; i < DRAWS; i++) {
    const target = ((i + 0.5) / DRAWS) * total;
    while (from < PROPOSALS - 1 && before + weights[from]! < target) before += weights[from++]!;
    const { at } = proposals[from]!;
    lines.push([at[3]! + LEAST_SD_RUNGS * rung * normalFraction(i, 6), at[4]!, at[5]!]);
  }
  return lines;
}

function levelAt(points: readonly Point[], u: number): number {
  const here = points.filter((point) => point.u === u);
  return here.reduce((sum, point) => sum + point.level, 0) / here.length;
}
