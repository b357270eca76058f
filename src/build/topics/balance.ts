import {
  type Bobweight,
  type BobweightRule,
  bobweight,
  matchSet,
  reciprocatingAmplitudeN,
  unbalanceForceN,
} from '../../trade/balance/index.ts';
import { type Ask, eachOf, firstOf, meanOf, type Need, once, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { countOf } from '../sheet/layout.ts';
import { orNone, rodLengthM, strokeM } from './basics.ts';
import { highestSpeedRpm, reciprocatingKg } from './motion.ts';

/** Usual share of a cross-plane V8 and of a single (ohiocrank.com and derived, see trade/balance/layouts.ts). */
const USUAL_SHARE = 0.5;

/** Rods on one throw, from how many cylinders share the rod journals. */
const rodsPerThrow = (ask: Ask) =>
  Math.max(1, Math.round(ask.layout.cylinders / countOf('rodJournal', ask.layout)));

/** Share of the reciprocating weight on the bobweights; 50 % where the sheet says nothing. */
const share: Need<number> = firstOf(one('crank.overbalance'), () => USUAL_SHARE);

/** Bobweight of one throw, from mean weights of the set. */
const throwWeight: Need<Bobweight> = once((ask) => {
  const parts = ask.all({
    rodBigEndKg: meanOf(eachOf('rods.bigEndMass')),
    rodBearingsKg: one('rods.bearingMass'),
    rodSmallEndKg: meanOf(eachOf('rods.smallEndMass')),
    pistonKg: meanOf(eachOf('pistons.mass')),
    pinKg: meanOf(eachOf('pistons.pinMass')),
    locksKg: orNone('pistons.locksMass'),
    ringsKg: one('pistons.ringsMass'),
    oilPerThrowKg: orNone('crank.oilAllowance'),
  });
  const rule: BobweightRule = { rodsPerThrow: rodsPerThrow(ask), reciprocatingShare: share(ask) };
  return bobweight(parts, rule);
});

const matched = (
  id: string,
  label: string,
  path: string,
  part: string,
  section: string,
): CheckSpec => ({
  id,
  section,
  label,
  shown: 'partMass',
  how: 'Heaviest less lightest of the set.',
  window: 'setSpread',
  compute: (ask) => matchSet(part, eachOf(path)(ask)).spreadKg,
  remedy: { low: '', high: 'Take the heavier ones down to the lightest.' },
  weight: 1,
});

export const BALANCE_FIGURES: readonly FigureSpec[] = [
  {
    id: 'bobweight',
    section: 'crank',
    label: 'Bobweight that follows',
    shown: 'partMass',
    how: 'All that rotates and the balanced share of what goes up and down, rods of one throw together (ohiocrank.com).',
    compute: (ask) => throwWeight(ask).bobweightKg,
  },
  {
    id: 'residualForce',
    section: 'crank',
    label: 'Residual unbalance pulls with, highest speed',
    shown: 'force',
    how: 'Unbalance × ω², front and rear added.',
    compute: (ask) => {
      const needs = ask.all({
        front: one('crank.residualFront'),
        rear: one('crank.residualRear'),
        speed: highestSpeedRpm,
      });
      return unbalanceForceN(needs.front + needs.rear, needs.speed);
    },
  },
  {
    id: 'primaryForce',
    section: 'crank',
    label: 'First-order force of one cylinder, highest speed',
    shown: 'force',
    how: 'm r ω². Machine dynamics.',
    compute: (ask) => amplitudes(ask).primaryN,
  },
  {
    id: 'secondaryForce',
    section: 'crank',
    label: 'Second-order force of one cylinder, highest speed',
    shown: 'force',
    how: 'm r ω² (r/l). Machine dynamics.',
    compute: (ask) => amplitudes(ask).secondaryN,
  },
];

function amplitudes(ask: Ask) {
  const needs = ask.all({
    mass: reciprocatingKg,
    stroke: strokeM,
    rod: rodLengthM,
    speed: highestSpeedRpm,
  });
  return reciprocatingAmplitudeN({
    reciprocatingKg: needs.mass,
    crankRadiusM: needs.stroke / 2,
    rodLengthM: needs.rod,
    speedRpm: needs.speed,
  });
}

export const BALANCE_CHECKS: readonly CheckSpec[] = [
  {
    id: 'bobweightUsed',
    section: 'crank',
    label: 'Bobweight used against the one that follows',
    shown: 'partMass',
    how: 'Used less computed.',
    window: 'bobweightUsed',
    compute: (ask) => {
      const needs = ask.all({ used: one('crank.bobweight'), computed: throwWeight });
      return needs.used - needs.computed.bobweightKg;
    },
    remedy: {
      low: 'Parts have become heavier than the crank was balanced for: balance it again.',
      high: 'Parts have become lighter than the crank was balanced for: balance it again.',
    },
    weight: 3,
  },
  matched('bigEndSpread', 'Rod big ends matched', 'rods.bigEndMass', 'rod big ends', 'rods'),
  matched(
    'smallEndSpread',
    'Rod small ends matched',
    'rods.smallEndMass',
    'rod small ends',
    'rods',
  ),
  matched('pistonSpread', 'Pistons matched', 'pistons.mass', 'pistons', 'pistons'),
];
