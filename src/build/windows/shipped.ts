import type { WindowRule } from '../compute/windows.ts';
import { CLEARANCE_RULES } from './clearances.ts';

const COMMON = 'common practice, no source';
const IN = 0.0254;
const PSI = 6894.757293168;
const IN_HG = 3386.389;
/** A temperature as practice says it [°F], in K. */
const fahrenheit = (degrees: number): number => (degrees + 459.67) / 1.8;

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
  rule('quench', 0.035 * IN, 0.045 * IN, COMMON, { stopBelow: 0.03 * IN }),
  rule('quench', 0.055 * IN, 0.065 * IN, COMMON, {
    when: { 'rods.material': 'aluminium' },
    stopBelow: 0.045 * IN,
  }),
  rule('ratioSpread', null, 0.2, COMMON),
  rule('meanPistonSpeed', null, 23, COMMON, { stopAbove: 26 }),
  rule('meanPistonSpeed', null, 20, COMMON, { uses: ['sustained'], stopAbove: 24 }),
  rule('dynamicRatio', 6.5, 8.0, 'from memory, low confidence; pump fuel of 91 to 93 AKI'),
  rule('dynamicRatio', 6.5, 8.5, 'from memory, low confidence; pump fuel of 91 to 93 AKI', {
    when: { 'heads.material': 'aluminium' },
  }),
  rule('camInstalled', -2, 2, COMMON),
  rule('boltStretchLeast', 0, null, 'the maker’s least stretch'),
  rule('boltStretchMost', null, 0, 'the maker’s most stretch', { stopAbove: 0.0005 * IN }),
  rule('crankingSpread', null, 0.1, COMMON, { stopAbove: 0.25 }),
  rule('leakDown', null, 0.1, COMMON, { stopAbove: 0.25 }),
  rule('setSpread', null, 0.001, COMMON),
  rule('bobweightUsed', -0.01, 0.01, COMMON, { stopBelow: -0.04, stopAbove: 0.04 }),
  rule('dischargeCoefficient', 0.4, 0.75, 'from memory (Heywood §6.3), low confidence', {
    stopAbove: 0.9,
  }),
  rule('exhaustToInlet', 0.65, 1, 'heads sold: common practice, no source; 1: NACA TN 1365 (1947)'),
  rule('machIndex', null, 0.6, 'C. F. Taylor, vol. 1 ch. 6 (from memory); found with mild timing'),
  rule('carburettorDepression', 0.5 * IN_HG, 1.5 * IN_HG, COMMON),
  rule('throttleDrop', null, 2000, COMMON),
  rule('injectorDuty', null, 0.85, COMMON, { stopAbove: 1 }),
  rule('pumpMargin', 1.2, null, COMMON, { stopBelow: 1 }),
  rule('primaryBore', 0.9, 1.15, 'ours, about the 20 % that such rules are good to; no source'),
  rule('collectorLength', 0.25, 0.5, `tried on large engines; ${COMMON}`),
  // 10 psi for each 1000 rev/min, as pressure for each rev/min.
  rule('oilPressure', (10 * PSI) / 1000, null, COMMON, { perM: true }),
  rule('oilPressureIdle', 10 * PSI, null, COMMON),
  ...CLEARANCE_RULES,
  rule('boreTaper', null, 0.0005 * IN, COMMON, { stopAbove: 0.003 * IN }),
  rule('boreOutOfRound', null, 0.0005 * IN, COMMON, { stopAbove: 0.003 * IN }),
  rule('boreSpread', null, 0.001 * IN, COMMON),
  rule('mainTaper', null, 0.0005 * IN, COMMON),
  rule('runOut', null, 0.0015 * IN, COMMON, { stopAbove: 0.004 * IN }),
  rule('pinClearance', 0.0005 * IN, 0.0012 * IN, 'from memory, low confidence', {
    stopBelow: 0.0003 * IN,
  }),
  rule('guideClearanceIntake', 0.001 * IN, 0.003 * IN, COMMON, { stopBelow: 0.0006 * IN }),
  rule('guideClearanceExhaust', 0.0015 * IN, 0.0035 * IN, COMMON, { stopBelow: 0.001 * IN }),
  rule('chamberSpread', null, 1e-6, COMMON),
  rule('lashSet', -0.002 * IN, 0.002 * IN, COMMON),
  rule('pushrodLength', -0.025 * IN, 0.025 * IN, `half a step in which they are sold: ${COMMON}`),
  rule('preload', 0.02 * IN, 0.06 * IN, COMMON, { stopBelow: 0 }),
  rule('rockerRatioShare', 0.96, 1.04, COMMON),
  rule('seatLoadShare', 0.92, 1.1, COMMON),
  rule('springOverInertia', 1.2, null, 'from memory, low confidence: parts float 5 to 15 % early', {
    stopBelow: 1,
  }),
  rule('valveRadial', 0.05 * IN, null, COMMON, { stopBelow: 0.03 * IN }),
  rule('preloadShare', 0.6, 0.9, 'upper end Shigley eq. 8-31 (from memory); lower end no source', {
    stopAbove: 1,
  }),
  rule('clampOverLoad', 1.5, null, 'from memory, low confidence', { stopBelow: 1 }),
  // The test plan. Exhaust temperature hangs on where the probe stands and on the fuel.
  rule(
    'limitOilPressure',
    (10 * PSI) / 1000,
    null,
    `${COMMON}; to stop at: three quarters of it, ours`,
    {
      perM: true,
      stopBelow: (7.5 * PSI) / 1000,
    },
  ),
  rule('limitOilPressureIdle', 10 * PSI, null, COMMON),
  rule('limitWater', null, fahrenheit(200), COMMON, { stopAbove: fahrenheit(220) }),
  rule('limitOil', null, fahrenheit(250), COMMON, { stopAbove: fahrenheit(275) }),
  rule('limitExhaust', null, fahrenheit(1500), COMMON, { stopAbove: fahrenheit(1650) }),
  rule('limitLean', null, 0.93, `ours, ${COMMON}`, { stopAbove: 0.98 }),
  rule('limitLean', null, 0.85, `ours, ${COMMON}`, {
    when: { 'layout.aspiration': 'boosted' },
    stopAbove: 0.9,
  }),
  rule('limitLean', null, 0.85, `ours, ${COMMON}`, {
    when: { 'layout.aspiration': 'nitrous' },
    stopAbove: 0.9,
  }),
  rule('loadOil', fahrenheit(140), null, COMMON),
  rule('pullOil', fahrenheit(180), fahrenheit(210), COMMON),
  rule('pullWater', fahrenheit(160), fahrenheit(190), COMMON),
  // rev/min a second
  rule('sweepRate', 200, 400, COMMON),
];
