import { InputError, NoConvergenceError } from '../../errors.ts';
import { RAD_PER_S_PER_RPM } from '../../trade/power.ts';
import type { Engine } from './engine.ts';
import { DRAG, E, flowLaw, LOSS, type Phase, SLIP, V, WORK, X } from './flow.ts';
import { heldRpm, ratioOf, resistanceAt, tyreAt } from './forces.ts';
import { mostRpmOf, type ShiftPoint, shiftPoints } from './shifts.ts';
import { type Event, type Rates, type Step, solvePiece } from './solve.ts';
import type { Vehicle } from './types.ts';

/*
 * A standing start at full throttle, solved piecewise. A piece ends where the law changes: the clutch locks, the tyres
 * hold what the engine gives (or no longer do), the engine reaches its shift speed, a shift is over, the highest engine
 * speed is reached in the last gear, or the distance is done. The driver is ideal: where the tyres cannot take the
 * engine's torque it is eased to what they can, and no wheel spins.
 */

export interface RunPiece {
  readonly phase: Phase;
  /** Counted from 0. */
  readonly gear: number;
  readonly fromS: number;
  readonly toS: number;
  /** The tyres' limit holds at its beginning. */
  readonly limited: boolean;
  readonly steps: readonly Step[];
}

/** Where the work of the engine went [J]. The difference is what the solver lost. */
export interface EnergyBalance {
  readonly engineJ: number;
  readonly motionJ: number;
  readonly drivelineJ: number;
  readonly couplingJ: number;
  readonly dragJ: number;
  readonly rollingJ: number;
  readonly gradeJ: number;
  /** Turning energy of the engine that a shift takes out. */
  readonly shiftingJ: number;
  /** (engine − all the rest) / engine. */
  readonly openPart: number;
}

export interface Run {
  readonly vehicle: Vehicle;
  readonly engine: Engine;
  readonly pieces: readonly RunPiece[];
  readonly shifts: readonly ShiftPoint[];
  readonly timeS: number;
  readonly energy: EnergyBalance;
  /** Road speed [m/s], distance [m] and engine speed [rev/min] at a time. */
  readonly at: (timeS: number) => RunState;
}

export interface RunState {
  readonly speedMPerS: number;
  readonly distanceM: number;
  readonly engineRpm: number;
  readonly gear: number;
  readonly phase: Phase;
}

export interface RunOptions {
  /** Where it ends. */
  readonly untilM?: number;
  /** Relative tolerance of a step. */
  readonly relative?: number;
  /** Given where many curves are run with one driver. */
  readonly shifts?: readonly ShiftPoint[];
}

const KILOMETRE_M = 1000;
/** A run takes no longer than this, however slow the vehicle. */
const LONGEST_S = 400;
const MOST_PIECES = 300;

/**
 * One run of a vehicle from standstill.
 * @throws InputError  it cannot move away
 * @throws NoConvergenceError  its figures let the law change more often than any drive does
 */
