import type { ComparePull } from './types.ts';

/**
 * Differences of configuration between two groups, in words; null where there are none.
 * @param built  how the builds differ, in a sentence
 */
export function besidesOf(
  a: readonly ComparePull[],
  b: readonly ComparePull[],
  built: string | null,
): string | null {
  const said = (pulls: readonly ComparePull[]) =>
    [...new Set(pulls.map((pull) => pull.configuration).filter((text) => text !== null))].sort();
  const [first, second] = [said(a), said(b)];
  if (first.join('|') === second.join('|')) return built;
  const text = (list: readonly string[]) =>
    list.length === 0 ? 'as the day says' : list.join('; ');
  const stood = `Besides what is compared, the engine stood differently: ${text(first)} against ${text(second)}.`;
  return built === null ? stood : `${built} ${stood}`;
}
