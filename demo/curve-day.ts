import { Matrix, pseudoInverse } from 'ml-matrix';
import { SPARK_LEAD } from '../src/ladder/kinds.ts';
import type { LadderInput, LadderPull } from '../src/ladder/types.ts';
import {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  SHIPPED_USES,
  WORTH_PERCENT,
} from '../src/ladder/uses.ts';
import type { SplineFit } from '../src/numerics/spline.ts';
import { type DayTruth, truthOf } from './cell.ts';
import { trueTorqueNm } from './engine.ts';
import { type DayKnobs, type DayOptions, knobsOf } from './knobs.ts';
import { Chance } from './random.ts';
import { airOfPull, knockRatePerS, offsetOfPull } from './sweep.ts';

export interface CurveDay {
  readonly knobs: DayKnobs;
  readonly truth: DayTruth;
  readonly input: LadderInput;
}

/** Knot intervals of the curves, and of the grid of speeds on which their noise is made. */
export const SEGMENTS = 20;
export const GRID = 61;
const KNOCK_BINS = 12;

/**
 * The same day as `simulateDay` would have recorded, straight to the ladder's input: each pull's curve is the
 * least-squares spline through the truth, its offset, a slow wander that the curve's covariance does not know
 * (as residuals of a sweep would not show it) and quick noise that the covariance describes exactly.
 */
export function simulateCurveDay(options: DayOptions): CurveDay {
  const knobs = knobsOf(options);
  const operator = splineOperator(SEGMENTS, GRID);
  const noise = gridNoise(knobs);
  const covariance = propagate(operator, noise.covariance);
  const pulls = knobs.leadsDeg.map((_, pull) =>
    ladderPull(knobs, pull, operator, noise, covariance),
  );
  return {
    knobs,
    truth: truthOf(knobs),
    input: {
      kind: SPARK_LEAD,
      pulls,
      bandRpm: knobs.bandRpm,
      uses: SHIPPED_USES,
      aspiration: 'natural',
      step: SPARK_LEAD.defaultStep,
      worthPercent: WORTH_PERCENT,
      repeatabilityPercent: null,
      worstInletDeltaK: 0,
      worstFuelDeltaOctane: 0,
      holdbackPer10K: HOLDBACK_PER_10K,
      holdbackPerOctane: HOLDBACK_PER_OCTANE,
    },
  };
}

function ladderPull(
  knobs: DayKnobs,
  pull: number,
  operator: Float64Array,
  noise: GridNoise,
  covariance: readonly number[],
): LadderPull {
  const { engine, fromRpm, toRpm } = knobs;
  const leadDeg = knobs.leadsDeg[pull]!;
  const stream = (purpose: string) => new Chance(knobs.seed, `${purpose} ${pull}`);
  const gain = (1 + knobs.calibrationPercent / 100) * (1 + offsetOfPull(knobs, pull));
  const quick = colouredWalk(stream('wander'), noise.quickSdNm, noise.quickKeep);
  const slow = colouredWalk(stream('slow wander'), knobs.slowWanderPercent / 100, noise.slowKeep);
  const white = stream('white');
  const observed = new Float64Array(GRID);
  for (let g = 0; g < GRID; g++) {
    const speedRpm = fromRpm + ((toRpm - fromRpm) * g) / (GRID - 1);
    const trueNm = trueTorqueNm(engine, speedRpm, leadDeg);
    observed[g] = trueNm * gain * (1 + slow()) + quick() + noise.whiteSdNm * white.normal();
  }
  const K = SEGMENTS + 3;
  const coefficients = new Array<number>(K);
  for (let j = 0; j < K; j++) {
    let sum = 0;
    for (let g = 0; g < GRID; g++) sum += operator[j * GRID + g]! * observed[g]!;
    coefficients[j] = sum;
  }
  const torque: SplineFit = {
    low: fromRpm,
    high: toRpm,
    segments: SEGMENTS,
    coefficients,
    covariance,
  };
  return {
    id: `pull-${String(pull + 1).padStart(2, '0')}`,
    setting: leadDeg,
    order: pull,
    torque,
    peakPowerW: null,
    peakTorqueNm: null,
    excludedBecause: null,
    watched: knobs.limit?.channel ? 'sensor' : 'not',
    knockHeard: false,
    aborted: false,
    knock: knobs.limit?.channel ? knockBins(knobs, pull, leadDeg) : null,
    airTemperatureK: airOfPull(knobs, pull).temperatureK,
    configuration: null,
  };
}

