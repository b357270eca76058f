/** Computed things as they cross HTTP: curves, traces, ladders. NaN inside crosses as null. */
import { airStandard, banded, id, list, numberOrNull, orNull, torqueBasis, z } from './common.ts';
import { pullSpan } from './entities.ts';

const numbers = list(z.number());
const pair = z.tuple([z.number(), z.number()]).readonly();
const gappy = list(numberOrNull);

export const splineFit = z
  .object({
    low: z.number(),
    high: z.number(),
    segments: z.number().int(),
    coefficients: numbers,
    covariance: numbers,
  })
  .openapi('SplineFit', {
    description:
      'Cubic B-spline on equal knots over [low, high]; segments + 3 coefficients, covariance row-major.',
  });

export const peak = banded
  .extend({
    unit: z.string(),
    speedRpm: z.number(),
    atEdge: z.enum(['low', 'high']).optional().openapi({
      description:
        'The highest of what was swept may stand at this end of it: the peak of the engine may lie beyond.',
    }),
  })
  .openapi('Peak');

export const mark = z
  .object({
    kind: z.string(),
    severity: z.enum(['note', 'look again', 'stop']),
    sentence: z.string(),
    fromRpm: z.number().optional(),
    toRpm: z.number().optional(),
    sizeNm: z.number().optional(),
  })
  .openapi('Mark');

export const curve = z
  .object({
    version: z.number(),
    span: pullSpan,
    standard: airStandard,
    correctionFactor: z.number(),
    factors: z.record(airStandard, numberOrNull),
    basis: torqueBasis,
    spline: splineFit,
    residualSdNm: z.number(),
    residualCorrelation: z.number(),
    effectiveDof: z.number(),
    commonRelSd: z.number(),
    commonSdNm: z.number(),
    calibration: z.object({
      doneOn: z.string().nullable(),
      applied: z.boolean(),
      relSd: z.number(),
      constantSdNm: z.number(),
    }),
    lagS: z.number(),
    lagFrom: z.enum(['cell', 'throttle', 'none']),
    speedRpm: numbers,
    torqueNm: numbers,
    lowNm: numbers,
    highNm: numbers,
    powerW: numbers,
    peakTorque: peak,
    peakPower: peak,
    derived: z.object({
      bmepPa: gappy.nullable(),
      bsfcKgPerJ: gappy.nullable(),
      volumetricEfficiency: gappy.nullable(),
      pistonSpeedMPerS: gappy.nullable(),
    }),
    bySpeed: z.object({
      speedRpm: numbers,
      lambda: gappy.nullable(),
      knock: gappy.nullable(),
      lead: gappy.nullable(),
      exhaustTemperatureK: gappy.nullable().optional(),
    }),
    conditions: z.object({
      airTemperatureK: numberOrNull,
      pressureAbsPa: numberOrNull,
      humidity: numberOrNull,
      oilTemperatureK: numberOrNull,
      waterTemperatureK: numberOrNull,
      sweepRateRpmPerS: numberOrNull,
    }),
    marks: list(mark),
  })
  .openapi('Curve');

export const pullCurve = z
  .object({
    pullId: id,
    curve: orNull(curve),
    whyNone: z.string().nullable(),
  })
  .openapi('PullCurve', {
    description:
      'The curve of one pull, or the sentence that says why there is none (typed peaks).',
  });

export const trace = z
  .object({
    pullId: id,
    span: orNull(pullSpan),
    rows: z.number().int().openapi({ description: 'Rows of the window that is drawn.' }),
    lastRow: z.number().int().openapi({ description: 'Last row of that window.' }),
    row: numbers.openapi({ description: 'First row of each bin.' }),
    timeS: gappy.nullable(),
    channels: list(
      z.object({
        header: z.string(),
        quantity: z.string(),
        unit: z.string().nullable(),
        insideUnit: z.string(),
        low: gappy,
        high: gappy,
      }),
    ),
  })
  .openapi('Trace', {
    description:
      'Channels drawn as the lowest and highest value of each bin of rows, so that no spike is lost.',
  });

export const settingInterval = z
  .object({ value: numberOrNull, low: numberOrNull, high: numberOrNull })
  .openapi('SettingInterval');

export const useRule = z
  .object({
    name: z.string(),
    holdback: z.number(),
    speedsRpm: z.tuple([z.number(), z.number()]).readonly().nullable(),
    chancePastBest: z.number(),
    chancePastLimit: z.number(),
  })
  .openapi('UseRule', { description: 'What a use asks of a setting, in the setting’s unit.' });

/** Of a pull in a question: all but what was set. */
export const pullSeen = {
  setBy: z.string().nullable().optional(),
  exhaustPeakK: numberOrNull.optional(),
  bsfcKgPerJ: numberOrNull.optional(),
  order: z.number(),
  torque: orNull(splineFit),
  peakPowerW: numberOrNull,
  peakTorqueNm: numberOrNull,
  excludedBecause: z.string().nullable(),
  watched: z.enum(['ear', 'plug', 'sensor', 'not']).nullable(),
  knockHeard: z.union([z.boolean(), z.number()]),
  aborted: z.boolean(),
  knock: z.object({ speedRpm: numbers, level: gappy }).nullable(),
  airTemperatureK: numberOrNull,
  configuration: z.string().nullable(),
};

