/** What an entity holds where its maker said nothing, and the rules a new shop starts with. */
import type {
  Build,
  Cell,
  Decision,
  Engine,
  Ladder,
  Pull,
  Shop,
  TestDay,
  UseRules,
} from './types.ts';

/**
 * Shipped holdbacks, each editable. Degrees: common practice, no source.
 * Chances: past the best at most 2.5 %, past the limit at most 1 %.
 */
export const SHIPPED_USES: readonly UseRules[] = [
  {
    name: 'bursts',
    meaning: 'short full-throttle bursts with cooling between',
    holdbackDeg: 2,
    speedsRpm: null,
    chancePastBest: 0.025,
    chancePastLimit: 0.01,
  },
  {
    name: 'sustained',
    meaning: 'a minute or more of full throttle',
    holdbackDeg: 4,
    speedsRpm: null,
    chancePastBest: 0.025,
    chancePastLimit: 0.01,
  },
];

/** A shop nobody has set up yet. 0.75 % a rung, whole degrees, 1.5 degrees per 10 K: common practice, no source. */
export const NEW_SHOP: Shop = {
  name: 'My shop',
  units: 'us',
  standard: 'SAE J1349',
  worthPercent: 0.75,
  stepDeg: 1,
  repeatabilityPercent: null,
  holdbackDegPer10K: 1.5,
  holdbackDegPerOctane: 1,
  uses: SHIPPED_USES,
};

export const NEW_CELL: Omit<Cell, 'id' | 'name'> = {
  notes: '',
  inertiaKgM2: null,
  sensorLagS: null,
  ratio: 1,
  torqueIs: { air: 'unknown', inertia: 'unknown' },
  // ±1 % at two standard deviations: the torque accuracy UN ECE R85 Annex 5 asks of a test bed (from memory).
  calibrationRelSd: 0.005,
};

export const NEW_ENGINE: Omit<Engine, 'id' | 'name'> = {
  serial: '',
  owner: '',
  notes: '',
  cylinders: null,
  displacementM3: null,
  strokeM: null,
  compressionRatio: null,
  cycle: 4,
  aspiration: 'natural',
  fuel: 'gasoline',
};

export const NEW_BUILD: Omit<Build, 'id' | 'engineId' | 'name'> = {
  notes: '',
  cylinders: null,
  displacementM3: null,
  strokeM: null,
  compressionRatio: null,
};

export const NEW_DAY: Omit<TestDay, 'id' | 'buildId' | 'cellId'> = {
  name: '',
  date: null,
  notes: '',
  fuel: null,
  octane: null,
  fuelBatch: '',
  inletTemperatureK: null,
  worstInletTemperatureK: null,
  worstOctane: null,
  airPressureAbsPa: null,
  airTemperatureK: null,
  airHumidity: null,
  configuration: {},
  standard: null,
  bandRpm: null,
  use: null,
  lambdaTarget: null,
};

export const NEW_PULL: Omit<Pull, 'id' | 'dayId' | 'order'> = {
  recordingSha256: null,
  fileName: null,
  span: null,
  madeAt: null,
  leadDeg: null,
  lambdaTarget: null,
  note: '',
  excludedBecause: null,
  watched: null,
  knockHeard: false,
  specksOnPlug: false,
  aborted: false,
  group: null,
  configuration: {},
  peakPowerW: null,
  peakPowerSpeedRpm: null,
  peakTorqueNm: null,
  peakTorqueSpeedRpm: null,
  peaksAre: null,
};

export const NEW_LADDER: Omit<Ladder, 'id' | 'dayId'> = {
  name: 'Spark lead',
  setting: 'lead',
  group: null,
  bandRpm: null,
  standard: null,
  use: null,
  stepDeg: null,
  worthPercent: null,
  repeatabilityPercent: null,
};

export const NEW_DECISION: Pick<Decision, 'advisedDeg' | 'advisedWhy'> = {
  advisedDeg: null,
  advisedWhy: null,
};
