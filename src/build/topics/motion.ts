import { reciprocatingPerCylinderKg } from '../../trade/balance/index.ts';
import {
  boreStrokeRatio,
  type CrankSlider,
  crankingPressureEstimate,
  dynamicCompression,
  peakPistonAccelerations,
  peakPistonSpeeds,
  type RodTension,
  rodBoltTension,
  rodRatio,
} from '../../trade/geometry/index.ts';
import { meanPistonSpeedMPerS } from '../../trade/power.ts';
import { eachOf, firstOf, meanOf, type Need, once, one, oneOr } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { boreM, byPlace, orNone, rodLengthM, spreadOf, strokeM } from './basics.ts';
import { eventsAt } from './cam.ts';
import { clearancesM3 } from './compression.ts';

/** Standard atmosphere, for an estimate that is good to a tenth. */
const ATMOSPHERE_PA = 101_325;

export const slider: Need<CrankSlider> = once((ask) => {
  const { stroke, rod, offset } = ask.all({
    stroke: strokeM,
    rod: rodLengthM,
    offset: orNone('pistons.pinOffset'),
  });
  return { strokeM: stroke, rodLengthM: rod, pinOffsetM: offset };
});

/** Mean weight of what goes up and down in one cylinder [kg]. */
export const reciprocatingKg: Need<number> = once((ask) => {
  const parts = ask.all({
    rodSmallEndKg: meanOf(eachOf('rods.smallEndMass')),
    pistonKg: meanOf(eachOf('pistons.mass')),
    pinKg: meanOf(eachOf('pistons.pinMass')),
    locksKg: orNone('pistons.locksMass'),
    ringsKg: one('pistons.ringsMass'),
    rodBigEndKg: orNone('rods.bearingMass'),
  });
  return reciprocatingPerCylinderKg({ ...parts, rodBearingsKg: 0 });
});

/** Highest speed that the parts must stand [rev/min]. */
export const highestSpeedRpm: Need<number> = one('intent.highestSpeed');

/** Share of a rod's big end that stands above its parting line (ours, common practice, no source). */
const ABOVE_PARTING = 0.5;

/** Pull on the rod at the top of the exhaust stroke, at the highest speed. */
export const rodTension: Need<RodTension> = once((ask) => {
  const needs = ask.all({
    slider,
    reciprocating: reciprocatingKg,
    bigEnd: meanOf(eachOf('rods.bigEndMass')),
    bolts: oneOr('rods.boltsPerRod', 2),
    speed: highestSpeedRpm,
  });
  return rodBoltTension({
    slider: needs.slider,
    reciprocatingKg: needs.reciprocating,
    rodAbovePartingKg: ABOVE_PARTING * needs.bigEnd,
    bolts: needs.bolts,
    speedRpm: needs.speed,
  });
});

/** Dynamic ratio from the intake's closing at its seat, mean of the cylinders. */
export const dynamicRatio: Need<number> = once((ask) => {
  const needs = ask.all({
    slider,
    bore: boreM,
    clearance: meanOf(clearancesM3),
    events: eventsAt('Seat'),
  });
  return dynamicCompression({
    ...needs.slider,
    boreM: needs.bore,
    clearanceM3: needs.clearance,
    intakeClosesAbdcDeg: needs.events.intakeClosesAbdcDeg,
  }).ratio;
});

const meanSpeedAt =
  (speed: Need<number>): Need<number> =>
  (ask) => {
    const needs = ask.all({ stroke: strokeM, speed });
    return meanPistonSpeedMPerS(needs.stroke, needs.speed);
  };

/** Stretch of the worse of each rod's bolts less what was wanted [m]; a rod whose second bolt is not measured waits for it. */
const stretchBeyond =
  (wanted: string, worse: (a: number, b: number) => number): Need<readonly (number | null)[]> =>
  (ask) => {
    const bolts = ask.all({
      a: eachOf('rods.boltStretchA'),
      b: firstOf(eachOf('rods.boltStretchB'), eachOf('rods.boltStretchA')),
      wanted: one(wanted),
    });
    return byPlace({ a: bolts.a, b: bolts.b }, (at) => worse(at.a, at.b) - bolts.wanted);
  };