/** Mean count a sample in bins of speed, as the pull room reports it. */
function knockBins(knobs: DayKnobs, pull: number, leadDeg: number): LadderPull['knock'] {
  const limit = knobs.limit!;
  const chance = new Chance(knobs.seed, `knock ${pull}`);
  const width = (knobs.toRpm - knobs.fromRpm) / KNOCK_BINS;
  const speedRpm: number[] = [];
  const level: number[] = [];
  const samples = Math.max(1, Math.round((width / knobs.sweepRpmPerS) * knobs.rateHz));
  for (let b = 0; b < KNOCK_BINS; b++) {
    const at = knobs.fromRpm + (b + 0.5) * width;
    const perS = knockRatePerS(limit, knobs.engine.middleRpm, at, leadDeg);
    speedRpm.push(at);
    level.push(chance.poisson((perS * samples) / knobs.rateHz) / samples);
  }
  return { speedRpm, level };
}

interface GridNoise {
  readonly whiteSdNm: number;
  readonly quickSdNm: number;
  readonly quickKeep: number;
  readonly slowKeep: number;
  /** Row-major GRID². */
  readonly covariance: Float64Array;
}

/** Noise on the grid of speeds that has the time-domain noise of the sweep averaged into its cells. */
function gridNoise(knobs: DayKnobs): GridNoise {
  const { engine } = knobs;
  const peakNm = (engine.peakBmepPa * engine.displacementM3) / (4 * Math.PI);
  const cellS = (knobs.toRpm - knobs.fromRpm) / (GRID - 1) / knobs.sweepRpmPerS;
  const samples = Math.max(1, cellS * knobs.rateHz);
  // The mean of n samples with correlation r from one to the next has (1 + r)/(1 − r) times the variance of n free ones.
  const coloured = (1 + knobs.whiteKeep) / (1 - knobs.whiteKeep);
  const whiteSdNm = (peakNm * knobs.whitePercent) / 100 / Math.sqrt(samples / coloured);
  const quickSdNm = (peakNm * 0.9 * knobs.wanderPercent) / 100;
  const quickKeep = Math.exp(-cellS / knobs.wanderS);
  const covariance = new Float64Array(GRID * GRID);
  for (let i = 0; i < GRID; i++) {
    for (let j = 0; j < GRID; j++) {
      const white = i === j ? whiteSdNm ** 2 : 0;
      covariance[i * GRID + j] = white + quickSdNm ** 2 * quickKeep ** Math.abs(i - j);
    }
  }
  return {
    whiteSdNm,
    quickSdNm,
    quickKeep,
    slowKeep: Math.exp(-cellS / knobs.slowWanderS),
    covariance,
  };
}

function colouredWalk(chance: Chance, sd: number, keep: number): () => number {
  let state = sd * chance.normal();
  let first = true;
  return () => {
    if (!first) state = keep * state + sd * Math.sqrt(1 - keep * keep) * chance.normal();
    first = false;
    return state;
  };
}

const operators = new Map<string, Float64Array>();

/** The matrix that takes values on the grid to least-squares spline coefficients, row-major (segments+3)×grid. */
export function splineOperator(segments: number, grid: number): Float64Array {
  const key = `${segments} ${grid}`;
  const known = operators.get(key);
  if (known !== undefined) return known;
  const basis = Matrix.zeros(grid, segments + 3);
  for (let g = 0; g < grid; g++) {
    const at = (segments * g) / (grid - 1);
    const i = Math.min(Math.floor(at), segments - 1);
    const u = at - i;
    basis.set(g, i, (1 - u) ** 3 / 6);
    basis.set(g, i + 1, (3 * u ** 3 - 6 * u ** 2 + 4) / 6);
    basis.set(g, i + 2, (-3 * u ** 3 + 3 * u ** 2 + 3 * u + 1) / 6);
    basis.set(g, i + 3, u ** 3 / 6);
  }
  const operator = Float64Array.from(pseudoInverse(basis).to1DArray());
  operators.set(key, operator);
  return operator;
}

/** A·C·Aᵀ, row-major. */
export function propagate(operator: Float64Array, covariance: Float64Array): number[] {
  const K = operator.length / GRID;
  const half = new Float64Array(K * GRID);
  for (let r = 0; r < K; r++) {
    for (let g = 0; g < GRID; g++) {
      const factor = operator[r * GRID + g]!;
      for (let c = 0; c < GRID; c++) half[r * GRID + c]! += factor * covariance[g * GRID + c]!;
    }
  }
  const out = new Array<number>(K * K);
  for (let r = 0; r < K; r++) {
    for (let s = 0; s <= r; s++) {
      let sum = 0;
      for (let g = 0; g < GRID; g++) sum += half[r * GRID + g]! * operator[s * GRID + g]!;
      out[r * K + s] = sum;
      out[s * K + r] = sum;
    }
  }
  return out;
}
