import {
  INJECTOR_DUTY_LIMIT,
  injectorDutyShare,
  injectorFlowKgPerS,
  injectorStaticFlowKgPerS,
  PUMP_MARGIN_RANGE,
  pumpNeed,
} from '../../trade/flow/index.ts';
import {
  afrFromLambda,
  bsfcByAirKgPerJ,
  chargeCoolingUpperBoundK,
  type Fuel,
  fuelFlowForPowerKgPerS,
  fuelNamed,
  fuelVolumeM3PerS,
} from '../../trade/fuel/index.ts';
import { type Ask, firstOf, type Need, once, one, oneOr, oneOrUsual } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Note, Said } from '../compute/types.ts';
import { sheetFuel } from './fuelSystemFuel.ts';

const LB_PER_HP_H = 1.689659e-7; // kg/J
/**
 * BSFC on gasoline at full throttle, taken where the sheet says none: 0.50 lb/(hp h) without boost, 0.65 with boost or
 * nitrous, the figures that fuel systems are sized by (common practice, no source).
 */
const USUAL_BSFC = { natural: 0.5 * LB_PER_HP_H, charged: 0.65 * LB_PER_HP_H } as const;
/** The mixture that those figures are of. */
const USUAL_LAMBDA = 0.87;
/** Injectors are rated with n-heptane as a rule [kg/m³]. Common practice, no source. */
const RATED_WITH_KG_PER_M3 = 684;

const targetLambda = one('fuelSystem.lambda');

/** Specific consumption [kg/J]: as expected, else the usual one of gasoline brought to this fuel by the air it takes. */
export const bsfcKgPerJ: Need<number> = once((ask) =>
  oneOrUsual('fuelSystem.bsfc', (asked) => {
    const { aspiration } = asked.layout;
    const usual = aspiration === 'natural' ? USUAL_BSFC.natural : USUAL_BSFC.charged;
    const lambda = oneOr('fuelSystem.lambda', USUAL_LAMBDA)(asked);
    return bsfcByAirKgPerJ(
      usual,
      { fuel: fuelNamed('gasoline'), lambda: USUAL_LAMBDA },
      { fuel: sheetFuel(asked), lambda },
    );
  })(ask),
);

function bsfcNotes(ask: Ask): readonly Note[] {
  if (ask.numberOrNull('fuelSystem.bsfc') !== null) return [];
  const usual = ask.layout.aspiration === 'natural' ? '0.50' : '0.65';
  return [
    {
      sentence: `BSFC is not on the sheet: taken as ${usual} lb/(hp h) on gasoline and brought to this fuel by the air it takes.`,
      source: 'common practice, no source',
    },
  ];
}

const withNotes =
  (need: Need<number>): Need<Said> =>
  (ask) => ({ value: need(ask), notes: bsfcNotes(ask) });

/** Fuel at the power intended [kg/s]. */
export const fuelFlowKgPerS: Need<number> = once((ask) => {
  const needs = ask.all({ power: one('intent.power'), bsfc: bsfcKgPerJ });
  return fuelFlowForPowerKgPerS(needs.power, needs.bsfc);
});

/** The same by volume [m³/s]; of a gas at room air. */
const fuelFlowM3PerS: Need<number> = (ask) => {
  const needs = ask.all({ flow: fuelFlowKgPerS, fuel: sheetFuel });
  return fuelVolumeM3PerS(needs.flow, needs.fuel);
};

/** What one injector passes as it is fitted, open without pause, with this fuel at this pressure [kg/s]. */
const injectorFittedKgPerS: Need<number> = once((ask) => {
  const needs = ask.all({
    volume: firstOf<number>(
      (asked) => one('fuelSystem.injectorFlow')(asked) / RATED_WITH_KG_PER_M3,
      one('fuelSystem.injectorVolume'),
    ),
    rated: one('fuelSystem.injectorRatedPressure'),
    pressure: one('fuelSystem.pressure'),
    fuel: sheetFuel,
  });
  return injectorFlowKgPerS(
    {
      staticVolumeM3PerS: needs.volume,
      pressureDifferencePa: needs.rated,
      densityKgPerM3: RATED_WITH_KG_PER_M3,
    },
    needs.fuel,
    needs.pressure,
  );
});

const isInjected = (ask: Ask) =>
  ask.textOrNull('induction.kind') !== 'carburettor' &&
  ask.numberOrNull('fuelSystem.injectors') !== 0;

const ofFuel =
  (read: (fuel: Fuel) => number): Need<Said> =>
  (ask) => {
    const fuel = sheetFuel(ask);
    return {
      value: read(fuel),
      notes: [
        {
          sentence: `${fuel.name}${fuel.note === undefined ? '' : `: ${fuel.note}`}`,
          source: fuel.source,
        },
      ],
    };
  };

const INJECTOR_HOW =
  'Rated flow × √(pressure × density of this fuel ÷ (rated pressure × 684 kg/m³ of n-heptane)). Bernoulli; the opening time is left out.';