export function runVehicle(vehicle: Vehicle, engine: Engine, options: RunOptions = {}): Run {
  const { coupling, shift, massKg } = vehicle;
  const untilM = options.untilM ?? KILOMETRE_M + vehicle.rolloutM;
  const relative = options.relative ?? 1e-6;
  const mostRpm = mostRpmOf(vehicle, engine);
  const shifts = options.shifts ?? shiftPoints(vehicle, engine);
  const last = vehicle.gears.length - 1;
  const launchRpm = launchOf(vehicle, engine, mostRpm);
  const pieces: RunPiece[] = [];
  let shiftingJ = 0;
  let gear = 0;
  let phase: Phase = coupling.kind === 'clutch' ? 'slipping' : 'converter';
  let state: number[] = [0, 0, launchRpm * RAD_PER_S_PER_RPM, 0, 0, 0, 0];
  let timeS = 0;
  const motionJ = (y: readonly number[]) => motionOf(vehicle, y);
  const startJ = motionJ(state);
  const perEnergy = 1 / (1000 * massKg);
  if (!(flowLaw(vehicle, engine, phase, gear, launchRpm)(state).a > 0))
    throw new InputError(
      `${vehicle.name} cannot move away in its first gear: its force there is less than what stands against it.`,
    );

  /** Whether the next gear still accelerates: a driver stays in one that does rather than take one that cannot. */
  const pulls = (next: number, y: readonly number[]) =>
    flowLaw(
      vehicle,
      engine,
      coupling.kind === 'clutch' ? 'locked' : 'converter',
      next,
      launchRpm,
    )(y).a > 0;

  while (state[X]! < untilM - 1e-9 && timeS < LONGEST_S) {
    if (pieces.length >= MOST_PIECES)
      throw new NoConvergenceError(
        `The run of ${vehicle.name} cannot be computed: its drive changes more often than any drive does.`,
        pieces.length,
        Number.NaN,
      );
    const now = { phase, gear };
    const law = flowLaw(vehicle, engine, phase, gear, launchRpm);
    const rates: Rates = (_, y, out) => {
      const flow = law(y);
      out[V] = flow.a;
      out[X] = y[V]!;
      out[E] = flow.engineRadPerS2;
      out[WORK] = flow.engineW * perEnergy;
      out[LOSS] = flow.drivelineW * perEnergy;
      out[SLIP] = flow.couplingW * perEnergy;
      out[DRAG] = flow.dragN * y[V]! * perEnergy;
    };
    const { limited } = law(state);
    const sign = limited > 0 ? -1 : 1;
    const done: Event = (_, y) => y[X]! - untilM;
    const stand: Event = (_, y) => -y[V]!;
    const grip: Event = vehicle.traction === null ? () => -1 : (_, y) => sign * law(y).limited;
    const turns = (y: readonly number[]) => turningRpm(vehicle, now.phase, now.gear, y);
    const leave: Event = (_, y) =>
      turns(y) - (now.gear === last ? mostRpm : shifts[now.gear]!.speedRpm);
    const lock: Event = (_, y) => turns(y) - launchRpm;
    const events: Record<string, Event> =
      phase === 'slipping'
        ? { done, stand, grip, lock }
        : phase === 'shifting' || phase === 'at highest speed'
          ? { done, stand }
          : { done, stand, grip, leave };
    const names = Object.keys(events);
    // A gear that is due already at its beginning is left at once; behind a converter the engine must come down first.
    const isDue = phase === 'locked' && leave(timeS, state) >= -1e-9;
    const isLocked = phase === 'slipping' && lock(timeS, state) >= -1e-9;
    let event: string | null = isDue ? 'leave' : isLocked ? 'lock' : null;
    if (event === null) {
      const end = phase === 'shifting' ? timeS + shift.timeS : LONGEST_S;
      const solved = solvePiece(rates, { timeS, state }, end, Object.values(events), {
        relative,
        absolute: relative * 1e-2,
        longestStepS: 5,
      });
      pieces.push({
        phase,
        gear,
        fromS: timeS,
        toS: solved.timeS,
        limited: limited > 0,
        steps: solved.steps,
      });
      ({ timeS, state } = solved);
      event = solved.event === null ? null : names[solved.event]!;
      if (event === null && phase !== 'shifting') break;
    }
    if (event === 'lock') phase = 'locked';
    else if (event === 'leave') {
      if (gear === last || !pulls(gear + 1, state)) phase = 'at highest speed';
      else {
        // From here the engine's speed is that of the next gear: a clutch takes the difference out.
        const before = motionJ(withTurning(vehicle, phase, gear, state));
        gear += 1;
        const after = withTurning(
          vehicle,
          phase === 'converter' ? 'converter' : 'locked',
          gear,
          state,
        );
        shiftingJ += before - motionJ(after);
        state = after;
        phase = shift.timeS > 0 ? 'shifting' : coupling.kind === 'clutch' ? 'locked' : 'converter';
      }
    } else if (event === null && phase === 'shifting') {
      const next: Phase = coupling.kind === 'clutch' ? 'locked' : 'converter';
      const before = motionJ(state);
      state = withTurning(vehicle, next, gear, state);
      shiftingJ += before - motionJ(state);
      phase = next;
    }
    if (event === 'stand')
      throw new InputError(
        `${vehicle.name} comes to a stand in gear ${gear + 1}: its force there is less than what stands against it.`,
      );
  }
  const end = withTurning(vehicle, phase, gear, state);
  return {
    vehicle,
    engine,
    pieces,
    shifts,
    timeS,
    energy: balanceOf(vehicle, end, motionJ(end) - startJ, shiftingJ),
    at: (t) => stateAt(vehicle, pieces, launchRpm, t),
  };
}

