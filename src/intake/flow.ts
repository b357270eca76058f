import type { Quantity } from '../pull/recording.ts';
import { findFuel } from '../trade/index.ts';
import { quoted } from './display.ts';
import type { Question, ReadOptions } from './types.ts';

/** Air at 15 °C and 1013.25 hPa, dry (ISO 2533), which `scfm` means; and air of a common test cell. */
const STANDARD_AIR_KG_M3 = 1.225;
const CELL_AIR_KG_M3 = 1.19;
const PUMP_GASOLINE_KG_M3 = 745;

/** Density of the fuel in the cell, and whether somebody said so. */
function fuelDensity(options: ReadOptions): { kgM3: number; isSaid: boolean } {
  if (options.fuelDensityKgM3 !== undefined) return { kgM3: options.fuelDensityKgM3, isSaid: true };
  const fuel = options.fuel === undefined ? undefined : findFuel(options.fuel);
  return fuel === undefined
    ? { kgM3: PUMP_GASOLINE_KG_M3, isSaid: false }
    : { kgM3: fuel.densityKgPerM3, isSaid: true };
}

/** A flow by volume [m³/s] into one by mass [kg/s], in place, with a word on the density taken. */
export function toMassFlow(
  header: string,
  quantity: Quantity,
  values: Float64Array,
  options: ReadOptions,
  warnings: string[],
  questions: Question[],
): void {
  let density: number;
  if (quantity === 'fuelFlow') {
    const fuel = fuelDensity(options);
    density = fuel.kgM3;
    if (!fuel.isSaid) {
      warnings.push(
        `${quoted(header)} is a volume of fuel whose density nobody stated: taken as gasoline of ${density / 1000} kg/L.`,
      );
      if (!questions.some((question) => question.key === 'fuel')) questions.push(fuelQuestion());
    }
  } else {
    density = /\bscfm\b/i.test(header) ? STANDARD_AIR_KG_M3 : CELL_AIR_KG_M3;
    warnings.push(
      `${quoted(header)} is a volume of air: taken at ${density} kg/m³${density === STANDARD_AIR_KG_M3 ? ', standard air' : ', as the file does not say at which density it was measured'}.`,
    );
  }
  for (let row = 0; row < values.length; row++) values[row] = values[row]! * density;
}

/** Which fuel ran, where an AFR or a volume of fuel needs it. */
export function fuelQuestion(): Question {
  return {
    key: 'fuel',
    header: null,
    sentence: 'Which fuel ran? AFR and volumes of fuel mean different things for each.',
    meanwhile: 'gasoline with a stoichiometric ratio of 14.7 and 0.745 kg/L',
    choices: ['gasoline', 'E10', 'E85', 'ethanol', 'methanol'].map((fuel) => ({
      label: fuel,
      answer: { fuel },
    })),
  };
}
