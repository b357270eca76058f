/** Quantile of sorted values by linear interpolation (definition 7 of Hyndman and Fan 1996). */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const i = Math.floor(place);
  const low = sorted[i]!;
  const high = sorted[Math.min(sorted.length - 1, i + 1)]!;
  return low === high ? low : low + (place - i) * (high - low);
}
