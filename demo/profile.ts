import type { DayKnobs } from './knobs.ts';
import { Chance } from './random.ts';

/** How a pull ran through its speeds: part throttle until `openS`, full until `closeS`, then shut until `endS`. */
export interface Profile {
  readonly openS: number;
  readonly closeS: number;
  readonly endS: number;
  speedAt(timeS: number): number;
  /** Throttle opening, 0 to 1. */
  throttleAt(timeS: number): number;
  /** Share of full-throttle torque that the engine would settle at. */
  shareAt(timeS: number): number;
  /** First time at which this speed is passed under full throttle; past the end where it is not. */
  timeAtRpm(speedRpm: number): number;
}

/** Held speeds stand this far apart, this long, and are reached within this time. */
const STEP_RPM = 500;
const DWELL_S = 4;
const MOVE_S = 0.8;

/** The speeds of one pull against time: a sweep up or down whose rate wobbles a little, or held steps. */
export function profileOf(knobs: DayKnobs, pull: number): Profile {
  const manner = new Chance(knobs.seed, `manner ${pull}`);
  const openS = manner.between(0.6, 1.2);
  const moveS = openS + manner.between(0.3, 0.7);
  const shutS = manner.between(0.7, 1.8);
  const wobble = {
    depth: manner.between(0, 0.08),
    radPerS: (2 * Math.PI) / manner.between(1.5, 5),
    phase: manner.between(0, 2 * Math.PI),
  };
  const [startRpm, lastRpm] =
    knobs.manner === 'falling' ? [knobs.toRpm, knobs.fromRpm] : [knobs.fromRpm, knobs.toRpm];
  const underway =
    knobs.manner === 'held steps' ? heldSteps(startRpm, lastRpm) : sweep(knobs, wobble);
  const closeS = moveS + underway.lengthS;
  const speedAt = (timeS: number) => {
    if (timeS < moveS) return startRpm;
    if (timeS <= closeS) return underway.speedAt(timeS - moveS);
    return lastRpm * (1 - 0.35 * (1 - Math.exp((closeS - timeS) / 2.2)));
  };
  return {
    openS,
    closeS,
    endS: closeS + shutS,
    speedAt,
    throttleAt: (timeS) => (timeS < openS ? 0.25 : timeS < closeS ? 1 : 0.05),
    shareAt: (timeS) => (timeS < openS ? 0.24 : timeS < closeS ? 1 : 0.02),
    timeAtRpm(speedRpm) {
      const rising = lastRpm > startRpm;
      let timeS = openS;
      while (timeS < closeS && (rising ? speedAt(timeS) < speedRpm : speedAt(timeS) > speedRpm)) {
        timeS += 0.005;
      }
      return timeS;
    },
  };
}

interface Underway {
  readonly lengthS: number;
  speedAt(sinceS: number): number;
}

function sweep(
  knobs: DayKnobs,
  wobble: { readonly depth: number; readonly radPerS: number; readonly phase: number },
): Underway {
  const { fromRpm, toRpm, sweepRpmPerS } = knobs;
  const lengthS = (toRpm - fromRpm) / sweepRpmPerS;
  const { depth, radPerS, phase } = wobble;
  const ahead = (s: number) =>
    (depth / radPerS) * (Math.sin(radPerS * s + phase) - Math.sin(phase));
  const whole = lengthS + ahead(lengthS);
  const [start, span] =
    knobs.manner === 'falling' ? [toRpm, fromRpm - toRpm] : [fromRpm, toRpm - fromRpm];
  return { lengthS, speedAt: (s) => start + (span * (s + ahead(s))) / whole };
}

function heldSteps(fromRpm: number, toRpm: number): Underway {
  const steps = Math.max(1, Math.round((toRpm - fromRpm) / STEP_RPM));
  const stepRpm = (toRpm - fromRpm) / steps;
  const cycleS = DWELL_S + MOVE_S;
  return {
    lengthS: (steps + 1) * cycleS - MOVE_S,
    speedAt(s) {
      const step = Math.min(steps, Math.floor(s / cycleS));
      const u = Math.min(1, Math.max(0, (s - step * cycleS - DWELL_S) / MOVE_S));
      return fromRpm + stepRpm * (step + (step < steps ? u * u * (3 - 2 * u) : 0));
    },
  };
}
