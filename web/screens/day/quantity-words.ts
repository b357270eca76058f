import type { Quantity } from '../../../src/pull/recording.ts';

/** What each quantity is called on screen. */
export const QUANTITY_WORDS: Readonly<Record<Quantity, string>> = {
  time: 'time',
  speed: 'engine speed',
  torque: 'torque',
  power: 'power',
  lambda: 'lambda',
  afr: 'air-fuel ratio',
  fuelFlow: 'fuel flow',
  airFlow: 'air flow',
  oilPressure: 'oil pressure',
  oilTemperature: 'oil temperature',
  waterTemperature: 'water temperature',
  airTemperature: 'air temperature',
  barometer: 'barometer',
  humidity: 'humidity',
  manifoldPressure: 'manifold pressure',
  exhaustTemperature: 'exhaust temperature',
  lead: 'spark lead',
  throttle: 'throttle',
  knock: 'knock',
  other: 'kept under its own name',
};
