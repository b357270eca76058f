import { GRID } from '../../demo/curve-day.ts';
import { Chance } from '../../demo/random.ts';
import { SHIPPED_TABLE, type TwoInput, type TwoPull } from '../../src/ladder/two/index.ts';
import { SHIPPED_MIXTURE_USES, SHIPPED_USES, WORTH_PERCENT } from '../../src/ladder/uses.ts';
import { curvesOver, UNSEEN } from './curve-pull.ts';

/*
 * A simulated cell on which lead and lambda both vary and whose surface is known. None of its shapes is the model's:
 * power falls from its best lead as a parabola, a leaning cubic or a flat top, and from its best mixture as the published
 * curves do; the best lead follows the mixture by the flame's speed, which bends.
 */

/** Relative loss at a mixture, from the best of the curve. */
const MIXTURES = {
  /** A quadratic in 1/lambda fitted to a textbook's figure: s = −1.1536φ² + 2.6954φ − 0.5695 (TRADE.md 6.1). */
  textbook: {
    best: 1.1536 / (2.6954 / 2),
    loss: (lambda: number) => {
      const s = (phi: number) => -1.1536 * phi * phi + 2.6954 * phi - 0.5695;
      return 1 - s(1 / lambda) / s(2.6954 / 2 / 1.1536);
    },
  },
  /** The ideal fuel–air cycle of isooctane at given air (TRADE.md 6.1), by a monotone curve through its points. */
  cycle: {
    best: 0.94,
    loss: (lambda: number) => {
      const d = lambda - 0.94;
      return d < 0 ? 0.155 * (Math.sqrt(1 + (d / 0.085) ** 2) - 1) * 0.085 : 3.3 * d * d;
    },
  },
  /** The published regression of Crossley and Cook (1991): 21.91·A − 0.85·A² N·m of some 130 at A 12.89. */
  regression: {
    best: 12.89 / 14.6,
    loss: (lambda: number) => (0.85 * (lambda * 14.6 - 12.89) ** 2) / 130,
  },
} as const;
export type Mixture = keyof typeof MIXTURES;
export const MIXTURE_SHAPES = Object.keys(MIXTURES) as Mixture[];

export interface TwoDay {
  readonly input: TwoInput;
  readonly truth: {
    readonly bestLeadDeg: number;
    readonly bestLambda: number;
    /** Best lead at a mixture, over the band. */
    readonly ridge: (lambda: number) => number;
    /** Loss of mean power over the band [1]. */
    readonly loss: (leadDeg: number, lambda: number) => number;
    readonly bestAt: (speedRpm: number) => { readonly leadDeg: number; readonly lambda: number };
  };
}

export interface TwoDayOptions {
  readonly mixture: Mixture;
  readonly seed: number;
  readonly repeatPercent?: number;
  /** Pulls in a net of so many by so many rungs. */
  readonly size?: readonly [leads: number, lambdas: number];
}

/** Laminar flame speed of gasoline [cm/s] (Heywood 1988, table 9.4, from memory). */
const flame = (lambda: number) => 30.5 - 54.9 * (1 / lambda - 1.21) ** 2;

