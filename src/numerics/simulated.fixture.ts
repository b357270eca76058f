import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Seeded Gaussian numbers (Box–Muller), for tests only. */
export function gaussian(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(generator))) *
    Math.cos(2 * Math.PI * uniformFloat64(generator));
}

interface SimulatedNoise {
  readonly whiteSd: number;
  readonly wanderSd: number;
  readonly memory: number;
}

/** A sweep of equal steps in time and abscissa through `truth`, with white noise and a wander on it. */
export function simulatedSweep(
  truth: (x: number) => number,
  seed: number,
  noise: SimulatedNoise,
  { low = 3000, high = 7400, duration = 11, interval = 0.02 } = {},
) {
  const normal = gaussian(seed);
  const count = Math.round(duration / interval);
  const phi = Math.exp(-interval / noise.memory);
  let wander = noise.wanderSd * normal();
  const time: number[] = [];
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0; i < count; i++) {
    time.push(i * interval);
    x.push(low + ((high - low) * i) / (count - 1));
    y.push(truth(x[i]!) + wander + noise.whiteSd * normal());
    wander = phi * wander + noise.wanderSd * Math.sqrt(1 - phi * phi) * normal();
  }
  return { time, x, y };
}

/** Two engines' worth of torque curves [N·m]: a plain one, and one with tuning humps. */
export const SMOOTH = (x: number) => 500 - 4e-5 * (x - 4800) ** 2 + 3e-9 * (x - 4800) ** 3;
export const HUMPED = (x: number) =>
  480 -
  3e-5 * (x - 4800) ** 2 +
  12 * Math.sin((x - 3000) / 350) +
  6 * Math.exp(-(((x - 5200) / 250) ** 2));
