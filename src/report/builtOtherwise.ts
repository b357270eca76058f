import { answerSheet, type Sheet, sheetChanges, type WindowRule } from '../build/index.ts';
import { quantityText, type UnitSystem } from '../units/index.ts';
import { listed } from './compareAlike.ts';

/** Figures and measurements named before the rest is only counted. */
const NAMED = 4;

/**
 * What one build has that another has not, in a few words; null where their sheets agree.
 * @param system  units of the sentence
 */
export function changesInWords(
  before: Sheet,
  after: Sheet,
  windows: readonly WindowRule[],
  system: UnitSystem,
): string | null {
  const changes = sheetChanges(
    before,
    after,
    answerSheet(before, windows),
    answerSheet(after, windows),
  );
  const parts = (what: 'added' | 'gone') =>
    changes.parts.filter((part) => part.what === what).map(({ name }) => name);
  const figures = changes.computed.filter(
    ({ before: was, after: is }) => was !== null && is !== null,
  );
  const measured = changes.measured.filter(({ place, by }) => place === null && by !== null);
  const said = [
    ...named('new', parts('added')),
    ...named('gone', parts('gone')),
    ...figures
      .slice(0, NAMED)
      .map(
        ({ label, shown, before: was, after: is }) =>
          `${lower(label)} ${plain(was!, shown, system)} to ${plain(is!, shown, system)}`,
      ),
    ...measured
      .slice(0, Math.max(0, NAMED - figures.length))
      .map(({ label, before: was, after: is }) => {
        const text = (stood: typeof was) =>
          `${stood.typed}${stood.unit === null ? '' : ` ${stood.unit}`}`;
        return `${lower(label)} ${text(was)} to ${text(is)}`;
      }),
  ];
  const rest = Math.max(0, figures.length - NAMED);
  if (said.length === 0) return null;
  return `${said.join('; ')}${rest === 0 ? '' : `; and ${rest} more figures`}`;
}

const named = (word: string, names: readonly string[]) =>
  names.length === 0 ? [] : [`${word}: ${listed([...new Set(names)])}`];

/** A label inside of a sentence; abbreviations stay as they are. */
const lower = (label: string) =>
  /^[A-Z][a-z]/.test(label) ? label[0]!.toLowerCase() + label.slice(1) : label;

const plain = (...[value, kind, system]: Parameters<typeof quantityText>) =>
  quantityText(value, kind, system).replace(/ 1$/, '');
