import type { Difference } from '../../src/compare/difference.ts';
import type { StepAnswer } from '../../src/ladder/types.ts';

export type Telling = 'gain' | 'loss' | 'chance';

/** A step of a ladder as any difference by speed. */
export const differenceOf = (step: StepAnswer['bySpeed']): Difference => ({
  speedRpm: step.speedRpm,
  value: step.gainPercent,
  low: step.lowPercent,
  high: step.highPercent,
  chance: step.chancePercent,
  toldFromChance: step.toldFromChance,
});

/** What the data say of one speed: told from chance, and which way. */
export function tellingAt(difference: Difference, at: number): Telling {
  if (difference.toldFromChance[at] !== true) return 'chance';
  return difference.value[at]! >= 0 ? 'gain' : 'loss';
}

export interface Stretch {
  readonly telling: Telling;
  readonly x: readonly number[];
  readonly value: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/**
 * Cuts a line into stretches of one meaning. Where the meaning changes between two speeds the cut lies half way,
 * so that the line has no gap and each speed keeps its own colour.
 */
export function stretches(difference: Difference): readonly Stretch[] {
  type Open = { telling: Telling; x: number[]; value: number[]; low: number[]; high: number[] };
  const found: Open[] = [];
  const put = (open: Open, x: number, value: number, low: number, high: number) => {
    open.x.push(x);
    open.value.push(value);
    open.low.push(low);
    open.high.push(high);
  };
  const { speedRpm } = difference;
  speedRpm.forEach((x, at) => {
    const [value, low, high] = [difference.value[at]!, difference.low[at]!, difference.high[at]!];
    const telling = tellingAt(difference, at);
    let open = found[found.length - 1];
    if (open === undefined || open.telling !== telling) {
      const next: Open = { telling, x: [], value: [], low: [], high: [] };
      if (open !== undefined) {
        const half = (list: readonly number[]) => (list[at - 1]! + list[at]!) / 2;
        const cut = [
          half(speedRpm),
          half(difference.value),
          half(difference.low),
          half(difference.high),
        ] as const;
        put(open, ...cut);
        put(next, ...cut);
      }
      found.push(next);
      open = next;
    }
    put(open, x, value, low, high);
  });
  return found;
}
