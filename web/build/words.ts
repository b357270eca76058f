import type { Note } from '../../src/build/compute/types.ts';
import {
  type Check,
  countOf,
  type Figure,
  fieldOf,
  isEach,
  type Layout,
  placeLabels,
  SECTIONS,
  type SectionSpec,
  type Sheet,
  type SheetAnswer,
  sectionOf,
  tableOf,
  type Verdict,
} from '../../src/build/index.ts';
import { quantityText, type UnitSystem } from '../../src/units/index.ts';
import { entryAt, partsOf, tableAt } from './edit.ts';

/** From best to worst; nothing checked stands at the beginning. */
const RANK: readonly Verdict[] = ['fine', 'not known', 'look again', 'stop'];

/** The verdict that a reader must hear of a list of checks; null where there is none. */
export function worstOf(checks: readonly Check[]): Verdict | null {
  const known = checks.filter((check) => check.verdict !== 'not known');
  const all = known.length > 0 ? known : checks;
  return all.reduce<Verdict | null>(
    (worst, { verdict }) =>
      worst === null || RANK.indexOf(verdict) > RANK.indexOf(worst) ? verdict : worst,
    null,
  );
}

export function verdictCounts(checks: readonly Check[]): Readonly<Record<Verdict, number>> {
  const counts = { fine: 0, 'look again': 0, stop: 0, 'not known': 0 };
  for (const { verdict } of checks) counts[verdict] += 1;
  return counts;
}

/** Worst first: what stops, what wants a look, what is not known, what is fine. */
export function inNeedOrder(checks: readonly Check[]): readonly Check[] {
  return [...checks].sort((a, b) => RANK.indexOf(b.verdict) - RANK.indexOf(a.verdict));
}

/** Checks that stop or want a look, the worst first. */
export const outOfWindow = (checks: readonly Check[]): readonly Check[] =>
  inNeedOrder(checks).filter(({ verdict }) => verdict === 'stop' || verdict === 'look again');

/** How many fields and tables of a section hold something, of how many. */
export function measured(
  sheet: Sheet,
  section: SectionSpec,
): { readonly known: number; readonly all: number } {
  const fields = section.fields.filter((field) => {
    const entry = entryAt(sheet, `${section.id}.${field.id}`);
    if (entry === undefined) return false;
    return isEach(entry) ? entry.each.every((one) => one !== null) : true;
  }).length;
  const tables = section.tables ?? [];
  const filled = tables.filter((table) => tableAt(sheet, `${section.id}.${table.id}`)).length;
  return { known: fields + filled, all: section.fields.length + tables.length };
}

/** `Block and bore: Bore, nominal`; inside its own section the field's name alone. */
export function pathInWords(path: string, within?: string): string {
  const [section, id] = partsOf(path);
  const label = fieldOf(path)?.label ?? tableOf(section, id)?.label ?? path;
  const title = sectionOf(section)?.title;
  return title === undefined || section === within ? label : `${title}: ${label}`;
}

/** Value of an answer as the person reads it. */
export function valueText(answer: Figure, value: number | null, units: UnitSystem): string {
  return quantityText(value, answer.shown, units, {
    ...(answer.decimals === null ? {} : { decimals: answer.decimals }),
    ...(answer.isDifference ? { difference: true } : {}),
  }).replace(/ 1$/, '');
}

/** Half of its 95 % interval, in the same unit. */
export function plusMinusText(answer: Figure, units: UnitSystem): string | null {
  if (answer.plusMinus === null || answer.plusMinus === 0) return null;
  const text = quantityText(answer.plusMinus, answer.shown, units, {
    difference: true,
    ...(answer.decimals === null ? {} : { decimals: answer.decimals }),
  });
  const number = text.split(' ')[0]!;
  return Number(number) === 0 ? null : `± ${number}`;
}

/** Labels of the places of an answer by place, or of the rows of the table that it goes through. */
export const placesOf = (answer: Figure, layout: Layout): readonly string[] =>
  answer.rows ??
  (answer.per === null
    ? []
    : placeLabels(answer.per, layout).slice(0, countOf(answer.per, layout)));

export const noteText = ({ sentence, source }: Note): string =>
  source === null ? sentence : `${sentence} (${source})`;

export const checksOf = (answer: SheetAnswer, section: string) =>
  answer.checks.filter((check) => check.section === section);
export const figuresOf = (answer: SheetAnswer, section: string) =>
  answer.figures.filter((figure) => figure.section === section);

/** Whether anything at all was written down. */
export const isBlank = (sheet: Sheet): boolean => Object.keys(sheet.sections).length === 0;

export const titleOf = (section: string): string => sectionOf(section)?.title ?? section;
export { SECTIONS };

/** What an engine is called by, in the order in which it is said. */
export const HEADLINES: readonly string[] = [
  'displacement',
  'compressionRatio',
  'dynamicRatio',
  'boreStroke',
  'rodRatio',
  'meanPistonSpeed',
  'peakAcceleration',
  'intakeOpens',
  'intakeCloses',
  'exhaustOpens',
  'exhaustCloses',
  'overlap',
  'bobweight',
  'machIndexPower',
];
