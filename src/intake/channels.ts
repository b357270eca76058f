import type { Channel, TorqueBasis } from '../pull/recording.ts';
import { completeBasis } from './basis.ts';
import { sinceFirst } from './clock.ts';
import { familyOf, readColumns } from './columns.ts';
import { quoted, shown } from './display.ts';
import { takeFillers } from './fillers.ts';
import { toMassFlow } from './flow.ts';
import type { HeaderReading } from './header.ts';
import type { Question, RawTable, ReadOptions } from './types.ts';
import { guessUnit, pairedUnits, type UnitGuess, unitQuestion } from './unitless.ts';

/** A channel on its way to the recording, with what its header said. */
export interface Draft {
  readonly column: number;
  readonly header: string;
  readonly reading: HeaderReading;
  readonly channel: Channel;
  /** The basis as the header alone says it. */
  readonly saidBasis: TorqueBasis | null;
}

interface DraftTable {
  readonly drafts: Draft[];
  readonly warnings: string[];
  readonly questions: Question[];
}

/** Columns into channels: recognised, filler taken out, in inside units. The raw columns are converted in place. */
export function draftChannels(table: RawTable, options: ReadOptions): DraftTable {
  const warnings: string[] = [];
  const questions: Question[] = [];
  const readings = readColumns(table, options);
  const family = familyOf(readings);
  const paired = pairedUnits(table, readings);
  const drafts: Draft[] = [];
  for (const [column, reading] of readings.entries()) {
    const header = table.headers[column]!;
    const raw = table.columns[column]!;
    if (raw.kind === 'text') {
      if (isUnnamed(header) && raw.values.every(Number.isNaN)) continue;
      warnings.push(`${quoted(header)} holds words: it is listed, but has no numbers.`);
      drafts.push(asOther(column, header, reading, raw.values));
      continue;
    }
    if (isUnnamed(header) && raw.values.every(Number.isNaN)) continue;
    if (raw.kind === 'clock') {
      drafts.push(clockDraft(column, header, reading, raw.values));
      continue;
    }
    const found = takeFillers(raw.values);
    if (found !== null)
      warnings.push(
        `${quoted(header)} holds the filler ${found.filler} in ${found.rows} of ${table.rows} rows (first on line ${table.lineOfRow[found.firstRow] ?? found.firstRow + 1}): taken as missing.`,
      );
    drafts.push(
      numberDraft(column, header, reading, raw.values, {
        options,
        family,
        paired,
        warnings,
        questions,
      }),
    );
  }
  return { drafts, warnings, questions };
}

interface Context {
  readonly options: ReadOptions;
  readonly family: 'us' | 'metric' | null;
  readonly warnings: string[];
  readonly questions: Question[];
  readonly paired: ReadonlyMap<number, UnitGuess>;
}

function isUnnamed(header: string): boolean {
  return /^column \d+$/.test(header);
}

function asOther(
  column: number,
  header: string,
  reading: HeaderReading,
  values: Float64Array,
): Draft {
  return {
    column,
    header,
    reading: { ...reading, quantity: 'other' },
    channel: { header: shown(header), quantity: 'other', unit: unitText(reading), values },
    saidBasis: null,
  };
}

function unitText(reading: HeaderReading): string | null {
  if (reading.unknownUnit !== null) return shown(reading.unknownUnit, 24);
  return reading.unit === null || reading.unit.symbol === '1' ? null : reading.unit.symbol;
}

function clockDraft(
  column: number,
  header: string,
  reading: HeaderReading,
  values: Float64Array,
): Draft {
  if (reading.quantity !== 'time') return asOther(column, header, reading, values);
  sinceFirst(values);
  return {
    column,
    header,
    reading,
    channel: { header: shown(header), quantity: 'time', unit: 'clock', values },
    saidBasis: null,
  };
}

function numberDraft(
  column: number,
  header: string,
  reading: HeaderReading,
  values: Float64Array,
  context: Context,
): Draft {
  const { quantity } = reading;
  if (quantity === 'other' || quantity === 'knock')
    return {
      column,
      header,
      reading,
      channel: {
        header: shown(header),
        quantity,
        unit: unitText(reading),
        values,
        ...placeOf(reading),
      },
      saidBasis: null,
    };
  let unit = reading.unit;
  if (unit === null) {
    const guess = guessUnit(quantity, values, {
      family: context.family,
      words: reading.words,
      paired: context.paired.get(column) ?? null,
    });
    unit = guess.unit;
    if (!guess.isCertain) {
      context.questions.push(unitQuestion(header, quantity, guess.unit));
      context.warnings.push(
        `${quoted(header)} has no unit in the file: taken as ${guess.unit.symbol} until somebody says otherwise.`,
      );
    }
  }
  if (unit.factor !== 1 || unit.offset !== 0) {
    const { factor, offset } = unit;
    for (let row = 0; row < values.length; row++) values[row] = values[row]! * factor + offset;
  }
  if (quantity === 'manifoldPressure' && isVacuum(reading, values)) {
    for (let row = 0; row < values.length; row++) values[row] = -values[row]!;
    context.warnings.push(
      `${quoted(header)} counts vacuum upwards: it is kept as a gauge pressure below zero.`,
    );
  }
  if (unit.dimension === 'volumeFlow')
    toMassFlow(header, quantity, values, context.options, context.warnings, context.questions);
  const pressureReference = pressureReferenceOf(reading);
  const isBased = quantity === 'torque' || quantity === 'power';
  return {
    column,
    header,
    reading,
    channel: {
      header: shown(header),
      quantity,
      unit: reading.unit === null ? null : unitText(reading),
      values,
      ...placeOf(reading),
      ...(pressureReference === null ? {} : { pressureReference }),
      ...(isBased ? { basis: completeBasis(reading, context.options.torqueIs) } : {}),
    },
    saidBasis: isBased ? reading.basis : null,
  };
}

/** A vacuum gauge's figures grow as the pressure falls. */
function isVacuum(reading: HeaderReading, values: Float64Array): boolean {
  if (!/ (?:vacuum|vac) /.test(` ${reading.words} `)) return false;
  let sum = 0;
  for (let row = 0; row < values.length; row++)
    if (!Number.isNaN(values[row]!)) sum += values[row]!;
  return sum > 0;
}

function placeOf(reading: HeaderReading): { bank?: number; cylinder?: number } {
  return {
    ...(reading.bank === null ? {} : { bank: reading.bank }),
    ...(reading.cylinder === null ? {} : { cylinder: reading.cylinder }),
  };
}

/** A barometer is absolute by its nature; the oil gauge of every engine reads above the air around it (common practice). */
function pressureReferenceOf(reading: HeaderReading): 'absolute' | 'gauge' | null {
  if (reading.quantity === 'barometer') return 'absolute';
  if (reading.quantity === 'oilPressure') return reading.pressureReference ?? 'gauge';
  if (reading.quantity === 'manifoldPressure') return reading.pressureReference ?? 'absolute';
  return null;
}
