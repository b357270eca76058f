import type { WindowRule } from '../compute/windows.ts';

const COMMON = 'common practice, no source';
const IN = 0.0254;

/** A shipped line with what most lines leave open. */
const rule = (
  name: string,
  low: number | null,
  high: number | null,
  source: string,
  extra: Partial<WindowRule> = {},
): WindowRule => ({
  name,
  uses: null,
  when: {},
  low,
  high,
  stopBelow: null,
  stopAbove: null,
  perM: false,
  source,
  ...extra,
});

/** The windows that come with Pullbook, inside units. The shop edits a copy; each line says where it is from. */
export const SHIPPED_WINDOWS: readonly WindowRule[] = [
  rule('quench', 0.035 * IN, 0.06 * IN, COMMON, { stopBelow: 0.03 * IN }),
  rule('quench', 0.055 * IN, 0.065 * IN, COMMON, {
    when: { 'rods.material': 'aluminium' },
    stopBelow: 0.045 * IN,
  }),
  rule('ratioSpread', null, 0.2, COMMON),
];
