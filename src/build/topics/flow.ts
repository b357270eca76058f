import { valveAnglesAtLift, valveLiftM } from '../../trade/camshaft/index.ts';
import {
  type AreaCurve,
  areaCurve,
  type BenchTable,
  benchEffectiveAreaM2,
  curtainAreaM2,
  dischargeCoefficient,
  effectiveAreaAtM2,
  exhaustToInletRatio,
  flowAtDepressionM3PerS,
  INLET_MACH_INDEX,
  type InletFlow,
  inletMachIndex,
  type MeanArea,
  meanEffectiveArea,
  soundMPerS,
  speedAtMachIndexRpm,
} from '../../trade/flow/index.ts';
import { ifThere, type Need, NotMeasured, once, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Note } from '../compute/types.ts';
import { boreM, numbersIn, strokeM } from './basics.ts';
import { type BySide, bySide, drivenValves, lobes, mostLiftM, type Side } from './flowValves.ts';
import { highestSpeedRpm } from './motion.ts';

/** Inlet air where nothing is said of it [K]: 25 °C, what power is corrected to. */
export const INLET_AIR_K = 298.15;
/** The depression in which ports are compared [Pa]: 28 inches of water (1000 kg/m³, standard gravity). */
const COMPARED_AT_PA = 28 * 0.0254 * 1000 * 9.80665;
const NAMES: BySide<string> = { intake: 'intake', exhaust: 'exhaust' };
/** Bench rooms differ, but their temperature counts by its root only: 10 K are under 2 %. */
const ROOM = 'Bench air taken as 20 °C and 101.325 kPa.';

/** The flow bench's table of each side, in rising lift. */
const benches: BySide<Need<BenchTable>> = bySide((side) => (ask) => {
  const points = ask
    .rows('heads.flow')
    .flatMap((row) => {
      const at = numbersIn(row, ['lift', side]);
      return at === null ? [] : [{ liftM: at.lift, flowM3PerS: at[side] }];
    })
    .sort((a, b) => a.liftM - b.liftM);
  const { depressionPa } = ask.all({
    depressionPa: one('heads.flowDepression'),
    points: () => {
      if (points.length === 0) throw new NotMeasured(['heads.flow']);
    },
  });
  return { depressionPa, points, side: side === 'intake' ? 'inlet' : 'exhaust' };
});

/** Effective area against lift. */
export const areaCurves: BySide<Need<AreaCurve>> = bySide(
  (side) => (ask) => areaCurve(benches[side](ask)),
);

/** The lift at which a side is judged [m]: the valve's largest, or the greatest that was flowed where that is less. */
const judgedLift = bySide((side) => (ask) => {
  const { greatestLiftM } = areaCurves[side](ask);
  const most = mostLiftM[side](ask);
  const notes: Note[] = [];
  if (most === null)
    notes.push({
      sentence:
        'How far the valve opens is not known: this is at the greatest lift that was flowed.',
      source: null,
    });
  else if (most > greatestLiftM * (1 + 1e-9))
    notes.push({
      sentence:
        'The valve opens further than was flowed: this is at the greatest lift that was flowed.',
      source: null,
    });
  return { liftM: Math.min(most ?? greatestLiftM, greatestLiftM), notes };
});

const areaAtMost: BySide<Need<number>> = bySide(
  (side) => (ask) => effectiveAreaAtM2(areaCurves[side](ask), judgedLift[side](ask).liftM),
);

/** Mean over the time a valve is open of its effective area, through the lift it has at each angle. */
export const meanAreas: BySide<Need<MeanArea>> = bySide((side) => (ask) => {
  const { area, valve } = ask.all({ area: areaCurves[side], valve: drivenValves[side] });
  return meanEffectiveArea(area, {
    liftM: (deg) => valveLiftM(valve, deg),
    ...valveAnglesAtLift(valve),
  });
});

/** What the mean area leaves open. */
const meanNotes: BySide<Need<readonly Note[]>> = bySide((side) => (ask) => {
  const notes: Note[] = [];
  const { beyondTableDeg } = meanAreas[side](ask);
  if (beyondTableDeg > 0)
    notes.push({
      sentence: `For ${beyondTableDeg.toFixed(0)}° the valve stands higher than was flowed; the last reading was held there.`,
      source: null,
    });
  if (lobes[side](ask).estimated === 'flank')
    notes.push({
      sentence:
        'The flanks of the lobe are an estimate: a duration at the seat, or at 0.200 in, would make them better.',
      source: null,
    });
  return notes;
});

const inlet: Need<InletFlow> = once((ask) => {
  const needs = ask.all({ bore: boreM, stroke: strokeM, mean: meanAreas.intake });
  return {
    boreM: needs.bore,
    strokeM: needs.stroke,
    meanAreaM2: needs.mean.areaM2,
    soundMPerS: soundMPerS(INLET_AIR_K),
  };
});

const machAt =
  (speed: Need<number>): Need<number> =>
  (ask) => {
    const needs = ask.all({ inlet, speed });
    return inletMachIndex(needs.inlet, needs.speed);
  };

/** Discharge coefficient on the curtain of all valves of a side, at the largest lift. */
const curtainCoefficient =
  (side: Side): Need<number> =>
  (ask) => {
    const needs = ask.all({
      area: areaAtMost[side],
      diameter: one(`heads.${side}ValveDiameter`),
    });
    const valves =
      side === 'intake' ? ask.layout.intakeValvesPerCylinder : ask.layout.exhaustValvesPerCylinder;
    return dischargeCoefficient(
      needs.area,
      valves * curtainAreaM2(needs.diameter, judgedLift[side](ask).liftM),
    );
  };

