import { describe, expect, it } from 'vitest';
import { catalogueOf, LANGUAGES } from './index.ts';
import { patternOf } from './pattern.ts';
import { spokenParts } from './spokenParts.fixture.ts';

/** Rooms whose sentences a report prints, wholly; of the others only what the catalogue has. */
const SPEAKING = [
  'pull',
  'ladder/answer.ts',
  'ladder/band.ts',
  'ladder/limit.ts',
  'ladder/next.ts',
  'ladder/sentences.ts',
  'ladder/warnings.ts',
  'ladder/words.ts',
  'trade/correction/contract.ts',
  'compare/besides.ts',
  'compare/compare.ts',
  'compare/reconcile.ts',
  'report/compareAlike.ts',
  'report/compareSides.ts',
  'report/builtOtherwise.ts',
  'report/pullSettings.ts',
  'service/work/calibrations.ts',
  'service/work/ladders.ts',
];
const ROOMS = [
  ...SPEAKING,
  'build',
  'compare',
  'ladder',
  'numerics',
  'record',
  'service/work',
  'trade',
];
/** Said to whoever asks for a comparison or writes a program, never in a report. */
const NEVER_PRINTED: readonly RegExp[] = [
  /must (all |both )?be above zero|must not be below zero|is empty\.|needs two|needs one curve|two sides at least/,
  /^(the gain worth having,|of the use|the band|the holdback|the step)$/i,
  /^Taken w|^as chosen|share no setting|of different engines, each at a setting|^all at/,
  /typed peaks|typed figures|stands on both sides|a pull is compared with others/,
  // Of a whole recording, or of speeds nobody asks for in a report.
  /no pull in this recording|is a pull: the speed|the speed never rises|th(is|ese|e) pulls? covers?|not the whole band/i,
  // Why a pull is left out of a comparison, which the report does not list.
  /compared$|pulls that do not say/,
  // What was found and what was expected stand beside the sentence of an error; programs that ask wrongly.
  /^(a sweep|speeds in|torque or power|a lower and|at least|within {}|more than {}|in the middle|or more under)/,
  /expected|^invalid |Pa absolute$/,
  // Words of the code, and of sessions in files.
  /^time since last|^begun too far|in its session file|^inertia" of the cell/,
];

/** Units come with the figures before them. */
const UNIT = /^ ?(N·m|°C|hPa|kPa|rev\/min|rpm|kg·m²|s|%|°)(?![a-z]) ?/;
/** A piece of a sentence as the catalogue would have it: figures are places, and so are the units beside them. */
const bare = (part: string) =>
  part
    .replace(/[-−]?\d[\d.]*( to \d+)?( %)?/g, '{}')
    .replace(UNIT, '')
    .replace(/^[;,"\s()]+|[\s("]+$/g, '')
    .replace(/ (from|at|between|near|lies|less)$/i, '');

/** Letters that no other sentence has by chance. */
const LONG = 8;

const spoken = LANGUAGES.map(catalogueOf).flatMap(({ words, spoken: own }) =>
  own === null ? [] : [{ language: words.language, ...own }],
);

describe.each(spoken)('what the computing rooms say, in $language', ({ phrases }) => {
  const patterns = phrases.map(([english, own]) => patternOf(english, own));

  it('has every sentence once', () => {
    const owns = new Map<string, Set<string>>();
    for (const [english, own] of phrases) {
      const key = english.replace(/\{([#@?*]?)\w+\}/g, '{$1}');
      const plain = own.replace(/\{([#@?*]?)\w+\}/g, '{$1}');
      owns.set(key, (owns.get(key) ?? new Set()).add(plain));
    }
    expect([...owns].filter(([, said]) => said.size > 1)).toEqual([]);
  });

  it('has no sentence that nobody says any more', () => {
    const parts = new Set(
      [...spokenParts(ROOMS)].flatMap((part) => [part, part.replace(UNIT, ' ')]),
    );
    const said = [...parts].filter((part) => part.includes(' ')).join('\n');
    /** Made up of pieces that are said, long ones or whole ones: `boosted` in `The engine is boosted: ...`. */
    const isSaid = (text: string): boolean => {
      if (text === '' || (text.length >= LONG && said.includes(text))) return true;
      let most = 0;
      for (let step = 1 << 8; step > 0; step >>= 1)
        if (most + step <= text.length && said.includes(text.slice(0, most + step))) most += step;
      for (let end = most; end >= LONG; end = text.lastIndexOf(' ', end - 1))
        if (isSaid(text.slice(end))) return true;
      for (let end = text.length; end > 0; end--) {
        const piece = text.slice(0, end);
        const isWhole = parts.has(piece) || parts.has(piece[0]!.toLowerCase() + piece.slice(1));
        if (isWhole && isSaid(text.slice(end))) return true;
      }
      return false;
    };
    const stale = phrases.filter((_, i) => !patterns[i]!.literals.every(isSaid));
    expect(stale.map(([english]) => english)).toEqual([]);
  });

  it('has every sentence that a report can print', () => {
    const known = phrases.map(([english]) => bare(english.replace(/\{[#@?*]?\w+\}/g, '{}')));
    const all = known.join('\n');
    const missing = [...spokenParts(SPEAKING)]
      .flatMap((part) => part.split(/(?<=\.) /))
      .map(bare)
      .filter(
        (part) =>
          part.split(/\s+/).length > 2 &&
          !NEVER_PRINTED.some((pattern) => pattern.test(part)) &&
          !all.includes(part),
      );
    expect(missing).toEqual([]);
  });
});
