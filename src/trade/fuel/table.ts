import { InputError } from '../../errors.ts';
import { blend } from './blend.ts';
import {
  type Composition,
  compositionOf,
  type Molecule,
  stoichiometricAfrOf,
} from './composition.ts';
import type { Fuel } from './types.ts';

const BTU_PER_LB = 2326; // J/kg, exact (International Table)
const AFDC =
  'U.S. DOE Alternative Fuels Data Center, Properties of Fuels (printed in Btu/lb and weight %, 60 °F)';
const MEMORY_25C =
  'heat of vaporisation at 25 °C and density at 20 °C from memory (CRC Handbook, NIST WebBook)';

type Given = Omit<Fuel, 'stoichiometricAfr' | 'composition'> & {
  readonly of: Molecule | Composition;
};

/** Every ratio is computed from the elements, never typed; the tests hold it against the printed ones. */
function fuel({ of, ...given }: Given): Fuel {
  // A molecule counts atoms, so its carbon is 1 or more; shares stay below 1.
  const composition = of.carbon >= 1 ? compositionOf(of) : (of as Composition);
  return { ...given, composition, stoichiometricAfr: stoichiometricAfrOf(composition) };
}

/**
 * Pump gasoline without oxygenates. 86 % carbon and 14 % hydrogen lie inside the printed 85–88 and 12–15 % and give
 * the printed ratio of 14.7, which meters that show AFR assume. Aromatic batches stand nearer 14.4.
 */
const PUMP = {
  of: { carbon: 0.86, hydrogen: 0.14, oxygen: 0, nitrogen: 0 },
  densityKgPerM3: 745,
  lowerHeatingJPerKg: 18_676 * BTU_PER_LB,
  latentHeatJPerKg: 150 * BTU_PER_LB,
  densityOf: 'liquid',
} as const;

const gasoline = fuel({
  ...PUMP,
  name: 'gasoline',
  source: `${AFDC}; density between its 0.72 and 0.78`,
});

/** Grades sold: one composition, and the least octane that the name promises. */
const GRADES: readonly Fuel[] = (
  [
    ['petrol 95', { research: 95, motor: 85 }, 'EN 228 (from memory): at least 95 RON, 85 MON'],
    ['petrol 98', { research: 98, motor: 88 }, 'common practice (98 RON, 88 MON), no source'],
    ['gasoline 87', { antiKnockIndex: 87 }, 'the posted (R+M)/2'],
    ['gasoline 91', { antiKnockIndex: 91 }, 'the posted (R+M)/2'],
    ['gasoline 93', { antiKnockIndex: 93 }, 'the posted (R+M)/2'],
  ] as const
).map(([name, octane, source]) =>
  fuel({
    ...PUMP,
    name,
    octane,
    source: `as gasoline; octane: ${source}`,
    note: 'What is sold by this name often holds 5 to 10 % ethanol: then blend it in.',
  }),
);

const ethanol = fuel({
  name: 'ethanol',
  of: { carbon: 2, hydrogen: 6, oxygen: 1 },
  densityKgPerM3: 789,
  lowerHeatingJPerKg: 11_585 * BTU_PER_LB,
  latentHeatJPerKg: 396 * BTU_PER_LB,
  densityOf: 'liquid',
  octane: { research: 108, motor: 92 },
  source: AFDC,
  note: 'Octane of neat alcohols hangs on the method: 107 to 111 RON are printed.',
});
const methanol = fuel({
  name: 'methanol',
  of: { carbon: 1, hydrogen: 4, oxygen: 1 },
  densityKgPerM3: 792,
  lowerHeatingJPerKg: 8637 * BTU_PER_LB,
  latentHeatJPerKg: 506 * BTU_PER_LB,
  densityOf: 'liquid',
  octane: { research: 107, motor: 92 },
  source: AFDC,
  note: 'Octane of neat alcohols hangs on the method: 106 to 114 RON are printed.',
});

