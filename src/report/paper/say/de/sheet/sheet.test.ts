import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../../../../../demo/sheets.ts';
import {
  answerSheetAtOnce,
  layoutOf,
  PLAN_GROUPS,
  parseSheet,
  placeLabels,
  planFor,
  SECTIONS,
  SHIPPED_WINDOWS,
  type Sheet,
  sheetChanges,
} from '../../../../../build/index.ts';
import { anySheet } from '../../../../../build/sheet/anySheet.fixture.ts';
import { CHECKS, FIGURES } from '../../../../../build/topics/index.ts';
import { WHOLE_SHEET } from '../../../../../build/topics/whole.fixture.ts';
import { FUELS } from '../../../../../trade/fuel/index.ts';
import type { HandOver } from '../../../../handover/types.ts';
import { planBlocks } from '../../../planBlocks.ts';
import { changesBlocks, sheetBlocks } from '../../../sheetBlocks.ts';
import { Teller } from '../../../tell.ts';
import { bookOf, catalogueOf } from '../../index.ts';
import type { Phrase } from '../../phrases.ts';
import { checks } from './checks.ts';
import { fieldsAround } from './fieldsAround.ts';
import { fieldsBottom } from './fieldsBottom.ts';
import { fieldsTop } from './fieldsTop.ts';
import { figures } from './figures.ts';
import { fuels } from './fuels.ts';
import { notes } from './notes.ts';
import { places } from './places.ts';
import { plan } from './plan.ts';
import { problems } from './problems.ts';
import { remedies } from './remedies.ts';
import { sources } from './sources.ts';

const german = catalogueOf('de');
const book = bookOf(german)!;

const LABELS = {
  sections: SECTIONS.map(({ title }) => title),
  fields: SECTIONS.flatMap(({ fields }) => fields.map(({ label }) => label)),
  options: SECTIONS.flatMap(({ fields }) =>
    fields.flatMap(({ choices = [] }) => choices.map(({ label }) => label)),
  ),
  tables: SECTIONS.flatMap(({ tables = [] }) => tables.map(({ label }) => label)),
  figures: FIGURES.map(({ label }) => label),
  checks: CHECKS.map(({ label }) => label),
  remedies: CHECKS.flatMap(({ remedy }) => [remedy.low, remedy.high]).filter((one) => one !== ''),
  sources: SHIPPED_WINDOWS.map(({ source }) => source),
} as const;
/** What stands in the catalogue for them and for nothing else. */
const WORDS: readonly Phrase[] = [
  ...fieldsBottom,
  ...fieldsTop,
  ...fieldsAround,
  ...figures,
  ...checks,
  ...remedies,
  ...sources,
];
/** The same word in both languages. */
const SAME = new Set(['Filter']);

describe('the German of the sheet', () => {
  it.each(Object.entries(LABELS))('has a word for all %s of src/build', (_, labels) => {
    const untold = labels.filter((one) => {
      const told = book.told(one);
      return told === null || (told === one && !SAME.has(one));
    });
    expect(untold).toEqual([]);
  });

  it('has a word for each place and group of a plan', () => {
    const layout = { ...layoutOf(8), intakeValvesPerCylinder: 3 };
    const heads = (
      ['cylinder', 'mainJournal', 'rodJournal', 'intakeValve', 'exhaustValve'] as const
    )
      .flatMap((place) => placeLabels(place, layout))
      .concat(PLAN_GROUPS.map(([, title]) => title));
    expect(heads.filter((one) => (book.told(one) ?? one) === one)).toEqual([]);
  });

  it('has no word that nothing says', () => {
    const said = new Set(Object.values(LABELS).flat());
    expect(WORDS.map(([english]) => english).filter((one) => !said.has(one))).toEqual([]);
  });

  it('says each thing once', () => {
    const all = german.spoken!.phrases.map(([english]) => english);
    expect(all.filter((one, i) => all.indexOf(one) !== i)).toEqual([]);
  });

  it('has no sentence that stands nowhere in what computes', () => {
    const source = textOf(['src/build', 'src/trade']);
    const stale = [...plan, ...notes, ...fuels, ...problems, ...places].flatMap(([english]) =>
      piecesOf(english).filter((piece) => !source.includes(piece)),
    );
    expect([...new Set(stale)]).toEqual([]);
  });
});

/** The program's own words, without what only a test says. */
function textOf(folders: readonly string[]): string {
  return folders
    .flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((name) => /(?<!\.test|\.fixture)\.ts$/.test(name))
        .map((name) => readFileSync(join(folder, name), 'utf8')),
    )
    .join('\n')
    .replaceAll("\\'", "'");
}

const OF_FUELS = new RegExp(
  `^(?:${FUELS.map(({ name }) => name).join('|')}|the blend)(?=[ .:]|$)`,
  'i',
);

/** Where the program puts a sentence together of words that stand apart in it. */
const SEAMS =
  '(?<=sheet says) |(?<=oil stands) | (?=a day that is not known)| (?=opening side|closing side)|(?<=opening|closing) (?=side)';