/** Engine speed [rev/min] at which the vehicle starts. */
function launchOf(vehicle: Vehicle, engine: Engine, mostRpm: number): number {
  const { coupling } = vehicle;
  if (coupling.kind === 'clutch') return Math.min(coupling.launchRpm, mostRpm);
  const stall = heldRpm(coupling, engine, 0, mostRpm) ?? mostRpm;
  return Math.min(coupling.launchRpm ?? stall, stall);
}

/** Speed of what the engine turns [rev/min]: the gearbox's input, or behind a converter the engine itself. */
function turningRpm(vehicle: Vehicle, phase: Phase, gear: number, y: readonly number[]): number {
  if (phase === 'converter') return y[E]! / RAD_PER_S_PER_RPM;
  const { radiusM } = tyreAt(vehicle, y[V]!);
  return ((y[V]! / radiusM) * ratioOf(vehicle, gear)) / RAD_PER_S_PER_RPM;
}

/** The state with the engine at the speed that a locked drive gives it; others carry it themselves. */
function withTurning(vehicle: Vehicle, phase: Phase, gear: number, y: readonly number[]): number[] {
  const out = [...y];
  if (phase === 'locked' || (phase === 'at highest speed' && vehicle.coupling.kind === 'clutch'))
    out[E] = turningRpm(vehicle, 'locked', gear, y) * RAD_PER_S_PER_RPM;
  return out;
}

function motionOf(vehicle: Vehicle, y: readonly number[]): number {
  const { radiusM } = tyreAt(vehicle, y[V]!);
  return (
    0.5 *
    (vehicle.massKg * y[V]! ** 2 +
      vehicle.wheelInertiaKgM2 * (y[V]! / radiusM) ** 2 +
      vehicle.engineInertiaKgM2 * y[E]! ** 2)
  );
}

function balanceOf(
  vehicle: Vehicle,
  y: readonly number[],
  motionJ: number,
  shiftingJ: number,
): EnergyBalance {
  const joules = 1000 * vehicle.massKg;
  const { rollingN, gradeN } = resistanceAt(vehicle, 0);
  const parts = {
    engineJ: y[WORK]! * joules,
    motionJ,
    drivelineJ: y[LOSS]! * joules,
    couplingJ: y[SLIP]! * joules,
    dragJ: y[DRAG]! * joules,
    rollingJ: rollingN * y[X]!,
    gradeJ: gradeN * y[X]!,
    shiftingJ,
  };
  const { engineJ, ...rest } = parts;
  const spent = Object.values(rest).reduce((sum, value) => sum + value, 0);
  return { ...parts, openPart: (engineJ - spent) / engineJ };
}

function stateAt(
  vehicle: Vehicle,
  pieces: readonly RunPiece[],
  launchRpm: number,
  timeS: number,
): RunState {
  const piece = pieces.find(({ toS }) => timeS <= toS) ?? pieces.at(-1)!;
  const step = piece.steps.find(({ toS }) => timeS <= toS) ?? piece.steps.at(-1)!;
  const y = step.at(Math.min(Math.max(timeS, step.fromS), step.toS));
  return readState(vehicle, piece, launchRpm, y);
}

function readState(
  vehicle: Vehicle,
  { phase, gear }: RunPiece,
  launchRpm: number,
  y: readonly number[],
): RunState {
  const isConverter = vehicle.coupling.kind === 'converter';
  const engineRpm = isConverter
    ? y[E]! / RAD_PER_S_PER_RPM
    : phase === 'slipping'
      ? launchRpm
      : turningRpm(vehicle, 'locked', gear, y);
  return { speedMPerS: y[V]!, distanceM: y[X]!, engineRpm, gear, phase };
}