export const FUEL_SYSTEM_FIGURES: readonly FigureSpec[] = [
  {
    id: 'stoichiometric',
    section: 'fuelSystem',
    label: 'Air to fuel that burns it exactly',
    shown: 'airFuelRatio',
    how: 'From the elements of the fuel; of a blend the mean of its parts by mass. Definition of complete combustion.',
    compute: ofFuel((fuel) => fuel.stoichiometricAfr),
  },
  {
    id: 'targetAfr',
    section: 'fuelSystem',
    label: 'Air to fuel at the lambda wanted',
    shown: 'airFuelRatio',
    how: 'Lambda × the ratio that burns it exactly, of this fuel or blend. Definition.',
    compute: (ask) => {
      const needs = ask.all({ lambda: targetLambda, fuel: sheetFuel });
      return afrFromLambda(needs.lambda, needs.fuel);
    },
  },
  {
    id: 'fuelDensity',
    section: 'fuelSystem',
    label: 'Density of the fuel',
    shown: 'fuelDensity',
    how: 'At 15 to 20 °C; of a blend the mean of its parts by volume. A batch differs by a few per cent.',
    compute: ofFuel((fuel) => fuel.densityKgPerM3),
  },
  {
    id: 'fuelEnergy',
    section: 'fuelSystem',
    label: 'Lower heating value of the fuel',
    shown: 'specificEnergy',
    how: 'Of a blend the mean of its parts by mass.',
    compute: ofFuel((fuel) => fuel.lowerHeatingJPerKg),
  },
  {
    id: 'chargeCooling',
    section: 'fuelSystem',
    label: 'Charge cooled by the fuel, at the very most',
    shown: 'temperature',
    isDifference: true,
    how: 'Latent heat ÷ (lambda × air to fuel × 1005 J/(kg K)): all evaporates, all heat out of the air. Never reached. Energy balance.',
    compute: (ask) => {
      const needs = ask.all({ lambda: targetLambda, fuel: sheetFuel });
      const value = chargeCoolingUpperBoundK(needs.fuel, needs.lambda) ?? null;
      return value !== null
        ? value
        : {
            value,
            notes: [
              {
                sentence: `${needs.fuel.name} is a gas, or nobody states its latent heat.`,
                source: null,
              },
            ],
          };
    },
  },
  {
    id: 'fuelFlow',
    section: 'fuelSystem',
    label: 'Fuel at the power intended',
    shown: 'fuelFlow',
    how: 'Power × BSFC.',
    compute: withNotes(fuelFlowKgPerS),
  },
  {
    id: 'fuelPerHour',
    section: 'fuelSystem',
    label: 'Fuel at the power intended, by volume',
    shown: 'fuelVolumeFlow',
    how: 'Power × BSFC ÷ density of the fuel.',
    compute: withNotes(fuelFlowM3PerS),
  },
  {
    id: 'injectorWanted',
    section: 'fuelSystem',
    label: 'Injector to suit, each',
    shown: 'fuelFlow',
    how: `Power × BSFC ÷ (injectors × duty): ${INJECTOR_DUTY_LIMIT} unless the sheet says less. Common practice for the duty.`,
    applies: isInjected,
    compute: withNotes((ask) => {
      const needs = ask.all({
        powerW: one('intent.power'),
        bsfcKgPerJ,
        injectors: one('fuelSystem.injectors'),
        dutyShare: oneOr('fuelSystem.dutyLimit', INJECTOR_DUTY_LIMIT),
      });
      return injectorStaticFlowKgPerS(needs);
    }),
  },
  {
    id: 'injectorFitted',
    section: 'fuelSystem',
    label: 'Injector as fitted, with this fuel and pressure',
    shown: 'fuelFlow',
    how: INJECTOR_HOW,
    applies: isInjected,
    compute: injectorFittedKgPerS,
  },
  {
    id: 'pumpWanted',
    section: 'fuelSystem',
    label: 'Pump to suit, at its pressure',
    shown: 'fuelVolumeFlow',
    how: `Fuel at the power intended × ${PUMP_MARGIN_RANGE[1]}. Common practice, no source.`,
    compute: (ask) => {
      const needs = ask.all({
        flow: fuelFlowKgPerS,
        fuel: sheetFuel,
        pressure: firstOf(one('fuelSystem.pressure'), one('fuelSystem.reliefPressure')),
      });
      const need = pumpNeed({
        fuelFlowKgPerS: needs.flow,
        fuel: needs.fuel,
        pressureDifferencePa: needs.pressure,
      });
      const boost: Note = {
        sentence: 'The boost comes on top of the pressure at which the pump is to give this.',
        source: null,
      };
      return {
        value: need.volumeM3PerS,
        notes: [...bsfcNotes(ask), ...(ask.layout.aspiration === 'boosted' ? [boost] : [])],
      };
    },
  },
];

export const FUEL_SYSTEM_CHECKS: readonly CheckSpec[] = [
  {
    id: 'injectorDuty',
    section: 'fuelSystem',
    label: 'Injectors open at the power intended',
    shown: 'percent',
    decimals: 0,
    how: `Fuel wanted ÷ (injectors × flow as fitted). ${INJECTOR_HOW}`,
    window: 'injectorDuty',
    applies: isInjected,
    compute: withNotes((ask) => {
      const needs = ask.all({
        fuelFlowKgPerS,
        injectors: one('fuelSystem.injectors'),
        staticFlowKgPerS: injectorFittedKgPerS,
      });
      return injectorDutyShare(needs);
    }),
    remedy: { low: '', high: 'Larger injectors, or more pressure within what they are rated for.' },
    weight: 3,
  },
  {
    id: 'pumpMargin',
    section: 'fuelSystem',
    label: 'Pump against the fuel wanted',
    shown: 'ratio',
    decimals: 2,
    how: 'Pump flow at its pressure ÷ fuel at the power intended.',
    window: 'pumpMargin',
    compute: withNotes((ask) => {
      const needs = ask.all({ pump: one('fuelSystem.pumpFlow'), wanted: fuelFlowM3PerS });
      return needs.pump / needs.wanted;
    }),
    remedy: {
      low: 'A larger pump or a second one; look at its feed, voltage and filters first.',
      high: '',
    },
    weight: 3,
  },
];
