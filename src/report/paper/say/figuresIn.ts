/** Figures inside a sentence of the computing rooms: where they can end, and how another language writes them. */
import { UNITS } from '../../../units/index.ts';

export interface FigureWords {
  readonly decimalComma: boolean;
  /** `2026-05-17` as people write it. */
  date(iso: string): string;
  /** Between two figures. */
  readonly to: string;
  readonly and: string;
  readonly or: string;
  /** Units that the language writes otherwise, by how the rooms write them. */
  readonly units: Readonly<Record<string, string>>;
}

const SYMBOLS = [...new Set([...UNITS.map(({ symbol }) => symbol), '%', 'rpm/s'])]
  .filter((symbol) => symbol !== '1' && symbol !== '°')
  .sort((a, b) => b.length - a.length);
const NUMBER = String.raw`\d{4}-\d\d-\d\d|[-−+±]?\d+(?:\.\d+)?`;
const ONE = new RegExp(NUMBER, 'y');
const UNIT = new RegExp(
  `°|%| (?:${SYMBOLS.map((symbol) => symbol.replace(/[.*+?^$()|[\]\\/]/g, '\\$&')).join('|')})(?![\\p{L}\\d])`,
  'uy',
);
const MORE = /, | to | and | or /y;

/**
 * Where figures that begin at `start` can end, shortest first: `2500 to 6500 rpm` can be `2500`, `2500 to 6500` or all of
 * it. Each letter is looked at once.
 */
export function figureEnds(text: string, start: number): number[] {
  const ends: number[] = [];
  let at = start;
  for (;;) {
    const number = after(ONE, text, at);
    if (number === null) return ends;
    ends.push(number);
    at = number;
    const unit = after(UNIT, text, at);
    if (unit !== null) {
      ends.push(unit);
      at = unit;
    }
    const more = after(MORE, text, at);
    if (more === null) return ends;
    at = more;
  }
}

function after(sticky: RegExp, text: string, at: number): number | null {
  sticky.lastIndex = at;
  return sticky.test(text) ? sticky.lastIndex : null;
}

/** Figures as the language writes them: its decimal sign, a true minus, its words between them, its name of a unit. */
export function figureText(figures: string, words: FigureWords): string {
  const hasDecimals = words.decimalComma && /\.\d/.test(figures);
  return figures
    .replace(/ ([^\d\s,][^\s,]*)/g, (_, unit: string) => ` ${words.units[unit] ?? unit}`)
    .replace(/, (?=[-−+±]?\d)/g, hasDecimals ? '; ' : ', ')
    .replaceAll(' to ', ` ${words.to} `)
    .replaceAll(' and ', ` ${words.and} `)
    .replaceAll(' or ', ` ${words.or} `)
    .replace(/(?<!\d)-(?=\d)/g, '−')
    .replace(/(\d)\.(?=\d)/g, words.decimalComma ? '$1,' : '$1.')
    .replace(/\d{4}-\d\d-\d\d/g, (iso) => words.date(iso));
}
