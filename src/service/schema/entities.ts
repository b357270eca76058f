/** The entities of the record as they cross HTTP, each with its new and patch form. */
import { SETTING_NAMES, type SettingName } from '../../ladder/index.ts';
import { QUANTITIES } from '../../pull/recording.ts';
import {
  airStandard,
  bandRpm,
  chance,
  id,
  isoDate,
  isoTime,
  label,
  list,
  orNull,
  percent,
  positive,
  positiveOrNull,
  temperatureK,
  text,
  torqueBasis,
  z,
} from './common.ts';
import { whyNoMark } from './mark.ts';

const useRules = z
  .object({
    name: label.min(1),
    meaning: text,
    holdbackDeg: z.number().min(0).max(30),
    holdbackLambda: z.number().min(0).max(1).nullable().optional().openapi({
      description:
        'Least holdback to the rich side [lambda]; null: no rule for mixture; missing: the shipped one.',
    }),
    speedsRpm: orNull(bandRpm),
    chancePastBest: chance,
    chancePastLimit: chance,
  })
  .openapi('UseRules');

const shopFields = z.object({
  name: label.min(1),
  invented: z.boolean().openapi({ description: 'The demo: nobody and nothing in it is real.' }),
  address: z.string().max(300).openapi({ description: 'In one line, for its papers.' }),
  mark: z
    .string()
    .max(300_000)
    .superRefine((dataUrl, context) => {
      const message = whyNoMark(dataUrl);
      if (message !== null) context.addIssue({ code: 'custom', message });
    })
    .nullable()
    .openapi({ description: 'PNG or SVG as a data URL, at most 200 kB.' }),
  units: z.enum(['us', 'metric']),
  standard: airStandard,
  worthPercent: percent,
  stepDeg: positive.max(10),
  repeatabilityPercent: percent.nullable(),
  holdbackDegPer10K: z.number().min(0).max(20),
  holdbackDegPerOctane: z.number().min(0).max(20),
  uses: list(useRules),
});
const windowRule = z
  .object({
    name: label.min(1),
    uses: list(label).nullable().openapi({ description: 'null: all without a line of their own.' }),
    when: z.record(z.string(), z.string()),
    low: z.number().nullable(),
    high: z.number().nullable(),
    stopBelow: z.number().nullable(),
    stopAbove: z.number().nullable(),
    perM: z.boolean(),
    source: text,
    addresses: list(text).optional(),
  })
  .openapi('WindowRule', { description: 'One line of the list of windows of a build sheet.' });
export const shop = shopFields.extend({ windows: list(windowRule) }).openapi('Shop');
export const shopPatch = shopFields
  .extend({ windows: list(windowRule) })
  .partial()
  .strict()
  .openapi('ShopPatch');

const cellFields = z.object({
  name: label.min(1),
  notes: text,
  inertiaKgM2: positiveOrNull,
  sensorLagS: z.number().min(0).max(10).nullable(),
  ratio: positive,
  torqueIs: torqueBasis,
  calibrationRelSd: z.number().min(0).max(0.5).openapi({
    description:
      'Stands in where no calibration with dead weights is in the record on or before the day.',
  }),
  applyCalibration: z.boolean().openapi({
    description:
      'Torque is corrected by the newest calibration; else what it reads wrong is in the band.',
  }),
});
export const cell = cellFields.extend({ id }).openapi('Cell');
export const newCell = cellFields.partial().required({ name: true }).strict().openapi('NewCell');
export const cellPatch = cellFields.partial().strict().openapi('CellPatch');

const columnAnswer = z
  .object({
    quantity: z.enum(QUANTITIES),
    unit: z.string().max(40).optional(),
    ignore: z.boolean().optional(),
    basis: torqueBasis.optional(),
    pressureReference: z.enum(['absolute', 'gauge']).optional(),
    bank: z.number().int().min(0).max(64).optional(),
    cylinder: z.number().int().min(0).max(64).optional(),
  })
  .strict()
  .openapi('ColumnAnswer', {
    description: 'What a person said of one column. What is left out is as the file says.',
  });
