/** Columns of a table as it stands on a screen: in the units that are shown there, told by their symbols. */
import type { Column } from './table.ts';
import { ucumOfSymbol } from './ucum.ts';

interface ShownColumn {
  readonly title: string;
  /** As it is written on screen; empty for a plain number. */
  readonly unit: string;
  readonly decimals?: number;
  readonly note?: string;
}

/** A column of numbers in a unit of the screen. */
export function shownNumbers({ title, unit, decimals, note }: ShownColumn): Column {
  return {
    name: nameFor(title, unit),
    title,
    type: 'number',
    unit: ucumOfSymbol(unit),
    symbol: unit,
    ...(decimals === undefined ? {} : { decimals }),
    ...(note === undefined ? {} : { note }),
  };
}

/** A name for programs out of a head for people: `Peak power` in hp is `peakPowerHp`. */
export function nameFor(title: string, unit = ''): string {
  const words = plainWords(title);
  const camel = words
    .map((word, at) => (at === 0 ? lowered(word) : word.charAt(0).toUpperCase() + word.slice(1)))
    .join('');
  const name = `${camel}${plainWords(unit.replaceAll('/', ' per ')).map(raised).join('')}`;
  return name === '' ? 'column' : /^\d/.test(name) ? `at${name}` : name;
}

/** Each name once: the second of a kind becomes `name2`. */
export function eachOnce(columns: readonly Column[]): Column[] {
  const seen = new Set<string>();
  return columns.map((column) => {
    let name = column.name;
    for (let n = 2; seen.has(name); n++) name = `${column.name}${n}`;
    seen.add(name);
    return { ...column, name };
  });
}

const SPELLED: Readonly<Record<string, string>> = {
  '°': ' deg ',
  '%': ' percent ',
  λ: ' lambda ',
  '±': ' within ',
  '·': '',
  '\u2212': ' minus ',
};

const plainWords = (text: string): string[] =>
  text
    .replace(/[°%λ±·\u2212]/g, (letter) => SPELLED[letter]!)
    .normalize('NFKD')
    .split(/[^A-Za-z0-9]+/)
    .filter((word) => word !== '');

const raised = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);
/** `BSFC` stays as it is. */
const lowered = (word: string) =>
  /^[A-Z]{2}/.test(word) ? word : word.charAt(0).toLowerCase() + word.slice(1);
