/**
 * Draws from a density that is known up to its scale, by an ensemble of walkers that stretch toward each other
 * (Goodman and Weare 2010, Comm. App. Math. Comp. Sci. 5, 65): no tuning, indifferent to how the dimensions are scaled
 * and tilted, and with a fixed generator the same digits each time. While it burns in, walkers that were left far behind
 * are brought among the others, for a straggler only ever moves with the ensemble's own spread.
 *
 * @param logDensity  its logarithm; −∞ where it is not possible
 * @param starts      an even number of at least two per dimension, not all in one plane
 * @param burn        sweeps thrown away
 * @param keep        sweeps of which every `thin`-th is kept
 * @returns           one row a draw
 */
export function ensembleDraws(
  logDensity: (x: Float64Array) => number,
  starts: readonly Float64Array[],
  burn: number,
  keep: number,
  thin: number,
  seed = 0x5eed,
): Float64Array[] {
  const uniform = xorshift(seed);
  const walkers = starts.map((start) => Float64Array.from(start));
  const logs = walkers.map(logDensity);
  const size = walkers[0]!.length;
  const half = walkers.length >> 1;
  const proposal = new Float64Array(size);
  const out: Float64Array[] = [];
  for (let sweep = 0; sweep < burn + keep; sweep++) {
    for (let i = 0; i < walkers.length; i++) {
      const other =
        walkers[((i < half ? half : 0) + Math.floor(uniform() * half)) % walkers.length]!;
      // z with density ∝ 1/√z on [1/2, 2].
      const z = (1 + uniform()) ** 2 / 2;
      const walker = walkers[i]!;
      for (let j = 0; j < size; j++) proposal[j] = other[j]! + z * (walker[j]! - other[j]!);
      const log = logDensity(proposal);
      if (Math.log(uniform()) < (size - 1) * Math.log(z) + log - logs[i]!) {
        walker.set(proposal);
        logs[i] = log;
      }
    }
    if (sweep < burn && sweep % RESCUE === RESCUE - 1) rescue(walkers, logs, logDensity, uniform);
    if (sweep >= burn && (sweep - burn) % thin === 0)
      for (const walker of walkers) out.push(Float64Array.from(walker));
  }
  return out;
}

/** Sweeps of burning in between two looks for stragglers, and what makes one: log density below the best walker's. */
const RESCUE = 20;
const BEHIND = 20;

/** Puts each straggler between two walkers drawn from the better half. */
function rescue(
  walkers: readonly Float64Array[],
  logs: number[],
  logDensity: (x: Float64Array) => number,
  uniform: () => number,
): void {
  const order = [...logs.keys()].sort((a, b) => logs[b]! - logs[a]!);
  const better = order.slice(0, order.length >> 1);
  const pick = () => walkers[better[Math.floor(uniform() * better.length)]!]!;
  const [top, middle] = [logs[order[0]!]!, logs[better.at(-1)!]!];
  for (const i of order) {
    if (!(logs[i]! < Math.min(top - BEHIND, middle))) continue;
    const [one, other] = [pick(), pick()];
    const part = uniform();
    const walker = walkers[i]!;
    for (let j = 0; j < walker.length; j++) walker[j] = one[j]! + part * (other[j]! - one[j]!);
    logs[i] = logDensity(walker);
  }
}

/** Even numbers in (0, 1): G. Marsaglia's xorshift, 32 bits (13, 17, 5). */
export function xorshift(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 4294967296;
  };
}
