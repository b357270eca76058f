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
  const apart = byName(first, second) ?? `${text(first)} against ${text(second)}`;
  const stood = `Besides what is compared, the engine stood differently: ${apart}.`;
  return built === null ? stood : `${built} ${stood}`;
}

/**
 * `exhaust: open pipes against silencer; octane: 98 against 95`, where both sides name the same things and only some
 * differ; null where they do not.
 */
function byName(first: readonly string[], second: readonly string[]): string | null {
  const [a, b] = [namesOf(first), namesOf(second)];
  if (a === null || b === null || [...a.keys()].join() !== [...b.keys()].join()) return null;
  const differing = [...a].flatMap(([name, own]) => {
    const [one, other] = [[...own].sort(), [...b.get(name)!].sort()];
    return one.join() === other.join()
      ? []
      : [`${name}: ${one.join(' or ')} against ${other.join(' or ')}`];
  });
  return differing.length === 0 ? null : differing.join('; ');
}

/** `exhaust: open; octane: 98` taken apart, by name; null where there is nothing, or a part has no name. */
function namesOf(texts: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> | null {
  const out = new Map<string, Set<string>>();
  for (const part of texts.flatMap((text) => text.split('; '))) {
    const at = part.indexOf(': ');
    if (at < 0) return null;
    const name = part.slice(0, at);
    out.set(name, (out.get(name) ?? new Set()).add(part.slice(at + 2)));
  }
  return out.size === 0 ? null : out;
}
