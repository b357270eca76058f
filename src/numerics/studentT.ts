import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { InputError } from '../errors.ts';

/** From here on the expansion in 1/ν is good to 1e-7 and cheaper than the sum. */
const EXPANSION_FROM = 200;

/**
 * Quantile of Student's t. A fractional number of degrees of freedom is cut down to the whole number below, as the
 * GUM advises for an effective one: the answer then errs to the wide side.
 *
 * @param probability        above 0, below 1 (0.975 for the usual two-sided 95 %)
 * @param degreesOfFreedom   1 or more; Infinity gives the normal quantile
 * @source  Abramowitz & Stegun 26.7.3, 26.7.4 (finite sums) and 26.7.5 (expansion), digits from memory; JCGM 100:2008 G.6.4
 * @throws InputError  outside those ranges
 */
export function tQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1))
    throw new InputError(`invalid probability: ${probability}; expected above 0, below 1`);
  if (!(degreesOfFreedom >= 1))
    throw new InputError(`invalid degrees of freedom: ${degreesOfFreedom}; expected 1 or more`);
  if (probability < 0.5) return -tQuantile(1 - probability, degreesOfFreedom);
  const nu = Math.floor(degreesOfFreedom);
  if (nu > EXPANSION_FROM) return expanded(normalQuantile(probability, 0, 1), nu);
  const inside = 2 * probability - 1;
  // In the angle θ = atan(t/√ν) the range is finite: halving it 60 times reaches the last bit.
  let [low, high] = [0, Math.PI / 2];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (shareInside(middle, nu) < inside) low = middle;
    else high = middle;
  }
  return Math.sqrt(nu) * Math.tan((low + high) / 2);
}

/**
 * Chance that Student's t lies below a value; degrees of freedom as for `tQuantile`.
 * @source  as for `tQuantile`
 * @throws InputError  degrees of freedom below 1
 */
export function tBelow(value: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom >= 1))
    throw new InputError(`invalid degrees of freedom: ${degreesOfFreedom}; expected 1 or more`);
  const nu = Math.floor(degreesOfFreedom);
  if (!Number.isFinite(nu)) return normalCdf(value, 0, 1);
  const inside = shareInside(Math.atan(Math.abs(value) / Math.sqrt(nu)), nu);
  return value < 0 ? (1 - inside) / 2 : (1 + inside) / 2;
}

/** P(|T| < √ν tan θ) for whole ν. */
function shareInside(theta: number, nu: number): number {
  const cosine = Math.cos(theta);
  const odd = nu % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = nu === 1 ? 0 : term;
  for (let power = odd ? 3 : 2; power <= nu - 2; power += 2) {
    term *= (cosine ** 2 * (power - 1)) / power;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (theta + Math.sin(theta) * sum) : Math.sin(theta) * sum;
}

function expanded(z: number, nu: number): number {
  return (
    z +
    (z ** 3 + z) / 4 / nu +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96 / nu ** 2 +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384 / nu ** 3
  );
}
