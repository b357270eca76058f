/** Side by side as it crosses HTTP: sides as they are named, what they were made of, the question and its answer. */
import {
  airStandard,
  banded,
  bandRpm,
  id,
  isoDate,
  isoTime,
  label,
  list,
  numberOrNull,
  orNull,
  positive,
  positiveOrNull,
  text,
  torqueBasis,
  z,
} from './common.ts';
import { pull } from './entities.ts';

const name = label.min(1).optional().openapi({
  description: 'What the side is called; left out: named after what it is.',
});
const kind = <K extends string, F extends z.ZodRawShape>(word: K, fields: F) =>
  z.object({ kind: z.literal(word), name, ...fields }).strict();
const speedRpm = z.number().min(100).max(30_000);

export const sideWanted = z
  .discriminatedUnion('kind', [
    kind('pulls', { pullIds: z.array(id).min(1).max(200).readonly() }),
    kind('rung', { ladderId: id, setting: z.number() }),
    kind('ladder', { ladderId: id }),
    kind('group', { dayId: id, group: label.min(1) }),
    kind('day', { dayId: id }),
    kind('build', { buildId: id }),
    kind('left', { buildId: id, use: label.optional() }),
    kind('engine', { engineId: id }),
    kind('paper', {
      basis: torqueBasis,
      sdPercent: z.number().min(0).max(20).nullable(),
      table: z
        .array(z.object({ speedRpm, torqueNm: positive }).strict())
        .min(4)
        .max(500)
        .readonly()
        .nullable(),
      peaks: z
        .object({
          torqueNm: positiveOrNull,
          torqueSpeedRpm: speedRpm.nullable(),
          powerW: positiveOrNull,
          powerSpeedRpm: speedRpm.nullable(),
        })
        .strict()
        .nullable(),
    }),
  ])
  .openapi('SideWanted', {
    description:
      'A side: pulls named by things of the shop (rung: one setting of a ladder; left: the setting decided to be left in ' +
      'the engine of a build, for a use or the one decided last; engine: its newest build with pulls), or a curve typed ' +
      'from paper: a table of four speeds or more, else its peaks. sdPercent null: the paper does not say how ' +
      'sure it is.',
  });

const wanted = {
  sides: z.array(sideWanted).min(2).max(12).readonly().openapi({
    description: 'Gains are of each over the first.',
  }),
  bandRpm: bandRpm.optional().openapi({
    description: 'Left out: that of the first side that chooses one, else chosen from the curves.',
  }),
  standard: airStandard.optional().openapi({
    description: 'Left out: that of the first side’s day, then the shop’s.',
  }),
  correctBoosted: z.boolean().optional(),
};
export const sidesWanted = wanted;
export const compareWanted = z.object(wanted).strict().openapi('CompareWanted');

export const sidePull = z
  .object({
    pullId: id,
    dayId: id,
    label: z.string(),
    day: z.string().openapi({ description: 'Name or date of its day.' }),
    date: isoDate.nullable(),
    cell: z.string(),
    setting: z.string().nullable().openapi({ description: 'In words: `28 degrees of lead`.' }),
    leadDeg: numberOrNull,
    lambda: numberOrNull,
    counted: z.boolean(),
    why: z
      .string()
      .nullable()
      .openapi({ description: 'Why it is left out; null where it counts.' }),
    correctionFactor: numberOrNull,
    airAsRecorded: z.string().nullable(),
    inertia: z.enum(['in', 'out', 'unknown']).nullable(),
    sweepRateRpmPerS: numberOrNull,
    lagS: numberOrNull,
    calibration: z.string().nullable().openapi({
      description: 'Date of the calibration of the cell that stood then; null: none in the record.',
    }),
    configuration: z.string().nullable().openapi({
      description: 'How the engine stood where not all pulls of the comparison agree.',
    }),
  })
  .openapi('SidePull', { description: 'One pull of a side, and whether it counts.' });

export const compareSide = z
  .object({
    name: z.string(),
    wanted: sideWanted,
    engineId: orNull(id),
    buildId: orNull(id).openapi({ description: 'null: of several builds, or of none.' }),
    pulls: list(sidePull),
    known: z.enum(['curve', 'peaks']).openapi({
      description: 'peaks: only they are known, and the side has no group in the input.',
    }),
    builtOtherwise: z.string().nullable().openapi({
      description: 'How its build differs from the first side’s, in a sentence.',
    }),
  })
  .openapi('CompareSide', { description: 'What a side was made of.' });

