import type { Quantity } from '../pull/recording.ts';
import { powerW } from '../trade/power.ts';
import { findUnit, type Unit } from '../units/index.ts';
import { quoted } from './display.ts';
import type { HeaderReading } from './header.ts';
import type { Question, RawTable } from './types.ts';

/** A unit taken where the file states none, and whether the values leave no doubt. */
export interface UnitGuess {
  readonly unit: Unit;
  readonly isCertain: boolean;
}

function known(symbol: string): Unit {
  const unit = findUnit(symbol);
  if (unit === undefined) throw new Error(`the table of units lacks ${symbol}`);
  return unit;
}

const taken = (symbol: string, isCertain: boolean): UnitGuess => ({
  unit: known(symbol),
  isCertain,
});

/** Smallest, largest and middle of the numbers in a column (every n-th of a long one). */
function spread(values: Float64Array): { low: number; high: number; middle: number } {
  const every = Math.max(1, Math.floor(values.length / 5000));
  const some: number[] = [];
  for (let row = 0; row < values.length; row += every)
    if (!Number.isNaN(values[row]!)) some.push(values[row]!);
  some.sort((a, b) => a - b);
  const at = (share: number) => some[Math.floor(share * (some.length - 1))] ?? Number.NaN;
  return { low: at(0), high: at(1), middle: at(0.5) };
}

/**
 * The unit of a column whose header states none: from the size of its values where only one unit can give them, else
 * from the family of the units that the file's other headers state.
 */
export function guessUnit(
  quantity: Quantity,
  values: Float64Array,
  known: { family: 'us' | 'metric' | null; words: string; paired: UnitGuess | null },
): UnitGuess {
  const { family } = known;
  const byFamily = (us: string, metric: string): UnitGuess =>
    taken(family === 'us' ? us : metric, false);
  const { low, high, middle } = spread(values);
  switch (quantity) {
    case 'time':
      return timeUnit(values);
    case 'speed':
      return high > 200 || Number.isNaN(high) ? taken('rpm', true) : taken('rev/s', false);
    case 'torque':
      return known.paired ?? byFamily('lb-ft', 'N·m');
    case 'power':
      return known.paired ?? byFamily('hp', 'kW');
    case 'humidity':
    case 'throttle':
      return high > 1.5 ? taken('%', true) : taken('1', true);
    case 'lead':
      return taken('deg', true);
    case 'barometer':
      if (middle > 20 && middle < 33) return taken('inHg', true);
      if (middle > 60 && middle < 112) return taken('kPa', true);
      if (middle > 800 && middle < 1120) return taken('mbar', true);
      if (middle > 500 && middle < 800) return taken('mmHg', true);
      if (middle > 9 && middle < 16) return taken('psi', true);
      return byFamily('inHg', 'kPa');
    case 'oilPressure':
      if (high > 150) return taken('kPa', true);
      return family === 'us'
        ? taken('psi', false)
        : high < 13
          ? taken('bar', false)
          : taken('psi', false);
    case 'manifoldPressure':
      if (middle > 50 && high < 400 && family !== 'us') return taken('kPa', false);
      return byFamily('inHg', 'kPa');
    case 'waterTemperature':
    case 'oilTemperature':
      if (low > 255 && family !== 'us') return taken('K', false);
      if (middle > 155) return taken('°F', true);
      return byFamily('°F', '°C');
    case 'airTemperature':
      if (low > 255) return taken('K', true);
      if (middle > 60) return taken('°F', true);
      return byFamily('°F', '°C');
    case 'exhaustTemperature':
      if (high > 1150) return taken('°F', true);
      return byFamily('°F', '°C');
    case 'fuelFlow':
    case 'airFlow':
      return byFamily('lb/h', 'kg/h');
    default:
      return taken('1', true);
  }
}

