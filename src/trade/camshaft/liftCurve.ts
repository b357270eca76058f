import {
  crossingOnInterval,
  monotoneQuintic,
  type QuinticCurve,
  type QuinticPoint,
  quinticAt,
} from '../../numerics/index.ts';
import { finite, notNegative, possible, within } from '../possible.ts';
import { checkedDurationDeg } from './events.ts';

/** A symmetrical lobe as cards give it: crank degrees of duration at some lifts of the follower, and the lobe's lift. */
export interface LobeCard {
  readonly lobeLiftM: number;
  /** In any order; with only one, mostly at 0.050 in, the flank is an estimate. A lift of 0 ends the ramps. */
  readonly durations: readonly { readonly liftM: number; readonly durationDeg: number }[];
}

/** A lobe side by side: crank degrees from its largest lift, both counted positive. */
export interface LobeSides {
  readonly lobeLiftM: number;
  readonly opening: readonly { readonly liftM: number; readonly beforeMaxDeg: number }[];
  readonly closing: readonly { readonly liftM: number; readonly afterMaxDeg: number }[];
}

/**
 * Lift of the follower against crank degrees from the largest lift: through every given point, monotone on each side,
 * with continuous velocity and acceleration (numerics/monotoneQuintic). Plain data.
 */
export interface LiftCurve {
  readonly lobeLiftM: number;
  /** Where the lift leaves zero, negative, and where it is back at zero. */
  readonly beginsDeg: number;
  readonly endsDeg: number;
  readonly curve: QuinticCurve;
  /**
   * What the points did not say. `nothing`: they reach down to zero lift. `ramp`: the end of the ramp runs on from the
   * two lowest points. `flank`: the lowest point is far up, all below it is a typical flank. The worse of both sides.
   */
  readonly estimated: 'nothing' | 'ramp' | 'flank';
}

/** Lobe lifts that are taken for real [m]; beyond is a slip of the unit. */
export const LOBE_LIFT_M = [1e-4, 0.2] as const;

/** Up to this lift of the lowest point the ramp can be run on from the points; above it is not known [m] (0.020 in). */
export const RAMP_LIFT_M = 0.508e-3;

/**
 * A typical flank: from 1.27 mm (0.050 in) of follower lift to none in 42 crank degrees, from other lifts by the third
 * root. It makes the duration at 0.006 in 43 to 53° longer than that at 0.050 in; cams run from 40° (quick) to 60° (lazy),
 * more with long ramps. From memory.
 */
export const TYPICAL_RAMP = { liftM: 1.27e-3, lengthDeg: 42 } as const;

/**
 * The lift curve of a symmetrical lobe.
 *
 * Between the points it is a guess. Against the motions of cam handbooks (harmonic, cycloidal, 3-4-5 polynomial) it is
 * off by at most a hundredth of the lobe's lift with six points, by 3 hundredths with 0.006, 0.050 and 0.200 in, and by a
 * tenth with only 0.050 in (an eighth on the quickest flanks).
 * @throws NonPhysicalError  no duration, a lift at or above the lobe's, or durations that do not fall as the lift rises
 */
export function liftCurveOfCard(card: LobeCard): LiftCurve {
  const side = card.durations.map(({ liftM, durationDeg }) => ({
    liftM,
    fromMaxDeg: checkedDurationDeg(`duration at ${liftM} m`, durationDeg) / 2,
  }));
  return liftCurve(card.lobeLiftM, side, side);
}

/** The lift curve of a lobe given side by side, as measured or where its closing side differs. Throws as the other. */
export function liftCurveOfSides(sides: LobeSides): LiftCurve {
  return liftCurve(
    sides.lobeLiftM,
    sides.opening.map(({ liftM, beforeMaxDeg }) => ({ liftM, fromMaxDeg: beforeMaxDeg })),
    sides.closing.map(({ liftM, afterMaxDeg }) => ({ liftM, fromMaxDeg: afterMaxDeg })),
  );
}

interface SidePoint {
  readonly liftM: number;
  readonly fromMaxDeg: number;
}

function liftCurve(
  lobeLiftM: number,
  opening: readonly SidePoint[],
  closing: readonly SidePoint[],
): LiftCurve {
  within('lobe lift', lobeLiftM, 'm', LOBE_LIFT_M);
  const [up, down] = [sideOf('opening', lobeLiftM, opening), sideOf('closing', lobeLiftM, closing)];
  const points: QuinticPoint[] = [
    { place: -up.endDeg, value: 0, kind: 'rest' },
    ...up.points.map(({ liftM, fromMaxDeg }) => ({ place: -fromMaxDeg, value: liftM })).reverse(),
    { place: 0, value: lobeLiftM, kind: 'level' },
    ...down.points.map(({ liftM, fromMaxDeg }) => ({ place: fromMaxDeg, value: liftM })),
    { place: down.endDeg, value: 0, kind: 'rest' },
  ];
  const worse = [up.estimated, down.estimated];
  return {
    lobeLiftM,
    beginsDeg: -up.endDeg,
    endsDeg: down.endDeg,
    curve: monotoneQuintic(points),
    estimated: worse.includes('flank') ? 'flank' : worse.includes('ramp') ? 'ramp' : 'nothing',
  };
}

