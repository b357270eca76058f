import type { Field } from '../form/fields.ts';

/** What is written down of any calibration. */
export const HEAD_FIELDS: readonly Field[] = [
  { key: 'doneOn', label: 'Done on', kind: 'date', required: true },
  { key: 'who', label: 'By', kind: 'text' },
  {
    key: 'intervalMonths',
    label: 'Due again after, months',
    kind: 'number',
    hint: 'Empty: it does not fall due.',
    low: 1,
    high: 240,
  },
  { key: 'notes', label: 'Notes', kind: 'long' },
];

const limit = (key: string, label: string, hint?: string): Field => ({
  key,
  label,
  kind: 'percent',
  low: 0,
  high: 0.15,
  ...(hint === undefined ? {} : { hint }),
});

/** The arm and how well all is known; limits are those within which a thing surely lies. */
export const WEIGHT_FIELDS: readonly Field[] = [
  {
    key: 'lengthM',
    label: 'Arm length',
    kind: 'quantity',
    shown: 'length',
    dimension: 'length',
    required: true,
    hint: 'From the shaft’s centre to the line of the weight.',
    low: 0.02,
    high: 10,
  },
  {
    key: 'armLimitM',
    label: 'Arm known within ±',
    kind: 'quantity',
    shown: 'length',
    dimension: 'length',
    low: 0,
    high: 0.1,
  },
  limit('massLimit', 'Weights known within ±', 'As marked, or as weighed.'),
  {
    key: 'gravityMPerS2',
    label: 'Gravity, m/s²',
    kind: 'number',
    required: true,
    hint: 'From 9.780 at the equator to 9.832 at the poles.',
    low: 9.7,
    high: 9.9,
  },
  limit('gravityLimit', 'Gravity known within ±', '0.25 % where the book’s figure stands in.'),
  {
    key: 'offLevelLimitDeg',
    label: 'Arm level within ±, degrees',
    kind: 'number',
    low: 0,
    high: 10,
  },
  {
    key: 'offLevelDeg',
    label: 'Arm stood off level, degrees',
    kind: 'number',
    low: -10,
    high: 10,
  },
  {
    key: 'resolutionNm',
    label: 'Step of the display',
    kind: 'quantity',
    shown: 'torque',
    dimension: 'torque',
    low: 0,
    high: 1000,
  },
];

/** Units that a sensor may show, by what it measures. */
export const SENSOR_KINDS = [
  { word: 'Temperature', units: ['°C', '°F', 'K'] },
  { word: 'Pressure', units: ['kPa', 'bar', 'mbar', 'psi', 'inHg'] },
  { word: 'Speed', units: ['rpm'] },
  { word: 'Fuel flow', units: ['kg/h', 'lb/h', 'g/s', 'L/h'] },
  { word: 'Lambda', units: ['λ', 'AFR'] },
  { word: 'Torque', units: ['N·m', 'lb-ft'] },
] as const;

export const SENSOR_FIELDS: readonly Field[] = [
  {
    key: 'sensor',
    label: 'Sensor',
    kind: 'text',
    required: true,
    hint: 'Such as “oil temperature”; the same name each time.',
  },
  {
    key: 'unit',
    label: 'Its unit',
    kind: 'choice',
    required: true,
    choices: SENSOR_KINDS.flatMap(({ word, units }) =>
      units.map((value) => ({ value, label: `${word}, ${value}` })),
    ),
  },
  { key: 'reference', label: 'Reference', kind: 'text', hint: 'What it was held against.' },
  {
    key: 'referenceLimit',
    label: 'Reference known within ±',
    kind: 'number',
    hint: 'In the unit of the sensor.',
    low: 0,
  },
];

export const MASS_FIELD: Field = {
  key: 'massKg',
  label: 'Weight',
  kind: 'quantity',
  shown: 'mass',
  dimension: 'mass',
  low: 0,
  high: 5000,
};
export const READING_FIELD: Field = {
  key: 'readingNm',
  label: 'Reading',
  kind: 'quantity',
  shown: 'torque',
  dimension: 'torque',
};
