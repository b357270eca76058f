import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/**
 * One reproducible source of chance. Each purpose draws from a stream of its own name, so that turning
 * one knob of the cell leaves every other draw as it was.
 */
export class Chance {
  readonly #generator;
  #spare = Number.NaN;

  constructor(seed: number, purpose: string) {
    this.#generator = xoroshiro128plus(scramble(seed, purpose));
    for (let i = 0; i < 8; i++) this.#generator.next();
  }

  /** Uniform in [0, 1). */
  uniform(): number {
    return (this.#generator.next() >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  /** Log-uniform between two positive numbers. */
  logBetween(low: number, high: number): number {
    return low * (high / low) ** this.uniform();
  }

  pick<T>(items: readonly T[]): T {
    return items[Math.floor(this.uniform() * items.length)]!;
  }

  /** Standard normal, by the polar method (Marsaglia and Bray 1964). */
  normal(): number {
    if (!Number.isNaN(this.#spare)) {
      const spare = this.#spare;
      this.#spare = Number.NaN;
      return spare;
    }
    for (;;) {
      const u = 2 * this.uniform() - 1;
      const v = 2 * this.uniform() - 1;
      const s = u * u + v * v;
      if (s === 0 || s >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(s)) / s);
      this.#spare = v * factor;
      return u * factor;
    }
  }

  /** Poisson count of a small mean, by multiplying uniforms (Knuth); means above 30 by the normal limit. */
  poisson(mean: number): number {
    if (mean <= 0) return 0;
    if (mean > 30) return Math.max(0, Math.round(mean + Math.sqrt(mean) * this.normal()));
    const limit = Math.exp(-mean);
    let count = 0;
    for (let product = this.uniform(); product > limit; product *= this.uniform()) count++;
    return count;
  }
}

/** A 32-bit mix of seed and purpose (FNV-1a over the text, then a final avalanche). */
function scramble(seed: number, purpose: string): number {
  let hash = 0x811c9dc5 ^ Math.imul(Math.trunc(seed) | 0, 0x9e3779b1);
  for (let i = 0; i < purpose.length; i++) {
    hash = Math.imul(hash ^ purpose.charCodeAt(i), 0x01000193);
  }
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return hash ^ (hash >>> 16);
}
