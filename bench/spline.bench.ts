import { WebR } from 'webr';
import {
  defaultPriors,
  type FitPriors,
  fitPenalisedSpline,
  fitRobustSpline,
  logSpaced,
} from '../src/numerics/index.ts';
import { HUMPED, simulatedSweep } from '../src/numerics/simulated.fixture.ts';
import type { BenchCase } from './case.ts';

const PEER = 'smooth.spline of R 4.6 through webr 0.6';
const ROUNDS = 9;
const grid = { low: 3000, high: 7400, segments: 29 };

/** What smooth.spline does: noise taken for white, smoothness chosen by the data. */
const WHITE: FitPriors = {
  smoothness: logSpaced(1e-3, 1e8, 23),
  share: [0],
  shareWeight: [1],
  memory: [1],
  memoryWeight: [1],
};

const medianOf = (times: number[]) => times.sort((a, b) => a - b)[times.length >> 1]!;

/** Both sides on the same points, turn about; several fits a turn, so that no clock's grain is in it. */
async function sideBySide(
  points: number,
  ours: (sweep: ReturnType<typeof simulatedSweep>) => void,
) {
  const noise = { whiteSd: 5, wanderSd: 3, memory: 0.1 };
  const sweep = simulatedSweep(HUMPED, 1, noise, { duration: 11, interval: 11 / points });
  const r = new WebR();
  await r.init();
  try {
    await r.objs.globalEnv.bind('x', sweep.x);
    await r.objs.globalEnv.bind('y', sweep.y);
    const turns = points > 5000 ? 2 : 8;
    const [oursMs, peerMs]: [number[], number[]] = [[], []];
    for (let round = 0; round < ROUNDS + 2; round++) {
      const start = performance.now();
      for (let turn = 0; turn < turns; turn++) ours(sweep);
      const middle = performance.now();
      await r.evalRVoid(`for (turn in 1:${turns}) smooth.spline(x, y)`);
      const end = performance.now();
      // The first two rounds warm both sides up.
      if (round < 2) continue;
      oursMs.push((middle - start) / turns);
      peerMs.push((end - middle) / turns);
    }
    return { oursMs: medianOf(oursMs), peerMs: medianOf(peerMs) };
  } finally {
    r.close();
  }
}

const likeForLike = (points: number): BenchCase => ({
  name: `penalised spline with its band, white noise, ${points} points`,
  peer: PEER,
  target: 'at least 10 times faster',
  async run() {
    const times = await sideBySide(points, ({ time, x, y }) => {
      const weight = new Float64Array(y.length).fill(1);
      fitPenalisedSpline(grid, { time, x, y, weight }, 3, WHITE);
    });
    return { ...times, met: times.peerMs >= 10 * times.oursMs };
  },
});

const cases: readonly BenchCase[] = [
  likeForLike(550),
  likeForLike(60_000),
  {
    name: 'the fit of a pull: wander integrated over, blips left out, 550 points',
    peer: PEER,
    target: 'none: the peer has neither wander nor blips in it',
    async run() {
      const priors = {
        ...defaultPriors(0.35, 0.08),
        roughness: { level: 450, median: 4, logSd: 1.5 },
      };
      const times = await sideBySide(550, (sweep) => {
        fitRobustSpline(grid, sweep, 3, priors, { longest: 15, block: 4 });
      });
      return { ...times, met: true, note: 'for information' };
    },
  },
];

export default cases;
