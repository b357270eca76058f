import { positive, possible } from '../possible.ts';

/** An ideal gas. */
export interface Gas {
  /** Ratio of specific heats, γ. */
  readonly heatRatio: number;
  readonly gasConstantJPerKgK: number;
}

/** Dry air at the temperatures of an inlet. */
export const DRY_AIR: Gas = { heatRatio: 1.4, gasConstantJPerKgK: 287.05 };

/** Burned gas in a pipe, some 700 to 1100 K: γ 1.30 to 1.35, as heavy as air within 1 %. From memory (Heywood ch. 4). */
export const EXHAUST_GAS: Gas = { heatRatio: 1.33, gasConstantJPerKgK: 287 };

/** Speed of sound [m/s]: √(γ R T). @throws NonPhysicalError  a temperature not above 0 K */
export function soundMPerS(temperatureK: number, gas: Gas = DRY_AIR): number {
  const { heatRatio, gasConstantJPerKgK } = checkedGas(gas);
  return Math.sqrt(heatRatio * gasConstantJPerKgK * positive('temperature', temperatureK, 'K'));
}

/** Density [kg/m³] of the gas: p/(R T). @throws NonPhysicalError  not above 0 */
export function gasDensityKgPerM3(
  pressureAbsPa: number,
  temperatureK: number,
  gas: Gas = DRY_AIR,
): number {
  return (
    positive('absolute pressure', pressureAbsPa, 'Pa') /
    (checkedGas(gas).gasConstantJPerKgK * positive('temperature', temperatureK, 'K'))
  );
}

export function checkedGas(gas: Gas): Gas {
  const { heatRatio } = gas;
  possible(
    'ratio of specific heats',
    heatRatio,
    '',
    heatRatio > 1 && heatRatio <= 5 / 3,
    'above 1, up to 1.67',
  );
  positive('gas constant', gas.gasConstantJPerKgK, 'J/(kg K)');
  return gas;
}