/** One day of that cell. */
export function twoDay({ mixture, seed, repeatPercent, size = [4, 4] }: TwoDayOptions): TwoDay {
  const chance = new Chance(seed, `two ${mixture}`);
  const [fromRpm, toRpm] = [2800, 6600];
  const bandRpm: [number, number] = [4000, 6300];
  const middle = (bandRpm[0] + bandRpm[1]) / 2;
  const k = chance.logBetween(2.5e-4, 1.5e-3);
  const cubic = chance.between(-0.01, 0.02);
  const best = chance.between(26, 36);
  const rise = chance.between(0, 1.2);
  const leaner = chance.between(-0.012, 0.012);
  const shift = chance.between(-0.03, 0.02);
  const power = chance.between(0.3, 0.7);
  const { best: own, loss } = MIXTURES[mixture];
  const bestLambda = own + shift;
  const bestAt = (rpm: number) => ({
    leadDeg: best + (rise * (rpm - middle)) / 1000,
    lambda: bestLambda + (leaner * (rpm - middle)) / 1000,
  });
  /** The burn's half goes as the flame's speed to a power: so does the best lead with its middle 8° after top centre. */
  const follow = (lambda: number) =>
    (best + 8) * ((flame(lambda) / flame(bestLambda)) ** -power - 1);
  const lossAt = (rpm: number, leadDeg: number, lambda: number) => {
    const at = bestAt(rpm);
    const d = leadDeg - at.leadDeg - follow(lambda);
    return k * d * d * (1 + cubic * d) + loss(lambda + own - at.lambda);
  };
  const middleNm = 300;
  const torqueNm = (rpm: number, leadDeg: number, lambda: number) => {
    const x = (rpm - fromRpm) / (toRpm - fromRpm);
    return middleNm * (1 + 0.9 * x - 1.15 * x * x) * (1 - lossAt(rpm, leadDeg, lambda));
  };
  const speeds = Array.from({ length: 47 }, (_, i) => bandRpm[0] + 50 * i);
  const meanW = (leadDeg: number, lambda: number) =>
    speeds.reduce((sum, rpm) => sum + rpm * torqueNm(rpm, leadDeg, lambda), 0);
  const ridge = (lambda: number) => topOf((lead) => meanW(lead, lambda), best - 8, best + 10);
  const trueLambda = topOf((lambda) => meanW(ridge(lambda), lambda), 0.7, 1.1);
  const trueLead = ridge(trueLambda);
  const topW = meanW(trueLead, trueLambda);

  const [leads, lambdas] = size;
  const firstLead = Math.round(trueLead - 7 + 2 * chance.normal());
  const firstLambda = Number((trueLambda - 0.06 + 0.035 * chance.normal()).toFixed(2));
  const [stepDeg, stepLambda] = [2.5, 0.03];
  const places = Array.from({ length: leads * lambdas }, (_, i) => ({
    leadDeg: firstLead + stepDeg * (i % leads),
    lambda: Number((firstLambda + stepLambda * Math.floor(i / leads)).toFixed(3)),
  }));
  const repeat = repeatPercent ?? chance.logBetween(0.2, 0.7);
  const driftPercent = (chance.uniform() < 0.3 ? 0.15 : 0.02) * chance.normal();
  const whiteNm = (middleNm * chance.between(0.1, 0.3)) / 100;
  const curveOf = curvesOver(fromRpm, toRpm, whiteNm);
  const pulls = places.map(({ leadDeg, lambda }, order): TwoPull => {
    const offset = (repeat * chance.normal() + driftPercent * order) / 100;
    const [height, waves, phase] = [
      chance.between(0.03, 0.12) / 100,
      chance.between(2, 7),
      chance.between(0, 6),
    ];
    const observed = Array.from({ length: GRID }, (_, g) => {
      const rpm = fromRpm + ((toRpm - fromRpm) * g) / (GRID - 1);
      const part = 1 + offset + height * Math.sin((6.28 * waves * g) / GRID + phase);
      return torqueNm(rpm, leadDeg, lambda) * part + whiteNm * chance.normal();
    });
    return {
      id: `pull-${order + 1}`,
      leadDeg,
      lambda,
      lambdaSd: 0,
      day: 0,
      order,
      torque: curveOf(observed),
      ...UNSEEN,
      watched: 'ear',
    };
  });
  return {
    input: {
      pulls,
      bandRpm,
      uses: SHIPPED_USES.map((use, i) => ({
        name: use.name,
        holdbackDeg: use.holdback,
        holdbackLambda: SHIPPED_MIXTURE_USES[i]!.holdback,
        chancePastBest: use.chancePastBest,
      })),
      aspiration: 'natural',
      stepDeg: 1,
      stepLambda: 0.01,
      worthPercent: WORTH_PERCENT,
      repeatabilityPercent: null,
      exhaustLimitK: null,
      extraHoldbackDeg: 0,
      table: SHIPPED_TABLE,
    },
    truth: {
      bestLeadDeg: trueLead,
      bestLambda: trueLambda,
      ridge,
      loss: (leadDeg, lambda) => 1 - meanW(leadDeg, lambda) / topW,
      bestAt: (rpm) => {
        const lambda = topOf(
          (one) => -lossAt(rpm, bestAt(rpm).leadDeg + follow(one), one),
          0.7,
          1.1,
        );
        return { leadDeg: bestAt(rpm).leadDeg + follow(lambda), lambda };
      },
    },
  };
}

/** Place of the largest value of a function with one top (golden section, to 1e-4). */
function topOf(f: (x: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  while (b - a > 1e-4) {
    const [x, y] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(x) > f(y)) b = y;
    else a = x;
  }
  return (a + b) / 2;
}
