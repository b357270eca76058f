import type { Mark } from '../types.ts';
import type { Check } from './context.ts';

/**
 * Windows in which oil and water should stand when a pull begins [K]. Common practice, no source; a shop
 * states its own in the options.
 */
const START_WINDOWS_K = {
  oilTemperatureK: [338, 393],
  waterTemperatureK: [333, 373],
} as const;

const NAMES = { oilTemperatureK: 'Oil', waterTemperatureK: 'Water', airTemperatureK: 'Inlet air' };
const celsius = (temperatureK: number) => `${(temperatureK - 273.15).toFixed(0)} °C`;

/** Oil, water and inlet air at the start of the pull against their windows. */
export const temperatureCheck: Check = ({ curve, options }) => {
  const windows = { ...START_WINDOWS_K, ...options.startWindowsK };
  const marks: Mark[] = [];
  for (const key of ['oilTemperatureK', 'waterTemperatureK', 'airTemperatureK'] as const) {
    const window = windows[key as keyof typeof windows];
    const found = curve.conditions[key];
    if (window === undefined || found === null) continue;
    const [low, high] = window;
    if (found >= low && found <= high) continue;
    marks.push({
      kind: 'temperature',
      severity: found > high ? 'stop' : 'look again',
      sentence: `${NAMES[key]} stood at ${celsius(found)} when the pull began, ${found < low ? 'below' : 'above'} its window of ${celsius(low)} to ${celsius(high)}.`,
    });
  }
  return marks;
};