const dayToDay = z
  .object({
    from: z.enum(['one day', 'reference pulls', 'prior']),
    sentence: z.string(),
    pullIds: list(id).openapi({ description: 'The reference pulls.' }),
    marked: z.boolean().openapi({ description: 'The shop marked their days as reference.' }),
  })
  .openapi('DayToDay', { description: 'From what it is known how days differ on the cell.' });

/** Owned by the computing room; see src/compare/types.ts. */
export const compareInput = z
  .looseObject({
    groups: list(z.looseObject({ name: z.string() })),
    bandRpm: z.tuple([z.number(), z.number()]).readonly(),
    worthPercent: z.number(),
  })
  .openapi('CompareInput', {
    description: 'All that the comparison needs, curves included; also for the browser.',
  });
const compareAnswer = z
  .looseObject({
    version: z.number(),
    bandRpm: z.tuple([z.number(), z.number()]).readonly(),
    groups: list(z.looseObject({ name: z.string(), meanPowerW: banded })),
    pairs: list(
      z.looseObject({
        a: z.string(),
        b: z.string(),
        gain: banded,
        word: z.enum(['real', 'small', 'cannot be told from chance', 'loss']),
        finding: z.string(),
      }),
    ),
    ranking: list(
      z.looseObject({ name: z.string(), chanceBest: z.number(), likeIt: list(z.string()) }),
    ),
    warnings: list(z.string()),
  })
  .openapi('CompareAnswer', { description: 'Two or more sides compared; intervals are 95 %.' });

/** Owned by the computing room; see src/compare/typedPeaks.ts. */
const peakSide = z
  .looseObject({ name: z.string(), standard: orNull(airStandard) })
  .openapi('PeakSide', { description: 'A side of which only the peaks are known.' });
const peaksAnswer = z
  .looseObject({ a: z.string(), b: z.string(), finding: z.string(), warnings: list(z.string()) })
  .openapi('PeaksAnswer', { description: 'Two sides, one or both known by their peaks alone.' });

export const brought = {
  standard: airStandard,
  sides: list(compareSide),
  taken: z.string().openapi({ description: 'Which pulls were taken, in a sentence.' }),
  dayToDay,
  warnings: list(z.string()),
};
export const compareMembers = z
  .object({
    ...brought,
    input: orNull(compareInput).openapi({
      description: 'null: fewer than two sides have a curve.',
    }),
    peakSides: list(peakSide).openapi({ description: 'Sides of which only the peaks are known.' }),
    peaks: list(peaksAnswer).openapi({ description: 'Each of them with the first side.' }),
  })
  .openapi('CompareMembers', {
    description:
      'Sides brought to one air and one setting, not compared yet: a browser does that itself, at any band.',
  });
export const comparisonAnswer = z
  .object({
    ...brought,
    answer: orNull(compareAnswer).openapi({
      description: 'Of the sides that have a curve; null where fewer than two have.',
    }),
    peaks: list(peaksAnswer).openapi({
      description: 'Of each side of which only the peaks are known, with the first side.',
    }),
    finding: z.string().openapi({ description: 'A paragraph for the owner.' }),
  })
  .openapi('ComparisonAnswer');

const comparisonSaid = z
  .object({
    compareVersion: z.number().int(),
    curveVersion: z.number().int(),
    standard: airStandard,
    bandRpm: orNull(bandRpm),
    sides: list(z.object({ name: z.string(), pullIds: list(id) })),
    gains: list(banded.extend({ word: z.string() })),
    finding: text,
  })
  .openapi('ComparisonSaid', { description: 'What it said when it was kept; nothing changes it.' });
const comparisonFields = {
  name: label.min(1),
  note: text,
  bandRpm: orNull(bandRpm),
  standard: orNull(airStandard),
};
export const comparison = z
  .object({
    ...comparisonFields,
    id,
    engineId: id,
    engineIds: list(id),
    sides: list(sideWanted),
    who: label,
    keptAt: isoTime,
    said: comparisonSaid,
  })
  .openapi('Comparison', { description: 'A comparison that somebody kept.' });
export const newComparison = z
  .object({
    name: label.min(1).optional().openapi({ description: 'Left out: the names of its sides.' }),
    note: text.optional(),
    sides: wanted.sides,
    bandRpm: orNull(bandRpm).optional(),
    standard: orNull(airStandard).optional(),
  })
  .strict()
  .openapi('NewComparison', {
    description: 'What it says now is computed by the service and kept with it.',
  });
