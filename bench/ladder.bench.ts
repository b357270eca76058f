/** The ladder: twelve cached curves to best, knee, limit, uses, steps, map and next move, as when a band is dragged. */
import { Matrix, solve } from 'ml-matrix';
import { simulateCurveDay } from '../demo/curve-day.ts';
import { answerLadder } from '../src/ladder/index.ts';
import type { BenchCase } from './case.ts';

const LEADS = [24, 26, 28, 30, 32, 34, 36, 26, 28, 30, 34, 32];
const REFITS = 2000;
const ROUNDS = 25;

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;

/** The ordinary way to an interval of the best: residual bootstrap of a parabola, each refit by least squares. */
function bootstrapBest(x: readonly number[], y: readonly number[]): number[] {
  const design = new Matrix(x.map((value) => [1, value - 30, (value - 30) ** 2]));
  const fit = solve(design, Matrix.columnVector([...y]));
  const fitted = design.mmul(fit).to1DArray();
  const residual = y.map((value, i) => value - fitted[i]!);
  let seed = 1;
  const next = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 4294967296;
  };
  return Array.from({ length: REFITS }, () => {
    const drawn = fitted.map((value) => value + residual[Math.floor(next() * residual.length)]!);
    const again = solve(design, Matrix.columnVector(drawn));
    return 30 - again.get(1, 0) / (2 * again.get(2, 0));
  }).sort((a, b) => a - b);
}

const ladder: BenchCase = {
  name: 'a ladder of 12 pulls with a knock channel: model, uses, steps by speed, map',
  peer: `ml-matrix 6: ${REFITS} bootstrap refits of a parabola, for the interval of the best alone`,
  target: 'under 30 ms once curves are cached',
  run: async () => {
    const { input } = simulateCurveDay({ seed: 5, leadsDeg: LEADS, limit: { leadDeg: 33 } });
    const oursMs: number[] = [];
    const peerMs: number[] = [];
    for (let i = 0; i < ROUNDS + 10; i++) {
      // The band moves with every round, as it does under a dragging hand.
      const bandRpm = [input.bandRpm[0] + 5 * i, input.bandRpm[1]] as const;
      let start = performance.now();
      const answer = answerLadder({ ...input, bandRpm });
      const ours = performance.now() - start;
      start = performance.now();
      bootstrapBest(
        answer.dots.map((dot) => dot.setting),
        answer.dots.map((dot) => dot.meanPowerW.value),
      );
      const peer = performance.now() - start;
      if (i < 10) continue;
      oursMs.push(ours);
      peerMs.push(peer);
    }
    const ours = median(oursMs);
    return { oursMs: ours, peerMs: median(peerMs), met: ours < 30 };
  },
};

export default ladder;
