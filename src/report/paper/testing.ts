/** For tests of the printed report: a hand-over with all that one can hold, and what poppler reads of its pages. */
import { execFileSync } from 'node:child_process';
import { answerSheet, parseSheet, planFor, sheetChanges } from '../../build/index.ts';
import { WHOLE_SHEET } from '../../build/topics/whole.fixture.ts';
import type { LadderAnswer } from '../../ladder/types.ts';
import type { HandedPull, HandOver } from '../handover/types.ts';

/** Names that a stranger might give: markup of every kind, writing that turns, words without end. */
const STRANGE = [
  '<script>alert(1)</script><img src=x onerror=alert(2)>',
  '=HYPERLINK("http://x","y") +1 -2 @SUM(A1)',
  '#let x = 1; $ a^2 $ *b* _c_ `d` @label <tag> \\ // /* ~ [x] #eval("1")',
  'مرحبا بالعالم 12 שלום',
  '\u202egnp.exe\u200f\u0007\u0000',
  '\u{1f525}\u{1f3c1}\u{1f468}\u200d\u{1f527} 日本語 ไทย',
  'x'.repeat(300),
  'Long-winded words of a careful craftsman that fill a line and go on, and on. '.repeat(3),
] as const;
const strange = (at: number) => STRANGE[at % STRANGE.length]!;

/**
 * A hand-over with a sheet, changes since the build before, a ticked plan, a ladder of many rungs, a day of many pulls
 * and many cautions, every free word of it strange.
 */
export function fullest(made: HandOver): HandOver {
  const sheet = parseSheet(WHOLE_SHEET);
  const before = parseSheet({
    ...WHOLE_SHEET,
    sections: { ...WHOLE_SHEET.sections, crank: { values: { stroke: '3.48 in' } } },
  });
  const answer = answerSheet(sheet);
  const plan = planFor(sheet, answer);
  const [day] = made.days;
  const pull = day!.pulls.find(({ id }) => made.final?.pullIds.includes(id) === true);
  const items = plan.sections.flatMap((section) => section.items);
  return {
    ...made,
    shop: { ...made.shop, name: strange(4), address: strange(7) },
    engine: { ...made.engine, name: strange(6), serial: strange(1), owner: strange(3) },
    build: { ...made.build, name: strange(2), notes: strange(5) },
    choice: { ...made.choice, notes: STRANGE.join('\n\n'), by: strange(0) },
    cautions: [...made.cautions, ...STRANGE.slice(0, 6)],
    sheet: {
      figures: answer.figures,
      checks: answer.checks,
      measured: 1,
      toMeasure: STRANGE.map((label, at) => ({ path: `x.${at}`, label })),
    },
    sinceLast: {
      build: { ...made.build, name: strange(5) },
      changes: sheetChanges(before, sheet, answerSheet(before), answer),
      comparison: null,
      whyNoComparison: strange(6),
    },
    days: [
      {
        ...day!,
        name: strange(3),
        notes: strange(6),
        fuelBatch: strange(0),
        configuration: { exhaust: strange(2), other: strange(6), baseTimingDeg: 12 },
        cell: { ...day!.cell, name: strange(6), remarks: STRANGE.slice(3, 6) },
        pulls: Array.from(
          { length: 14 },
          (_, at): HandedPull => ({
            ...pull!,
            id: at === 0 ? pull!.id : `pull ${at}`,
            number: at + 1,
            leadDeg: 12 + 2 * at,
            fileName: strange(at),
            note: strange(at),
            excludedBecause: at % 2 === 1 ? strange(at) : null,
          }),
        ),
        ladders: day!.ladders.map((ladder) => ({
          ...ladder,
          name: strange(2),
          answer: ladder.answer === null ? null : climbing(ladder.answer),
        })),
        plan: {
          plan,
          madeAt: made.madeAt,
          ticks: items.slice(5).map(({ id }, at) => ({
            itemId: id,
            by: strange(at % 9 === 0 ? at : 4),
            at: made.madeAt,
          })),
        },
      },
    ],
  };
}

const RUNGS = [22, 24, 26, 28, 30, 32];
const watts = (setting: number) => 240e3 - 90 * (setting - 29.5) ** 2;