const BETWEEN = new RegExp(`\\{[^}]*\\}|\\d+(?:\\.\\d+)?|(?<=[.:]) |, |${SEAMS}`);

/** What a program must have written for a sentence: what stands between places, figures, sentences and items of a list. */
const piecesOf = (english: string): readonly string[] =>
  english
    .replace(OF_FUELS, '')
    .split(BETWEEN)
    .map((piece) => piece.trim().replace(/[.:]$/, ''))
    .filter((piece) => piece.length > 2);

describe('the German pages of sheet, changes and plan', () => {
  const sheets: readonly Sheet[] = [
    ...demoSheets().map(({ sheet }) => sheet),
    parseSheet(WHOLE_SHEET),
    ...fc.sample(anySheet(12), { seed: 7, numRuns: 40 }),
  ];
  const answered = sheets.map((sheet) => ({ sheet, answer: answerSheetAtOnce(sheet) }));

  it.each(['metric', 'us'] as const)('leave nothing in English, in %s units', (units) => {
    const tell = new Teller(german, units);
    answered.forEach(({ sheet, answer }, i) => {
      const day = { name: 'Tag', date: null };
      const made = planFor(sheet, answer, {
        calibration: CALIBRATIONS[i % CALIBRATIONS.length] ?? null,
        use: i % 2 === 0 ? null : RALLY,
      });
      planBlocks({ ...day, plan: { plan: made, madeAt: '2026-05-17', ticks: [] } }, tell);
      sheetBlocks(
        handOver({ sheet: { ...answer, toMeasure: answer.measureNext, measured: 1 } }),
        tell,
      );
      const { sheet: before, answer: answerBefore } = answered[(i + 1) % answered.length]!;
      const changes = sheetChanges(before, sheet, answerBefore, answer);
      changesBlocks(handOver({ sinceLast: { build: { name: 'vorher' }, changes } }), tell);
      for (const { notes: said, problem } of [...answer.figures, ...answer.checks]) {
        for (const { sentence } of said) tell.told(sentence);
        if (problem !== null) tell.told(problem);
      }
    });
    expect(tell.inEnglish).toEqual([]);
  });

  it('tell what was stated in words apart from figures, and name tables that differ', () => {
    const tell = new Teller(german, 'metric');
    const [came, refreshed] = answered as [(typeof answered)[0], (typeof answered)[0]];
    const changes = sheetChanges(came.sheet, refreshed.sheet, came.answer, refreshed.answer);
    const blocks = changesBlocks(
      handOver({ sinceLast: { build: { name: 'vorher' }, changes } }),
      tell,
    );
    const rowsOf = (caption: string) =>
      blocks.flatMap((block) =>
        block.kind === 'table' && block.caption === caption ? block.rows : [],
      );
    const { measured, stated, tables } = german.words.changes;
    const figuresOnly = rowsOf(measured).flatMap(([, ...cells]) => cells);
    expect(figuresOnly.length).toBeGreaterThan(50);
    expect(figuresOnly.filter((one) => !/^[+−]?\d+(,\d+)?$/.test(one))).toEqual([]);
    expect(rowsOf(stated)).toContainEqual([
      'Werkstoff der Kolben',
      'gegossen',
      'geschmiedet, wenig Silizium',
    ]);
    const named = tables('Fließbank; Gradscheibe, Einlass von Zylinder 1');
    expect(blocks).toContainEqual({ kind: 'paragraph', text: named, quiet: true });
  });

  it('keep a person’s own line as it was written', () => {
    const tell = new Teller(german, 'metric');
    const { sheet, answer } = answered[0]!;
    const edits = {
      strikes: [],
      numbers: [],
      own: [
        {
          id: 'own.1',
          group: 'preRun',
          sentence: 'Coolant is filled and bled, and nothing leaks.',
          weight: 'must',
          beforeFirstStart: true,
          by: 'O',
          at: '2026-05-17T08:00:00Z',
        },
      ],
    } as const;
    const blocks = planBlocks(
      {
        name: 'Tag',
        date: null,
        plan: { plan: { ...planFor(sheet, answer), edits }, madeAt: '2026-05-17', ticks: [] },
      },
      tell,
    );
    const items = blocks.flatMap((block) =>
      block.kind === 'ticks' ? block.items.map(({ text }) => text) : [],
    );
    expect(items).toContain('Coolant is filled and bled, and nothing leaks.');
    expect(items).toContain('Kühlmittel ist eingefüllt und entlüftet, nichts tropft.');
  });
});

const CALIBRATIONS = [
  null,
  { isDue: true, dueIso: '2026-03-01', doneOn: '2025-03-01' },
  { isDue: false, dueIso: '2027-03-01', doneOn: '2026-03-01' },
  { isDue: false, dueIso: null, doneOn: '2026-03-01' },
  { isDue: false, dueIso: null },
] as const;

const RALLY = {
  name: 'rally',
  holdback: 2,
  speedsRpm: null,
  chancePastBest: 0.1,
  chancePastLimit: 0.05,
} as const;

/** As much of a hand-over as the pages of a sheet read. */
const handOver = (some: object): HandOver => some as HandOver;
