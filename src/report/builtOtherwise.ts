import {
  answerSheetAtOnce,
  type ComputedChange,
  type Sheet,
  sheetChanges,
  type WindowRule,
} from '../build/index.ts';
import { quantityText, type UnitSystem } from '../units/index.ts';
import { listed } from './compareAlike.ts';

/** Figures that say most of what an engine gives, the most telling first (common practice, no source). */
const TELLING: readonly string[] = [
  'displacement',
  'compressionRatio',
  'intakeOffSeat',
  'exhaustOffSeat',
  'intakeCentreline',
  'overlap',
  'intakeValveLift',
  'exhaustValveLift',
  'intakeFlowAt28',
  'exhaustFlowAt28',
];

/**
 * What one build has that another has not, in a few words: parts, and the figures that say most of what an engine
 * gives; how many others moved is counted. Null where their sheets agree.
 * @param system  units of the sentence
 */
export function changesInWords(
  before: Sheet,
  after: Sheet,
  windows: readonly WindowRule[],
  system: UnitSystem,
): string | null {
  const { parts, computed, measured } = sheetChanges(
    before,
    after,
    answerSheetAtOnce(before, windows),
    answerSheetAtOnce(after, windows),
  );
  const names = (what: 'added' | 'gone') =>
    parts.filter((part) => part.what === what).map(({ name }) => name);
  const moved = computed.filter(({ before: was, after: is }) => was !== null && is !== null);
  const telling = TELLING.flatMap((id) => moved.find((change) => change.id === id) ?? []);
  const others = moved.length - telling.length;
  const said = [
    ...named('new', names('added')),
    ...named('gone', names('gone')),
    ...telling.map((change) => figureWords(change, system)),
    ...(others === 0 ? [] : [`${others} other ${others === 1 ? 'figure' : 'figures'} moved`]),
  ];
  if (said.length > 0) return said.join('; ');
  const places = new Set(measured.map(({ label }) => lower(label)));
  return places.size === 0 ? null : `measured otherwise: ${listed([...places].slice(0, 6))}`;
}

const named = (word: string, names: readonly string[]) =>
  names.length === 0 ? [] : [`${word}: ${listed([...new Set(names)])}`];

function figureWords({ label, shown, before, after }: ComputedChange, system: UnitSystem): string {
  const text = (value: number | null) =>
    shown === 'ratio' ? value!.toFixed(2) : quantityText(value, shown, system);
  return `${lower(label)} ${text(before)} to ${text(after)}`;
}

/** A label inside of a sentence; abbreviations stay as they are. */
const lower = (label: string) =>
  /^[A-Z][a-z]/.test(label) ? label[0]!.toLowerCase() + label.slice(1) : label;
