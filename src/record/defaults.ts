/** What an entity holds where its maker said nothing, and the rules a new shop starts with. */
import {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  type SettingName,
  SHIPPED_USES,
  SPARK_LEAD,
  WORTH_PERCENT,
} from '../ladder/index.ts';
import { CALIBRATION_REL_SD } from '../pull/index.ts';
import type { Comparison, PartTest } from './compared.ts';
import type { ServiceEvent, ServiceReading } from './service.ts';
import type {
  Build,
  Calibration,
  Cell,
  Decision,
  Engine,
  Ladder,
  Pull,
  Shop,
  TestDay,
  UseRules,
} from './types.ts';

const MEANINGS: Readonly<Record<string, string>> = {
  bursts: 'short full-throttle bursts with cooling between',
  sustained: 'a minute or more of full throttle',
};

/** The shipped rules as a shop starts with them; it may edit each. */
const NEW_USES: readonly UseRules[] = SHIPPED_USES.map(({ holdback, ...rule }) => ({
  ...rule,
  meaning: MEANINGS[rule.name] ?? '',
  holdbackDeg: holdback,
}));

/** A shop nobody has set up yet: what it does not say is as the ladder ships it. */
export const NEW_SHOP: Shop = {
  name: 'My shop',
  invented: false,
  address: '',
  mark: null,
  units: 'us',
  standard: 'SAE J1349',
  worthPercent: WORTH_PERCENT,
  stepDeg: SPARK_LEAD.defaultStep,
  repeatabilityPercent: null,
  holdbackDegPer10K: HOLDBACK_PER_10K,
  holdbackDegPerOctane: HOLDBACK_PER_OCTANE,
  uses: NEW_USES,
  windows: [],
};

export const NEW_CELL: Omit<Cell, 'id' | 'name'> = {
  notes: '',
  inertiaKgM2: null,
  sensorLagS: null,
  ratio: 1,
  torqueIs: { air: 'unknown', inertia: 'unknown' },
  calibrationRelSd: CALIBRATION_REL_SD,
  applyCalibration: false,
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
  refreshAfterS: null,
  refreshAfterPulls: null,
  refreshAfterThrottleS: null,
  refreshAfterMonths: null,
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
  inertiaKgM2: null,
  isReference: false,
};

export const NEW_PULL: Omit<Pull, 'id' | 'dayId' | 'order'> = {
  recordingSha256: null,
  fileName: null,
  span: null,
  madeAt: null,
  leadDeg: null,
  lambdaTarget: null,
  lambdaMeasured: null,
  lambdaErrorSd: null,
  jets: null,
  loadPercent: null,
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

/** What a ladder is called where nobody named it. */
export const LADDER_NAMES: Readonly<Record<SettingName, string>> = {
  lead: 'Spark lead',
  lambda: 'Lambda',
};

export const NEW_LADDER: Omit<Ladder, 'id' | 'dayId'> = {
  name: LADDER_NAMES.lead,
  setting: 'lead',
  group: null,
  heldLeadDeg: null,
  heldLambda: null,
  bandRpm: null,
  standard: null,
  use: null,
  step: null,
  worthPercent: null,
  repeatabilityPercent: null,
};

export const NEW_CALIBRATION: Omit<Calibration, 'id' | 'cellId' | 'doneOn' | 'who' | 'measured'> = {
  intervalMonths: null,
  notes: '',
};

export const NEW_DECISION: Pick<Decision, 'advice'> = { advice: null };

export const NEW_COMPARISON: Pick<Comparison, 'note' | 'bandRpm' | 'standard' | 'who'> = {
  note: '',
  bandRpm: null,
  standard: null,
  who: '',
};

export const NEW_PART_TEST: Pick<PartTest, 'name' | 'groupA' | 'groupB' | 'bandRpm' | 'who'> = {
  name: 'Part test',
  groupA: 'a',
  groupB: 'b',
  bandRpm: null,
  who: '',
};

export const NEW_SERVICE_EVENT: Pick<ServiceEvent, 'kind' | 'what' | 'parts' | 'hoursS' | 'who'> = {
  kind: 'refresh',
  what: '',
  parts: '',
  hoursS: null,
  who: '',
};

export const NEW_SERVICE_READING: Omit<ServiceReading, 'id' | 'engineId' | 'readOn' | 'writtenAt'> =
  {
    hoursS: null,
    leakDown: null,
    leakDownError: null,
    crankingGaugePa: null,
    crankingErrorPa: null,
    note: '',
    who: '',
  };
