import { count, finite, notNegative, positive, possible } from '../possible.ts';
import { RAD_PER_S_PER_RPM } from '../power.ts';

/** One cylinder's moving mass and crank. */
export interface ReciprocatingMass {
  readonly reciprocatingKg: number;
  readonly crankRadiusM: number;
  /** Rod, centre to centre; longer than the crank's radius. */
  readonly rodLengthM: number;
  readonly speedRpm: number;
}

/** r/l in which two orders suffice: at 1/3 what is left out reaches 2 % of the first order. */
export const SLENDERNESS_RANGE = [0, 1 / 3] as const;

/**
 * Inertia force of one cylinder along its bore [N], positive away from the crank (as at top dead centre), split into the
 * first two orders: m r ω² cos θ and m r ω² (r/l) cos 2θ. θ from top dead centre [crank degrees].
 *
 * @source    every textbook of machine dynamics; test against the derivative of the exact slider
 * @validity  SLENDERNESS_RANGE: the fourth and higher orders are left out; they are largest at 90°, λ (1/√(1 − λ²) − 1) of the first, λ = r/l
 */
export function reciprocatingForceN(
  slider: ReciprocatingMass,
  angleDeg: number,
): { readonly primaryN: number; readonly secondaryN: number; readonly totalN: number } {
  const { primaryN, secondaryN } = reciprocatingAmplitudeN(slider);
  const angle = (finite('crank angle', angleDeg, 'deg') * Math.PI) / 180;
  const first = primaryN * Math.cos(angle);
  const second = secondaryN * Math.cos(2 * angle);
  return { primaryN: first, secondaryN: second, totalN: first + second };
}

/** The largest of each order [N]. */
export function reciprocatingAmplitudeN(slider: ReciprocatingMass): {
  readonly primaryN: number;
  readonly secondaryN: number;
} {
  const { crankRadiusM, rodLengthM } = slider;
  positive('crank radius', crankRadiusM, 'm');
  possible('rod length', rodLengthM, 'm', rodLengthM > crankRadiusM, 'more than the crank radius');
  const primaryN =
    notNegative('reciprocating mass', slider.reciprocatingKg, 'kg') *
    crankRadiusM *
    (notNegative('speed', slider.speedRpm, 'rev/min') * RAD_PER_S_PER_RPM) ** 2;
  return { primaryN, secondaryN: (primaryN * crankRadiusM) / rodLengthM };
}

export interface CylinderPlace {
  /** Angle of the bore's axis, in the sense the crank turns, from any one direction [deg]. */
  readonly bankDeg: number;
  /** Angle of its pin, from the same direction and in the same sense, when the crank stands at 0 [deg]. */
  readonly pinDeg: number;
  /** Where along the crank [m]. */
  readonly positionM: number;
}

/** A vector that turns: forward with the crank's order and backward, each a complex amplitude. */
interface Turning {
  readonly largest: number;
  readonly smallest: number;
}

export interface ShakingForces {
  readonly primaryForceN: Turning;
  readonly secondaryForceN: Turning;
  readonly primaryCoupleNm: Turning;
  readonly secondaryCoupleNm: Turning;
}

/**
 * What all cylinders together do to the mounts, first and second order: the largest and smallest length of the turning
 * force, and of its couple about the middle of the cylinders, over a turn. Equal masses in all cylinders.
 *
 * Derivation: with θ the crank, cylinder j pulls along e^{iβ} with A cos n(θ + π_j − β_j). Written in turning vectors that is
 * A/2 (e^{i(nθ + nψ + β)} + e^{i(−nθ − nψ + β)}), ψ = π_j − β_j; sums P and Q of the two trace an ellipse with half axes
 * |P| + |Q| and ||P| − |Q||.
 *
 * @param counterweightKg  mass that every pin's counterweight carries beyond the rotating parts, at the crank radius:
 *                         the reciprocating share of bobweight(), per cylinder; takes from the first order only
 */
export function shakingForces(
  slider: ReciprocatingMass,
  cylinders: readonly CylinderPlace[],
  counterweightKg = 0,
): ShakingForces {
  count('number of cylinders', cylinders.length);
  const amplitude = reciprocatingAmplitudeN(slider);
  const counterN =
    notNegative('counterweight', counterweightKg, 'kg') *
    slider.crankRadiusM *
    (slider.speedRpm * RAD_PER_S_PER_RPM) ** 2;
  const middleM =
    cylinders.reduce((sum, { positionM }) => sum + finite('cylinder position', positionM, 'm'), 0) /
    cylinders.length;
  const sum = (order: 1 | 2, weight: (cylinder: CylinderPlace) => number): Turning => {
    const half = (order === 1 ? amplitude.primaryN : amplitude.secondaryN) / 2;
    const [forward, backward] = [new Phasor(), new Phasor()];
    for (const cylinder of cylinders) {
      const { bankDeg, pinDeg } = cylinder;
      const psi = finite('pin angle', pinDeg, 'deg') - finite('bank angle', bankDeg, 'deg');
      const w = weight(cylinder);
      forward.add(w * half, order * psi + bankDeg);
      backward.add(w * half, bankDeg - order * psi);
      if (order === 1) forward.add(-w * counterN, pinDeg);
    }
    const [p, q] = [forward.length, backward.length];
    return { largest: p + q, smallest: Math.abs(p - q) };
  };
  const arm = ({ positionM }: CylinderPlace) => positionM - middleM;
  return {
    primaryForceN: sum(1, () => 1),
    secondaryForceN: sum(2, () => 1),
    primaryCoupleNm: sum(1, arm),
    secondaryCoupleNm: sum(2, arm),
  };
}

class Phasor {
  #x = 0;
  #y = 0;
  add(length: number, angleDeg: number): void {
    this.#x += length * Math.cos((angleDeg * Math.PI) / 180);
    this.#y += length * Math.sin((angleDeg * Math.PI) / 180);
  }
  get length(): number {
    return Math.hypot(this.#x, this.#y);
  }
}
