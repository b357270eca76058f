import { describe, expect, it } from 'vitest';
import {
  answerLadder,
  LAMBDA,
  type LadderInput,
  type LadderPull,
  SHIPPED_MIXTURE_USES,
} from '../../../ladder/index.ts';
import { typedLadder } from '../../../ladder/typed.fixture.ts';
import { Teller } from '../tell.ts';
import { sheet } from './de/sheet/index.ts';
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
  'service/work/cautions.ts',
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
      const known = found.get(text) ?? isPiecedTogether(text);
      found.set(text, known);
      return known;
    };
    /** What a text came to, since its ends come up again and again. */
    const found = new Map<string, boolean>();
    const isPiecedTogether = (text: string): boolean => {
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
    // Those of the sheet are held against its registries, in their own folder.
    const ofSheet = new Set(sheet);
    const stale = phrases.filter(
      (phrase, i) => !ofSheet.has(phrase) && !patterns[i]!.literals.every(isSaid),
    );
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

const figuresOf = (text: string): string[] =>
  [
    ...text
      .replaceAll('1/min', '')
      .replace(/(\d{4})-\d\d-0?(\d+)/g, '$2. $1')
      .matchAll(/[-−]?\d+(?:[.,]\d+)?/g),
  ]
    .map(([figure]) => figure.replace('−', '-').replace(',', '.'))
    .sort();
/** Words that no German sentence has. */
const ENGLISH = /\b(the|of|and|is|are|with|from|to|by|not|for|it|this|that|pull|speed|rpm|rev)\b/;

/** @param names  of things in the sentences, which stay as they are */
function told(sentences: readonly string[], names: readonly string[] = []): readonly string[] {
  const stays: string[] = [];
  for (const units of ['metric', 'us'] as const) {
    const tell = new Teller(catalogueOf('de'), units, new Set(names));
    const plain = new Teller(catalogueOf('en'), units);
    for (const sentence of new Set(sentences)) {
      const own = tell.told(sentence);
      const withoutNames = names.reduce((text, name) => text.replaceAll(name, ''), own);
      if (ENGLISH.test(withoutNames)) stays.push(own);
      expect(figuresOf(own), own).toEqual(figuresOf(plain.told(sentence)));
    }
    stays.push(...tell.inEnglish);
  }
  return stays;
}

describe('ladders in German', () => {
  const heard = { watched: 'ear' } as const;
  const knocked = { watched: 'ear', knockHeard: true } as const;
  const aborted = { aborted: true, watched: 'ear' } as const;
  const day: readonly (readonly [number, number, Partial<LadderPull>?])[] = [
    [24, 396, heard],
    [26, 405, heard],
    [28, 411, heard],
    [30, 413.5, heard],
    [32, 413, heard],
  ];
  const of = (rungs: typeof day, more: Partial<LadderInput> = {}) => typedLadder(rungs, more);
  const mixture = { kind: LAMBDA, uses: SHIPPED_MIXTURE_USES, step: 0.01, exhaustLimitK: 1250 };
  const lean: typeof day = [
    [0.82, 402, heard],
    [0.84, 405, heard],
    [0.86, 406, heard],
    [0.88, 405.8, { ...heard, exhaustPeakK: 1300 }],
    [0.9, 403, heard],
  ];
  it.each<[string, LadderInput]>([
    ['no pull', of([])],
    ['one rung', of(day.slice(0, 1))],
    ['two rungs', of(day.slice(0, 2))],
    ['still climbing', of(day.slice(0, 3))],
    ['one that is finished', of([...day, [28, 411.2, heard]])],
    ['one that nobody watched', of(day.map(([lead, power]) => [lead, power]))],
    ['the last unwatched', of([...day.slice(0, 4), [32, 413]])],
    [
      'all unwatched but noted so',
      of(day.map(([lead, power]) => [lead, power, { watched: 'not' }])),
    ],
    ['a knocking rung', of([...day.slice(0, 3), [30, 413, knocked]])],
    ['back from a knocking rung', of([...day.slice(0, 3), [30, 413, knocked], [28, 411, heard]])],
    ['the first knocks', of([[24, 396, knocked]])],
    ['knock that another ran past', of([...day, [28, 411, knocked]])],
    ['one that disagrees', of([...day.slice(0, 4), [28, 380, heard], [32, 413, heard]])],
    [
      'one that began too far',
      of([
        [32, 413, heard],
        [34, 408, heard],
        [36, 399, heard],
      ]),
    ],
    [
      'left out and aborted',
      of([...day, [28, 300, { excludedBecause: 'es regnete' }], [29, 1, aborted]]),
    ],
    ['no peak', of([...day, [29, 1, { peakPowerW: null }], [Number.NaN, 400, heard]])],
    [
      'worst fuel and inlet',
      of([...day, [28, 411, heard]], { worstInletDeltaK: 15, worstFuelDeltaOctane: 2 }),
    ],
    ['boosted', of(day, { aspiration: 'boosted' })],
    ['nitrous', of(day, { aspiration: 'nitrous' })],
    [
      'hot exhaust',
      of(
        day.map(([a, b]) => [a, b, { ...heard, exhaustPeakK: 1300 }]),
        { exhaustLimitK: 1250 },
      ),
    ],
    ['mixture', of(lean, mixture)],
    [
      'mixture, cool',
      of(
        lean.map(([a, b]) => [a, b, heard]),
        mixture,
      ),
    ],
    ['mixture, begun', of(lean.slice(0, 2), mixture)],
  ])('%s', (_, input) => {
    const { headline, summary, uses, warnings, next } = answerLadder(input);
    const all = [
      headline,
      summary,
      next.why,
      ...Object.values(uses).map(({ why }) => why),
      ...warnings,
    ];
    expect(told(all.filter((one) => one !== ''))).toEqual([]);
  });
});

it('tells in German what pulls, comparisons and the record say, as they put it together', () => {
  const names = [
    'Refresh 2',
    'As it came',
    'Cell 1, water brake',
    'EGT 3 and 4',
    'crank',
    'rods',
    'a.csv of the day “One”',
  ];
  const sentences = [
    'Torque was computed from EGT 3 and 4.',
    'Torque of the brake was multiplied by 0.62, brake turns per crank turn.',
    'The engine is on nitrous: observed figures are shown; SAE J1349 is written for natural aspiration and is there as an option.',
    "The logger had corrected this torque to ISO 1585; that was taken out with this pull's air before anything else.",
    'Air pressure and temperature were not recorded, so the torque could not be brought to SAE J1349; it is shown as corrected by the logger to ISO 1585.',
    'Air pressure and temperature were not recorded, so the torque could not be brought to observed; it is shown as observed.',
    'The torque that accelerated the rotating parts was put back with 0.42 kg·m², the figure of the cell; nobody has said that it is right with this engine on it.',
    'The inertia of what turns is not known, so the torque that accelerated it is missing from this curve: at this sweep rate 31 N·m for each kg·m².',
    'Torque stood 6.5 N·m below the curve at 3031 rev/min; those readings were left out.',
    'Torque stood 62 N·m above the curve from 4098 to 4210 rev/min; those readings were left out.',
    "The load cell's zero moved by 2.8 N·m between before and after the pull (-1.4 to 1.4 N·m); the mean of both was taken off, which leaves 1.4 N·m in doubt.",
    'With the engine at rest the torque reads -3.2 N·m; that zero was taken off.',
    "Torque was corrected by the cell's calibration of 2026-05-04: less -0.24 N·m at the sensor, divided by 1.0088.",
    'The calibration of 2026-05-04 went up to 300 N·m at the sensor, and this pull stood at 410 N·m: above the heaviest weights nothing was shown.',
    'Torque follows the throttle 0.081 s late in this recording; the sweep was put right by that much.',
    'The inlet air temperature in "EGT 3 and 4" cannot be that of any air, so it was not used.',
    'The humidity that was given cannot be that of any air, so it was not used.',
    'Correction factor 1.083 is outside the 0.93 to 1.07 that SAE J1349 allows: quote the observed figure beside it.',
    'Inlet air at -2 °C is outside the 15 to 35 °C that SAE J1349 is written for.',
    'Dry air pressure of 89.1 kPa is outside the 90 to 105 kPa that SAE J1349 is written for.',
    "The air pressure moved by 20.0 hPa during the pull, which no weather does: the sensor sees the cell's fans or drifts.",
    '"EGT 3 and 4" stands at the end of its scale from 3000 to 4000 rev/min: what it measures went further.',
    '1 row carries a time that does not move on; it was left out.',
    'The recording has a gap of 1.2 s between 3200 and 3400 rev/min; the curve bridges it with a wide band.',
    'The sweep ran at 900 rev/min per second, faster than 800: lag and inertia weigh so much that the curve leans on their figures.',
    'The sweep was uneven: from 120 to 410 rev/min per second.',
    'The pull misses 2000 to 2300 and 6400 to 7000 rev/min of the band from 2000 to 7000. The throttle closed at 6350 rev/min, before the end.',
    "Power may be highest at the upper end of the sweep (6420 rev/min): the peak given is that of the speeds swept, and the engine's own may lie beyond.",
    'Water stood at 98 °C when the pull began, above its window of 70 °C to 95 °C.',
    "Inlet air stood 6 °C below the day's other pulls when this one began: part of its difference is heat.",
    'Oil pressure is 120 kPa at 6100 rev/min, less than the 420 kPa that this speed asks for.',
    'Oil pressure sags from 400 to 200 kPa at 5200 rev/min while the speed rises: look for air at the pickup before the next pull.',
    'The banks differ: bank 1 ran at 0.92, cylinder 3 at 0.87; the leaner is judged.',
    'Lambda ran at 0.93 over the band, 0.06 leaner than its target of 0.87 ("EGT 3 and 4").',
    'Exhaust of cylinder 4 stands 74 °C below the others: rich, misfiring, or a dead sensor.',
    'Only 4 points are left, too few for a curve.',
    'By their sheets Refresh 2 has other parts or measures than As it came: new: crank and rods; gone: crank; 1 other figure moved. Besides what is compared, the engine stood differently: air cleaner: fitted against none; plugs: cold against not said.',
    'They are different builds, As it came and Refresh 2; neither has a sheet that would say what was changed.',
    'Compared from 2500 to 6500 rev/min: not every pull covers the whole band.',
    'Compared at 28 degrees of lead, which both have; by its own pulls the strongest setting is 28 degrees of lead for As it came and 30 degrees of lead, lambda 0.88 for Refresh 2.',
    'Compared in ISO 1585 and not in SAE J1349: not every pull can be brought there with the air that was recorded.',
    'The sweeps were not equally fast (300 against 480 rev/min per second), with inertia out of the torque: part of the gain may be that; a fast sweep shows what heat and filling lag behind.',
    'As it came and Refresh 2 were made on different cells, as their settings say: the band carries how far each one’s calibration may be off.',
    'The fuel differs: gasoline against E85.',
    'The lag of the torque sensor was left in, taken out against taken out: at steep places of the curve part of the difference is that.',
    'Refresh 2 has no pull that counts: its peaks were typed, so it has no curve',
    'The pulls have only 3000 to 3500 rev/min in common, less than half of the band 3000 to 6500 rev/min; choose a band that all of them cover.',
    'Inertia is out of the torque of a.csv of the day “One” and in that of a.csv of the day “One”, and how much inertia turned with the first one is not known: say it on the page of its day, or of its cell in the settings.',
    'The torque calibration of Cell 1, water brake fell due on 2026-05-10, 1 day before this day: until it is done again nothing shows that its torque is right. Gains within the day do not rest on it.',
    'The check of EGT 3 and 4 on Cell 1, water brake fell due on this very day: hold it against a reference before it is relied on.',
    'the pulls at 27 deg, the setting left in the engine',
    'it was made at 60 % load, and a ladder is of full throttle',
  ];
  expect(told(sentences, names)).toEqual([]);
});
