import { one } from '../compute/ask.ts';
import type { CheckSpec } from '../compute/types.ts';
import { highestSpeedRpm } from './motion.ts';

export const OILING_CHECKS: readonly CheckSpec[] = [
  {
    id: 'oilPressureHot',
    section: 'oiling',
    label: 'Oil pressure, hot',
    shown: 'gaugePressure',
    how: 'As measured, at the speed that stands beside it.',
    window: 'oilPressure',
    compute: one('oiling.hotPressure'),
    scale: one('oiling.hotPressureSpeed'),
    remedy: {
      low: 'Look at level, oil temperature and pick-up; then relief spring, pump and bearing clearances.',
      high: '',
    },
    weight: 3,
  },
  {
    id: 'oilPressureIdle',
    section: 'oiling',
    label: 'Oil pressure, hot idle',
    shown: 'gaugePressure',
    how: 'As measured.',
    window: 'oilPressureIdle',
    compute: one('oiling.idlePressure'),
    remedy: {
      low: 'Look at oil temperature and grade; then pump and bearing clearances.',
      high: '',
    },
    weight: 2,
  },
  {
    id: 'oilRelief',
    section: 'oiling',
    label: 'Oil relief against the highest speed',
    shown: 'gaugePressure',
    how: 'Pressure at which the relief opens: above it there is no more, however fast the engine turns.',
    window: 'oilPressure',
    compute: one('oiling.reliefPressure'),
    scale: highestSpeedRpm,
    remedy: { low: 'A stronger relief spring, or a lower highest speed.', high: '' },
    weight: 2,
  },
];
