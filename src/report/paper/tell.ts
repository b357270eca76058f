import type { Banded } from '../../pull/index.ts';
import {
  type DisplayKind,
  displayDecimals,
  displayUnit,
  type FormatOptions,
  formatQuantity,
  inUnitsOf,
  type UnitSystem,
} from '../../units/index.ts';
import { bookOf, type Catalogue, type PhraseBook, type Words } from './say/index.ts';

/** Turns figures, and sentences of the computing rooms, into words of one language and one system of units. */
export class Teller {
  readonly words: Words;
  readonly units: UnitSystem;
  readonly #unitNames: Readonly<Record<string, string>>;
  readonly #book: PhraseBook | null;
  readonly #inEnglish = new Set<string>();

  readonly #names: ReadonlySet<string>;

  /** @param names  of things of the shop, which sentences may hold and nothing may change */
  constructor(catalogue: Catalogue, units: UnitSystem, names: ReadonlySet<string> = new Set()) {
    this.words = catalogue.words;
    this.units = units;
    this.#unitNames = catalogue.spoken?.figures.units ?? {};
    this.#book = bookOf(catalogue);
    this.#names = names;
  }

  /** Sentences told so far that the catalogue has not, in the order they came. */
  get inEnglish(): readonly string[] {
    return [...this.#inEnglish];
  }

  /** What a computing room says, in the reader's units and language; what the catalogue has not stays as it is. */
  told(english: string): string {
    const sentence = inUnitsOf(english, this.units);
    if (this.#book === null || sentence === '') return sentence;
    const text = this.#book.told(sentence, this.#names);
    if (text === null) this.#inEnglish.add(sentence);
    return text ?? sentence;
  }

  /** Words that a room or a person wrote: a person's stay as they are, whatever their language. */
  toldOrTyped(text: string): string {
    return this.#book?.told(inUnitsOf(text, this.units), this.#names) ?? text;
  }

  /**
   * How the engine stood (`exhaust: open; lambda: 0.88`): what a room says of it is told, what a person wrote stays.
   */
  stood(text: string): string {
    const part = (one: string): string => {
      const at = one.indexOf(': ');
      if (at < 0) return one;
      const [name, how] = [one.slice(0, at), one.slice(at + 2)];
      return (
        this.#book?.told(one, this.#names) ?? `${this.toldOrTyped(name)}: ${this.toldOrTyped(how)}`
      );
    };
    return text.split('; ').map(part).join('; ');
  }
  /** The standard air that figures stand in. */
  air(standard: string): string {
    return standard === 'none' ? this.words.findings.air(standard) : standard;
  }

  /** Digits as the language writes them; an en dash where nothing is known. */
  plain(value: number | null, decimals: number, signed = false): string {
    if (value === null || !Number.isFinite(value)) return '–';
    const fixed = value.toFixed(decimals).replace(/^-(0(\.0*)?)$/, '$1');
    return this.#local(signed && value > 0 && Number(fixed) !== 0 ? `+${fixed}` : fixed);
  }

  /** The number alone, in the unit that `unit` names. */
  number(value: number | null, kind: DisplayKind, options: FormatOptions = {}): string {
    return this.#local(formatQuantity(value, kind, this.units, options).text);
  }

  unit(kind: DisplayKind): string {
    const { symbol } = displayUnit(kind, this.units);
    return symbol === '1' ? '' : (this.#unitNames[symbol] ?? symbol);
  }

  quantity(value: number | null, kind: DisplayKind, options: FormatOptions = {}): string {
    const text = this.number(value, kind, options);
    const unit = this.unit(kind);
    return unit === '' || text === '–' ? text : `${text} ${unit}`;
  }

  /** `Torque, N·m`: the head of a column of numbers. */
  headed(title: string, kind: DisplayKind): string {
    const unit = this.unit(kind);
    return unit === '' ? title : `${title}, ${unit}`;
  }

  /** A value with its 95 % interval, to no more digits than the interval is worth. */
  banded(banded: Banded, kind: DisplayKind): string {
    const [value, low, high] = this.#worth(banded, kind);
    return this.words.interval(value, low, high, this.unit(kind));
  }

  /** The same in two pieces: `140.8 kW`, `138.9 to 142.7`. */
  bandedParts(banded: Banded, kind: DisplayKind): { value: string; interval: string } {
    const [value, low, high] = this.#worth(banded, kind);
    const { range } = this.words;
    return {
      value: `${value} ${this.unit(kind)}`.trim(),
      interval: range(low, high, '').trim(),
    };
  }

  #worth({ value, low, high }: Banded, kind: DisplayKind): [string, string, string] {
    const { factor } = displayUnit(kind, this.units);
    const half = (high - low) / 2 / factor;
    const most = displayDecimals(kind, this.units);
    const decimals =
      half > 0 ? Math.min(most, Math.max(0, 1 - Math.floor(Math.log10(half)))) : most;
    const at = (one: number) => this.number(one, kind, { decimals });
    return [at(value), at(low), at(high)];
  }

  speed(rpm: number): string {
    return this.plain(Math.round(rpm / 10) * 10, 0);
  }
  band([from, to]: readonly [number, number]): string {
    return this.words.range(this.speed(from), this.speed(to), this.unit('speed'));
  }
  percent(value: number | null, signed = false): string {
    return this.plain(value, 1, signed);
  }
  /** `28°`, `0.88`: a setting with what it is measured in; one that was worked out to a tenth of a step. */
  setting(value: number | null, unit: string, isEstimate = false): string {
    if (value === null) return this.words.notKnown;
    const digits = isEstimate ? (unit === 'deg' ? 10 : 1000) : 1000;
    const text = this.#local(String(Math.round(value * digits) / digits));
    return unit === 'deg' ? `${text}°` : unit === '' ? text : `${text} ${unit}`;
  }
  date(iso: string | null): string {
    return iso === null ? this.words.notKnown : this.words.date(iso);
  }

  /** What a test day is called: its name, else its date. */
  day({ name, date }: { readonly name: string; readonly date: string | null }): string {
    if (name !== '') return name;
    return date === null ? this.words.evidence.unnamedDay : this.words.date(date);
  }
  settingName(setting: string): string {
    const { lead, lambda } = this.words.settings;
    return setting === 'lead' ? lead : setting === 'lambda' ? lambda : setting;
  }

  #local(text: string): string {
    const minus = text.replace(/^-/, '−');
    return this.words.decimalComma ? minus.replace('.', ',') : minus;
  }
}
