import type { Engine } from './engine.ts';
import { type Drive, driveAt, resistanceAt, roadSpeedMPerS, totalN } from './forces.ts';
import { rootOf } from './solve.ts';
import type { Vehicle } from './types.ts';

const PLACES = 48;

/** Highest speed that the engine may turn in this vehicle: its limit, and never beyond what was swept. */
export const mostRpmOf = (vehicle: Vehicle, engine: Engine): number =>
  Math.min(vehicle.shift.limitRpm ?? engine.toRpm, engine.toRpm);

/** Highest road speed [m/s] in a gear: where the engine reaches its highest speed. */
export function gearEndMPerS(
  vehicle: Vehicle,
  engine: Engine,
  gear: number,
  mostRpm: number,
): number {
  const end = roadSpeedMPerS(vehicle, gear, mostRpm);
  if (vehicle.coupling.kind === 'clutch') return end;
  // A converter slips: the engine is there before the turbine is.
  const reaches = (speed: number) => driveAt(vehicle, engine, gear, speed, mostRpm) !== null;
  let [low, high] = [0, end];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (reaches(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Where to leave a gear. */
export interface ShiftPoint {
  readonly fromGear: number;
  readonly speedRpm: number;
  readonly speedMPerS: number;
  /** Engine speed in the next gear at that road speed. */
  readonly nextRpm: number;
  /** The next gear never accelerates harder: the engine's highest speed decides. */
  readonly atLimit: boolean;
  readonly best: boolean;
}

/**
 * Shift points by gear. The best one is where the next gear begins to accelerate harder than this one (with all that
 * turns in it), else the engine's highest speed. The time that a shift takes is not weighed: it moves the best point
 * up a little.
 */
export function shiftPoints(vehicle: Vehicle, engine: Engine): readonly ShiftPoint[] {
  const mostRpm = mostRpmOf(vehicle, engine);
  return vehicle.gears.slice(1).map((_, gear) => {
    const next = gear + 1;
    const end = gearEndMPerS(vehicle, engine, gear, mostRpm);
    const said = vehicle.shift.speedsRpm?.[gear];
    if (said !== undefined) {
      const speedRpm = Math.min(said, mostRpm);
      const at = Math.min(end, gearEndMPerS(vehicle, engine, gear, speedRpm));
      return point(vehicle, engine, gear, at, speedRpm, mostRpm, said >= mostRpm, false);
    }
    const over = (speed: number) =>
      (driveAt(vehicle, engine, next, speed, mostRpm)?.accelerationMPerS2 ?? -1e9) -
      (driveAt(vehicle, engine, gear, speed, mostRpm)?.accelerationMPerS2 ?? -1e9);
    // From the top down: the last place at which this gear is still the stronger.
    if (over(end) <= 0) return point(vehicle, engine, gear, end, null, mostRpm, true, true);
    let i = PLACES - 1;
    while (i > 0 && over((end * i) / PLACES) > 0) i--;
    const at = i === 0 ? 0 : rootOf(over, (end * i) / PLACES, (end * (i + 1)) / PLACES);
    return point(vehicle, engine, gear, at, null, mostRpm, false, true);
  });
}

function point(
  vehicle: Vehicle,
  engine: Engine,
  gear: number,
  speedMPerS: number,
  saidRpm: number | null,
  mostRpm: number,
  atLimit: boolean,
  best: boolean,
): ShiftPoint {
  const rpmIn = (g: number) => driveAt(vehicle, engine, g, speedMPerS, mostRpm)?.engineRpm;
  return {
    fromGear: gear,
    speedRpm: saidRpm ?? (atLimit ? mostRpm : (rpmIn(gear) ?? mostRpm)),
    speedMPerS,
    nextRpm: rpmIn(gear + 1) ?? mostRpm,
    atLimit,
    best,
  };
}

/** The fastest that the vehicle goes by itself. */
export interface TopSpeed {
  readonly speedMPerS: number;
  readonly gear: number;
  readonly engineRpm: number;
  /** What ends it: what stands against the vehicle, or the engine's highest speed in the gear. */
  readonly by: 'resistance' | 'highest engine speed';
}

/** Highest speed in any gear at which the drive still holds what stands against it; null: it cannot move. */
export function topSpeed(vehicle: Vehicle, engine: Engine): TopSpeed | null {
  const mostRpm = mostRpmOf(vehicle, engine);
  let best: TopSpeed | null = null;
  vehicle.gears.forEach((_, gear) => {
    const end = gearEndMPerS(vehicle, engine, gear, mostRpm);
    const spare = (speed: number) =>
      (driveAt(vehicle, engine, gear, speed, mostRpm)?.forceN ?? 0) -
      totalN(resistanceAt(vehicle, speed));
    const [at, by] = (() => {
      if (spare(end) >= 0) return [end, 'highest engine speed'] as const;
      let i = PLACES - 1;
      while (i >= 0 && spare((end * i) / PLACES) < 0) i--;
      if (i < 0) return [null, 'resistance'] as const;
      const [low, high] = [(end * i) / PLACES, (end * (i + 1)) / PLACES];
      return [rootOf((speed) => -spare(speed), low, high), 'resistance'] as const;
    })();
    if (at === null || (best !== null && at <= best.speedMPerS + 1e-9)) return;
    const engineRpm = driveAt(vehicle, engine, gear, at, mostRpm)?.engineRpm ?? mostRpm;
    best = { speedMPerS: at, gear, engineRpm, by };
  });
  return best;
}

/** Tractive force against road speed in every gear, for the chart. */
export function forceByGear(
  vehicle: Vehicle,
  engine: Engine,
  places = 60,
): readonly (readonly (Drive & { readonly speedMPerS: number })[])[] {
  const mostRpm = mostRpmOf(vehicle, engine);
  return vehicle.gears.map((_, gear) => {
    const end = gearEndMPerS(vehicle, engine, gear, mostRpm);
    const isClutch = vehicle.coupling.kind === 'clutch';
    // Below what was measured a locked gear has no force that anybody knows.
    const begin =
      isClutch && gear > 0 ? Math.min(end, roadSpeedMPerS(vehicle, gear, engine.fromRpm)) : 0;
    return Array.from({ length: places }, (_, i) => {
      const speedMPerS = begin + ((end - begin) * i) / (places - 1);
      const drive = driveAt(vehicle, engine, gear, speedMPerS, mostRpm);
      return drive === null ? null : { speedMPerS, ...drive };
    }).filter((one) => one !== null);
  });
}