export const comparisonPatch = z
  .object({ name: label.min(1), note: text })
  .partial()
  .strict()
  .openapi('ComparisonPatch');

const side = z.enum(['a', 'b']);
const partPlan = z
  .object({
    blocks: z.number().int(),
    isAba: z.literal(true).optional().openapi({
      description:
        'There: half of A, all of B, half of A, looked at once at its end, of 8 pulls of each at most. Left out: looked at after every pair.',
    }),
    order: list(side),
    gainPercent: z.number(),
    sentence: z.string(),
  })
  .openapi('PartPlan', { description: 'How many pulls of each, and in which order.' });
/** Owned by the computing room; see src/compare/partAnswer.ts. */
const partAnswer = z
  .looseObject({
    pulls: z.object({ a: z.number().int(), b: z.number().int() }),
    gain: orNull(banded),
    chanceAhead: numberOrNull,
    word: z.enum(['gain', 'loss', 'cannot be told from chance', 'not known yet']),
    noLargerThanPercent: numberOrNull,
    driftPercent: orNull(banded),
    action: z.enum(['go on', 'stop']),
    next: side.nullable().openapi({ description: 'Of which side the next pull is; null: none.' }),
    finding: z.string(),
    warnings: list(z.string()),
  })
  .openapi('PartAnswer', {
    description:
      'What a part test says after the pulls made, with error rates that hold at every look.',
  });
const order = z.enum(['by turns', 'randomised', 'A/B/A']);
const partAsked = {
  gainPercent: z.number().positive().max(50).openapi({
    description: 'Gain of mean power that the test is to see [%].',
  }),
  repeatabilityPercent: z.number().positive().max(10).optional().openapi({
    description: 'Pull-to-pull sd [%]; left out: as GET /days/{id}/repeatability says.',
  }),
  order: order.default('by turns'),
  groupA: label.min(1).default('a'),
  groupB: label.min(1).default('b'),
  seed: z
    .number()
    .int()
    .min(0)
    .max(2 ** 31 - 1)
    .optional()
    .openapi({
      description: 'Of a drawn order; left out: a new one.',
    }),
};
export const partWanted = z.object(partAsked).strict().openapi('PartWanted');
export const repeatability = z
  .object({
    percent: banded,
    from: z.enum(['stated', 'pulls', 'prior']),
    pulls: z.number().int(),
    sentence: z.string(),
  })
  .openapi('Repeatability', {
    description: 'How far two pulls of one setting differ on a cell, as sd of mean power [%].',
  });
export const partPreview = z
  .object({
    plan: partPlan,
    repeatability,
    provenClean: z.boolean(),
    whyNotProven: z.string().nullable().openapi({
      description: 'Why an order must not be drawn yet; null where it may.',
    }),
  })
  .openapi('PartPreview', { description: 'A plan as it would be; nothing is stored.' });
export const partTest = z
  .object({
    id,
    dayId: id,
    name: label,
    groupA: label,
    groupB: label,
    gainPercent: z.number(),
    repeatabilityPercent: z.number(),
    bandRpm: orNull(bandRpm),
    plan: partPlan,
    who: label,
    madeAt: isoTime,
  })
  .openapi('PartTest', {
    description:
      'A fair test of a part; the pulls of a side are those of its group, in the order made.',
  });
export const newPartTest = z
  .object({ ...partAsked, name: label.optional(), bandRpm: orNull(bandRpm).optional() })
  .strict()
  .openapi('NewPartTest');
export const partTestPatch = z
  .object({ name: label.min(1), bandRpm: orNull(bandRpm) })
  .partial()
  .strict()
  .openapi('PartTestPatch');
export const partPulls = z
  .object({ pullIds: z.array(id).min(1).max(200), side: side.nullable() })
  .strict()
  .openapi('PartPulls', { description: 'Pulls put on a side of a part test; null: taken off it.' });
export const partReading = z
  .object({
    partTest,
    pulls: list(
      z.object({
        pull,
        side,
        counted: z.boolean(),
        why: z.string().nullable(),
      }),
    ).openapi({ description: 'In the order made.' }),
    look: partAnswer,
    standard: orNull(airStandard),
    input: orNull(compareInput),
    answer: orNull(compareAnswer).openapi({
      description: 'Both groups side by side as they stand; null before each has a pull.',
    }),
    finding: z.string().nullable(),
    warnings: list(z.string()),
  })
  .openapi('PartReading', { description: 'A part test as it stands after the pulls made.' });
