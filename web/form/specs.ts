import { AIR_STANDARDS } from '../../src/pull/recording.ts';
import { nameOfStandard } from '../shell/words.ts';
import type { Field } from './fields.ts';

/** The fields of each thing of the record, told once for new and for edit. */

const notes: Field = { key: 'notes', label: 'Notes', kind: 'long' };

const measures: readonly Field[] = [
  { key: 'cylinders', label: 'Cylinders', kind: 'number', low: 1, high: 64 },
  {
    key: 'displacementM3',
    label: 'Displacement',
    kind: 'quantity',
    shown: 'displacement',
    dimension: 'volume',
    low: 1e-6,
    high: 0.2,
  },
  {
    key: 'strokeM',
    label: 'Stroke',
    kind: 'quantity',
    shown: 'length',
    dimension: 'length',
    low: 0.005,
    high: 1,
  },
  { key: 'compressionRatio', label: 'Compression ratio', kind: 'number', low: 1, high: 40 },
];

export const CYCLES = [
  { value: '4', label: 'four-stroke' },
  { value: '2', label: 'two-stroke' },
];
export const ASPIRATIONS = [
  { value: 'natural', label: 'naturally aspirated' },
  { value: 'boosted', label: 'boosted' },
  { value: 'nitrous', label: 'nitrous' },
];

export const ENGINE_FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name', kind: 'text', required: true },
  { key: 'serial', label: 'Shop serial', kind: 'text' },
  { key: 'owner', label: 'Owner', kind: 'text' },
  { key: 'fuel', label: 'Fuel', kind: 'text' },
  ...measures,
  { key: 'cycle', label: 'Working cycle', kind: 'choice', choices: CYCLES },
  { key: 'aspiration', label: 'Aspiration', kind: 'choice', choices: ASPIRATIONS },
  notes,
];

export const BUILD_FIELDS: readonly Field[] = [
  {
    key: 'name',
    label: 'Name',
    kind: 'text',
    required: true,
    hint: 'Such as “build 2” or “after the refresh”.',
  },
  ...measures.map((field) => ({ ...field, hint: 'Empty: as the engine says.' })),
  notes,
];

const temperature = (key: string, label: string, hint?: string): Field => ({
  key,
  label,
  kind: 'quantity',
  shown: 'temperature',
  dimension: 'temperature',
  low: 200,
  high: 400,
  ...(hint === undefined ? {} : { hint }),
});

/** All that turns with the crank. */
export const INERTIA_FIELD: Field = {
  key: 'inertiaKgM2',
  label: 'Inertia',
  kind: 'quantity',
  shown: 'inertia',
  dimension: 'inertia',
  low: 1e-4,
  high: 1000,
};

/** What a new test day asks: enough to begin; the rest has its place on the day's own page. */
export const newDayFields = (
  cells: readonly { readonly value: string; readonly label: string }[],
): readonly Field[] => [
  { key: 'date', label: 'Date', kind: 'date' },
  { key: 'name', label: 'Name', kind: 'text', hint: 'Where the date alone would not tell it.' },
  { key: 'cellId', label: 'Cell', kind: 'choice', choices: cells, required: true },
  { key: 'bandRpm', label: 'Judged between', kind: 'band', hint: 'Such as 5000 to 7200.' },
];