export const rememberedOptions = z
  .object({
    mapping: z.record(z.string().max(1000), columnAnswer).optional().openapi({
      description: 'By header, exactly as the file has it.',
    }),
    torqueIs: torqueBasis.optional(),
    brakeRatio: positive.optional(),
    fuel: label.optional(),
    fuelDensityKgM3: positive.optional(),
    dayFirst: z.boolean().optional(),
  })
  .strict()
  .openapi('RememberedOptions', {
    description: 'Answers given to intake with every file of one shape from one cell.',
  });
export const mapping = z
  .object({ id, cellId: id, shape: z.string(), answers: rememberedOptions })
  .openapi('Mapping');
export const mappingBody = z
  .object({ answers: rememberedOptions })
  .strict()
  .openapi('MappingBody', { description: 'Replaces what was remembered of this file shape.' });

const engineMeasures = {
  cylinders: z.number().int().min(1).max(64).nullable(),
  displacementM3: positiveOrNull,
  strokeM: positiveOrNull,
  compressionRatio: z.number().min(1).max(40).nullable(),
};
const engineFields = z.object({
  name: label.min(1),
  serial: label,
  owner: label,
  notes: text,
  ...engineMeasures,
  cycle: z.union([z.literal(2), z.literal(4)]),
  aspiration: z.enum(['natural', 'boosted', 'nitrous']),
  fuel: label,
  refreshAfterS: positiveOrNull.openapi({
    description:
      'Running time after which the shop refreshes it; of this and the next three whichever comes first.',
  }),
  refreshAfterPulls: z.number().int().positive().nullable(),
  refreshAfterThrottleS: positiveOrNull,
  refreshAfterMonths: z.number().int().min(1).max(1200).nullable(),
});
export const engine = engineFields.extend({ id }).openapi('Engine');
export const newEngine = engineFields
  .partial()
  .required({ name: true })
  .strict()
  .openapi('NewEngine');
export const enginePatch = engineFields.partial().strict().openapi('EnginePatch');

const buildFields = z.object({ name: label.min(1), notes: text, ...engineMeasures });
export const build = buildFields.extend({ id, engineId: id }).openapi('Build', {
  description: 'One state of the engine. What it leaves null is as the engine says.',
});
export const newBuild = buildFields.partial().required({ name: true }).strict().openapi('NewBuild');
export const buildPatch = buildFields.partial().strict().openapi('BuildPatch');

export const configuration = z
  .object({
    exhaust: label,
    airCleaner: label,
    accessories: label,
    oil: label,
    plugs: label,
    baseTimingDeg: z.number().min(-90).max(90),
    leadSetBy: label,
    distributorCurve: text,
    other: text,
  })
  .partial()
  .strict()
  .openapi('Configuration', {
    description:
      "How the engine stood on the cell. A pull's names only what differs from the day's.",
  });

const dayFields = z.object({
  cellId: id,
  name: label,
  date: isoDate.nullable(),
  notes: text,
  fuel: label.nullable(),
  octane: z.number().min(0).max(200).nullable(),
  fuelBatch: label,
  inletTemperatureK: temperatureK.nullable(),
  worstInletTemperatureK: temperatureK.nullable(),
  worstOctane: z.number().min(0).max(200).nullable(),
  airPressureAbsPa: z.number().min(20_000).max(200_000).nullable(),
  airTemperatureK: temperatureK.nullable(),
  airHumidity: chance.nullable(),
  configuration,
  standard: orNull(airStandard),
  bandRpm: orNull(bandRpm),
  use: label.nullable(),
  lambdaTarget: positive.max(3).nullable(),
  inertiaKgM2: positiveOrNull.openapi({
    description:
      'All that turns with the crank, this engine included; null: nobody has said it, the cell’s stands in.',
  }),
  isReference: z.boolean().openapi({
    description: 'Made to learn how days differ: pulls of an unchanged engine.',
  }),
});
export const day = dayFields.extend({ id, buildId: id }).openapi('TestDay');
export const newDay = dayFields.partial().required({ cellId: true }).strict().openapi('NewDay');
export const dayPatch = dayFields.partial().strict().openapi('DayPatch');

export const pullSpan = z
  .object({
    firstRow: z.number().int(),
    lastRow: z.number().int(),
    direction: z.enum(['rising', 'falling', 'held steps', 'table']),
    fromRpm: z.number(),
    toRpm: z.number(),
  })
  .openapi('PullSpan');

