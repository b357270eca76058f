import { NEW_SHOP } from '../src/record/defaults.ts';
import type { BandRpm } from '../src/record/types.ts';
import { demoCalibrations } from './calibrations.ts';
import { four } from './shop-four.ts';
import { single } from './shop-single.ts';
import { six } from './shop-six.ts';
import type { DemoShop } from './shop-types.ts';
import { v8 } from './shop-v8.ts';

export type { DemoDay, DemoEngine, DemoPull, DemoShop } from './shop-types.ts';

/** Speeds at full throttle that every engine of the shop sweeps, so that each use is a band of side by side too. */
const USE_SPEEDS: Readonly<Record<string, BandRpm>> = {
  bursts: [4000, 5500],
  sustained: [3600, 5000],
};

/**
 * The invented shop: four engines on three cells, each cell writing its run files its own way.
 * The same bytes every time. Nobody and nothing in it is real.
 */
export function demoShop(): DemoShop {
  return {
    shop: {
      name: 'Pebble Cove Engine Shop',
      invented: true,
      units: 'metric',
      standard: 'SAE J1349',
      uses: NEW_SHOP.uses.map((rule) => ({ ...rule, speedsRpm: USE_SPEEDS[rule.name] ?? null })),
    },
    cells: {
      one: {
        name: 'Cell 1, water brake',
        notes: 'Load cell on the brake’s arm, checked with hung weights in January.',
        inertiaKgM2: 0.42,
        sensorLagS: 0.08,
        torqueIs: { air: 'observed', inertia: 'out' },
        calibrationRelSd: 0.005,
      },
      two: {
        name: 'Cell 2, big water brake',
        applyCalibration: true,
        notes: 'For boat and lorry engines. Knock channel counts events from both banks.',
        inertiaKgM2: 0.71,
        sensorLagS: 0.06,
        torqueIs: { air: 'observed', inertia: 'out' },
        calibrationRelSd: 0.005,
      },
      three: {
        name: 'Cell 3, motorcycle stand',
        notes: 'Eddy-current brake chained from the crank sprocket, 31 to 50 teeth.',
        inertiaKgM2: 0.085,
        ratio: 0.62,
        sensorLagS: 0.05,
        torqueIs: { air: 'observed', inertia: 'out' },
        calibrationRelSd: 0.005,
      },
    },
    calibrations: demoCalibrations(),
    engines: [six(), v8(), single(), four()],
  };
}
