import { notNegative, positive } from '../possible.ts';
import type { Preload } from './torque.ts';

/**
 * Stiffness [N/m] of what the bolt clamps, one material, by a 30° pressure cone under a bearing face of 1.5 d:
 * k = 0.5774 π E d / (2 ln(5 (0.5774 l + 0.5 d) / (0.5774 l + 2.5 d))).
 * @param gripM     clamped length [m]
 * @source    Shigley eq. 8-22 (from memory; follows from eq. 8-19, derived again in the test)
 * @validity  GRIP_RANGE_DIAMETERS of grip, the cones free to spread; a rod's cap is stiffer at one side than this
 */
export function jointStiffnessNPerM(joint: {
  readonly majorM: number;
  readonly gripM: number;
  readonly modulusPa: number;
}): number {
  const d = positive('thread diameter', joint.majorM, 'm');
  const l = positive('grip length', joint.gripM, 'm');
  const cone = 0.5774;
  return (
    (cone * Math.PI * positive('modulus', joint.modulusPa, 'Pa') * d) /
    (2 * Math.log((5 * (cone * l + 0.5 * d)) / (cone * l + 2.5 * d)))
  );
}
/** Young's moduli of what bolts clamp [Pa] (Shigley, Table 8-8; from memory: 30.0, 14.5 and 10.3 Mpsi). */
export const JOINT_MODULUS_PA = { steel: 207e9, 'cast iron': 100e9, aluminium: 71e9 } as const;

/** Grips, in bolt diameters, in which the cone stays within 10 % of finite elements (Wileman et al. 1991). */
export const GRIP_RANGE_DIAMETERS = [1, 4] as const;

export interface Stiffnesses {
  readonly boltNPerM: number;
  readonly jointNPerM: number;
}

/**
 * Preload [N] after turning on from a snug load by an angle: F = snug + (α/360) P kb kj / (kb + kj).
 * Derivation: the nut travels αP/360; bolt and joint, in series, share it.
 * @validity  while the bolt is elastic: past the proof load the real preload is below this (compare utilisation)
 */
export function preloadFromAngle(
  turn: {
    readonly snug: Preload;
    readonly angleDeg: number;
    /** What the protractor leaves open either side [deg]. */
    readonly angleUncertaintyDeg?: number;
    readonly pitchM: number;
  },
  stiffness: Stiffnesses,
): Preload {
  const { snug, angleUncertaintyDeg = 0 } = turn;
  const perDegN =
    (positive('thread pitch', turn.pitchM, 'm') / 360) *
    inSeriesNPerM(stiffness.boltNPerM, stiffness.jointNPerM);
  const angle = notNegative('angle', turn.angleDeg, 'deg');
  const open = notNegative('uncertainty of the angle', angleUncertaintyDeg, 'deg');
  return {
    lowN: notNegative('snug load', snug.lowN, 'N') + perDegN * Math.max(0, angle - open),
    preloadN: notNegative('snug load', snug.preloadN, 'N') + perDegN * angle,
    highN: notNegative('snug load', snug.highN, 'N') + perDegN * (angle + open),
  };
}

function inSeriesNPerM(boltNPerM: number, jointNPerM: number): number {
  const bolt = positive('bolt stiffness', boltNPerM, 'N/m');
  const joint = positive('joint stiffness', jointNPerM, 'N/m');
  return (bolt * joint) / (bolt + joint);
}

export interface LoadedJoint {
  /** Share of the outer load that the bolt feels: kb / (kb + kj). */
  readonly boltShare: number;
  readonly boltLoadN: number;
  /** What still presses the faces together; 0 once they part. */
  readonly clampLeftN: number;
  /** Outer load at which the faces part, over this one; null without an outer load. */
  readonly separationFactor: number | null;
}

/**
 * A bolted joint under an outer load [N] that pulls it apart, one bolt's share of it.
 * @source  Shigley eq. 8-24, 8-30; worked example 8-3 in the test
 */
export function jointUnderLoad(
  preloadN: number,
  outerLoadN: number,
  { boltNPerM, jointNPerM }: Stiffnesses,
): LoadedJoint {
  const preload = notNegative('preload', preloadN, 'N');
  const outer = notNegative('outer load', outerLoadN, 'N');
  const boltShare = inSeriesNPerM(boltNPerM, jointNPerM) / jointNPerM;
  const clampLeftN = preload - (1 - boltShare) * outer;
  return {
    boltShare,
    // Once the faces part the bolt alone carries the outer load.
    boltLoadN: clampLeftN > 0 ? preload + boltShare * outer : outer,
    clampLeftN: Math.max(0, clampLeftN),
    separationFactor: outer > 0 ? preload / ((1 - boltShare) * outer) : null,
  };
}
