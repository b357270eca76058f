import type { UnitSystem } from '../units/index.ts';
import { begun } from './begun.ts';
import { findingOf } from './finding.ts';
import type { CompareAnswer } from './types.ts';

const listed = (texts: readonly string[]) =>
  texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;

/**
 * All findings of a comparison as one paragraph for the owner. Of more than two groups: how they rank, which cannot be
 * told apart, then each over the first.
 * @param taken  which pulls were taken, in a sentence
 */
export function paragraphOf(
  { groups, pairs, ranking, bandRpm }: CompareAnswer,
  taken: string,
  units: UnitSystem = 'metric',
): string {
  const findings = pairs.map((pair, i) =>
    units === 'metric' ? pair.finding : findingOf(pair, groups[0]!, groups[i + 1]!, bandRpm, units),
  );
  const parts = pairs.length < 2 ? findings : [rankingOf(ranking, bandRpm), ...findings];
  return [...parts, taken]
    .filter((part) => part !== '')
    .map(begun)
    .join(' ');
}

function rankingOf(
  ranking: CompareAnswer['ranking'],
  [from, to]: CompareAnswer['bandRpm'],
): string {
  const band = `from ${Math.round(from)} to ${Math.round(to)} rev/min`;
  const [first, ...others] = ranking;
  const like = first!.likeIt;
  const behind = others.filter(({ name }) => !like.includes(name)).map(({ name }) => name);
  const ahead =
    like.length === 0
      ? `By mean power ${band}, ${first!.name} stands first`
      : `By mean power ${band}, ${listed([first!.name, ...like])} stand first and cannot be told apart`;
  return behind.length === 0
    ? `${ahead}.`
    : `${ahead}; behind ${behind.length === 1 ? 'is' : 'are'} ${listed(behind)}${behind.length === 1 ? '' : ', in this order'}.`;
}
