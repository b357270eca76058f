import { RAD_PER_S_PER_RPM } from '../../trade/power.ts';
import type { Engine } from './engine.ts';
import { rootOf } from './solve.ts';
import type { Converter, Vehicle } from './types.ts';

/*
 * Forces on a vehicle along its road. With v the road speed, r(v) = r0 (1 + c v²) the tyre's radius and R the whole
 * gearing, the wheels turn at w = v / r, so dw/dt = q a with q = dw/dv = (r − v r') / r². The torque that reaches the
 * driven axle is
 *
 *   M = η R (T − J_e R q a) − M_d,   F = (M − J_w q a) / r,   m a = F − ½ρ c_dA v² − m g (c_r cos θ + sin θ).
 *
 * F is what the tyres hold: F ≤ μ N, where N is the load on the driven wheels, which acceleration moves by m a h / L
 * to the rear. Power balances: T w_e is stored in m, J_w and J_e, lost in η, M_d, coupling and road, and nowhere else.
 */

/** Standard gravity [m/s²], 3rd CGPM 1901. */
export const G0 = 9.80665;

/** What stands against the vehicle [N]. */
export interface Resistance {
  readonly dragN: number;
  readonly rollingN: number;
  readonly gradeN: number;
}

export function resistanceAt(vehicle: Vehicle, speedMPerS: number): Resistance {
  const cosine = 1 / Math.hypot(1, vehicle.grade);
  return {
    dragN: 0.5 * vehicle.airDensityKgPerM3 * vehicle.dragAreaM2 * speedMPerS * speedMPerS,
    rollingN: vehicle.rollingResistance * vehicle.massKg * G0 * cosine,
    gradeN: vehicle.massKg * G0 * vehicle.grade * cosine,
  };
}

export const totalN = ({ dragN, rollingN, gradeN }: Resistance): number =>
  dragN + rollingN + gradeN;

/** Tyre radius [m] at a road speed, and dw/dv [1/m] of the wheels. */
export function tyreAt(
  vehicle: Vehicle,
  speedMPerS: number,
): { readonly radiusM: number; readonly turnPerM: number } {
  const grown = vehicle.tyreGrowthS2PerM2 * speedMPerS * speedMPerS;
  const radiusM = vehicle.tyreRadiusM * (1 + grown);
  // (r − v r') / r² with v r' = 2 r0 c v².
  return { radiusM, turnPerM: (vehicle.tyreRadiusM * (1 - grown)) / (radiusM * radiusM) };
}

/** Speed of the gearbox's input [rev/min] at a road speed. */
export function inputRpm(vehicle: Vehicle, gear: number, speedMPerS: number): number {
  const { radiusM } = tyreAt(vehicle, speedMPerS);
  return ((speedMPerS / radiusM) * ratioOf(vehicle, gear)) / RAD_PER_S_PER_RPM;
}

/** Road speed [m/s] at which the gearbox's input turns at a speed: v / r(v) is solved for the smaller root. */
export function roadSpeedMPerS(vehicle: Vehicle, gear: number, speedRpm: number): number {
  const wheel = (speedRpm * RAD_PER_S_PER_RPM) / ratioOf(vehicle, gear);
  const r0 = vehicle.tyreRadiusM;
  const c = vehicle.tyreGrowthS2PerM2;
  if (c === 0) return wheel * r0;
  // w r0 c v² − v + w r0 = 0; past the top of v / r(v) the tyre would grow faster than it turns.
  const root = 1 - 4 * c * (wheel * r0) ** 2;
  return root <= 0 ? 1 / Math.sqrt(c) : (2 * wheel * r0) / (1 + Math.sqrt(root));
}

/** Whole gearing of a gear, counted from 0. */
export const ratioOf = (vehicle: Vehicle, gear: number): number =>
  vehicle.gears[gear]! * vehicle.finalDrive;

/**
 * Most force that the driven tyres hold [N] against a resistance.
 *
 * Load on them: N = s m g cos θ ± (h / L) (F − W) with W what stands against the vehicle, + for driven rear wheels. So
 * F = μ (s m g cos θ ∓ (h/L) W) / (1 ∓ μ h/L), and never more than lifts the other axle off the road.
 */
