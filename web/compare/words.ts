import { begun } from '../../src/compare/begun.ts';
import { headlineOf, leadOf } from '../../src/compare/finding.ts';
import { paragraphOf } from '../../src/compare/paragraph.ts';
import type { CompareAnswer, PairAnswer } from '../../src/compare/types.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { kept, percent, plain, rpm, speed } from '../charts/numbers.ts';
import type { Span } from '../charts/scale.ts';

/** `A`, `B`, `C`. */
export const letterOf = (side: number): string => String.fromCharCode(65 + side);

export const bandInWords = ([from, to]: Span): string => `${speed(from)} to ${rpm(to)}`;

/** `A`, `A and B`, `A, B and C`. */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** What is read from across the cell. */
export function headline(answer: CompareAnswer, units: UnitSystem): string {
  const [pair] = answer.pairs;
  if (answer.pairs.length === 1 && pair !== undefined)
    return kept(inUnitsOf(headlineOf(pair), units));
  const [best] = answer.ranking;
  const band = bandInWords(answer.bandRpm);
  if (best === undefined) return '';
  return best.likeIt.length === 0
    ? begun(`${best.name} gives most from ${band}`)
    : begun(
        `${listed([best.name, ...best.likeIt])} give most from ${band} and cannot be told apart`,
      );
}

/** What stands under the headline; of more than two sides the table beside says it. */
export const lead = ({ pairs, bandRpm }: CompareAnswer, units: UnitSystem): string =>
  pairs.length === 1 ? kept(inUnitsOf(leadOf(pairs[0]!, bandRpm), units)) : '';

/** The finding as a paragraph for the owner, in the units of whoever reads. */
export const paragraph = (answer: CompareAnswer, taken: string, units: UnitSystem): string =>
  inUnitsOf(paragraphOf(answer, taken, units), units);

/** How well pulls repeat, and where that is known from. */
export function repeatInWords({ repeatability }: CompareAnswer): string {
  const { value, low, high, from } = repeatability;
  const source = {
    stated: 'as the shop states it',
    prior: 'nothing was repeated, so this is what is usual for a good cell',
    pulls: 'from how these pulls repeat',
  }[from];
  return `${percent(value, 2)} of mean power (${plain(low, 2)} to ${plain(high, 2)}), ${source}`;
}

/**
 * How days differ, and where that is known from.
 * @param from  the service's sentence on it
 */
export function daysInWords({ dayToDay }: CompareAnswer, from: string): string {
  if (dayToDay === null) return from;
  const { value, low, high } = dayToDay;
  return `${percent(value, 2)} of mean power (${plain(low, 2)} to ${plain(high, 2)}). ${from}`;
}

/** Where a pair gains and where it gives up, as figures with the most that it is. */
export function regionFigures({ regions, bySpeed }: PairAnswer) {
  const [low, high] = [bySpeed.speedRpm[0]!, bySpeed.speedRpm.at(-1)!];
  const near = (at: number, end: number) => Math.abs(at - end) < 0.03 * (high - low);
  const rounded = (at: number) => speed(50 * Math.round(at / 50));
  return regions.map(({ fromRpm, toRpm, word, mostPercent, mostAtRpm }) => ({
    word,
    place:
      near(fromRpm, low) && near(toRpm, high)
        ? 'everywhere'
        : near(fromRpm, low)
          ? `below ${rounded(toRpm)}`
          : near(toRpm, high)
            ? `above ${rounded(fromRpm)}`
            : `${rounded(fromRpm)} to ${rounded(toRpm)}`,
    most: `up to ${percent(Math.abs(mostPercent))} at ${rounded(mostAtRpm)}`,
  }));
}
