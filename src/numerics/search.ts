import { InputError } from '../errors.ts';

/** Golden section: each step keeps this share of the interval. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Place and value of the smallest f on [low, high]: a scan of `steps` intervals, then golden section round the best of
 * them. A dip narrower than one interval may be missed: choose the steps by how fast f can turn.
 * @throws InputError  when the interval is empty or f is not a number somewhere on the scan
 */
export function smallestOnInterval(
  f: (x: number) => number,
  low: number,
  high: number,
  steps: number,
): { readonly x: number; readonly value: number } {
  if (!(high > low && steps >= 1))
    throw new InputError(
      `invalid interval: ${low} to ${high} in ${steps} steps; expected low < high`,
    );
  const step = (high - low) / steps;
  const placeOf = (index: number) => (index === steps ? high : low + index * step);
  let best = 0;
  let bestValue = Number.POSITIVE_INFINITY;
  for (let index = 0; index <= steps; index++) {
    const value = f(placeOf(index));
    if (Number.isNaN(value))
      throw new InputError(`invalid function: not a number at ${placeOf(index)}`);
    if (value < bestValue) {
      best = index;
      bestValue = value;
    }
  }
  let left = placeOf(Math.max(0, best - 1));
  let right = placeOf(Math.min(steps, best + 1));
  let inner = right - GOLDEN * (right - left);
  let outer = left + GOLDEN * (right - left);
  let innerValue = f(inner);
  let outerValue = f(outer);
  // 44 steps bring two scan intervals to a billionth of one, below what a quadratic dip can be told to.
  for (let count = 0; count < 44; count++) {
    if (innerValue <= outerValue) {
      right = outer;
      outer = inner;
      outerValue = innerValue;
      inner = right - GOLDEN * (right - left);
      innerValue = f(inner);
    } else {
      left = inner;
      inner = outer;
      innerValue = outerValue;
      outer = left + GOLDEN * (right - left);
      outerValue = f(outer);
    }
  }
  const found =
    innerValue <= outerValue ? { x: inner, value: innerValue } : { x: outer, value: outerValue };
  // The smallest may stand at an end of the interval or at a kink on the scan, which golden section only approaches.
  return found.value < bestValue ? found : { x: placeOf(best), value: bestValue };
}

/**
 * The x on [low, high] where f passes through zero, by bisection to the last bit.
 * @throws InputError  when f has the same sign at both ends
 */
export function crossingOnInterval(f: (x: number) => number, low: number, high: number): number {
  const atLow = f(low);
  const atHigh = f(high);
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0 && Number.isFinite(atLow) && Number.isFinite(atHigh)))
    throw new InputError(`no crossing between ${low} and ${high}: ${atLow} and ${atHigh}`);
  let [left, right] = [low, high];
  for (;;) {
    const middle = (left + right) / 2;
    if (middle <= Math.min(left, right) || middle >= Math.max(left, right)) return middle;
    const value = f(middle);
    if (value === 0) return middle;
    if (value < 0 === atLow < 0) left = middle;
    else right = middle;
  }
}