/** Name of a part test: a few letters, since it stands in a narrow cell. */
const group = z.string().min(1).max(200);
const leadDeg = z.number().min(-90).max(180);
const lambda = positive.max(3);
export const settingName = z
  .enum(SETTING_NAMES as [SettingName, ...SettingName[]])
  .openapi('SettingName', {
    description: 'A kind of setting that a ladder steps.',
  });

const pullFields = z.object({
  order: z.number().int().min(0).max(1_000_000),
  madeAt: isoTime.nullable(),
  leadDeg: leadDeg.nullable(),
  lambdaTarget: lambda.nullable(),
  lambdaMeasured: lambda.nullable().openapi({
    description: 'As read at this pull; null: what its recording says, where it has a channel.',
  }),
  lambdaErrorSd: z.number().min(0).max(0.5).nullable().openapi({
    description: 'Sd of that reading; null: nobody said, a sensor’s usual one stands in.',
  }),
  jets: z.string().min(1).max(200).nullable().openapi({
    description: 'Jets by position, in words; pulls of one set of jets are one rung.',
  }),
  loadPercent: positive.lt(100).nullable().openapi({
    description: 'Held load [%]; null: full throttle.',
  }),
  note: text,
  excludedBecause: text.min(1).nullable(),
  watched: z.enum(['ear', 'plug', 'sensor', 'not']).nullable(),
  knockHeard: z.union([z.boolean(), z.number().min(0).max(100_000)]).openapi({
    description:
      'true: heard somewhere; a number: heard at that speed [rev/min]; false: not heard.',
  }),
  specksOnPlug: z.boolean(),
  aborted: z.boolean(),
  group: group.nullable(),
  configuration,
  peakPowerW: positiveOrNull,
  peakPowerSpeedRpm: positiveOrNull,
  peakTorqueNm: positiveOrNull,
  peakTorqueSpeedRpm: positiveOrNull,
  peaksAre: orNull(torqueBasis),
});
export const pull = pullFields
  .extend({
    id,
    dayId: id,
    recordingSha256: z.string().nullable(),
    fileName: z.string().nullable(),
    span: orNull(pullSpan),
  })
  .openapi('Pull');
export const newPull = pullFields.partial().strict().openapi('NewPull', {
  description: 'A pull typed by hand: at least a lead and a peak. Recorded pulls come by import.',
});
export const pullPatch = pullFields.partial().strict().openapi('PullPatch');
export const pullPatches = z
  .array(z.object({ id, patch: pullPatch }).strict())
  .min(1)
  .max(2000)
  .openapi('PullPatches');

const ladderFields = z.object({
  name: label.min(1),
  group: group.nullable(),
  heldLeadDeg: leadDeg.nullable().openapi({
    description: 'Only pulls at this lead; null: at any. Says nothing in a ladder of lead.',
  }),
  heldLambda: lambda.nullable().openapi({
    description:
      'Only pulls at this lambda target; null: at any. Says nothing in a ladder of lambda.',
  }),
  bandRpm: orNull(bandRpm),
  standard: orNull(airStandard),
  use: label.nullable(),
  step: positive.max(10).nullable().openapi({
    description: 'Step in which settings are given out, in the setting’s unit.',
  }),
  worthPercent: percent.nullable(),
  repeatabilityPercent: percent.nullable(),
});
export const ladder = ladderFields
  .extend({ id, dayId: id, setting: settingName })
  .openapi('Ladder', {
    description:
      "Pulls of one day (and group) that step one setting. Null: the day's, then the shop's.",
  });
export const newLadder = ladderFields
  .extend({ setting: settingName })
  .partial()
  .strict()
  .openapi('NewLadder');
export const ladderPatch = ladderFields.partial().strict().openapi('LadderPatch');

export const storedRecording = z
  .object({
    sha256: z.string(),
    fileName: z.string(),
    sizeBytes: z.number(),
    storedBytes: z.number(),
    kind: z.enum(['time series', 'speed table']),
    rows: z.number(),
    shape: z.string(),
    importedAt: isoTime,
  })
  .openapi('StoredRecording');
