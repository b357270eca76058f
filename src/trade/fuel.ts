import { InputError } from '../errors.ts';

/** A fuel as the cell needs to know it. */
export interface Fuel {
  readonly name: string;
  /** Mass of air to mass of fuel that burns it exactly. */
  readonly stoichiometricAfr: number;
  /** At 15 to 20 °C; a batch differs by a few per cent. */
  readonly densityKgPerM3: number;
  readonly lowerHeatingJPerKg: number;
  readonly source: string;
}

const AFDC =
  'U.S. DOE Alternative Fuels Data Center, fuel property table (AFR 14.7, 9.0; 18676, 11585, 8637 Btu/lb)';
const BTU_PER_LB = 2326; // J/kg, exact (International Table)

/** Pure fuels and the usual pump gasoline. Stoichiometric ratios from the elements where the fuel is one substance. */
const gasoline: Fuel = {
  name: 'gasoline',
  stoichiometricAfr: 14.7,
  densityKgPerM3: 745,
  lowerHeatingJPerKg: 18_676 * BTU_PER_LB,
  source: AFDC,
};
const ethanol: Fuel = {
  name: 'ethanol',
  stoichiometricAfr: stoichiometricAfr({ carbon: 2, hydrogen: 6, oxygen: 1 }),
  densityKgPerM3: 789,
  lowerHeatingJPerKg: 11_585 * BTU_PER_LB,
  source: AFDC,
};
const methanol: Fuel = {
  name: 'methanol',
  stoichiometricAfr: stoichiometricAfr({ carbon: 1, hydrogen: 4, oxygen: 1 }),
  densityKgPerM3: 792,
  lowerHeatingJPerKg: 8637 * BTU_PER_LB,
  source: AFDC,
};
const nitromethane: Fuel = {
  name: 'nitromethane',
  stoichiometricAfr: stoichiometricAfr({ carbon: 1, hydrogen: 3, oxygen: 2, nitrogen: 1 }),
  densityKgPerM3: 1138,
  lowerHeatingJPerKg: 10.5e6,
  source: 'elements; heating value from heats of formation; density from memory',
};
const propane: Fuel = {
  name: 'propane',
  stoichiometricAfr: stoichiometricAfr({ carbon: 3, hydrogen: 8 }),
  densityKgPerM3: 500,
  lowerHeatingJPerKg: 46.4e6,
  source: 'elements; density (liquid, 20 °C) and heating value from memory',
};
const methane: Fuel = {
  name: 'methane',
  stoichiometricAfr: stoichiometricAfr({ carbon: 1, hydrogen: 4 }),
  densityKgPerM3: 0.668,
  lowerHeatingJPerKg: 50.0e6,
  source: 'elements; density (gas, 20 °C, 1 atm) and heating value from memory',
};

/** Every fuel that has a name here. Blends are made from the pure ones. */
const FUELS: readonly Fuel[] = [
  gasoline,
  ethanol,
  methanol,
  nitromethane,
  propane,
  methane,
  blend('E10', [
    [gasoline, 0.9],
    [ethanol, 0.1],
  ]),
  blend('E85', [
    [gasoline, 0.15],
    [ethanol, 0.85],
  ]),
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
  cng: 'methane',
  'natural gas': 'methane',
};

/** The fuel of that name, forgiving about case and spaces; undefined where nobody here knows it. */
export function findFuel(name: string): Fuel | undefined {
  const key = name.trim().toLowerCase().replace(/\s+/g, ' ');
  const wanted = Object.hasOwn(ALIASES, key) ? ALIASES[key]! : key;
  return FUELS.find((fuel) => fuel.name.toLowerCase() === wanted);
}

/** The fuel of that name. @throws InputError  naming the fuels that are known */
export function fuelNamed(name: string): Fuel {
  const fuel = findFuel(name);
  if (fuel === undefined) {
    const known = FUELS.map((one) => one.name).join(', ');
    throw new InputError(`unknown fuel: "${name}"; expected one of ${known}`, {
      found: name,
      expected: known,
    });
  }
  return fuel;
}

/** Air to fuel by mass → lambda. */
export function lambdaFromAfr(afr: number, fuel: Fuel): number {
  return afr / fuel.stoichiometricAfr;
}

/** Lambda → air to fuel by mass. */
export function afrFromLambda(lambda: number, fuel: Fuel): number {
  return lambda * fuel.stoichiometricAfr;
}

/**
 * A mixture by volume: air ratio and heating value follow mass, density follows volume (the volume of mixing, under
 * 1 %, is left out).
 * @throws InputError  shares that do not add to 1
 */
export function blend(name: string, parts: readonly (readonly [Fuel, number])[]): Fuel {
  const volume = parts.reduce((sum, [, share]) => sum + share, 0);
  if (!(Math.abs(volume - 1) < 1e-6) || parts.some(([, share]) => share < 0))
    throw new InputError(`invalid blend: volume shares add to ${volume}; expected 1`);
  const densityKgPerM3 = parts.reduce((sum, [fuel, share]) => sum + share * fuel.densityKgPerM3, 0);
  const byMass = (of: (fuel: Fuel) => number) =>
    parts.reduce(
      (sum, [fuel, share]) => sum + (share * fuel.densityKgPerM3 * of(fuel)) / densityKgPerM3,
      0,
    );
  return {
    name,
    densityKgPerM3,
    stoichiometricAfr: byMass((fuel) => fuel.stoichiometricAfr),
    lowerHeatingJPerKg: byMass((fuel) => fuel.lowerHeatingJPerKg),
    source: `by volume: ${parts.map(([fuel, share]) => `${share * 100} % ${fuel.name}`).join(', ')}`,
  };
}

/**
 * Stoichiometric air to fuel by mass of CxHyOzNw: 28.965 / 0.2095 × (x + y/4 − z/2) / M. Nitrogen leaves as N₂.
 * Dry air 28.965 g/mol with 20.95 % oxygen; atomic masses of IUPAC's abridged table.
 */
export function stoichiometricAfr(molecule: {
  readonly carbon: number;
  readonly hydrogen: number;
  readonly oxygen?: number;
  readonly nitrogen?: number;
}): number {
  const { carbon, hydrogen, oxygen = 0, nitrogen = 0 } = molecule;
  const molarMass = 12.011 * carbon + 1.008 * hydrogen + 15.999 * oxygen + 14.007 * nitrogen;
  return ((28.965 / 0.2095) * (carbon + hydrogen / 4 - oxygen / 2)) / molarMass;
}
