/** A picture speaks the language of its report, to the last word, and the screens' own is as it was. */
import { createHash } from 'node:crypto';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { CHARTS_IN_ENGLISH, type ChartWords } from '../../src/chartWords.ts';
import type { FigureWanted } from '../../src/figures.ts';
import { catalogueOf, LANGUAGES } from '../../src/report/paper/say/index.ts';
import { ANSWER } from '../ladder/fixture.test-data.ts';
import { drawFigure } from './figures.tsx';
import { FigurePicture } from './picture.tsx';

/** Every picture a report has; nothing in them that comes from outside is a word of English. */
function figuresIn(words: ChartWords): FigureWanted[] {
  const about = { title: '', scenario: '', units: 'metric', words } as const;
  const speedRpm = [3000, 4000, 5000];
  const torqueNm = [401.5, 420.5, 399.5];
  const lines = {
    speedRpm,
    torqueNm,
    lowNm: torqueNm.map((nm) => nm - 2.25),
    highNm: torqueNm.map((nm) => nm + 2.25),
    powerW: torqueNm.map((nm, at) => (nm * speedRpm[at]! * Math.PI) / 30),
    setting: null,
  };
  const short = { ...lines, speedRpm: [3000, 3500, 3600] };
  const { response, dots, best, knee, steps } = ANSWER;
  const limit = { ...ANSWER.limit!, value: 31.25 };
  const inside = { ...about, settingUnit: 'deg' } as const;
  const responseFigure = {
    ...inside,
    kind: 'response',
    answer: { response, dots, best, knee, limit },
    uses: [{ name: 'Y', value: 26.5, chosen: true }],
    axis: 'X',
    safeDirection: 'lower',
  } as const;
  return [
    {
      ...about,
      kind: 'curves',
      id: 'curves',
      series: [
        { ...lines, id: 'a', label: 'A' },
        { ...short, id: 'b', label: 'B', faint: true },
      ],
      bandRpm: [3500, 4500],
    },
    { ...responseFigure, id: 'response' },
    {
      ...responseFigure,
      id: 'open',
      uses: [],
      answer: { ...responseFigure.answer, best: { value: null, low: 29.5, high: null } },
    },
    {
      ...responseFigure,
      id: 'unknown',
      answer: { ...responseFigure.answer, best: { value: null, low: null, high: null } },
    },
    {
      ...inside,
      kind: 'gain',
      id: 'gain',
      steps: [
        { ...steps[0]!, word: 'small' },
        ...steps.slice(1, -1),
        { ...steps.at(-1)!, besides: 'Z' },
      ],
      settings: [22, 32],
      bandRpm: [5000, 7200],
      fullRpm: [3100, 7300],
    },
    {
      ...about,
      kind: 'difference',
      id: 'difference',
      letter: 'B',
      against: 'A',
      difference: {
        speedRpm,
        value: [-1.25, 0.25, 2.5],
        low: [-2, -0.5, 1.5],
        high: [-0.5, 1, 3.5],
        chance: [0.9, 0.9, 0.9],
        toldFromChance: [true, false, true],
      },
      crossings: [{ speedRpm: 3900, lowRpm: 3500, highRpm: 4300, aheadAbove: 'b' }],
      gain: { value: 1.25, low: 0.25, high: 2.25 },
      word: 'real',
      bandRpm: [3500, 4500],
    },
  ];
}

/** All that a person reads or hears of a picture, its cursor at several places. */
function textsOf(figure: FigureWanted): string[] {
  const places = figure.kind === 'response' ? [26.25, 60] : [3300, 4550, 9000];
  return [null, ...places].flatMap((cursor) => {
    const markup = renderToStaticMarkup(
      <FigurePicture {...{ figure, cursor }} width={760} height={420} onCursor={() => {}} />,
    );
    return [...markup.matchAll(/>([^<>]+)<|aria-(?:label|valuetext)="([^"]*)"/g)].map(
      ([, text, heard]) => text ?? heard!,
    );
  });
}

/** Words of a catalogue, without the places that a chart fills. */
const wordsIn = (catalogue: object): Set<string> =>
  new Set(
    Object.values(catalogue).flatMap((value: unknown) =>
      typeof value === 'string'
        ? (value.replace(/\{\w+\}/g, ' ').match(/\p{L}{2,}/gu) ?? [])
        : typeof value === 'object' && value !== null
          ? [...wordsIn(value)]
          : [],
    ),
  );

describe('a picture in the language of its report', () => {
  const english = wordsIn(CHARTS_IN_ENGLISH);

  it('has no English word, no decimal point and no rpm in any other', () => {
    expect(english.size).toBeGreaterThan(50);
    for (const language of LANGUAGES.filter((one) => one !== 'en')) {
      const own = catalogueOf(language).words.charts;
      const foreign = [...english].filter((word) => !wordsIn(own).has(word));
      expect(foreign.length).toBeGreaterThan(0.9 * english.size);
      const texts = figuresIn(own).flatMap(textsOf);
      expect(texts.length).toBeGreaterThan(300);
      for (const text of texts) {
        expect(
          text.match(/\p{L}{2,}/gu)?.filter((word) => foreign.includes(word)) ?? [],
          text,
        ).toEqual([]);
        expect(text).not.toMatch(own.decimalComma ? /\d\.\d|[{}]/ : /[{}]/);
      }
    }
  });

  it('says each word of the catalogue somewhere, so that none is out of use', () => {
    const seen = new Set(
      figuresIn(CHARTS_IN_ENGLISH)
        .flatMap(textsOf)
        .flatMap((text) => text.match(/\p{L}{2,}/gu) ?? []),
    );
    expect([...english].filter((word) => !seen.has(word))).toEqual([]);
  });

  it('is in English to the byte what it was before it could speak otherwise', () => {
    // Regression: our own output. Whoever changes a chart on purpose puts the new digests here.
    const digests = figuresIn(CHARTS_IN_ENGLISH).map((figure) => [
      figure.id,
      createHash('sha256')
        .update(drawFigure(figure, { width: 680, height: 360 }))
        .digest('hex')
        .slice(0, 12),
    ]);
    expect(Object.fromEntries(digests)).toEqual({
      curves: '9ec87ddbe0bf',
      response: '3923b392d08e',
      open: '4af018e46f81',
      unknown: '333dd80068e0',
      gain: '01c74c12c5f1',
      difference: '40814df7a2dd',
    });
  });
});
