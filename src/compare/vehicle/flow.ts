import { RAD_PER_S_PER_RPM } from '../../trade/power.ts';
import type { Engine } from './engine.ts';
import { converterAt, ratioOf, resistanceAt, tractionN } from './forces.ts';
import type { Vehicle } from './types.ts';

/** What the vehicle does in a piece of its run. */
export type Phase = 'slipping' | 'locked' | 'converter' | 'shifting' | 'at highest speed';

/**
 * The state of a run: road speed [m/s], distance [m], engine speed [rad/s]; then energies [kJ/kg of the vehicle]:
 * the engine's work, losses of driveline and coupling, drag.
 */
export const [V, X, E, WORK, LOSS, SLIP, DRAG] = [0, 1, 2, 3, 4, 5, 6] as const;

/** Acceleration and powers at one instant. One object is written again and again: read it at once. */
export interface Flow {
  /** Acceleration of the vehicle [m/s²]. */
  a: number;
  /** By how much the engine asks more than the tyres hold [m/s²]; negative where they hold it. */
  limited: number;
  engineW: number;
  drivelineW: number;
  couplingW: number;
  dragN: number;
  engineRadPerS2: number;
}

/** The law of motion in one phase and gear (see `forces.ts` for the equations). */
export function flowLaw(
  vehicle: Vehicle,
  engine: Engine,
  phase: Phase,
  gear: number,
  launchRpm: number,
): (y: readonly number[]) => Flow {
  const { massKg, dragTorqueNm, coupling } = vehicle;
  const wheelInertia = vehicle.wheelInertiaKgM2;
  const engineInertia = vehicle.engineInertiaKgM2;
  const ratio = ratioOf(vehicle, gear);
  const eta = vehicle.efficiency[gear]!;
  const { rollingN, gradeN } = resistanceAt(vehicle, 0);
  const { dragN: dragPerSquare } = resistanceAt(vehicle, 1);
  const launch = launchRpm * RAD_PER_S_PER_RPM;
  const flow: Flow = {
    a: 0,
    limited: -1,
    engineW: 0,
    drivelineW: 0,
    couplingW: 0,
    dragN: 0,
    engineRadPerS2: 0,
  };

  // Of the instant in hand; kept outside of the law itself, which is called some thousand times a run.
  let [radius, turn, wheel, against] = [vehicle.tyreRadiusM, 0, 0, 0];
  const push = (torque: number) => (eta * ratio * torque - dragTorqueNm) / radius - against;
  /** Torque at the gearbox's input that an acceleration takes. */
  const inputNm = (a: number) => {
    const torque =
      ((massKg * a + against) * radius + wheelInertia * turn * a + dragTorqueNm) / (eta * ratio);
    flow.drivelineW = (1 - eta) * torque * wheel * ratio + dragTorqueNm * wheel;
    return torque;
  };
  const settle = (full: number): number => {
    const grip = (tractionN(vehicle, against) - against) / massKg;
    flow.a = Math.min(full, grip);
    flow.limited = full - grip;
    return inputNm(flow.a);
  };

  return (y) => {
    const v = Math.max(0, y[V]!);
    const grown = vehicle.tyreGrowthS2PerM2 * v * v;
    radius = vehicle.tyreRadiusM * (1 + grown);
    turn = (vehicle.tyreRadiusM * (1 - grown)) / (radius * radius);
    wheel = v / radius;
    flow.dragN = dragPerSquare * v * v;
    against = flow.dragN + rollingN + gradeN;
    const rolling = massKg + (wheelInertia * turn) / radius;
    const input = wheel * ratio;
    if (phase === 'shifting') {
      flow.a = (-dragTorqueNm / radius - against) / rolling;
      flow.drivelineW = dragTorqueNm * wheel;
    } else if (phase === 'locked') {
      const engineTurn = ratio * turn;
      const torque = settle(
        push(engine.torqueNm(input / RAD_PER_S_PER_RPM)) /
          (rolling + (eta * engineInertia * ratio * engineTurn) / radius),
      );
      flow.engineW = (torque + engineInertia * engineTurn * flow.a) * input;
    } else if (phase === 'slipping') {
      const most = engine.torqueNm(launchRpm);
      const carried =
        coupling.kind === 'clutch' ? Math.min(most, coupling.capacityNm ?? most) : most;
      const torque = settle(push(carried) / rolling);
      flow.engineW = torque * launch;
      flow.couplingW = torque * (launch - input);
    } else if (phase === 'at highest speed') {
      const torque = inputNm(0);
      flow.a = 0;
      flow.couplingW = coupling.kind === 'converter' ? (y[E]! - input) * torque : 0;
      flow.engineW = torque * input + flow.couplingW;
    } else if (coupling.kind === 'converter') {
      const speed = Math.max(y[E]!, 1);
      const rpm = speed / RAD_PER_S_PER_RPM;
      const { torqueRatio, capacity } = converterAt(coupling, input / speed);
      const turned = rpm / coupling.stallRpm;
      const pump = capacity * coupling.stallTorqueNm * turned * turned;
      const given = engine.torqueNm(rpm);
      const turbine = settle(push(pump * torqueRatio) / rolling);
      // Where the tyres hold less the driver eases both sides alike: the engine's speed rises as at full throttle.
      const eased = pump - turbine / torqueRatio;
      flow.engineW = (given - eased) * speed;
      flow.couplingW = (pump - eased) * speed - turbine * input;
      flow.engineRadPerS2 = (given - pump) / engineInertia;
    }
    return flow;
  };
}
