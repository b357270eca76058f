import { NonPhysicalError } from '../../errors.ts';
import {
  airDemand,
  carburettorDepressionPa,
  carburettorSizeM3PerS,
  gasDensityKgPerM3,
  passageAt,
  throttleOpenAreaM2,
} from '../../trade/flow/index.ts';
import { type Ask, type Need, once, one, oneOrUsual } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Note, Said } from '../compute/types.ts';
import { displacementM3 } from './basics.ts';
import { INLET_AIR_K } from './flow.ts';
import { highestSpeedRpm } from './motion.ts';

/** The air that efficiency and volumes are counted in: 25 °C at the standard atmosphere. */
const AIR = { pressureAbsPa: 101_325, temperatureK: INLET_AIR_K } as const;
/** Taken where the sheet says nothing: full cylinders, which sizes what lets the air in on the large side. */
const USUAL_EFFICIENCY = 1;
/** What a carburettor is sized to see at peak power [Pa]: 1 inHg. Common practice, no source. */
const WANTED_DEPRESSION_PA = 3386.389;
/** Share of the open area that passes: 0.8 to 0.95 wide open (from memory, Heywood §7.5, low confidence). */
const THROTTLE_COEFFICIENT = 0.85;

const peakPowerSpeedRpm = one('intent.peakPowerSpeed');

const efficiency = oneOrUsual('induction.volumetricEfficiency', USUAL_EFFICIENCY);
const efficiencyNotes = (ask: Ask): readonly Note[] =>
  ask.numberOrNull('induction.volumetricEfficiency') === null
    ? [
        {
          sentence: 'Volumetric efficiency is not on the sheet: taken as 100 %.',
          source: 'engines stand between 60 and 125 % (from memory, low confidence)',
        },
      ]
    : [];

const demandAt = (speed: Need<number>) =>
  once((ask) => {
    const needs = ask.all({ displacement: displacementM3, speed, efficiency });
    return airDemand({
      displacementM3: needs.displacement,
      speedRpm: needs.speed,
      cycle: ask.layout.cycle,
      volumetricEfficiency: needs.efficiency,
      densityKgPerM3: gasDensityKgPerM3(AIR.pressureAbsPa, AIR.temperatureK),
    });
  });
const demandAtPower = demandAt(peakPowerSpeedRpm);
const demandAtHighest = demandAt(highestSpeedRpm);

const withNotes =
  (need: Need<number>): Need<Said> =>
  (ask) => ({ value: need(ask), notes: efficiencyNotes(ask) });

const isCarburettor = (ask: Ask) => ask.textOrNull('induction.kind') === 'carburettor';
const isThrottled = (ask: Ask) => !isCarburettor(ask);

/** Open area of all throttles together, wide open [m²], as it passes air. */
const throttleArea: Need<number> = (ask) => {
  const needs = ask.all({
    throttles: one('induction.throttles'),
    bore: one('induction.throttleDiameter'),
    shaft: oneOrUsual('induction.throttleShaft', 0),
  });
  const open = throttleOpenAreaM2(
    { boreM: needs.bore, shaftDiameterM: needs.shaft, closedDeg: 0 },
    90,
  );
  return THROTTLE_COEFFICIENT * needs.throttles * open;
};

/**
 * How much more than the mean a throttle passes while its cylinder draws: with one a cylinder all of a cycle's air goes
 * through it in the one stroke in two (or four) that is an intake stroke.
 */
const inBursts = (ask: Ask) =>
  ask.textOrNull('induction.kind') === 'one throttle a cylinder' ? ask.layout.cycle : 1;

const throttleDrop: Need<number> = (ask) => {
  const { area, demand } = ask.all({ area: throttleArea, demand: demandAtPower });
  const passage = passageAt(AIR, area, demand.massKgPerS * inBursts(ask));
  if (passage.state === 'chokes')
    throw new NonPhysicalError(
      `invalid throttles: they choke at ${passage.greatestFlowKgPerS.toFixed(3)} kg/s and ${(demand.massKgPerS * inBursts(ask)).toFixed(3)} kg/s is wanted; expected larger ones`,
    );
  return passage.pressureDropPa;
};

const DEMAND_HOW =
  'Displacement × speed × volumetric efficiency, halved for four strokes; air of 25 °C and 101.325 kPa. Definition.';

export const INDUCTION_FIGURES: readonly FigureSpec[] = [
  {
    id: 'airDemandPower',
    section: 'induction',
    label: 'Air wanted at peak power',
    shown: 'volumeFlow',
    how: DEMAND_HOW,
    compute: withNotes((ask) => demandAtPower(ask).volumeM3PerS),
  },
  {
    id: 'airDemandHighest',
    section: 'induction',
    label: 'Air wanted at the highest speed',
    shown: 'volumeFlow',
    how: DEMAND_HOW,
    compute: withNotes((ask) => demandAtHighest(ask).volumeM3PerS),
  },
  {
    id: 'carburettorWanted',
    section: 'induction',
    label: 'Carburettor to suit, rated as this one is',
    shown: 'volumeFlow',
    how: 'Air at peak power × √(rated depression ÷ 1 inHg): the rated flow that sees 1 inHg there. Common practice, no source.',
    applies: isCarburettor,
    compute: withNotes((ask) => {
      const needs = ask.all({ demand: demandAtPower, rated: one('induction.ratedDepression') });
      return carburettorSizeM3PerS({
        demandM3PerS: needs.demand.volumeM3PerS,
        wantedDepressionPa: WANTED_DEPRESSION_PA,
        ratedDepressionPa: needs.rated,
      });
    }),
  },
];

export const INDUCTION_CHECKS: readonly CheckSpec[] = [
  {
    id: 'carburettorDepression',
    section: 'induction',
    label: 'Depression below the carburettor at peak power',
    shown: 'manifoldPressure',
    decimals: 2,
    how: 'Rated depression × (air wanted ÷ rated flow)².',
    window: 'carburettorDepression',
    applies: isCarburettor,
    compute: withNotes((ask) => {
      const needs = ask.all({
        demand: demandAtPower,
        flow: one('induction.ratedFlow'),
        rated: one('induction.ratedDepression'),
      });
      return carburettorDepressionPa({
        demandM3PerS: needs.demand.volumeM3PerS,
        ratedFlowM3PerS: needs.flow,
        ratedDepressionPa: needs.rated,
      });
    }),
    remedy: {
      low: 'A smaller carburettor: it hardly feels the air, and metering suffers low down.',
      high: 'A larger carburettor: this one takes filling at the top.',
    },
    weight: 1,
  },
  {
    id: 'throttleDrop',
    section: 'induction',
    label: 'Pressure lost at the open throttle, peak power',
    shown: 'depression',
    how: 'Isentropic flow through 0.85 of the open area (from memory, Heywood §7.5, low confidence), shaft taken off; none of the jet regained, which errs to the safe side. One throttle a cylinder passes its air in the intake stroke alone.',
    window: 'throttleDrop',
    applies: isThrottled,
    compute: withNotes(throttleDrop),
    remedy: { low: '', high: 'A larger throttle, or more of them.' },
    weight: 1,
  },
];