export function tractionN(vehicle: Vehicle, against: number): number {
  const { traction } = vehicle;
  if (traction === null) return Number.POSITIVE_INFINITY;
  const weight = (vehicle.massKg * G0) / Math.hypot(1, vehicle.grade);
  if (traction.driven === 'all') return traction.coefficient * weight;
  const lever = traction.centreHeightM / traction.wheelbaseM;
  const static_ = traction.drivenShare * weight;
  if (traction.driven === 'front')
    return (
      (traction.coefficient * (static_ + lever * against)) / (1 + traction.coefficient * lever)
    );
  const free = 1 - traction.coefficient * lever;
  const held =
    free <= 0
      ? Number.POSITIVE_INFINITY
      : (traction.coefficient * (static_ - lever * against)) / free;
  const lifting = lever > 0 ? against + (weight - static_) / lever : Number.POSITIVE_INFINITY;
  return Math.max(0, Math.min(held, lifting, traction.coefficient * weight));
}

/** The converter's curves at a speed ratio, straight lines between the points given. */
export function converterAt(
  { curve }: Converter,
  speedRatio: number,
): { readonly torqueRatio: number; readonly capacity: number } {
  const last = curve.at(-1)!;
  if (speedRatio >= last.speedRatio) return last;
  if (speedRatio <= curve[0]!.speedRatio) return curve[0]!;
  let i = 1;
  while (curve[i]!.speedRatio < speedRatio) i++;
  const [a, b] = [curve[i - 1]!, curve[i]!];
  const part = (speedRatio - a.speedRatio) / (b.speedRatio - a.speedRatio);
  return {
    torqueRatio: a.torqueRatio + part * (b.torqueRatio - a.torqueRatio),
    capacity: a.capacity + part * (b.capacity - a.capacity),
  };
}

/** Torque [N·m] that the pump takes at its speed [rev/min] and a speed ratio. */
export function pumpNm(converter: Converter, pumpRpm: number, speedRatio: number): number {
  const { capacity } = converterAt(converter, speedRatio);
  return capacity * converter.stallTorqueNm * (pumpRpm / converter.stallRpm) ** 2;
}

/** Speed at which the engine holds the pump with the turbine at a speed [rev/min]; null: above `mostRpm`. */
export function heldRpm(
  converter: Converter,
  engine: Engine,
  turbineRpm: number,
  mostRpm: number,
): number | null {
  const over = (rpm: number) => pumpNm(converter, rpm, turbineRpm / rpm) - engine.torqueNm(rpm);
  const low = Math.max(turbineRpm, 1);
  if (low >= mostRpm || over(mostRpm) < 0) return null;
  return over(low) >= 0 ? low : rootOf(over, low, mostRpm);
}

/** Force and engine speed at a steady road speed in a gear at full throttle; acceleration with what turns in it. */
export interface Drive {
  readonly engineRpm: number;
  /** Force at the tyres while nothing accelerates [N]. */
  readonly forceN: number;
  /** Acceleration that the vehicle has there [m/s²]; the tyres' limit is not in it. */
  readonly accelerationMPerS2: number;
}

/**
 * @param mostRpm  highest speed of the engine
 * @returns null where the engine would have to turn faster than that
 */
export function driveAt(
  vehicle: Vehicle,
  engine: Engine,
  gear: number,
  speedMPerS: number,
  mostRpm: number,
): Drive | null {
  const { coupling } = vehicle;
  const ratio = ratioOf(vehicle, gear);
  const { radiusM, turnPerM } = tyreAt(vehicle, speedMPerS);
  const input = inputRpm(vehicle, gear, speedMPerS);
  if (input > mostRpm * (1 + 1e-9)) return null;
  let [engineRpm, torque, inertia] = [input, 0, vehicle.engineInertiaKgM2];
  if (coupling.kind === 'clutch') {
    const slips = gear === 0 && input < coupling.launchRpm;
    if (slips) engineRpm = coupling.launchRpm;
    torque = engine.torqueNm(engineRpm);
    if (slips) {
      inertia = 0;
      torque = Math.min(torque, coupling.capacityNm ?? torque);
    }
  } else {
    const held = heldRpm(coupling, engine, input, mostRpm);
    if (held === null) return null;
    engineRpm = held;
    // The pump's speed hardly changes with the road's: its inertia is left out of a steady drive.
    inertia = 0;
    const ratioNow = input / held;
    torque = pumpNm(coupling, held, ratioNow) * converterAt(coupling, ratioNow).torqueRatio;
  }
  const eta = vehicle.efficiency[gear]!;
  const forceN = (eta * ratio * torque - vehicle.dragTorqueNm) / radiusM;
  const mass =
    vehicle.massKg +
    ((vehicle.wheelInertiaKgM2 + eta * inertia * ratio * ratio) * turnPerM) / radiusM;
  return {
    engineRpm,
    forceN,
    accelerationMPerS2: (forceN - totalN(resistanceAt(vehicle, speedMPerS))) / mass,
  };
}
