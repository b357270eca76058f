/** Calibrations of a cell: what was read off, what follows from it, and how they stand on a day. */
import { id, isoDate, list, numberOrNull, orNull, text, z } from './common.ts';
import { mark } from './results.ts';

const direction = z.enum(['up', 'down']);
const weightPoint = z.object({ massKg: z.number(), readingNm: z.number(), direction });
const sensorPoint = z.object({ reading: z.number(), reference: z.number() });

/** Only their form; what may stand in them the record checks, which names the field that is wrong. */
const deadWeights = z
  .object({
    kind: z.literal('dead weights'),
    arm: z.object({ lengthM: z.number(), gravityMPerS2: z.number(), offLevelDeg: z.number() }),
    uncertainty: z
      .object({
        massRelative: z.number(),
        armLengthRelative: z.number(),
        gravityRelative: z.number(),
        offLevelLimitDeg: z.number(),
      })
      .openapi({
        description: 'Relative standard uncertainties; the most the arm may be off level.',
      }),
    resolutionNm: z.number().openapi({ description: 'Step of the display.' }),
    points: list(weightPoint).openapi({ description: 'In the order they were read.' }),
  })
  .strict()
  .openapi('DeadWeights', { description: 'Weights on the torque arm, put on and taken off.' });
const sensorCheck = z
  .object({
    kind: z.literal('sensor'),
    sensor: z.string(),
    unit: z.string(),
    reference: z.string(),
    referenceUncertainty: z.number().openapi({ description: 'Standard, in the unit.' }),
    points: list(sensorPoint),
  })
  .strict()
  .openapi('SensorCheck', { description: 'A sensor beside a reference, both in its own unit.' });
export const measured = z.union([deadWeights, sensorCheck]);

const uncertainty = z
  .object({ constantNm: z.number(), fraction: z.number() })
  .openapi('TorqueUncertainty', { description: 'U² = constantNm² + (fraction T)².' });
const weightsAnswer = z
  .object({
    kind: z.literal('dead weights'),
    line: z.object({
      intercept: z.number(),
      slope: z.number(),
      interceptSe: z.number(),
      slopeSe: z.number(),
      correlation: z.number(),
      residualSd: z.number(),
      rSquared: z.number(),
      degreesOfFreedom: z.number(),
      meanX: z.number(),
      sumSquaresX: z.number(),
    }),
    zeroNm: z.number(),
    gain: z.number().openapi({ description: 'Reading over torque: 1.003 reads 0.3 % high.' }),
    hysteresisNm: numberOrNull,
    nonLinearityNm: z.number(),
    repeatabilityNm: numberOrNull,
    zeroReturnNm: numberOrNull,
    rangeNm: z.tuple([z.number(), z.number()]).readonly(),
    armRelative: z.number(),
    standard: uncertainty,
    expanded: uncertainty,
    coverageFactor: z.number(),
    residuals: list(
      z.object({
        appliedNm: z.number(),
        readingNm: z.number(),
        direction,
        residualNm: z.number(),
        correctedNm: z.number(),
        expandedNm: z.number(),
      }),
    ),
  })
  .openapi('DeadWeightsAnswer', { description: 'At the sensor, in N·m; `expanded` is 95 %.' });
const sensorAnswer = z
  .object({
    kind: z.literal('sensor'),
    offset: z.number(),
    gain: z.number(),
    largestResidual: z.number(),
    uncertainty: numberOrNull.openapi({
      description: '95 % of a corrected reading; null below three points.',
    }),
    residuals: list(sensorPoint.extend({ corrected: z.number(), residual: z.number() })),
  })
  .openapi('SensorAnswer', { description: 'truth = offset + gain × reading.' });

const due = z
  .object({ dueIso: isoDate, daysLeft: z.number().int(), isDue: z.boolean() })
  .openapi('Due', {
    description: 'Seen from the day that was asked for; due: 0 days left or less.',
  });
const fields = z.object({
  doneOn: isoDate,
  who: z.string(),
  intervalMonths: z.number().int().nullable().openapi({
    description: 'Whole months until it is due again; null: it does not fall due.',
  }),
  notes: text,
  measured,
});
export const calibration = fields
  .extend({
    id,
    cellId: id,
    answer: z.union([weightsAnswer, sensorAnswer]),
    due: orNull(due),
  })
  .openapi('Calibration', { description: 'As it was read off, with what follows from it.' });
export const newCalibration = fields
  .partial()
  .required({ doneOn: true, who: true, measured: true })
  .strict()
  .openapi('NewCalibration');
export const calibrationPatch = fields.partial().strict().openapi('CalibrationPatch');

const holding = z
  .object({
    calibrationId: id,
    of: z.string().openapi({ description: '`torque`, or the sensor by name.' }),
    doneOn: isoDate,
    due: orNull(due),
  })
  .openapi('Holding', { description: 'The newest calibration of one thing on or before a day.' });
export const calibrationState = z
  .object({
    cellId: id,
    on: isoDate.nullable(),
    torque: orNull(holding),
    sensors: list(holding),
    remarks: list(mark).openapi({ description: 'What pulls, day and ladder say of it.' }),
  })
  .openapi('CalibrationState', { description: 'How the calibrations of a cell stand on a day.' });
export const calibrationPage = z
  .object({ state: calibrationState, calibrations: list(calibration) })
  .openapi('CalibrationPage', { description: 'All calibrations of a cell, the newest first.' });

const unitName = z.string().min(1).max(40);
export const pastedReadings = z
  .union([
    z
      .object({
        kind: z.literal('dead weights'),
        text: z.string().max(100_000),
        massUnit: unitName.default('kg'),
        torqueUnit: unitName.default('N·m'),
      })
      .strict(),
    z.object({ kind: z.literal('sensor'), text: z.string().max(100_000), unit: unitName }).strict(),
  ])
  .openapi('PastedReadings', {
    description:
      'Cells of a spreadsheet: rows by line, cells by tab, a heading with units or none.',
  });
export const readReadings = z
  .union([
    z.object({ kind: z.literal('dead weights'), points: list(weightPoint) }),
    z.object({ kind: z.literal('sensor'), points: list(sensorPoint) }),
  ])
  .openapi('ReadReadings', { description: 'The points, as a calibration takes them.' });
