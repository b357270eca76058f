import type {
  LadderAnswer,
  LadderInput,
  LadderPull,
  SettingKind,
  StepAnswer,
  StepWord,
} from '../../src/ladder/types.ts';

/** An answer made up by hand, to try pictures and words against figures that are known. Tests only. */

export const KIND: SettingKind = {
  name: 'lead',
  unit: 'deg',
  safeDirection: 'lower',
  defaultStep: 1,
  defaultRung: 2,
  shape: 'cubic',
  curvaturePrior: [2e-4, 2e-3],
  leanPrior: [0.008, 0.012],
  startShortPrior: [7, 3],
  word: 'lead',
  more: 'more lead',
  less: 'less lead',
};

const BEST = 28.8;
const TOP_W = 286_000;
const spread = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, at) => from + ((to - from) * at) / (count - 1));
const power = (lead: number) => TOP_W * (1 - 0.0014 * (lead - BEST) ** 2);

function pull(order: number, setting: number): LadderPull {
  return {
    id: `p${order + 1}`,
    setting,
    order,
    torque: {
      low: 3100,
      high: 7300,
      segments: 1,
      coefficients: [500, 500, 500, 500],
      covariance: new Array(16).fill(0),
    },
    peakPowerW: null,
    peakTorqueNm: null,
    excludedBecause: null,
    watched: 'not',
    knockHeard: false,
    aborted: false,
    knock: null,
    airTemperatureK: 305,
    configuration: null,
  };
}

function step(from: number, to: number, word: StepWord): StepAnswer {
  const speedRpm = spread(3100, 7300, 43);
  const bestAt = (speed: number) => 24 + ((speed - 3100) / 4200) * 6.5;
  const gain = speedRpm.map(
    (speed) => 0.14 * ((from - bestAt(speed)) ** 2 - (to - bestAt(speed)) ** 2),
  );
  const inBand = gain.filter((_, at) => speedRpm[at]! >= 5000 && speedRpm[at]! <= 7200);
  const mean = inBand.reduce((sum, value) => sum + value, 0) / inBand.length;
  return {
    from,
    to,
    gainPercent: mean,
    lowPercent: mean - 0.6,
    highPercent: mean + 0.6,
    measuredPercent: mean,
    word,
    besides: null,
    bySpeed: {
      speedRpm,
      gainPercent: gain,
      lowPercent: gain.map((value) => value - 0.7),
      highPercent: gain.map((value) => value + 0.7),
      chancePercent: gain.map(() => 0.7),
      toldFromChance: gain.map((value) => Math.abs(value) > 0.7),
    },
  };
}

export const INPUT: LadderInput = {
  kind: KIND,
  pulls: [22, 24, 26, 28, 30, 32].map((lead, order) => pull(order, lead)),
  bandRpm: [5000, 7200],
  uses: [
    { name: 'bursts', holdback: 2, speedsRpm: null, chancePastBest: 0.025, chancePastLimit: 0.01 },
    {
      name: 'sustained',
      holdback: 4,
      speedsRpm: null,
      chancePastBest: 0.025,
      chancePastLimit: 0.01,
    },
  ],
  aspiration: 'natural',
  step: 1,
  worthPercent: 0.75,
  repeatabilityPercent: null,
  worstInletDeltaK: 0,
  worstFuelDeltaOctane: 0,
  holdbackPer10K: 1.5,
  holdbackPerOctane: 1,
};

const settings = spread(20, 35, 61);
const mapSpeeds = spread(3100, 7300, 43);
const mapSettings = spread(20, 35, 31);
const bestSetting = mapSpeeds.map((speed) => 24 + ((speed - 3100) / 4200) * 6.5);

export const ANSWER: LadderAnswer = {
  version: 1,
  headline: 'Stop here. More lead no longer pays.',
  summary:
    'The step from 28° to 30° cannot be told from chance, and 32° lost. The best is near 28.8°. For bursts leave 26°: it gives up 1.1 % and stands 2.8° under the best.',
  best: { value: 28.8, low: 28.4, high: 29.4 },
  knee: { value: 27.2, low: 26.6, high: 27.9 },
  limit: null,
  limitBySpeed: null,
  limitWatched: false,
  highestClean: 32,
  uses: {
    bursts: {
      value: 26,
      givesUpPercent: 1.1,
      chancePastBest: 0.0004,
      chancePastLimit: null,
      holdback: 2,
      why: '26° stands 2.8° under the best, and at least 2° are held back for bursts.',
    },
    sustained: {
      value: 24,
      givesUpPercent: 3.2,
      chancePastBest: 0.0001,
      chancePastLimit: null,
      holdback: 4,
      why: '24° stands 4.8° under the best, and at least 4° are held back for sustained full throttle.',
    },
  },
  next: {
    action: 'stop',
    value: null,
    worthPercent: 0.02,
    why: 'The last two steps gained nothing that chance could not do.',
  },
  steps: [
    step(22, 24, 'real'),
    step(24, 26, 'real'),
    step(26, 28, 'real'),
    step(28, 30, 'cannot be told from chance'),
    step(30, 32, 'loss'),
  ],
  repeatability: { value: 0.35, low: 0.2, high: 0.6, from: 'pulls' },
  dots: [22, 24, 26, 28, 30, 32].map((setting, at) => {
    const value = power(setting) * (1 + [0.001, -0.002, 0.0005, 0.003, -0.001, 0.0005][at]!);
    return {
      id: `p${at + 1}`,
      setting,
      meanPowerW: { value, low: value * 0.996, high: value * 1.004 },
    };
  }),
  response: {
    setting: settings,
    meanPowerW: settings.map(power),
    lowW: settings.map(
      (lead) => power(lead) * (0.996 - 0.0003 * Math.max(0, Math.abs(lead - 27) - 4) ** 2),
    ),
    highW: settings.map(
      (lead) => power(lead) * (1.004 + 0.0003 * Math.max(0, Math.abs(lead - 27) - 4) ** 2),
    ),
  },
  map: {
    speedRpm: mapSpeeds,
    setting: mapSettings,
    lossPercent: mapSettings.map((lead) => bestSetting.map((best) => 0.14 * (lead - best) ** 2)),
    bestSetting,
    bestLow: bestSetting.map((best) => best - 0.7),
    bestHigh: bestSetting.map((best) => best + 0.8),
  },
  mixture: null,
  following: {
    gainPercent: { value: 0.4, low: 0.2, high: 0.7 },
    table: [5000, 5500, 6000, 6500, 7000].map((speedRpm) => ({
      speedRpm,
      setting: Math.round(24 + ((speedRpm - 3100) / 4200) * 6.5 - 2),
      fixedCostPercent: {
        value: Math.abs(speedRpm - 6000) / 2500,
        low: 0,
        high: Math.abs(speedRpm - 6000) / 1500,
      },
    })),
  },
  warnings: [
    'limit not watched: nobody listened, read plugs or recorded knock, so the highest rung run stands in for the highest clean one',
  ],
};
