/*
 * What a speed adds to the band's response, component by component (see speeds.ts). A pull's coefficient answers the
 * setting by c_p = a + β·v + q·v² + noise, Gaussian priors on (a, β, q), the noise the curve's own and the pull's
 * wander over speed. The wander is the cell's: one scale for all components, from which each may differ a little, so
 * that the few pulls of a day tell it together. Scale and differences are summed over one grid of logarithms.
 */

/** A component's coefficient in each pull, and the variance that the curve's own fit leaves in it. */
export interface Component {
  readonly c: readonly number[];
  readonly variance: readonly number[];
  /** Median of the prior for the sd of the pulls' wander in this component. */
  readonly wanderMedian: number;
}

export interface ComponentFit {
  readonly mean: readonly [number, number, number];
  /** Lower Cholesky factor of the covariance of (a, β, q): 11, 21, 22, 31, 32, 33. */
  readonly factor: readonly [number, number, number, number, number, number];
}

/** Sd of the logarithm of the wander's scale, and of how far one component's may differ from it (ours, no source). */
const SCALE_LOG_SD = 0.8;
const OWN_LOG_SD = 0.4;
const GRID_STEP = 0.5;
const GRID_REACH = 4;
const LOGS = Array.from({ length: 2 * GRID_REACH + 1 }, (_, g) => GRID_STEP * (g - GRID_REACH));
const SCALE_WEIGHT = LOGS.map((log) => Math.exp(-0.5 * (log / SCALE_LOG_SD) ** 2));
/** Chance of a component's own place on the grid given the scale's; rows are scales. */
const OWN_WEIGHT = LOGS.map((scale) => {
  const row = LOGS.map((log) => Math.exp(-0.5 * ((log - scale) / OWN_LOG_SD) ** 2));
  const sum = row.reduce((total, value) => total + value, 0);
  return row.map((value) => value / sum);
});

/** Upper triangle 11, 12, 13, 22, 23, 33 of a symmetric matrix. */
type Six = readonly [number, number, number, number, number, number];

/** Weighted sums over the pulls for one sd of wander. */
interface Sums {
  readonly square: Six;
  readonly rhs: readonly [number, number, number];
  /** Σ w·c² and Σ log variance. */
  readonly quad: number;
  readonly logDet: number;
}

/** One row of sums a component, one entry a place of the grid; they do not depend on the priors of (a, β, q). */
export function sumsOf(v: readonly number[], components: readonly Component[]): Sums[][] {
  return components.map(({ c, variance, wanderMedian }) =>
    LOGS.map((log) => {
      const own = (wanderMedian * Math.exp(log)) ** 2;
      const s = [0, 0, 0, 0, 0];
      const rhs: [number, number, number] = [0, 0, 0];
      let quad = 0;
      let logDet = 0;
      v.forEach((x, p) => {
        const total = own + variance[p]!;
        const w = 1 / total;
        const y = c[p]!;
        logDet += Math.log(total);
        quad += w * y * y;
        rhs[0] += w * y;
        rhs[1] += w * y * x;
        rhs[2] += w * y * x * x;
        for (let i = 0, power = w; i < 5; i++, power *= x) s[i]! += power;
      });
      return { square: [s[0]!, s[1]!, s[2]!, s[2]!, s[3]!, s[4]!], rhs, quad, logDet };
    }),
  );
}

/**
 * Posterior mean and covariance of (a, β, q) of each component.
 *
 * @param priorSds  of (a, β, q) for each component
 */
export function fitComponents(
  sums: readonly (readonly Sums[])[],
  priorSds: readonly (readonly [number, number, number])[],
): ComponentFit[] {
  const parts = sums.map((row, j) => row.map((one) => solved(one, priorSds[j]!)));
  const tops = parts.map((row) => Math.max(...row.map((part) => part.log)));
  const evidence = parts.map((row, j) => row.map((part) => Math.exp(part.log - tops[j]!)));
  // Given the scale, the components are free of each other.
  const given = evidence.map((row) =>
    OWN_WEIGHT.map((own) => own.reduce((sum, weight, g) => sum + weight * row[g]!, 0)),
  );
  const scale = SCALE_WEIGHT.map((prior, s) =>
    given.reduce((product, row) => product * row[s]!, prior),
  );
  const total = scale.reduce((sum, weight) => sum + weight, 0);
  return parts.map((row, j) =>
    mixed(
      row.map((part, g) => {
        let weight = 0;
        for (let s = 0; s < LOGS.length; s++) {
          weight += ((scale[s]! / total) * (OWN_WEIGHT[s]![g]! * evidence[j]![g]!)) / given[j]![s]!;
        }
        return { weight, part };
      }),
    ),
  );
}

interface Part {
  readonly log: number;
  readonly mean: readonly [number, number, number];
  readonly cov: Six;
}

function solved({ square, rhs, quad, logDet }: Sums, sds: readonly [number, number, number]): Part {
  const a = square[0] + 1 / sds[0] ** 2;
  const [b, c] = [square[1], square[2]];
  const d = square[3] + 1 / sds[1] ** 2;
  const e = square[4];
  const f = square[5] + 1 / sds[2] ** 2;
  const [df, be, bf] = [d * f - e * e, b * e - c * d, c * e - b * f];
  const det = a * df + b * bf + c * be;
  const cov: Six = [
    df / det,
    bf / det,
    be / det,
    (a * f - c * c) / det,
    (b * c - a * e) / det,
    (a * d - b * b) / det,
  ];
  const [x, y, z] = rhs;
  const mean = [
    cov[0] * x + cov[1] * y + cov[2] * z,
    cov[1] * x + cov[3] * y + cov[4] * z,
    cov[2] * x + cov[4] * y + cov[5] * z,
  ] as const;
  const fitted = mean[0] * x + mean[1] * y + mean[2] * z;
  return { log: -0.5 * (quad - fitted + logDet + Math.log(Math.max(det, 1e-300))), mean, cov };
}

function mixed(parts: readonly { readonly weight: number; readonly part: Part }[]): ComponentFit {
  const mean: [number, number, number] = [0, 0, 0];
  const second = [0, 0, 0, 0, 0, 0];
  for (const { weight, part } of parts) {
    const [m0, m1, m2] = part.mean;
    mean[0] += weight * m0;
    mean[1] += weight * m1;
    mean[2] += weight * m2;
    const outer = [m0 * m0, m0 * m1, m0 * m2, m1 * m1, m1 * m2, m2 * m2];
    for (let i = 0; i < 6; i++) second[i]! += weight * (part.cov[i]! + outer[i]!);
  }
  const [m0, m1, m2] = mean;
  const c11 = second[0]! - m0 * m0;
  const c21 = second[1]! - m0 * m1;
  const c31 = second[2]! - m0 * m2;
  const c22 = second[3]! - m1 * m1;
  const c32 = second[4]! - m1 * m2;
  const c33 = second[5]! - m2 * m2;
  const l11 = Math.sqrt(Math.max(c11, 0));
  const l21 = l11 > 0 ? c21 / l11 : 0;
  const l31 = l11 > 0 ? c31 / l11 : 0;
  const l22 = Math.sqrt(Math.max(c22 - l21 * l21, 0));
  const l32 = l22 > 0 ? (c32 - l31 * l21) / l22 : 0;
  const l33 = Math.sqrt(Math.max(c33 - l31 * l31 - l32 * l32, 0));
  return { mean, factor: [l11, l21, l22, l31, l32, l33] };
}
