import type { AirStandard } from '../pull/recording.ts';
import type { Curve, Mark, Peak } from '../pull/types.ts';

/** One pull's curve, as `pullbook curve --json` publishes it: torque in N·m, power in W, speed in rev/min. */
export interface CurveObject {
  readonly file: string;
  /** Which pull of that file, from 1. */
  readonly pull: number;
  readonly standard: AirStandard;
  readonly correctionFactor: number;
  readonly peakTorque: Peak;
  readonly peakPower: Peak;
  readonly curve: readonly {
    readonly speedRpm: number;
    readonly torqueNm: number;
    readonly lowNm: number;
    readonly highNm: number;
    readonly powerW: number;
  }[];
  readonly marks: readonly Mark[];
}

/** The published object of a curve; bands are 95 %. */
export function curveObject(file: string, pull: number, curve: Curve): CurveObject {
  return {
    file,
    pull,
    standard: curve.standard,
    correctionFactor: curve.correctionFactor,
    peakTorque: curve.peakTorque,
    peakPower: curve.peakPower,
    curve: curve.speedRpm.map((speedRpm, index) => ({
      speedRpm,
      torqueNm: curve.torqueNm[index]!,
      lowNm: curve.lowNm[index]!,
      highNm: curve.highNm[index]!,
      powerW: curve.powerW[index]!,
    })),
    marks: curve.marks,
  };
}
