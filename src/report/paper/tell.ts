import type { Banded } from '../../pull/index.ts';
import {
  type DisplayKind,
  displayDecimals,
  displayUnit,
  type FormatOptions,
  formatQuantity,
  type UnitSystem,
} from '../../units/index.ts';
import type { Words } from './say/index.ts';

/** Turns figures into words of one language and one system of units. */
export class Teller {
  readonly words: Words;
  readonly units: UnitSystem;

  constructor(words: Words, units: UnitSystem) {
    this.words = words;
    this.units = units;
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
    return symbol === '1' ? '' : symbol;
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
  banded({ value, low, high }: Banded, kind: DisplayKind): string {
    const { factor } = displayUnit(kind, this.units);
    const half = (high - low) / 2 / factor;
    const most = displayDecimals(kind, this.units);
    const decimals =
      half > 0 ? Math.min(most, Math.max(0, 1 - Math.floor(Math.log10(half)))) : most;
    const at = (one: number) => this.number(one, kind, { decimals });
    return this.words.interval(at(value), at(low), at(high), this.unit(kind));
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