/** Points of one side above zero lift, from the nose down, and where its lift ends. */
function sideOf(name: string, lobeLiftM: number, given: readonly SidePoint[]) {
  const points = [...given].sort((one, other) => other.liftM - one.liftM);
  possible(
    `number of points on the ${name} side`,
    points.length,
    '',
    points.length > 0,
    '1 or more',
  );
  let before: SidePoint = { liftM: lobeLiftM, fromMaxDeg: 0 };
  for (const point of points) {
    notNegative(`lift on the ${name} side`, point.liftM, 'm');
    within(`angle at ${point.liftM} m on the ${name} side`, point.fromMaxDeg, '°', [0, 360]);
    possible(
      `lift on the ${name} side`,
      point.liftM,
      'm',
      point.liftM < before.liftM,
      `less than ${before.liftM} m, ${before.liftM === lobeLiftM ? "the lobe's" : 'given twice'}`,
    );
    possible(
      `angle at ${point.liftM} m on the ${name} side`,
      point.fromMaxDeg,
      '°',
      point.fromMaxDeg > before.fromMaxDeg,
      `more than ${before.fromMaxDeg}° at the larger lift of ${before.liftM} m`,
    );
    before = point;
  }
  const lowest = points.at(-1)!;
  if (lowest.liftM === 0)
    return {
      points: points.slice(0, -1),
      endDeg: lowest.fromMaxDeg,
      estimated: 'nothing',
    } as const;
  const above = points.at(-2);
  if (above !== undefined && lowest.liftM <= RAMP_LIFT_M * (1 + 1e-9)) {
    // With velocity and acceleration zero at its end a ramp goes as (end − u)³ there: two points give its end.
    const root = Math.cbrt(lowest.liftM / above.liftM);
    const byPoints = (lowest.fromMaxDeg - root * above.fromMaxDeg) / (1 - root);
    // Two points whose lifts hardly differ would run on without end.
    const endDeg = Math.min(byPoints, lowest.fromMaxDeg + 2 * typicalRampDeg(lowest.liftM));
    return { points, endDeg, estimated: 'ramp' } as const;
  }
  return {
    points,
    endDeg: lowest.fromMaxDeg + typicalRampDeg(lowest.liftM),
    estimated: 'flank',
  } as const;
}

function typicalRampDeg(liftM: number): number {
  return TYPICAL_RAMP.lengthDeg * Math.cbrt(liftM / TYPICAL_RAMP.liftM);
}

/** Lift of the follower [m] at crank degrees from the largest lift; 0 on the base circle. */
export function lobeLiftM(lift: LiftCurve, fromMaxDeg: number): number {
  return derivative(lift, fromMaxDeg, 0);
}

/** Slope [m per crank degree] and bend [m per crank degree²] of the lift; both 0 on the base circle. */
export function lobeSlopeMPerDeg(lift: LiftCurve, fromMaxDeg: number): number {
  return derivative(lift, fromMaxDeg, 1);
}
export function lobeBendMPerDeg2(lift: LiftCurve, fromMaxDeg: number): number {
  return derivative(lift, fromMaxDeg, 2);
}

/** Velocity [m/s] and acceleration [m/s²] of the follower, both positive upwards, at a crank speed. */
export function followerMotion(
  lift: LiftCurve,
  fromMaxDeg: number,
  speedRpm: number,
): { readonly liftM: number; readonly velocityMPerS: number; readonly accelerationMPerS2: number } {
  const degPerS = 6 * notNegative('speed', speedRpm, 'rev/min');
  return {
    liftM: lobeLiftM(lift, fromMaxDeg),
    velocityMPerS: lobeSlopeMPerDeg(lift, fromMaxDeg) * degPerS,
    accelerationMPerS2: lobeBendMPerDeg2(lift, fromMaxDeg) * degPerS ** 2,
  };
}

function derivative(lift: LiftCurve, fromMaxDeg: number, order: 0 | 1 | 2): number {
  finite('angle from the largest lift', fromMaxDeg, '°');
  if (fromMaxDeg <= lift.beginsDeg || fromMaxDeg >= lift.endsDeg) return 0;
  const value = quinticAt(lift.curve, fromMaxDeg, order);
  // At the very end of a ramp rounding may leave a hair below zero.
  return order === 0 ? Math.max(0, value) : value;
}

/**
 * Crank degrees from the largest lift at which the follower stands at a lift: before it (negative) and after it.
 * @throws NonPhysicalError  a lift that is not between 0 and the lobe's
 */
export function anglesAtLift(
  lift: LiftCurve,
  liftM: number,
): { readonly risingDeg: number; readonly fallingDeg: number } {
  possible(
    'lift of the follower',
    liftM,
    'm',
    liftM >= 0 && liftM <= lift.lobeLiftM,
    `0 to the lobe's ${lift.lobeLiftM} m`,
  );
  if (liftM === 0) return { risingDeg: lift.beginsDeg, fallingDeg: lift.endsDeg };
  if (liftM === lift.lobeLiftM) return { risingDeg: 0, fallingDeg: 0 };
  // A given point is handed back as given: where the flank is nearly level there, a search would only come close.
  const given = lift.curve.places.filter((_, i) => lift.curve.pieces[i]?.[0] === liftM);
  const above = (deg: number) => lobeLiftM(lift, deg) - liftM;
  return {
    risingDeg: given.find((deg) => deg < 0) ?? crossingOnInterval(above, lift.beginsDeg, 0),
    fallingDeg: given.find((deg) => deg > 0) ?? crossingOnInterval(above, 0, lift.endsDeg),
  };
}

/** Crank degrees for which the follower stands at or above a lift. Throws as `anglesAtLift`. */
export function durationAtLiftDeg(lift: LiftCurve, liftM: number): number {
  const { risingDeg, fallingDeg } = anglesAtLift(lift, liftM);
  return fallingDeg - risingDeg;
}
