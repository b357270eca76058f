import type { StepAnswer } from '../../src/ladder/types.ts';

export type Telling = 'gain' | 'loss' | 'chance';

/** What the data say of one speed: told from chance, and which way. */
export function tellingAt(step: StepAnswer['bySpeed'], at: number): Telling {
  if (step.toldFromChance[at] !== true) return 'chance';
  return step.gainPercent[at]! >= 0 ? 'gain' : 'loss';
}

export interface Stretch {
  readonly telling: Telling;
  readonly x: readonly number[];
  readonly gain: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/**
 * Cuts a step's line into stretches of one meaning. Where the meaning changes between two speeds the cut lies half way,
 * so that the line has no gap and each speed keeps its own colour.
 */
export function stretches(step: StepAnswer['bySpeed']): readonly Stretch[] {
  type Open = { telling: Telling; x: number[]; gain: number[]; low: number[]; high: number[] };
  const found: Open[] = [];
  const put = (open: Open, x: number, gain: number, low: number, high: number) => {
    open.x.push(x);
    open.gain.push(gain);
    open.low.push(low);
    open.high.push(high);
  };
  step.speedRpm.forEach((x, at) => {
    const [gain, low, high] = [step.gainPercent[at]!, step.lowPercent[at]!, step.highPercent[at]!];
    const telling = tellingAt(step, at);
    let open = found[found.length - 1];
    if (open === undefined || open.telling !== telling) {
      const next: Open = { telling, x: [], gain: [], low: [], high: [] };
      if (open !== undefined) {
        const half = (list: readonly number[]) => (list[at - 1]! + list[at]!) / 2;
        const cut = [
          half(step.speedRpm),
          half(step.gainPercent),
          half(step.lowPercent),
          half(step.highPercent),
        ] as const;
        put(open, ...cut);
        put(next, ...cut);
      }
      found.push(next);
      open = next;
    }
    put(open, x, gain, low, high);
  });
  return found;
}
