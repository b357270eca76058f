import { logLoss, type Shape } from './response.ts';

/** The invented engine as it truly is, in standard air. */
export interface EngineTruth {
  readonly cylinders: number;
  readonly displacementM3: number;
  readonly strokeM: number;
  readonly compressionRatio: number;
  /** At the best lead and the speed of peak torque. */
  readonly peakBmepPa: number;
  readonly peakTorqueRpm: number;
  /** How fast torque falls below and above its peak: T = T_peak·(1 − fall·x²·(1 + x·fallTilt)), x = n/n_peak − 1. */
  readonly fall: number;
  readonly fallTilt: number;
  /** Humps of the intake and exhaust tuning: relative height, place and width. */
  readonly humps: readonly {
    readonly height: number;
    readonly atRpm: number;
    readonly widthRpm: number;
  }[];
  /** Curvature of log torque against lead at `middleRpm`, per square degree. */
  readonly curvature: number;
  /** Relative change of the curvature per 1000 rev/min. */
  readonly curvatureTiltPerKrpm: number;
  readonly shape: Shape;
  readonly lean: number;
  readonly middleRpm: number;
  readonly bestLeadDeg: number;
  readonly bestLeadSlopeDegPerKrpm: number;
  readonly bestLeadBendDegPerKrpm2: number;
}

const RAD_PER_S = (2 * Math.PI) / 60;

/** Lead of most torque at this speed [crank degrees]. */
export function bestLeadAtDeg(engine: EngineTruth, speedRpm: number): number {
  const k = (speedRpm - engine.middleRpm) / 1000;
  return (
    engine.bestLeadDeg + engine.bestLeadSlopeDegPerKrpm * k + engine.bestLeadBendDegPerKrpm2 * k * k
  );
}

/** Torque at the best lead of this speed [N·m], standard air. */
export function bestTorqueNm(engine: EngineTruth, speedRpm: number): number {
  const peakNm = (engine.peakBmepPa * engine.displacementM3) / (4 * Math.PI);
  const x = speedRpm / engine.peakTorqueRpm - 1;
  let shape = Math.max(0.05, 1 - engine.fall * x * x * (1 + engine.fallTilt * x));
  for (const hump of engine.humps) {
    const z = (speedRpm - hump.atRpm) / hump.widthRpm;
    shape *= 1 + hump.height * Math.exp(-0.5 * z * z);
  }
  return peakNm * shape;
}

/** True full-throttle torque [N·m] in standard air at a speed and lead. */
export function trueTorqueNm(engine: EngineTruth, speedRpm: number, leadDeg: number): number {
  const curvature =
    engine.curvature *
    Math.max(0.3, 1 + (engine.curvatureTiltPerKrpm * (speedRpm - engine.middleRpm)) / 1000);
  const d = leadDeg - bestLeadAtDeg(engine, speedRpm);
  return (
    bestTorqueNm(engine, speedRpm) * Math.exp(-logLoss(engine.shape, d, curvature, engine.lean))
  );
}

/** True mean power [W] over a band of speeds, each speed weighing alike (trapezia on a grid of 25 rev/min). */
export function trueMeanPowerW(
  engine: EngineTruth,
  bandRpm: readonly [number, number],
  leadDeg: number,
): number {
  const [low, high] = bandRpm;
  const n = Math.max(2, Math.ceil((high - low) / 25));
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const speedRpm = low + ((high - low) * i) / n;
    const powerW = trueTorqueNm(engine, speedRpm, leadDeg) * speedRpm * RAD_PER_S;
    sum += i === 0 || i === n ? powerW / 2 : powerW;
  }
  return sum / n;
}

/** Lead of most mean power in the band [crank degrees], to 1e-4 degree (golden section within ±15 degrees). */
export function bestLeadOverBandDeg(
  engine: EngineTruth,
  bandRpm: readonly [number, number],
): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  const middle = bestLeadAtDeg(engine, (bandRpm[0] + bandRpm[1]) / 2);
  let [low, high] = [middle - 15, middle + 15];
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [atA, atB] = [trueMeanPowerW(engine, bandRpm, a), trueMeanPowerW(engine, bandRpm, b)];
  while (high - low > 1e-4) {
    if (atA > atB) {
      [high, b, atB] = [b, a, atA];
      a = high - golden * (high - low);
      atA = trueMeanPowerW(engine, bandRpm, a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + golden * (high - low);
      atB = trueMeanPowerW(engine, bandRpm, b);
    }
  }
  return (low + high) / 2;
}