/** Every fuel that has a name here; the tests compute the heating values anew from heats of formation. */
export const FUELS: readonly Fuel[] = [
  gasoline,
  ethanol,
  methanol,
  fuel({
    name: 'nitromethane',
    of: { carbon: 1, hydrogen: 3, oxygen: 2, nitrogen: 1 },
    densityKgPerM3: 1138,
    lowerHeatingJPerKg: 10.54e6,
    latentHeatJPerKg: 623e3,
    densityOf: 'liquid',
    source:
      'density Lee & Tu 1999 (1137.54 kg/m³ at 20 °C), quoted by Montgomery; heating value from heats of formation; latent heat from 38 kJ/mol (from memory)',
    note: 'No octane number means anything for it: it knocks, and burns without air.',
  }),
  fuel({
    name: 'propane',
    of: { carbon: 3, hydrogen: 8 },
    densityKgPerM3: 500,
    lowerHeatingJPerKg: 19_900 * BTU_PER_LB,
    latentHeatJPerKg: 193.1 * BTU_PER_LB,
    densityOf: 'liquid',
    octane: { research: 112, motor: 97 },
    source: `${AFDC}; density of the liquid at 20 °C from memory`,
    note: 'Its latent heat cools the charge only where it is injected as a liquid.',
  }),
  fuel({
    name: 'methane',
    of: { carbon: 1, hydrogen: 4 },
    densityKgPerM3: 0.668,
    lowerHeatingJPerKg: 50.0e6,
    densityOf: 'gas',
    source: 'elements; density (gas, 20 °C, 1 atm) and heating value from memory',
  }),
  fuel({
    name: 'natural gas',
    of: { carbon: 0.75, hydrogen: 0.25, oxygen: 0, nitrogen: 0 },
    densityKgPerM3: 0.72,
    lowerHeatingJPerKg: 20_263 * BTU_PER_LB,
    densityOf: 'gas',
    octane: { antiKnockIndex: 120 },
    source: `${AFDC}, compressed natural gas; density (gas, 20 °C, 1 atm) from memory`,
    note: 'Methane 83 to 99 %: composition and heating value change with the supply.',
  }),
  fuel({
    name: 'MTBE',
    of: { carbon: 5, hydrogen: 12, oxygen: 1 },
    densityKgPerM3: 743,
    lowerHeatingJPerKg: 15_091 * BTU_PER_LB,
    latentHeatJPerKg: 138 * BTU_PER_LB,
    densityOf: 'liquid',
    octane: { research: 116, motor: 101 },
    source: AFDC,
  }),
  fuel({
    name: 'isooctane',
    of: { carbon: 8, hydrogen: 18 },
    densityKgPerM3: 692,
    lowerHeatingJPerKg: 44.34e6,
    latentHeatJPerKg: 307e3,
    densityOf: 'liquid',
    octane: { research: 100, motor: 100 },
    source: `octane by definition; heating value from heats of formation; ${MEMORY_25C}`,
  }),
  fuel({
    name: 'n-heptane',
    of: { carbon: 7, hydrogen: 16 },
    densityKgPerM3: 684,
    lowerHeatingJPerKg: 44.56e6,
    latentHeatJPerKg: 365e3,
    densityOf: 'liquid',
    octane: { research: 0, motor: 0 },
    source: `octane by definition; heating value from heats of formation; ${MEMORY_25C}`,
  }),
  fuel({
    name: 'toluene',
    of: { carbon: 7, hydrogen: 8 },
    densityKgPerM3: 867,
    lowerHeatingJPerKg: 40.52e6,
    latentHeatJPerKg: 412e3,
    densityOf: 'liquid',
    source: `heating value from heats of formation; ${MEMORY_25C}`,
  }),
  ...GRADES,
  blend('E10', [
    [gasoline, 0.9],
    [ethanol, 0.1],
  ]),
  {
    ...blend('E85', [
      [gasoline, 0.15],
      [ethanol, 0.85],
    ]),
    note: 'Nominal. At the pump it holds 51 to 83 % ethanol by season (ASTM D5798, from memory): test what was bought.',
  },
];

const ALIASES: Readonly<Record<string, string>> = {
  petrol: 'gasoline',
  'pump gasoline': 'gasoline',
  'pump gas': 'gasoline',
  'pump fuel': 'gasoline',
  'race gasoline': 'gasoline',
  'racing gasoline': 'gasoline',
  benzin: 'gasoline',
  alcohol: 'methanol',
  e100: 'ethanol',
  m100: 'methanol',
  nitro: 'nitromethane',
  lpg: 'propane',
  cng: 'natural gas',
  heptane: 'n-heptane',
  '87 octane': 'gasoline 87',
  '91 octane': 'gasoline 91',
  '93 octane': 'gasoline 93',
  '95 ron': 'petrol 95',
  '98 ron': 'petrol 98',
};

/** The fuel of that name, forgiving about case and spaces; undefined where nobody here knows it. */
export function findFuel(name: string): Fuel | undefined {
  const key = name.trim().toLowerCase().replace(/\s+/g, ' ');
  const wanted = Object.hasOwn(ALIASES, key) ? ALIASES[key]! : key;
  return FUELS.find((one) => one.name.toLowerCase() === wanted.toLowerCase());
}

/** The fuel of that name. @throws InputError  naming the fuels that are known */
export function fuelNamed(name: string): Fuel {
  const found = findFuel(name);
  if (found === undefined) {
    const known = FUELS.map((one) => one.name).join(', ');
    throw new InputError(`unknown fuel: "${name}"; expected one of ${known}`, {
      found: name,
      expected: known,
    });
  }
  return found;
}
