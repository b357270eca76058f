import { SECTIONS } from '../../build/index.ts';
import type { PublishedCheck, SheetObject } from '../../report/index.ts';
import { displayUnit, formatQuantity, inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';

type Figure = SheetObject['figures'][number];
/** What decides less is left to the form and to --json. */
const MOST_TO_MEASURE = 12;
const RANK = { stop: 0, 'look again': 1, fine: 2, 'not known': 3 } as const;

/** What follows from a build sheet, for a person: verdicts first, then the figures by section, then what to measure next. */
export function showSheet(sheet: SheetObject, system: UnitSystem, columns: number): string {
  const title = sheet.name === null ? sheet.file : `${sheet.file}: ${sheet.name}`;
  const use = sheet.use === null ? '' : `, for ${sheet.use}`;
  return [
    `${plain(title + use)}\n`,
    `  checks: ${Object.entries(sheet.verdicts)
      .map(([verdict, count]) => `${count} ${verdict}`)
      .join(', ')}\n`,
    checksOf(sheet, system, columns),
    figuresOf(sheet, system, columns),
    measureNext(sheet, columns),
  ].join('');
}

function checksOf({ checks }: SheetObject, system: UnitSystem, columns: number): string {
  const judged = checks
    .filter((check) => check.verdict !== 'not known')
    .sort((a, b) => RANK[a.verdict] - RANK[b.verdict]);
  if (judged.length === 0) return '';
  const sources = [...new Set(judged.flatMap(({ window }) => window?.source ?? []))];
  const rows = judged.map((check) => [
    check.verdict,
    check.label,
    check.worst ?? '',
    textOf(check, check.value, system),
    check.window === null ? '' : windowText(check, system),
    displayUnit(check.shown, system).symbol.replace(/^1$/, ''),
    check.window === null ? '' : `[${sources.indexOf(check.window.source) + 1}]`,
  ]);
  const said = judged
    .filter((check) => check.verdict !== 'fine')
    .map((check) => {
      const what = inUnitsOf([check.problem, check.remedy].filter(Boolean).join(' '), system);
      return what === '' ? '' : wrapped(`${check.verdict}: ${check.label}: ${what}`, columns, '  ');
    });
  return [
    '\n',
    table(
      [
        { title: 'verdict' },
        { title: 'check' },
        { title: 'worst' },
        { title: 'value', align: 'right' },
        { title: 'window' },
        { title: 'unit' },
        { title: 'source' },
      ],
      rows,
      '  ',
    ),
    ...sources.map((source, i) => wrapped(`[${i + 1}] ${source}`, columns, '  ')),
    ...said,
  ].join('');
}

/** `0.0350 to 0.0600`, `up to 0.200`, `from 0.050`. */
function windowText(check: PublishedCheck, system: UnitSystem): string {
  const { low, high, stopBelow, stopAbove } = check.window!;
  const text = (value: number) => textOf(check, value, system);
  const inside =
    low !== null && high !== null
      ? `${text(low)} to ${text(high)}`
      : low !== null
        ? `from ${text(low)}`
        : high === null
          ? ''
          : `up to ${text(high)}`;
  const stops = [
    stopBelow === null ? '' : `stop below ${text(stopBelow)}`,
    stopAbove === null ? '' : `stop above ${text(stopAbove)}`,
  ].filter((one) => one !== '');
  return [inside, ...stops].filter((one) => one !== '').join(', ');
}

function figuresOf({ figures }: SheetObject, system: UnitSystem, columns: number): string {
  return SECTIONS.map((section) => {
    const known = figures.filter((one) => one.section === section.id && one.value !== null);
    const impossible = figures.filter((one) => one.section === section.id && one.problem !== null);
    const noted = figures.filter((one) => one.section === section.id && one.notes.length > 0);
    if (known.length + impossible.length + noted.length === 0) return '';
    const rows = known.map((figure) => [
      figure.label,
      textOf(figure, figure.value, system),
      toleranceText(figure, system),
      displayUnit(figure.shown, system).symbol.replace(/^1$/, ''),
      spreadOf(figure, system),
    ]);
    return [
      `\n  ${section.title}\n`,
      rows.length === 0
        ? ''
        : table(
            [
              { title: 'figure' },
              { title: 'value', align: 'right' },
              { title: '95 %' },
              { title: 'unit' },
              { title: 'between' },
            ],
            rows,
            '  ',
          ),
      ...impossible.map(({ label, problem }) =>
        wrapped(`${label}: ${inUnitsOf(problem!, system)}`, columns, '  '),
      ),
      ...notesOf(noted, system, columns),
    ].join('');
  }).join('');
}

/** Notes of a section, each sentence once, with the figures that it belongs to. */
function notesOf(figures: readonly Figure[], system: UnitSystem, columns: number): string[] {
  const labels = new Map<string, string[]>();
  for (const { label, notes } of figures)
    for (const { sentence, source } of notes) {
      const said = source === null ? sentence : `${sentence} (${source})`;
      labels.set(said, [...(labels.get(said) ?? []), label]);
    }
  return [...labels].map(([said, of]) =>
    wrapped(`note: ${of.join('; ')}: ${inUnitsOf(said, system)}`, columns, '  '),
  );
}

/** `± 0.04`, or `± under 0.01` where it rounds to nothing. */
function toleranceText(figure: Figure, system: UnitSystem): string {
  if (figure.plusMinus === null) return '';
  const text = textOf(figure, figure.plusMinus, system, true);
  return Number(text) === 0 ? `± under ${text.replace(/0$/, '1')}` : `± ${text}`;
}

/** The range that its own rule leaves; of a figure by place whose values differ the smallest and the largest. */
function spreadOf(figure: Figure, system: UnitSystem): string {
  if (figure.range !== null) {
    const { low, high } = figure.range;
    return `${textOf(figure, low, system)} to ${textOf(figure, high, system)}`;
  }
  const known = (figure.each ?? []).map(({ value }) => value).filter((one) => one !== null);
  if (known.length < 2) return '';
  const [low, high] = [Math.min(...known), Math.max(...known)].map((one) =>
    textOf(figure, one, system),
  );
  return low === high ? 'all alike' : `${low} to ${high}`;
}

function measureNext(sheet: SheetObject, columns: number): string {
  const { measureNext: all } = sheet;
  if (all.length === 0) return '';
  const shown = all.slice(0, MOST_TO_MEASURE);
  const more = all.length - shown.length;
  return [
    '\n  To measure next, what decides most first\n',
    ...shown.map(({ section, label, path, decides }, i) =>
      wrapped(`${i + 1}. ${section}: ${label} (${path}) for ${decides.join('; ')}`, columns, '  '),
    ),
    more === 0 ? '' : `  and ${more} more (--json lists them all)\n`,
  ].join('');
}

function textOf(
  { shown, decimals, isDifference }: Figure,
  value: number | null,
  system: UnitSystem,
  difference = false,
): string {
  return formatQuantity(value, shown, system, {
    difference: difference || isDifference,
    ...(decimals === null ? {} : { decimals }),
  }).text;
}
