/** Advance widths of Inter in em, by class of letter: enough to keep labels apart without measuring in a browser. */
const NARROW = new Set([..."iljtfrI.,:;|!'()[]"]);
const WIDE = new Set([...'mwMW%@']);

/** About how wide a text will be [px]. Errs to the wide side, so that what fits here fits on screen. */
export function textWidth(text: string, sizePx: number, bold = false): number {
  let em = 0;
  for (const letter of text) {
    if (letter === ' ' || letter === '\u202f' || letter === '\u00a0') em += 0.28;
    else if (/\d/.test(letter)) em += 0.645;
    else if (NARROW.has(letter)) em += 0.34;
    else if (WIDE.has(letter)) em += 0.88;
    else if (/[A-Z]/.test(letter)) em += 0.68;
    else em += 0.58;
  }
  return em * sizePx * (bold ? 1.06 : 1);
}

/** A page or file that is opened where Inter is not is set in letters wider by this. */
export const OTHER_LETTERS = 1.15;

/**
 * Moves labels apart along one line: returns positions at least `gap` apart, as near to the wished ones as the order
 * allows, inside [low, high] as long as they fit there.
 */
export function dodge(
  wished: readonly number[],
  gap: number,
  low: number,
  high: number,
): readonly number[] {
  const targets = wished.map((at) => Math.min(Math.max(at, low), high));
  const order = targets.map((_, at) => at).sort((a, b) => targets[a]! - targets[b]!);
  const within = (centre: number, size: number) =>
    Math.min(Math.max(centre, low + size), Math.max(low + size, high - size));
  // Pool neighbours that would overlap and centre each pool on the mean of what its members wished.
  const pools: { members: number[]; centre: number }[] = [];
  for (const at of order) {
    pools.push({ members: [at], centre: targets[at]! });
    while (pools.length > 1) {
      const last = pools[pools.length - 1]!;
      const before = pools[pools.length - 2]!;
      const need = ((last.members.length + before.members.length) * gap) / 2;
      if (last.centre - before.centre >= need - 1e-9) break;
      const members = [...before.members, ...last.members];
      const mean = members.reduce((sum, member) => sum + targets[member]!, 0) / members.length;
      pools.splice(-2, 2, { members, centre: within(mean, ((members.length - 1) * gap) / 2) });
    }
  }
  const placed = [...targets];
  for (const pool of pools) {
    const size = ((pool.members.length - 1) * gap) / 2;
    pool.members.forEach((member, at) => {
      placed[member] = within(pool.centre, size) - size + at * gap;
    });
  }
  return placed;
}

/**
 * Rows for labels that share a line: each label takes the first row (0, 1, ...) where it touches no other.
 * `spans` are [left, right] in pixels.
 */
export function rowsFor(spans: readonly (readonly [number, number])[], gap = 6): readonly number[] {
  const rows: [number, number][][] = [];
  return spans.map(([left, right]) => {
    const free = rows.findIndex((row) => row.every(([l, r]) => right + gap < l || left > r + gap));
    const row = free === -1 ? rows.length : free;
    rows[row] = [...(rows[row] ?? []), [left, right]];
    return row;
  });
}

/**
 * Where the middle of a label stands that must not touch an upright line: on its wished place where that is free, else
 * beside the line on the side it wished for, else on the other side. Where neither side has room it keeps its place.
 */
export function besideLine(
  wished: number,
  half: number,
  line: number | null,
  low: number,
  high: number,
  gap = 7,
): number {
  const middle = Math.max(low + half, Math.min(wished, high - half));
  if (line === null || Math.abs(middle - line) >= half + gap) return middle;
  const sides = [line - half - gap, line + half + gap];
  if (wished > line) sides.reverse();
  return sides.find((side) => side >= low + half && side <= high - half) ?? middle;
}

/** What a label or a mark takes up [px]. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const overlap = (one: Box, other: Box): boolean =>
  one.left < other.right &&
  one.right > other.left &&
  one.top < other.bottom &&
  one.bottom > other.top;
