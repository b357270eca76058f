import { REPEAT_LOG_SD, REPEAT_MEDIAN } from '../compare/priors.ts';
import type { Banded } from '../pull/index.ts';

/** How far two pulls of one setting differ, as sd of mean power [%]. */
export interface Repeatability {
  readonly percent: Banded;
  readonly from: 'stated' | 'pulls' | 'prior';
  /** Repeated pulls that it was learned from. */
  readonly pulls: number;
  readonly sentence: string;
}

/** Sums of squares of log mean power about their own mean, with their degrees of freedom. */
interface Repeats {
  readonly squares: readonly { readonly square: number; readonly freedom: number }[];
  readonly pulls: number;
  readonly cell: string;
}

const GRID = 400;
const REACH = 4;

/**
 * Pull-to-pull sd: as stated, or the posterior of what is usual given the scatter of repeated pulls, whose sum of
 * squares is σ² times chi-square. A drift of the day is taken for scatter, so the figure errs to the large side.
 */
export function repeatabilityFrom(
  known: Repeats | { readonly statedPercent: number },
): Repeatability {
  if ('statedPercent' in known) {
    const value = known.statedPercent;
    return {
      percent: { value, low: value, high: value },
      from: 'stated',
      pulls: 0,
      sentence: `The shop states that pulls repeat within ${value} % (1 sd).`,
    };
  }
  const square = known.squares.reduce((sum, one) => sum + one.square, 0);
  const freedom = known.squares.reduce((sum, one) => sum + one.freedom, 0);
  const percent = posterior(square, freedom);
  const said = `${percent.value.toFixed(2)} % (1 sd, 95 %: ${percent.low.toFixed(2)} to ${percent.high.toFixed(2)} %)`;
  return freedom === 0
    ? {
        percent,
        from: 'prior',
        pulls: 0,
        sentence: `No pull was repeated on ${known.cell} yet: ${said} is taken, as is usual. Two pulls of one setting would begin to tell.`,
      }
    : {
        percent,
        from: 'pulls',
        pulls: known.pulls,
        sentence: `On ${known.cell}, ${known.pulls} repeated pulls differ by ${said}.`,
      };
}

/** The figure that a plan rests on [%]: two digits are more than it is known by. */
export const planPercent = ({ percent }: Repeatability) =>
  Math.max(0.01, Math.round(100 * percent.value) / 100);

/** Median and central 95 % over an even grid of log σ. */
function posterior(square: number, freedom: number): Banded {
  const logs = Array.from(
    { length: GRID + 1 },
    (_, i) => Math.log(REPEAT_MEDIAN) + REPEAT_LOG_SD * REACH * ((2 * i) / GRID - 1),
  );
  const densities = logs.map(
    (log) =>
      -0.5 * ((log - Math.log(REPEAT_MEDIAN)) / REPEAT_LOG_SD) ** 2 -
      freedom * log -
      square / (2 * Math.exp(2 * log)),
  );
  const most = Math.max(...densities);
  const weights = densities.map((density) => Math.exp(density - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const at = (p: number) => {
    let sum = 0;
    for (const [i, weight] of weights.entries()) {
      sum += weight;
      if (sum >= p * total) return 100 * Math.exp(logs[i]!);
    }
    return 100 * Math.exp(logs.at(-1)!);
  };
  return { value: at(0.5), low: at(0.025), high: at(0.975) };
}
