import { FormatError } from '../errors.ts';
import { type Unit, unitsSpelled } from '../units/index.ts';
import { quoted, shown } from './display.ts';
import { DIMENSIONS, type HeaderReading, readHeader, unitFor } from './header.ts';
import type { RawTable, ReadOptions } from './types.ts';

/**
 * What each column of a table is, by its header, the row of units and what the user said.
 * @throws FormatError  two columns of one name, or a unit that is not known
 */
export function readColumns(table: RawTable, options: ReadOptions): HeaderReading[] {
  refuseTwins(table, options);
  return numberCylinders(
    table.headers.map((header, column) => readColumn(table, header, column, options)),
  );
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
export function familyOf(readings: readonly HeaderReading[]): 'us' | 'metric' | null {
  const symbols = readings.flatMap((reading) =>
    reading.unit === null ? [] : [reading.unit.symbol],
  );
  const us = symbols.filter((symbol) => US.test(symbol)).length;
  const metric = symbols.filter((symbol) => METRIC.test(symbol)).length;
  return us === metric ? null : us > metric ? 'us' : 'metric';
}