export const ladderInput = z
  .object({
    kind: z.object({
      name: z.string(),
      unit: z.string(),
      safeDirection: z.enum(['lower', 'higher']),
      defaultStep: z.number(),
      defaultRung: z.number(),
      shape: z.enum(['cubic', 'linex']),
      curvaturePrior: pair,
      leanPrior: pair,
      startShortPrior: pair,
      word: z.string(),
      more: z.string(),
      less: z.string(),
    }),
    pulls: list(
      z.object({
        id,
        setting: z.number(),
        settingSd: z.number().optional(),
        ...pullSeen,
      }),
    ),
    bandRpm: z.tuple([z.number(), z.number()]).readonly(),
    uses: list(useRule),
    aspiration: z.enum(['natural', 'boosted', 'nitrous']),
    step: z.number(),
    worthPercent: z.number(),
    repeatabilityPercent: numberOrNull,
    worstInletDeltaK: z.number(),
    worstFuelDeltaOctane: z.number(),
    remarks: list(z.string()).optional().openapi({
      description: 'What is known of the day beside its pulls; said with the answer.',
    }),
    holdbackPer10K: z.number(),
    holdbackPerOctane: z.number(),
    exhaustLimitK: numberOrNull.optional(),
  })
  .openapi('LadderInput', {
    description: 'All that the ladder computation needs; also for the browser.',
  });

export const useAnswer = z
  .object({
    value: numberOrNull,
    givesUpPercent: numberOrNull,
    chancePastBest: numberOrNull,
    chancePastLimit: numberOrNull,
    holdback: z.number(),
    why: z.string(),
  })
  .openapi('UseAnswer');

export const nextMove = z
  .object({
    action: z.enum(['pull', 'repeat', 'back', 'stop']),
    value: numberOrNull,
    worthPercent: numberOrNull,
    why: z.string(),
  })
  .openapi('NextMove');

const stepAnswer = z
  .object({
    from: z.number(),
    to: z.number(),
    gainPercent: z.number(),
    lowPercent: z.number(),
    highPercent: z.number(),
    measuredPercent: z.number(),
    word: z.enum(['real', 'small', 'cannot be told from chance', 'loss']),
    besides: z.string().nullable(),
    bySpeed: z.object({
      speedRpm: numbers,
      gainPercent: numbers,
      lowPercent: numbers,
      highPercent: numbers,
      chancePercent: numbers,
      toldFromChance: list(z.boolean()),
    }),
  })
  .openapi('StepAnswer');

const mixtureAnswer = z
  .object({
    costsFrom: settingInterval,
    rows: list(
      z.object({
        lambda: z.number(),
        lossPercent: banded,
        fuelPercent: z.number(),
        fuelForPowerPercent: banded,
      }),
    ),
    measured: list(z.object({ id, lambda: z.number(), bsfcKgPerJ: z.number() })),
    savesPercent: numberOrNull,
    sentence: z.string(),
  })
  .openapi('MixtureAnswer', {
    description: 'Power and fuel along the mixture, and the lambda from which leaner costs power.',
  });

export const ladderAnswer = z
  .object({
    version: z.number(),
    headline: z.string(),
    summary: z.string(),
    best: settingInterval,
    knee: settingInterval,
    limit: orNull(settingInterval),
    limitBySpeed: z.object({ speedRpm: numbers, value: numbers, low: numbers }).nullable(),
    limitWatched: z.boolean(),
    highestClean: numberOrNull,
    uses: z.record(z.string(), useAnswer),
    next: nextMove,
    steps: list(stepAnswer),
    repeatability: banded.extend({ from: z.enum(['stated', 'prior', 'pulls', 'repeats']) }),
    dots: list(z.object({ id, setting: z.number(), meanPowerW: banded })),
    response: z.object({
      setting: numbers,
      meanPowerW: numbers,
      lowW: numbers,
      highW: numbers,
    }),
    map: z
      .object({
        speedRpm: numbers,
        setting: numbers,
        lossPercent: list(numbers),
        bestSetting: numbers,
        bestLow: gappy,
        bestHigh: gappy,
      })
      .nullable(),
    following: z
      .object({
        gainPercent: banded,
        table: list(
          z.object({ speedRpm: z.number(), setting: z.number(), fixedCostPercent: banded }),
        ),
      })
      .nullable(),
    mixture: orNull(mixtureAnswer),
    warnings: list(z.string()),
  })
  .openapi('LadderAnswer');

/** What a ladder route answers: the input, and the answer or why there is none yet. */
export const ladderReading = z
  .object({
    ladderId: id,
    standard: airStandard,
    /** Null where the day has nothing to compute from yet. */
    input: orNull(ladderInput),
    answer: orNull(ladderAnswer),
    whyNone: z.string().nullable(),
  })
  .openapi('LadderReading');
