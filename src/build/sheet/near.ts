/** Finding what somebody meant who misspelled it. */

/** Letters and digits only, so that case, spaces and dashes play no part. */
const bare = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
/** Of longer texts nobody knows what was meant, and comparing them takes time. */
const LONGEST = 60;

/**
 * How many letters have to be added, left out, changed or swapped with their neighbour to get from one text to the
 * other (restricted Damerau-Levenshtein, row by row).
 */
function editsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, before[j - 2]! + 1);
      row.push(best);
    }
    [before, last] = [last, row];
  }
  return last[b.length]!;
}

/**
 * The name nearest to a misspelled one, or null where none is near: up to a third of its letters wrong.
 * @param others  more spellings of each name (its label), as `[name, spelling]`
 */
export function nearest(
  text: string,
  names: readonly string[],
  others: readonly (readonly [name: string, spelling: string])[] = [],
): string | null {
  const wanted = bare(text.slice(0, LONGEST + 1));
  if (wanted === '' || wanted.length > LONGEST) return null;
  let found: string | null = null;
  let fewest = Math.floor(wanted.length / 3) + 0.5;
  for (const [name, spelling] of [...names.map((one) => [one, one] as const), ...others]) {
    const edits = editsBetween(wanted, bare(spelling));
    if (edits < fewest) {
      fewest = edits;
      found = name;
    }
  }
  return found ?? begunAs(wanted, names);
}

/** The one name that begins so (`cam`), where somebody wrote it short. */
function begunAs(wanted: string, names: readonly string[]): string | null {
  const begun = wanted.length < 3 ? [] : names.filter((name) => bare(name).startsWith(wanted));
  return begun.length === 1 ? begun[0]! : null;
}