export const MOTION_FIGURES: readonly FigureSpec[] = [
  {
    id: 'boreStroke',
    section: 'crank',
    label: 'Bore over stroke',
    shown: 'ratio',
    how: 'Mean bore ÷ stroke.',
    compute: (ask) => {
      const needs = ask.all({ bore: boreM, stroke: strokeM });
      return boreStrokeRatio(needs.bore, needs.stroke);
    },
  },
  {
    id: 'rodRatio',
    section: 'rods',
    label: 'Rod over stroke',
    shown: 'ratio',
    how: 'Rod between centres ÷ stroke.',
    compute: (ask) => {
      const needs = ask.all({ rod: rodLengthM, stroke: strokeM });
      return rodRatio(needs.rod, needs.stroke);
    },
  },
  {
    id: 'meanPistonSpeedPower',
    section: 'crank',
    label: 'Mean piston speed at peak power',
    shown: 'pistonSpeed',
    how: '2 × stroke × speed.',
    compute: meanSpeedAt(one('intent.peakPowerSpeed')),
  },
  {
    id: 'peakPistonSpeed',
    section: 'crank',
    label: 'Peak piston speed at the highest speed',
    shown: 'pistonSpeed',
    how: 'Exact crank and rod kinematics, with pin offset.',
    compute: (ask) => {
      const needs = ask.all({ slider, speed: highestSpeedRpm });
      return peakPistonSpeeds(needs.slider, needs.speed).down.value;
    },
  },
  {
    id: 'peakAcceleration',
    section: 'crank',
    label: 'Piston acceleration at the top, highest speed',
    shown: 'acceleration',
    how: 'ω² r (1 + r/l), exact with pin offset.',
    compute: (ask) => {
      const needs = ask.all({ slider, speed: highestSpeedRpm });
      return peakPistonAccelerations(needs.slider, needs.speed).towardsCrank.value;
    },
  },
  {
    id: 'reciprocatingMass',
    section: 'rods',
    label: 'Goes up and down, one cylinder',
    shown: 'partMass',
    how: 'Small end + piston + pin + locks + rings, mean of the cylinders.',
    compute: reciprocatingKg,
  },
  {
    id: 'rodTension',
    section: 'rods',
    label: 'Pull on a rod, highest speed',
    shown: 'force',
    how: 'What goes up and down, and half the big end, × acceleration at the top of the exhaust stroke.',
    compute: (ask) => rodTension(ask).rodN,
  },
  {
    id: 'boltTension',
    section: 'rods',
    label: 'Pull on a rod bolt, with bending of the cap',
    shown: 'force',
    how: 'Even share of the bolts × 1.3 for the bending of the cap (common practice, no source).',
    compute: (ask) => rodTension(ask).perBoltWithBendingN,
  },
  {
    id: 'dynamicRatio',
    section: 'camshaft',
    label: 'Dynamic ratio',
    shown: 'ratio',
    decimals: 2,
    how: 'Volume when the intake closes at its seat ÷ clearance volume. Durations at .050 in would be meaningless here.',
    compute: dynamicRatio,
  },
  {
    id: 'crankingEstimate',
    section: 'condition',
    label: 'Cranking compression to expect',
    shown: 'gaugePressure',
    how: 'Dynamic ratio to the power 1.25 at standard atmosphere; good to a tenth at best. The spread between cylinders says more.',
    compute: (ask) => crankingPressureEstimate(dynamicRatio(ask), ATMOSPHERE_PA).gaugePa,
  },
];

export const MOTION_CHECKS: readonly CheckSpec[] = [
  {
    id: 'meanPistonSpeed',
    section: 'crank',
    label: 'Mean piston speed at the highest speed',
    shown: 'pistonSpeed',
    how: '2 × stroke × speed.',
    window: 'meanPistonSpeed',
    compute: meanSpeedAt(highestSpeedRpm),
    remedy: { low: '', high: 'A lower limit of speed, or a shorter stroke.' },
    weight: 2,
  },
  {
    id: 'dynamicRatioWindow',
    section: 'camshaft',
    label: 'Dynamic ratio for its fuel',
    shown: 'ratio',
    decimals: 2,
    how: 'Volume when the intake closes at its seat ÷ clearance volume.',
    window: 'dynamicRatio',
    compute: dynamicRatio,
    remedy: {
      low: 'A smaller clearance volume, or an earlier closing of the intake.',
      high: 'A larger clearance volume, a later closing of the intake, or a fuel of more octane.',
    },
    weight: 2,
  },
  {
    id: 'boltStretch',
    section: 'rods',
    label: 'Rod bolt stretch above the least wanted',
    shown: 'bore',
    per: 'cylinder',
    how: 'The smaller of the two bolts of each rod less the least that was wanted.',
    window: 'boltStretchLeast',
    compute: stretchBeyond('rods.boltStretchLow', Math.min),
    remedy: { low: 'Tighten to the stretch that the maker asks for.', high: '' },
    weight: 3,
  },
  {
    id: 'boltStretchMost',
    section: 'rods',
    label: 'Rod bolt stretch beyond the most wanted',
    shown: 'bore',
    per: 'cylinder',
    how: 'The larger of the two bolts of each rod less the most that was wanted.',
    window: 'boltStretchMost',
    compute: stretchBeyond('rods.boltStretchHigh', Math.max),
    remedy: { low: '', high: 'The bolt may have yielded: replace it.' },
    weight: 3,
  },
  {
    id: 'crankingSpread',
    section: 'condition',
    label: 'Cranking compression, weakest against strongest',
    shown: 'percent',
    how: 'Largest less smallest, as a part of the largest.',
    window: 'crankingSpread',
    compute: spreadOf('condition.crankingPressure'),
    remedy: {
      low: '',
      high: 'Leak-down on the weak cylinder; look at lash and valve sealing first.',
    },
    weight: 2,
  },
  {
    id: 'leakDown',
    section: 'condition',
    label: 'Leak-down',
    shown: 'percent',
    per: 'cylinder',
    how: 'As measured.',
    window: 'leakDown',
    compute: eachOf('condition.leakDown'),
    remedy: {
      low: '',
      high: 'Listen at intake, exhaust, breather and radiator for where it goes.',
    },
    weight: 2,
  },
];
