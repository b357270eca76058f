/** Side by side: two groups of twenty pulls to gain, band by speed, crossings, peaks and finding, as when a band is dragged. */
import { Matrix } from 'ml-matrix';
import { GRID, propagate, SEGMENTS, splineOperator } from '../demo/curve-day.ts';
import { Chance } from '../demo/random.ts';
import { prepareCompare } from '../src/compare/index.ts';
import type { CompareGroup } from '../src/compare/types.ts';
import type { BenchCase } from './case.ts';

const PULLS = 20;
const ROUNDS = 15;
const RESAMPLES = 400;
const [LOW, HIGH] = [2600, 7200];

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;
const speedAt = (m: number) => LOW + ((HIGH - LOW) * m) / (GRID - 1);

function groupsOf(): { groups: CompareGroup[]; observed: Matrix[] } {
  const operator = splineOperator(SEGMENTS, GRID);
  const noise = new Float64Array(GRID * GRID);
  for (let m = 0; m < GRID; m++) noise[m * GRID + m] = 1.2 ** 2;
  const covariance = propagate(operator, noise);
  const observed: Matrix[] = [];
  const groups = [0, 1].map((g): CompareGroup => {
    const chance = new Chance(g + 1, 'bench compare');
    const rows = Array.from({ length: PULLS }, () => {
      const off = 1 + 0.02 * g + 0.004 * chance.normal();
      return Array.from(
        { length: GRID },
        (_, m) => off * (420 - 1.7e-5 * (speedAt(m) - 4700) ** 2) + 1.2 * chance.normal(),
      );
    });
    observed.push(new Matrix(rows));
    const pulls = rows.map((row, i) => ({
      id: `${g} ${i}`,
      torque: {
        low: LOW,
        high: HIGH,
        segments: SEGMENTS,
        coefficients: Array.from({ length: SEGMENTS + 3 }, (_, k) =>
          row.reduce((sum, value, m) => sum + operator[k * GRID + m]! * value, 0),
        ),
        covariance,
      },
      day: 'one',
      cell: 'cell',
      order: 2 * i + g,
      excludedBecause: null,
      configuration: null,
    }));
    return { name: `group ${g}`, pulls };
  });
  return { groups, observed };
}

/** The ordinary way to a band by speed: bootstrap of the pulls, the difference of the groups' mean curves each time. */
function bootstrapBand([a, b]: readonly [Matrix, Matrix], seed: number): Float64Array[] {
  const chance = new Chance(seed, 'bootstrap');
  const weights = () =>
    Matrix.rowVector(
      Array.from({ length: PULLS }, () => Math.floor(PULLS * chance.uniform())).reduce(
        (counts, i) => {
          counts[i]! += 1 / PULLS;
          return counts;
        },
        new Array<number>(PULLS).fill(0),
      ),
    );
  const draws = Array.from({ length: RESAMPLES }, () =>
    weights().mmul(b).sub(weights().mmul(a)).to1DArray(),
  );
  return Array.from({ length: GRID }, (_, m) =>
    Float64Array.from(draws, (draw) => draw[m]!).sort(),
  );
}

const compare: BenchCase = {
  name: 'side by side of 2 × 20 pulls: gain, band by speed, crossings, peaks, finding',
  peer: `ml-matrix 6: ${RESAMPLES} bootstrap resamples of the two mean curves, for the band alone`,
  target: 'under 50 ms, a dragged band under 10',
  run: async () => {
    const { groups, observed } = groupsOf();
    const oursMs: number[] = [];
    const draggedMs: number[] = [];
    const peerMs: number[] = [];
    const timed = <T>(into: number[], work: () => T): T => {
      const start = performance.now();
      const made = work();
      into.push(performance.now() - start);
      return made;
    };
    for (let i = 0; i < ROUNDS + 5; i++) {
      const prepared = timed(oursMs, () => {
        const first = prepareCompare({
          groups,
          reference: [],
          repeatabilityPercent: null,
          calibrationRelSd: {},
          worthPercent: 0.75,
        });
        first.over([4500, 7000]);
        return first;
      });
      // The band moves with every round, as it does under a dragging hand.
      timed(draggedMs, () => prepared.over([4505 + 5 * i, 7000]));
      timed(peerMs, () => bootstrapBand([observed[0]!, observed[1]!], i + 1));
    }
    const [ours, dragged, peer] = [oursMs, draggedMs, peerMs].map((times) =>
      median(times.slice(5)),
    ) as [number, number, number];
    return {
      oursMs: ours,
      peerMs: peer,
      met: ours < 50 && dragged < 10,
      note: `a dragged band ${dragged.toFixed(1)} ms`,
    };
  },
};

export default compare;
