import type { NewPull } from '../../api/types.gen.ts';
import type { Field, Values } from '../../form/fields.ts';
import { BASIS_FIELDS } from '../../form/specs.ts';

const speed = (key: string, label: string): Field => ({
  key,
  label,
  kind: 'number',
  low: 200,
  high: 25_000,
});

/** A pull of which only the peaks are known: enough for a ladder. */
export const TYPED_PEAK_FIELDS: readonly Field[] = [
  { key: 'leadDeg', label: 'Lead, degrees', kind: 'number', required: true, low: -20, high: 80 },
  { key: 'lambdaTarget', label: 'Lambda target', kind: 'number', low: 0.4, high: 2 },
  { key: 'group', label: 'Part test', kind: 'text', nullable: true, hint: 'Empty: of none.' },
  {
    key: 'peakPowerW',
    label: 'Peak power',
    kind: 'quantity',
    shown: 'power',
    dimension: 'power',
    low: 1,
  },
  speed('peakPowerSpeedRpm', 'at, rpm'),
  {
    key: 'peakTorqueNm',
    label: 'Peak torque',
    kind: 'quantity',
    shown: 'torque',
    dimension: 'torque',
    low: 0.1,
  },
  speed('peakTorqueSpeedRpm', 'at, rpm'),
  ...BASIS_FIELDS,
];

/** What the form means to the service. */
export function typedPeak(values: Values): NewPull {
  const { air, inertia, ...rest } = values;
  return { ...rest, peaksAre: { air, inertia } } as NewPull;
}