export const dayFields = (
  cells: readonly { readonly value: string; readonly label: string }[],
  uses: readonly string[],
): readonly Field[] => [
  ...newDayFields(cells),
  {
    key: 'standard',
    label: 'Air standard',
    kind: 'choice',
    choices: [
      { value: '', label: 'the shop’s' },
      ...AIR_STANDARDS.map((name) => ({ value: name, label: nameOfStandard(name) })),
    ],
  },
  {
    key: 'use',
    label: 'Use',
    kind: 'choice',
    choices: [{ value: '', label: 'all of the shop’s uses' }, ...uses.map(asChoice)],
  },
  {
    ...INERTIA_FIELD,
    hint: 'Engine, coupling and brake, as seen at the crank. Empty: as written down for the cell.',
  },
  {
    key: 'isReference',
    label: 'Reference day',
    kind: 'yesNo',
    hint: 'Pulls of an engine that nobody changed, made to learn how days differ.',
  },
  { key: 'lambdaTarget', label: 'Lambda target', kind: 'number', low: 0.4, high: 2 },
  { key: 'fuel', label: 'Fuel', kind: 'text', nullable: true, hint: 'Empty: the engine’s.' },
  { key: 'octane', label: 'Octane number', kind: 'number', low: 0, high: 200 },
  { key: 'fuelBatch', label: 'Fuel batch', kind: 'text' },
  temperature('inletTemperatureK', 'Inlet temperature'),
  temperature('worstInletTemperatureK', 'Hottest inlet the owner will see'),
  { key: 'worstOctane', label: 'Worst octane the owner will use', kind: 'number', high: 200 },
  temperature('airTemperatureK', 'Air temperature', 'Used where a file has no channel for it.'),
  {
    key: 'airPressureAbsPa',
    label: 'Barometer',
    kind: 'quantity',
    shown: 'barometer',
    dimension: 'pressure',
    hint: 'Used where a file has no channel for it.',
    low: 20_000,
    high: 200_000,
  },
  {
    key: 'airHumidity',
    label: 'Relative humidity',
    kind: 'percent',
    hint: 'Used where a file has no channel for it.',
    low: 0,
    high: 1,
  },
  notes,
];

function asChoice(value: string): { value: string; label: string } {
  return { value, label: value };
}

/** How the engine stood on the cell; for the day, and for what differs in one pull. */
export const CONFIGURATION_FIELDS: readonly Field[] = [
  { key: 'exhaust', label: 'Exhaust', kind: 'text' },
  { key: 'airCleaner', label: 'Air cleaner', kind: 'text' },
  { key: 'accessories', label: 'Driven accessories', kind: 'text' },
  { key: 'oil', label: 'Oil', kind: 'text' },
  { key: 'plugs', label: 'Plugs', kind: 'text' },
  { key: 'baseTimingDeg', label: 'Base timing, degrees', kind: 'number', low: -90, high: 90 },
  { key: 'leadSetBy', label: 'How lead was set and checked', kind: 'text' },
  { key: 'distributorCurve', label: 'Distributor curve', kind: 'text' },
  { key: 'other', label: 'Anything else', kind: 'long' },
];

export const CELL_FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name', kind: 'text', required: true },
  {
    ...INERTIA_FIELD,
    hint: 'All that turns with the crank: engine, coupling and brake, as seen at the crank.',
  },
  {
    key: 'sensorLagS',
    label: 'Torque sensor lag, s',
    kind: 'number',
    hint: 'Time constant, where it is known.',
    low: 0,
    high: 10,
  },
  {
    key: 'ratio',
    label: 'Brake turns per crank turn',
    kind: 'number',
    required: true,
    low: 0.01,
    high: 100,
  },
  {
    key: 'calibrationRelSd',
    label: 'Uncertainty of the torque calibration',
    kind: 'percent',
    required: true,
    hint: 'One standard deviation; stands in where the cell was not calibrated with weights.',
    low: 0,
    high: 0.5,
  },
  notes,
];

/** What a torque holds: in which air, and whether the inertia of the rotating parts is put back. */
export const BASIS_FIELDS: readonly Field[] = [
  {
    key: 'air',
    label: 'Torque and power are',
    kind: 'choice',
    required: true,
    choices: [
      { value: 'unknown', label: 'not known' },
      { value: 'observed', label: 'as observed' },
      ...AIR_STANDARDS.filter((name) => name !== 'none').map((name) => ({
        value: name,
        label: `corrected to ${nameOfStandard(name)}`,
      })),
    ],
  },
  {
    key: 'inertia',
    label: 'Inertia of the rotating parts',
    kind: 'choice',
    required: true,
    choices: [
      { value: 'unknown', label: 'not known' },
      { value: 'out', label: 'not put back' },
      { value: 'in', label: 'put back' },
    ],
  },
];