const Z_HOW =
  'Piston area × mean piston speed ÷ (mean effective valve area × speed of sound at 25 °C). C. F. Taylor, vol. 1 ch. 6 (from memory).';

const sideFigures = (side: Side): FigureSpec[] => [
  {
    id: `${side}FlowArea`,
    section: 'heads',
    label: `Effective area, ${NAMES[side]}, at the largest lift`,
    shown: 'area',
    how: `Ideal nozzle that passes what the bench read, the valves of one cylinder together. ${ROOM} Isentropic flow.`,
    compute: (ask) => ({ value: areaAtMost[side](ask), notes: judgedLift[side](ask).notes }),
  },
  {
    id: `${side}FlowAt28`,
    section: 'heads',
    label: `Flow at 28 inches of water, ${NAMES[side]}, at the largest lift`,
    shown: 'volumeFlow',
    how: 'Bench flow × √(28 in ÷ bench depression), the rule ports are compared by. Between 10 and 28 in it reads up to 2.5 % high.',
    compute: (ask) => {
      const needs = ask.all({ area: areaAtMost[side], bench: benches[side] });
      const atBench = needs.area / benchEffectiveAreaM2(needs.bench, 1);
      return {
        value: flowAtDepressionM3PerS(atBench, needs.bench.depressionPa, COMPARED_AT_PA),
        notes: judgedLift[side](ask).notes,
      };
    },
  },
  {
    id: `${side}MeanFlowArea`,
    section: 'heads',
    label: `Mean effective area while the ${NAMES[side]} is open`,
    shown: 'area',
    how: `Effective area at each degree's own lift, averaged over the time the valve is off its seat. Lift curve through the card's points, rocker ratio and lash. ${ROOM}`,
    compute: (ask) => ({ value: meanAreas[side](ask).areaM2, notes: meanNotes[side](ask) }),
  },
];

const chokingSpeed = (index: number, what: string): FigureSpec => ({
  id: `speedAtMach${Math.round(index * 100)}`,
  section: 'heads',
  label: `Speed at which the inlet Mach index is ${index}`,
  shown: 'speed',
  how: `${Z_HOW} ${what}`,
  compute: (ask) => ({
    value: speedAtMachIndexRpm(inlet(ask), index),
    notes: meanNotes.intake(ask),
  }),
});

export const FLOW_FIGURES: readonly FigureSpec[] = [
  ...sideFigures('intake'),
  ...sideFigures('exhaust'),
  {
    id: 'machIndexHighest',
    section: 'heads',
    label: 'Inlet Mach index at the highest speed',
    shown: 'ratio',
    decimals: 2,
    how: Z_HOW,
    compute: machAt(highestSpeedRpm),
  },
  chokingSpeed(
    INLET_MACH_INDEX.fallsFrom,
    'Filling falls sharply from here (JSME dictionary 11:1002813); long durations shift it up.',
  ),
  chokingSpeed(
    INLET_MACH_INDEX.chokesAt,
    'Filling of ten engines fell above about 0.6 (Taylor, from memory); long durations shift it up.',
  ),
];

const coefficientCheck = (side: Side): CheckSpec => ({
  id: `${side}Discharge`,
  section: 'heads',
  label: `Discharge coefficient, ${NAMES[side]}, at the largest lift`,
  shown: 'ratio',
  decimals: 2,
  how: `Effective area ÷ curtain of the valves (π × diameter × lift). ${ROOM}`,
  window: 'dischargeCoefficient',
  compute: curtainCoefficient(side),
  remedy: {
    low: 'Look for what stands in the way beside the valve: throat, bowl, a shrouding wall; or the bench leaks the other way.',
    high: 'Look at the test depression, the valve diameter and the unit of the flow: no valve passes so much.',
  },
  weight: 1,
});

export const FLOW_CHECKS: readonly CheckSpec[] = [
  coefficientCheck('intake'),
  coefficientCheck('exhaust'),
  {
    id: 'exhaustToInlet',
    section: 'heads',
    label: 'Exhaust flow over intake flow',
    shown: 'percent',
    decimals: 0,
    how: 'Mean over the lifts at which both were flowed at the same depression.',
    window: 'exhaustToInlet',
    compute: (ask) => {
      const ratios = ask.rows('heads.flow').flatMap((row) => {
        const at = numbersIn(row, ['lift', 'intake', 'exhaust']);
        return at === null || at.lift === 0 ? [] : [exhaustToInletRatio(at.exhaust, at.intake)];
      });
      if (ratios.length === 0) throw new NotMeasured(['heads.flow']);
      return ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    },
    remedy: {
      low: 'A better exhaust port, or a longer exhaust duration.',
      high: 'The intake is what holds this head back: spend the next work there.',
    },
    weight: 1,
  },
  {
    id: 'machIndexPower',
    section: 'heads',
    label: 'Inlet Mach index at peak power',
    shown: 'ratio',
    decimals: 2,
    how: Z_HOW,
    window: 'machIndex',
    compute: (ask) => {
      const value = machAt(one('intent.peakPowerSpeed'))(ask);
      return { value, notes: ifThere(meanNotes.intake)(ask) ?? [] };
    },
    remedy: {
      low: '',
      high: 'More intake area (valve, port, lift or duration), or a lower speed of peak power.',
    },
    weight: 2,
  },
];
