import { quantile } from '../../numerics/index.ts';
import type { Mark } from '../types.ts';
import type { Check } from './context.ts';

/**
 * Sweep rates of the trade, some 100 to 600 rev/min per s; faster reads low and late. From handbooks, from
 * memory.
 */
const SWEEP_RATE_RANGE_RPM_PER_S = [20, 800] as const;
/** Fastest part over slowest part of an even sweep (10 % and 90 % points). Our own figure, no source. */
const EVEN_SWEEP_RATIO = 1.6;

/** Rate of the sweep and how even it was. */
export const sweepRateCheck: Check = ({ points, span, curve }) => {
  const { track } = points;
  const rate = curve.conditions.sweepRateRpmPerS;
  if (track === null || rate === null) return [];
  if (span.direction !== 'rising' && span.direction !== 'falling') return [];
  const marks: Mark[] = [];
  const pace = Math.abs(rate);
  const [slowest, fastest] = SWEEP_RATE_RANGE_RPM_PER_S;
  if (pace > fastest) {
    marks.push({
      kind: 'sweep rate',
      severity: 'look again',
      sentence: `The sweep ran at ${pace.toFixed(0)} rev/min per second, faster than ${fastest}: lag and inertia weigh so much that the curve leans on their figures.`,
    });
  } else if (pace < slowest) {
    marks.push({
      kind: 'sweep rate',
      severity: 'note',
      sentence: `The sweep ran at ${pace.toFixed(0)} rev/min per second, slower than ${slowest}: the engine heats up on the way.`,
    });
  }
  const rates = Array.from({ length: 60 }, (_, i) =>
    Math.abs(track.rateRpmPerS(track.fromS + ((track.toS - track.fromS) * (i + 0.5)) / 60)),
  );
  const [low, high] = [quantile(rates, 0.1), quantile(rates, 0.9)];
  if (high > EVEN_SWEEP_RATIO * low) {
    marks.push({
      kind: 'sweep rate',
      severity: high > 3 * low ? 'look again' : 'note',
      sentence: `The sweep was uneven: from ${low.toFixed(0)} to ${high.toFixed(0)} rev/min per second.`,
    });
  }
  return marks;
};
