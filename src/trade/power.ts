import { InputError } from '../errors.ts';

/** Radians per second in one rev/min. */
export const RAD_PER_S_PER_RPM = (2 * Math.PI) / 60;

/** Power [W] of a torque [N·m] at a speed [rev/min]: P = T ω. */
export function powerW(torqueNm: number, speedRpm: number): number {
  return torqueNm * speedRpm * RAD_PER_S_PER_RPM;
}

/**
 * Torque [N·m] of a power [W] at a speed [rev/min].
 * @throws InputError  at standstill, where power says nothing about torque
 */
export function torqueNm(powerW: number, speedRpm: number): number {
  if (!(speedRpm > 0))
    throw new InputError(`invalid speed: ${speedRpm} rev/min; expected more than 0 to get torque`);
  return powerW / (speedRpm * RAD_PER_S_PER_RPM);
}

/**
 * Torque [N·m] that accelerates an inertia [kg·m²] at a sweep rate [rev/min per s]: J α.
 * Added to what the brake held, it gives what the engine made; negative on a falling sweep.
 */
export function inertiaTorqueNm(inertiaKgM2: number, sweepRpmPerS: number): number {
  return inertiaKgM2 * sweepRpmPerS * RAD_PER_S_PER_RPM;
}

/** Brake mean effective pressure [Pa]: 2π T n_r / Vd, n_r = 2 turns a cycle for four strokes, 1 for two. */
export function bmepPa(torqueNm: number, displacementM3: number, cycle: 2 | 4): number {
  return (2 * Math.PI * torqueNm * (cycle / 2)) / positive('displacement', displacementM3, 'm³');
}

/** Mean piston speed [m/s]: 2 S n. */
export function meanPistonSpeedMPerS(strokeM: number, speedRpm: number): number {
  return (2 * positive('stroke', strokeM, 'm') * speedRpm) / 60;
}

/** Brake specific fuel consumption [kg/J]: fuel flow over brake power. */
export function bsfcKgPerJ(fuelFlowKgPerS: number, powerW: number): number {
  return fuelFlowKgPerS / positive('power', powerW, 'W');
}

/** Share of the fuel's lower heating value [J/kg] that leaves the crank. */
export function brakeEfficiency(bsfcKgPerJ: number, lowerHeatingJPerKg: number): number {
  return 1 / (bsfcKgPerJ * lowerHeatingJPerKg);
}

/**
 * Volumetric efficiency: air taken in over what the displacement holds at a density. With the density of the room's
 * air it judges the whole intake, with the plenum's only what stands after it; say which.
 */
export function volumetricEfficiency(parts: {
  readonly airFlowKgPerS: number;
  readonly densityKgPerM3: number;
  readonly displacementM3: number;
  readonly speedRpm: number;
  readonly cycle: 2 | 4;
}): number {
  return parts.airFlowKgPerS / (parts.densityKgPerM3 * fullAirFlowM3PerS(parts));
}

/** Volume [m³/s] that the pistons sweep: Vd n, halved for four strokes. */
export function fullAirFlowM3PerS(parts: {
  readonly displacementM3: number;
  readonly speedRpm: number;
  readonly cycle: 2 | 4;
}): number {
  const { displacementM3, speedRpm, cycle } = parts;
  return (
    (positive('displacement', displacementM3, 'm³') * positive('speed', speedRpm, 'rev/min')) /
    (60 * (cycle / 2))
  );
}

/** Air flow [kg/s] from fuel flow [kg/s] and lambda with the fuel's stoichiometric ratio. */
export function airFlowFromFuelKgPerS(
  fuelFlowKgPerS: number,
  lambda: number,
  stoichiometricAfr: number,
): number {
  return fuelFlowKgPerS * lambda * stoichiometricAfr;
}

function positive(name: string, value: number, unit: string): number {
  if (!(value > 0)) throw new InputError(`invalid ${name}: ${value} ${unit}; expected more than 0`);
  return value;
}
