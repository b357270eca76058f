import { Dopri } from 'dopri';
import { NoConvergenceError } from '../../errors.ts';

/** dy/dt of a smooth piece, written into `out`. */
export type Rates = (timeS: number, state: number[], out: number[]) => void;
/** Rises through zero where the piece ends. */
export type Event = (timeS: number, state: number[]) => number;

/** A step of the solver, or the part of one before an event: the state at any time inside. */
export interface Step {
  readonly fromS: number;
  readonly toS: number;
  readonly at: (timeS: number) => number[];
  /** The state at its end. */
  readonly end: readonly number[];
}

export interface Solved {
  readonly steps: readonly Step[];
  readonly timeS: number;
  readonly state: number[];
  /** Which event ended the piece; null: it reached its end. */
  readonly event: number | null;
}

export interface SolveOptions {
  readonly relative: number;
  readonly absolute: number;
  readonly longestStepS: number;
}

const MOST_STEPS = 5000;

/** The solver a step at a time, with what its dense output stands on. */
class Stepping extends Dopri {
  /** Makes a step and answers where it lies. */
  advance(from: number): { from: number; to: number; at: (t: number) => number[] } {
    // It runs until its time is past the wanted end: a hair past the present is one step.
    this.run(from + 1e-12 + Math.abs(from) * 1e-15);
    const made = this._history.at(-1)!;
    const stepper = this._stepper;
    return { from, to: made.t + made.h, at: (t) => stepper.interpolate(t, made) };
  }
}

/**
 * Integrates a smooth piece by the Dormand–Prince 5(4) pair with dense output until an event's function rises through
 * zero or the end is reached. The event is found as a root on the step's dense output, so no step stands across one.
 * @throws NoConvergenceError  the piece needs more steps than any run, or its step vanishes
 */
export function solvePiece(
  rates: Rates,
  start: { readonly timeS: number; readonly state: readonly number[] },
  endS: number,
  events: readonly Event[],
  options: SolveOptions,
): Solved {
  const solver = new Stepping(rates, start.state.length, {
    atol: options.absolute,
    rtol: options.relative,
    stepSizeMax: options.longestStepS,
    tcrit: [endS],
    maxSteps: MOST_STEPS,
  });
  const steps: Step[] = [];
  let timeS = start.timeS;
  let state = [...start.state];
  let before = events.map((event) => event(timeS, state));
  try {
    solver.initialise(timeS, state);
    while (timeS < endS - 1e-12) {
      const { from, to, at } = solver.advance(timeS);
      const next = at(to);
      const after = events.map((event) => event(to, next));
      let first: { which: number; timeS: number } | null = null;
      events.forEach((event, which) => {
        // What stands at or above zero from the start is armed once it has been below.
        if (!(before[which]! < 0 && after[which]! >= 0)) return;
        const found = rootOf((t) => event(t, at(t)), from, to, before[which]!, after[which]!);
        if (first === null || found < first.timeS) first = { which, timeS: found };
      });
      const ended = first as { which: number; timeS: number } | null;
      if (ended !== null) {
        const end = at(ended.timeS);
        if (ended.timeS > from) steps.push({ fromS: from, toS: ended.timeS, at, end });
        return { steps, timeS: ended.timeS, state: end, event: ended.which };
      }
      steps.push({ fromS: from, toS: to, at, end: next });
      timeS = to;
      state = next;
      before = after;
    }
  } catch (error) {
    if (error instanceof Error && error.message.startsWith('Integration failure'))
      throw new NoConvergenceError(
        'The run of this vehicle cannot be computed: its figures make it change faster than any step can follow.',
        steps.length,
        Number.NaN,
      );
    throw error;
  }
  return { steps, timeS, state, event: null };
}

/** Root between two ends of opposite sign, by false position that halves whenever one end stays (Illinois). */
export function rootOf(
  f: (x: number) => number,
  low: number,
  high: number,
  atLow = f(low),
  atHigh = f(high),
): number {
  let [a, b, fa, fb] = [low, high, atLow, atHigh];
  let stayed = 0;
  for (let i = 0; i < 100; i++) {
    if (Math.abs(b - a) <= 1e-12 * Math.max(1, Math.abs(b))) break;
    const c = b - (fb * (b - a)) / (fb - fa);
    const fc = f(c);
    if (fc === 0) return c;
    if (fc < 0 === fb < 0) {
      if (stayed === 1) fa /= 2;
      stayed = 1;
      [b, fb] = [c, fc];
    } else {
      if (stayed === -1) fb /= 2;
      stayed = -1;
      [a, fa] = [c, fc];
    }
  }
  // The end at which the function has risen: an event has then happened.
  return fb >= 0 ? b : a;
}