/** Steps below a second are seconds; whole steps of five and more are taken as milliseconds, and asked. */
function timeUnit(values: Float64Array): UnitGuess {
  const steps: number[] = [];
  for (let row = 1; row < values.length && steps.length < 2000; row++) {
    const step = values[row]! - values[row - 1]!;
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const step = steps[Math.floor(steps.length / 2)] ?? Number.NaN;
  if (step >= 5) return taken('ms', false);
  return taken('s', !(step >= 1));
}

const TORQUE_UNITS = ['lb-ft', 'N·m', 'kgf·m'] as const;
const POWER_UNITS = ['hp', 'kW', 'PS'] as const;
const PAIR_TOLERANCE = 0.002;

/**
 * Units of torque and power that stand side by side without one: power is torque times speed in only one pair of
 * units (5252 for lb-ft and hp, 9549 for N·m and kW). Null where no pair, or more than one, fits to 0.2 %.
 */
export function pairedUnits(
  table: RawTable,
  readings: readonly HeaderReading[],
): ReadonlyMap<number, UnitGuess> {
  const found = new Map<number, UnitGuess>();
  const only = (quantity: Quantity) =>
    readings.findIndex(
      (reading, column) =>
        reading.quantity === quantity && table.columns[column]!.kind === 'number',
    );
  const [speed, torque, power] = [only('speed'), only('torque'), only('power')];
  if (speed === -1 || torque === -1 || power === -1) return found;
  const torqueUnit = readings[torque]!.unit;
  const powerUnit = readings[power]!.unit;
  if (torqueUnit !== null && powerUnit !== null) return found;
  const toRpm = readings[speed]!.unit?.factor ?? 1;
  const n = table.columns[speed]!.values;
  const t = table.columns[torque]!.values;
  const p = table.columns[power]!.values;
  const ratios: number[] = [];
  for (let row = 0; row < n.length; row++) {
    const ratio = powerW(t[row]!, n[row]! * toRpm) / p[row]!;
    if (Number.isFinite(ratio) && ratio > 0) ratios.push(ratio);
  }
  ratios.sort((a, b) => a - b);
  const ratio = ratios[Math.floor(ratios.length / 2)];
  if (ratio === undefined) return found;
  const torques = torqueUnit === null ? TORQUE_UNITS.map(known) : [torqueUnit];
  const powers = powerUnit === null ? POWER_UNITS.map(known) : [powerUnit];
  const fitting = torques.flatMap((a) =>
    powers
      .filter((b) => Math.abs((ratio * a.factor) / b.factor - 1) < PAIR_TOLERANCE)
      .map((b) => [a, b] as const),
  );
  if (fitting.length !== 1) return found;
  // One logger writes its other columns of torque and power in the same units.
  for (const [column, reading] of readings.entries())
    if (reading.quantity === 'torque') found.set(column, { unit: fitting[0]![0], isCertain: true });
    else if (reading.quantity === 'power')
      found.set(column, { unit: fitting[0]![1], isCertain: true });
  return found;
}

const CHOICES: Readonly<Partial<Record<Quantity, readonly string[]>>> = {
  time: ['s', 'ms', 'min'],
  speed: ['rpm', 'rev/s'],
  torque: ['lb-ft', 'N·m', 'kgf·m'],
  power: ['hp', 'PS', 'kW'],
  oilPressure: ['psi', 'kPa', 'bar'],
  barometer: ['inHg', 'mmHg', 'kPa', 'mbar', 'psi'],
  manifoldPressure: ['inHg', 'kPa', 'mbar', 'psi'],
  oilTemperature: ['°F', '°C', 'K'],
  waterTemperature: ['°F', '°C', 'K'],
  airTemperature: ['°F', '°C', 'K'],
  exhaustTemperature: ['°F', '°C', 'K'],
  fuelFlow: ['lb/h', 'kg/h', 'g/s', 'gal/h', 'L/h'],
  airFlow: ['lb/h', 'kg/h', 'g/s', 'cfm'],
};

/** Asks for the unit of a column. */
export function unitQuestion(header: string, quantity: Quantity, meanwhile: Unit): Question {
  return {
    key: `unit:${header}`,
    header,
    sentence: `In which unit is ${quoted(header)}?`,
    meanwhile: meanwhile.symbol,
    choices: (CHOICES[quantity] ?? []).map((unit) => ({
      label: unit,
      answer: { mapping: { [header]: { quantity, unit } } },
    })),
  };
}
