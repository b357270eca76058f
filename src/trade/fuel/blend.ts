import { NonPhysicalError } from '../../errors.ts';
import { notNegative, positive, within } from '../possible.ts';
import type { Composition } from './composition.ts';
import type { BlendPart, Fuel, Octane } from './types.ts';

/** A fuel and its share of the whole, 0 to 1. */
export type Share = readonly [fuel: Fuel, share: number];

/** How far shares may miss 1 for rounding's sake. */
const SUM_TOLERANCE = 1e-6;

/**
 * A mixture of any number of fuels by volume.
 *
 * Ratio, heating value, latent heat and elements follow mass, w_i = v_i ρ_i / Σ v_j ρ_j; density follows volume (the
 * volume and the heat of mixing, each about 1 %, are left out). Octane does not blend by any such rule and is given
 * only where all parts have the same.
 * @source  definitions; worked examples in the test
 * @throws NonPhysicalError  shares below 0 or that do not add to 1; a gas beside a liquid, which have no common volume
 */
export function blend(name: string, parts: readonly Share[]): Fuel {
  const volumes = sharesOf('volume', parts);
  const densities = parts.map(([fuel]) => fuel.densityKgPerM3);
  const densityKgPerM3 = sum(volumes.map((share, i) => share * densities[i]!));
  const masses = volumes.map((share, i) => (share * densities[i]!) / densityKgPerM3);
  return blended(name, 'volume', parts, volumes, masses, densityKgPerM3);
}

/** The same by mass: v_i = (w_i/ρ_i) / Σ (w_j/ρ_j). @throws NonPhysicalError  as `blend` */
export function blendByMass(name: string, parts: readonly Share[]): Fuel {
  const masses = sharesOf('mass', parts);
  const volumePerKg = sum(masses.map((share, i) => share / parts[i]![0].densityKgPerM3));
  const volumes = masses.map((share, i) => share / parts[i]![0].densityKgPerM3 / volumePerKg);
  return blended(name, 'mass', parts, volumes, masses, 1 / volumePerKg);
}

/** Shares from amounts as poured, in any one unit of volume (or of mass). @throws NonPhysicalError  nothing poured */
export function sharesFromAmounts(amounts: readonly Share[]): readonly Share[] {
  const whole = positive(
    'amount in all',
    sum(amounts.map(([, amount]) => notNegative('amount', amount, ''))),
    '',
  );
  return amounts.map(([fuel, amount]) => [fuel, amount / whole] as const);
}

/** Share by volume of a pure fuel (say nitromethane) in a fuel; 0 where none is in it. Blends of blends count. */
export function volumeShareOf(fuel: Fuel, pure: string): number {
  if (fuel.name === pure) return 1;
  return sum((fuel.parts ?? []).map((part) => part.volumeShare * volumeShareOf(part.fuel, pure)));
}

/** Share by mass of a pure fuel in a fuel, as `volumeShareOf`. */
export function massShareOf(fuel: Fuel, pure: string): number {
  if (fuel.name === pure) return 1;
  return sum((fuel.parts ?? []).map((part) => part.massShare * massShareOf(part.fuel, pure)));
}

/**
 * Share by volume of the second of two fuels in their mixture, from the mixture's density: how a hydrometer tells the
 * percentage of nitromethane in methanol. Both densities must be of the temperature the reading was taken at: 1 °C
 * moves the answer by 0.3 to 0.4 points in methanol and nitromethane.
 *
 * Formula: v = (ρ − ρ₁)/(ρ₂ − ρ₁), volumes taken to add
 * @throws NonPhysicalError  a density not between the two, or two fuels of one density
 */
export function volumeShareFromDensity(densityKgPerM3: number, first: Fuel, second: Fuel): number {
  const [a, b] = [first.densityKgPerM3, second.densityKgPerM3];
  if (a === b)
    throw new NonPhysicalError(
      `invalid pair: ${first.name} and ${second.name} are equally dense; expected two that density tells apart`,
    );
  within('density of the mixture', densityKgPerM3, 'kg/m³', [Math.min(a, b), Math.max(a, b)]);
  return (densityKgPerM3 - a) / (b - a);
}

function sharesOf(measure: 'volume' | 'mass', parts: readonly Share[]): readonly number[] {
  const shares = parts.map(([fuel, share]) => notNegative(`share of ${fuel.name}`, share, ''));
  const whole = sum(shares);
  if (!(Math.abs(whole - 1) < SUM_TOLERANCE))
    throw new NonPhysicalError(`invalid blend: ${measure} shares add to ${whole}; expected 1`, {
      found: String(whole),
      expected: '1',
    });
  if (new Set(parts.map(([fuel]) => fuel.densityOf)).size > 1)
    throw new NonPhysicalError(
      'invalid blend: a gas and a liquid have no common volume; expected parts of one state',
    );
  return shares.map((share) => share / whole);
}

function blended(
  name: string,
  measure: 'volume' | 'mass',
  given: readonly Share[],
  volumes: readonly number[],
  masses: readonly number[],
  densityKgPerM3: number,
): Fuel {
  const parts: readonly BlendPart[] = given.map(([fuel], i) => ({
    fuel,
    volumeShare: volumes[i]!,
    massShare: masses[i]!,
  }));
  const byMass = (of: (fuel: Fuel) => number) =>
    sum(parts.map(({ fuel, massShare }) => massShare * of(fuel)));
  const element = (key: keyof Composition) => byMass((fuel) => fuel.composition[key]);
  const present = parts.filter(({ massShare }) => massShare > 0).map(({ fuel }) => fuel);
  const octane = commonOctane(present);
  const shares = measure === 'volume' ? volumes : masses;
  return {
    name,
    densityKgPerM3,
    stoichiometricAfr: byMass((fuel) => fuel.stoichiometricAfr),
    lowerHeatingJPerKg: byMass((fuel) => fuel.lowerHeatingJPerKg),
    composition: {
      carbon: element('carbon'),
      hydrogen: element('hydrogen'),
      oxygen: element('oxygen'),
      nitrogen: element('nitrogen'),
    },
    densityOf: given[0]![0].densityOf,
    ...(present.every((fuel) => fuel.latentHeatJPerKg !== undefined)
      ? { latentHeatJPerKg: byMass((fuel) => fuel.latentHeatJPerKg ?? 0) }
      : {}),
    ...(octane === undefined ? {} : { octane }),
    source: `by ${measure}: ${given.map(([fuel], i) => `${Number((shares[i]! * 100).toFixed(4))} % ${fuel.name}`).join(', ')}`,
    parts,
  };
}

function commonOctane(fuels: readonly Fuel[]): Octane | undefined {
  const first = fuels[0]?.octane;
  const same = (one: Octane | undefined) =>
    one?.research === first?.research &&
    one?.motor === first?.motor &&
    one?.antiKnockIndex === first?.antiKnockIndex;
  return fuels.every(({ octane }) => same(octane)) ? first : undefined;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}
