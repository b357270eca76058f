import { FormatError } from '../errors.ts';
import type { Channel, TorqueBasis } from '../pull/recording.ts';
import { type Unit, unitsSpelled } from '../units/index.ts';
import { completeBasis } from './basis.ts';
import { sinceFirst } from './clock.ts';
import { quoted, shown } from './display.ts';
import { takeFillers } from './fillers.ts';
import { toMassFlow } from './flow.ts';
import { DIMENSIONS, type HeaderReading, readHeader, unitFor } from './header.ts';
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

export interface DraftTable {
  readonly drafts: Draft[];
  readonly warnings: string[];
  readonly questions: Question[];
}

/** Columns into channels: recognised, filler taken out, in inside units. The raw columns are converted in place. */
export function draftChannels(table: RawTable, options: ReadOptions): DraftTable {
  refuseTwins(table, options);
  const warnings: string[] = [];
  const questions: Question[] = [];
  const readings = numberCylinders(
    table.headers.map((header, column) => readColumn(table, header, column, options)),
  );
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

/** Two columns of one name cannot be told apart by anybody. */
function refuseTwins(table: RawTable, options: ReadOptions): void {
  const seen = new Map<string, number>();
  for (const [column, header] of table.headers.entries()) {
    const key = `${header.toLowerCase()}\u0001${table.unitRow?.[column] ?? ''}`;
    const first = seen.get(key);
    if (first !== undefined)
      throw new FormatError(
        `columns ${first + 1} and ${column + 1} are both named ${quoted(header)}: give each its own name`,
        {
          file: options.fileName,
          ...(table.headerLine === null ? {} : { line: table.headerLine }),
          column: column + 1,
          found: shown(header, 80),
          expected: 'a name that no other column has',
        },
      );
    seen.set(key, column);
  }
}

function readColumn(
  table: RawTable,
  header: string,
  column: number,
  options: ReadOptions,
): HeaderReading {
  const reading = readHeader(header, table.unitRow?.[column] ?? '');
  const place = {
    file: options.fileName,
    ...(table.headerLine === null ? {} : { line: table.headerLine }),
    column: column + 1,
  };
  const said =
    options.mapping !== undefined && Object.hasOwn(options.mapping, header)
      ? options.mapping[header]
      : undefined;
  if (said !== undefined) {
    const quantity = said.ignore === true ? 'other' : said.quantity;
    let unit: Unit | null;
    if (said.unit !== undefined) {
      unit = unitFor(said.unit, quantity);
      if (unit === null) refuseUnit(header, said.unit, quantity, place);
    } else
      unit =
        reading.unit !== null &&
        (DIMENSIONS[quantity].length === 0 || DIMENSIONS[quantity].includes(reading.unit.dimension))
          ? reading.unit
          : null;
    return {
      ...reading,
      quantity,
      unit,
      unknownUnit: null,
      basis: said.basis ?? reading.basis,
      correctedToWhat: said.basis === undefined && reading.correctedToWhat,
      pressureReference: said.pressureReference ?? reading.pressureReference,
      bank: said.bank ?? reading.bank,
      cylinder: said.cylinder ?? reading.cylinder,
    };
  }
  if (
    reading.unknownUnit !== null &&
    reading.quantity !== 'other' &&
    reading.quantity !== 'knock'
  ) {
    const atUnitRow = (table.unitRow?.[column] ?? '') !== '';
    refuseUnit(header, reading.unknownUnit, reading.quantity, {
      ...place,
      ...(atUnitRow && table.unitLine !== null ? { line: table.unitLine } : {}),
    });
  }
  return reading;
}

function refuseUnit(
  header: string,
  unit: string,
  quantity: HeaderReading['quantity'],
  place: { file: string; line?: number; column: number },
): never {
  const known = unitsSpelled(unit)[0];
  const expected = UNIT_EXAMPLES[quantity] ?? 'a unit that is known';
  throw new FormatError(
    known === undefined
      ? `the unit ${quoted(unit)} of ${quoted(header)} is not known; expected ${expected}`
      : `${quoted(unit)} is no unit of ${quantity} (column ${quoted(header)}); expected ${expected}`,
    { ...place, found: shown(unit, 80), expected },
  );
}

const UNIT_EXAMPLES: Readonly<Partial<Record<HeaderReading['quantity'], string>>> = {
  time: 's, ms, min or a clock',
  speed: 'rpm, rev/s or Hz',
  torque: 'lb-ft, N·m or kgf·m',
  power: 'hp, PS or kW',
  fuelFlow: 'lb/h, kg/h, g/s, gal/h or L/h',
  airFlow: 'lb/h, kg/h, g/s or cfm',
  lambda: 'no unit, or λ',
  afr: 'no unit, or AFR',
  humidity: '%',
  throttle: '%',
  lead: 'deg',
  barometer: 'inHg, mmHg, kPa, mbar or psi',
  oilPressure: 'psi, kPa or bar',
  manifoldPressure: 'inHg, kPa, mbar or psi',
  oilTemperature: '°F, °C or K',
  waterTemperature: '°F, °C or K',
  airTemperature: '°F, °C or K',
  exhaustTemperature: '°F, °C or K',
};

/** `Lambda 1` to `Lambda 8` are cylinders, `Lambda 1` and `Lambda 2` alone are banks. */
function numberCylinders(readings: readonly HeaderReading[]): HeaderReading[] {
  const byCylinder = new Set(
    readings.filter((reading) => (reading.cylinder ?? 0) > 2).map((reading) => reading.quantity),
  );
  return readings.map((reading) =>
    reading.bank !== null && byCylinder.has(reading.quantity) && / [12] /.test(` ${reading.words} `)
      ? { ...reading, bank: null, cylinder: reading.bank }
      : reading,
  );
}

const US = /^(?:lb-ft|lb-in|hp|inHg|inH2O|psi|psig|psia|°F|lb\/|gal\/|ft³)/;
const METRIC = /^(?:N·m|kgf|kW|PS|kPa|mbar|hPa|bar|mmHg|°C|K$|kg\/|g\/|L\/|m³)/;

/** The family of units that a file's headers speak; null where they are silent or equally split. */
function familyOf(readings: readonly HeaderReading[]): 'us' | 'metric' | null {
  const symbols = readings.flatMap((reading) =>
    reading.unit === null ? [] : [reading.unit.symbol],
  );
  const us = symbols.filter((symbol) => US.test(symbol)).length;
  const metric = symbols.filter((symbol) => METRIC.test(symbol)).length;
  return us === metric ? null : us > metric ? 'us' : 'metric';
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