/** The answer with rungs enough for every picture of a ladder, its marks close to each other. */
function climbing(answer: LadderAnswer): LadderAnswer {
  const speedRpm = [3000, 4000, 5000, 6000];
  const all = (value: number) => speedRpm.map(() => value);
  const use = { givesUpPercent: 0.6, chancePastBest: 0, chancePastLimit: 0, holdback: 2 };
  return {
    ...answer,
    best: { value: 29.5, low: 29, high: 30.5 },
    knee: { value: 28.6, low: 28, high: 29 },
    limit: { value: 31, low: 30.8, high: 31.5 },
    uses: {
      bursts: { ...use, value: 27.5, why: strange(7) },
      [strange(6)]: { ...use, value: 27, why: strange(7) },
    },
    dots: RUNGS.map((setting) => ({
      id: `dot ${setting}`,
      setting,
      meanPowerW: {
        value: watts(setting),
        low: watts(setting) - 800,
        high: watts(setting) + 800,
      },
    })),
    response: {
      setting: RUNGS,
      meanPowerW: RUNGS.map(watts),
      lowW: RUNGS.map((one) => watts(one) - 700),
      highW: RUNGS.map((one) => watts(one) + 700),
    },
    steps: RUNGS.slice(1).map((to, at) => ({
      from: RUNGS[at]!,
      to,
      gainPercent: -0.1,
      lowPercent: -0.4,
      highPercent: 0.2,
      measuredPercent: -0.1,
      word: 'cannot be told from chance',
      besides: null,
      bySpeed: {
        speedRpm,
        gainPercent: all(-0.1),
        lowPercent: all(-0.4),
        highPercent: all(0.2),
        chancePercent: all(0.3),
        toldFromChance: speedRpm.map(() => false),
      },
    })),
  };
}

interface PrintedWord {
  readonly page: number;
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Every word with its box, as poppler reads them [points from the top left]. */
function printedWords(file: string): {
  readonly width: number;
  readonly height: number;
  readonly pages: readonly (readonly PrintedWord[])[];
} {
  const read = execFileSync('pdftotext', ['-bbox', file, '-'], {
    encoding: 'utf8',
    maxBuffer: 1e8,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [, ...pages] = read.split('<page ');
  const [width, height] = [...pages[0]!.matchAll(/(?:width|height)="([\d.]+)"/g)].map((one) =>
    Number(one[1]),
  );
  const word = /xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*?)<\/word>/g;
  return {
    width: width!,
    height: height!,
    pages: pages.map((page, at) =>
      [...page.matchAll(word)].map(([, left, top, right, bottom, text]) => ({
        page: at + 1,
        text: text!,
        left: Number(left),
        top: Number(top),
        right: Number(right),
        bottom: Number(bottom),
      })),
    ),
  };
}

const POINTS_PER_MM = 72 / 25.4;
/** Margins of the page [mm]: at the sides, above, and below what stands at the foot. */
const MARGINS = { side: 17, top: 16, foot: 8 } as const;
/** What a letter may hang over: boxes hold the height of the font, not the ink [points]. */
const HANG = 1;

/** Words that run out of the page's margins, and pairs that are printed over each other; none: every table fits. */
export function overfull(file: string): string[] {
  const { width, height, pages } = printedWords(file);
  const side = MARGINS.side * POINTS_PER_MM - HANG;
  return pages.flatMap((words) => [
    ...words
      .filter(
        ({ left, right, top, bottom }) =>
          left < side ||
          right > width - side ||
          top < (MARGINS.top - 2) * POINTS_PER_MM ||
          bottom > height - MARGINS.foot * POINTS_PER_MM,
      )
      .map(({ page, text }) => `page ${page}: “${text}” is outside the margins`),
    ...words.flatMap((one, at) =>
      words
        .slice(at + 1)
        .filter((other) => isOver(one, other))
        .map((other) => `page ${one.page}: “${one.text}” is over “${other.text}”`),
    ),
  ]);
}

function isOver(one: PrintedWord, other: PrintedWord): boolean {
  const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
  const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
  const lower = Math.min(one.bottom - one.top, other.bottom - other.top);
  return across > HANG && down > 0.35 * lower;
}
