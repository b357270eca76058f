import { finite, positive, possible } from '../possible.ts';
import { springLoadN, type ValveSpring } from './spring.ts';

/** The valve as the lobe drives it. Angles are of the cam or of the crank, as `of` says, in both functions and the limits. */
export interface LobeMotion {
  readonly of: 'cam' | 'crank';
  /** Valve lift [m], lash taken off. */
  readonly liftM: (deg: number) => number;
  /** Second derivative of the valve's lift by the angle [m/deg²], degrees of the same shaft. */
  readonly accelerationMPerDeg2: (deg: number) => number;
  readonly fromDeg: number;
  readonly toDeg: number;
}

export interface SpringAtAngle {
  readonly angleDeg: number;
  /** What the spring presses with at that lift. */
  readonly springN: number;
  /** What it takes to keep the parts on the lobe; 0 where the lobe pushes. */
  readonly neededN: number;
  readonly marginN: number;
}

export interface SpringMargin {
  readonly angles: readonly SpringAtAngle[];
  /** Where the least is left. */
  readonly tightest: SpringAtAngle;
  /** Spring over need at the angle where that is least; null where nothing is needed. */
  readonly leastRatio: number | null;
  /** Crank speed at which the first angle lets go of the lobe; null where no spring is needed. */
  readonly floatSpeedRpm: number | null;
  readonly floatAngleDeg: number | null;
}

/** Degrees a second at one crank rev/min. */
const DEG_PER_S_PER_RPM = { crank: 6, cam: 3 } as const;

/**
 * Spring load against valvetrain inertia around the lobe at a speed, and the speed at which the valve floats.
 *
 * Needed load = −m a (deg/s)² where the lobe falls away faster than it pushes. The spring's own load does not change with
 * speed, so the float speed needs no search: √(F / −m a) at each angle, the lowest of all.
 * @param valve.massKg    massAtValveKg
 * @param valve.stepDeg   spacing of the angles looked at; half a degree unless said
 * @validity  stiff parts, no gas load, no friction, no surge: a real train floats earlier, by 5 to 15 % (from memory)
 */
export function springMargin(
  valve: {
    readonly motion: LobeMotion;
    readonly spring: ValveSpring;
    readonly installedHeightM: number;
    readonly massKg: number;
    readonly stepDeg?: number;
  },
  crankSpeedRpm: number,
): SpringMargin {
  const { motion, spring, stepDeg = 0.5 } = valve;
  const mass = positive('mass at the valve', valve.massKg, 'kg');
  const installed = positive('installed height', valve.installedHeightM, 'm');
  const perRpm = DEG_PER_S_PER_RPM[motion.of];
  const degPerS = positive('speed', crankSpeedRpm, 'rev/min') * perRpm;
  positive('step', stepDeg, 'deg');
  const spanDeg = finite('end of the lobe', motion.toDeg, 'deg') - motion.fromDeg;
  possible('start of the lobe', motion.fromDeg, 'deg', spanDeg > 0, 'less than its end');
  const steps = Math.ceil(spanDeg / stepDeg);
  const angles: SpringAtAngle[] = [];
  let leastRatio: number | null = null;
  let floatSpeedRpm: number | null = null;
  let floatAngleDeg: number | null = null;
  for (let i = 0; i <= steps; i++) {
    const angleDeg = motion.fromDeg + (spanDeg * i) / steps;
    const lift = finite('valve lift', motion.liftM(angleDeg), 'm');
    const bend = finite('valve acceleration', motion.accelerationMPerDeg2(angleDeg), 'm/deg²');
    const springN = springLoadN(spring, installed - lift);
    const neededN = Math.max(0, -mass * bend * degPerS ** 2);
    angles.push({ angleDeg, springN, neededN, marginN: springN - neededN });
    if (!(neededN > 0)) continue;
    const ratio = springN / neededN;
    if (leastRatio !== null && ratio >= leastRatio) continue;
    leastRatio = ratio;
    floatSpeedRpm = Math.sqrt(springN / (-mass * bend)) / perRpm;
    floatAngleDeg = angleDeg;
  }
  const tightest = angles.reduce((a, b) => (b.marginN < a.marginN ? b : a));
  return { angles, tightest, leastRatio, floatSpeedRpm, floatAngleDeg };
}
