/** What loggers write where no sensor is connected. */
const FILLERS = new Set([
  9999, -9999, 999.9, -999.9, 9999.9, -9999.9, 999.99, -999.99, 99999, -99999, 999, -999, 32767,
  -32768, 65535, 3276.7, -3276.8, 6553.5, 327.67, -327.68,
]);
/** Found so often that a column of nothing else may be a true reading. */
const RARE_ALONE = new Set([999, -999, 327.67, -327.68]);

/** Rows that hold a filler, and which. */
interface FillerFinding {
  readonly filler: number;
  readonly rows: number;
  readonly firstRow: number;
}

/**
 * Replaces an unchanging filler (9999, -999.9) by NaN, in place. A filler is one of the known figures that either is all
 * the column holds, or stands far outside of everything else in it and is reached in one step.
 */
export function takeFillers(values: Float64Array): FillerFinding | null {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  // What stands outside of everything else is the highest or the lowest of all.
  return takeFiller(values, highest) ?? takeFiller(values, lowest);
}

function takeFiller(values: Float64Array, filler: number): FillerFinding | null {
  if (!FILLERS.has(filler)) return null;
  let firstRow = -1;
  let hits = 0;
  let others = 0;
  let away = Number.POSITIVE_INFINITY;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    if (Number.isNaN(value)) continue;
    if (value === filler) {
      if (hits++ === 0) firstRow = row;
    } else {
      others++;
      const distance = Math.abs(filler - value);
      if (distance < away) away = distance;
    }
  }
  if (others === 0) {
    if (values.length < 3 || RARE_ALONE.has(filler)) return null;
  } else if (away < largestStep(values, filler) * 3 || away < 0.2 * Math.abs(filler)) return null;
  for (let row = firstRow; row < values.length; row++)
    if (values[row] === filler) values[row] = Number.NaN;
  return { filler, rows: hits, firstRow };
}

/** The largest change from one row to the next where neither is the filler. */
function largestStep(values: Float64Array, filler: number): number {
  let largest = 0;
  for (let row = 1; row < values.length; row++) {
    const a = values[row - 1]!;
    const b = values[row]!;
    if (a === filler || b === filler) continue;
    const step = Math.abs(b - a);
    if (step > largest) largest = step;
  }
  return largest;
}
