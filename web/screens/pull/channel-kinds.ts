import type { DisplayKind } from '../../../src/units/index.ts';

/** How each quantity of a channel is shown; what is not here stands as the file has it. */
export const KIND_OF_QUANTITY: Readonly<Record<string, DisplayKind>> = {
  time: 'time',
  speed: 'speed',
  torque: 'torque',
  power: 'power',
  lambda: 'lambda',
  afr: 'airFuelRatio',
  fuelFlow: 'fuelFlow',
  airFlow: 'airFlow',
  oilPressure: 'oilPressure',
  oilTemperature: 'temperature',
  waterTemperature: 'temperature',
  airTemperature: 'temperature',
  barometer: 'barometer',
  humidity: 'percent',
  manifoldPressure: 'manifoldPressure',
  exhaustTemperature: 'temperature',
  lead: 'angle',
  throttle: 'percent',
};
