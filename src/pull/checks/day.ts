import { median } from '../../numerics/index.ts';
import type { Curve, Mark } from '../types.ts';

/** A pull among the others of its day. */
export interface DayPullCheck {
  readonly id: string;
  readonly curve: Curve;
  /** From the end of the pull before to the start of this one [s]; null: not known, or the first. */
  readonly sinceLastPullS: number | null;
}

/** How far from the day's median a pull may start. Common practice, no source. */
const DAY_TOLERANCE_K = {
  oilTemperatureK: 8,
  waterTemperatureK: 6,
  airTemperatureK: 5,
} as const;
/** Pulls closer than this start hot, farther apart cold. Common practice, no source. */
const PAUSE_RANGE_S = [60, 1800] as const;

const NAMES = { oilTemperatureK: 'Oil', waterTemperatureK: 'Water', airTemperatureK: 'Inlet air' };

/**
 * The pulls of a day against each other: where each started in temperature, how long after the last, and a
 * temperature sensor that shows the very same figure in every pull. Marks by pull, in the order given.
 */
export function checkDay(pulls: readonly DayPullCheck[]): Mark[][] {
  const marks: Mark[][] = pulls.map(() => []);
  for (const key of ['oilTemperatureK', 'waterTemperatureK', 'airTemperatureK'] as const) {
    const known = pulls.flatMap(({ curve }, at) => {
      const value = curve.conditions[key];
      return value === null ? [] : [{ at, value }];
    });
    if (known.length < 3) continue;
    const usual = median(known.map(({ value }) => value));
    for (const { at, value } of known) {
      const off = value - usual;
      if (Math.abs(off) <= DAY_TOLERANCE_K[key]) continue;
      marks[at]!.push({
        kind: 'temperature',
        severity: 'look again',
        sentence: `${NAMES[key]} stood ${Math.abs(off).toFixed(0)} °C ${off > 0 ? 'above' : 'below'} the day's other pulls when this one began: part of its difference is heat.`,
      });
    }
    if (key === 'airTemperatureK' && known.every(({ value }) => value === known[0]!.value)) {
      marks[known[known.length - 1]!.at]!.push({
        kind: 'stuck channel',
        severity: 'look again',
        sentence: `Inlet air shows ${(known[0]!.value - 273.15).toFixed(1)} °C in every pull of the day, to the digit: the sensor may be stuck.`,
      });
    }
  }
  pulls.forEach(({ sinceLastPullS }, at) => {
    if (sinceLastPullS === null) return;
    const [soonest, latest] = PAUSE_RANGE_S;
    if (sinceLastPullS < soonest) {
      marks[at]!.push({
        kind: 'time since last pull',
        severity: 'note',
        sentence: `Only ${sinceLastPullS.toFixed(0)} s after the pull before: the engine had no time to come back to where that one started.`,
      });
    } else if (sinceLastPullS > latest) {
      marks[at]!.push({
        kind: 'time since last pull',
        severity: 'note',
        sentence: `${(sinceLastPullS / 60).toFixed(0)} minutes after the pull before: warm the engine to the same place before comparing.`,
      });
    }
  });
  return marks;
}
