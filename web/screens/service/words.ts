import { displayUnit } from '../../../src/units/display.ts';
import { readNumber, type UnitSystem } from '../../../src/units/index.ts';
import { fromInside, toInside } from '../../../src/units/quantity.ts';
import { dateInWords } from '../../shell/words.ts';

/** A sentence of the service with its dates as the screens say them. */
export const withDates = (sentence: string): string =>
  sentence.replace(/\d{4}-\d\d-\d\d/g, dateInWords);

type Shown = 'percent' | 'gaugePressure';

/** `4, 5, – , 6`: readings by cylinder as they are typed. */
export function textOfCylinders(
  values: readonly (number | null)[] | null,
  kind: Shown,
  system: UnitSystem,
  decimals = 3,
): string {
  const unit = displayUnit(kind, system);
  return (values ?? [])
    .map((one) => (one === null ? '–' : String(Number(fromInside(one, unit).toFixed(decimals)))))
    .join(', ');
}

/**
 * What was typed by cylinder, in inside units; a dash stands for one that was not read.
 * @throws Error with a sentence that names what is no number
 */
export function cylindersOf(
  text: string,
  kind: Shown,
  system: UnitSystem,
): (number | null)[] | null {
  const words = text.split(/[,;\s]+/u).filter((one) => one !== '');
  if (words.length === 0) return null;
  const unit = displayUnit(kind, system);
  return words.map((word) => {
    if (/^[-–?]$/.test(word)) return null;
    const value = readNumber(word.replace(/%$/, ''));
    if (value === undefined)
      throw new Error(
        `“${word}” is no reading; expected a figure for each cylinder, such as 4, 5, 4, 6.`,
      );
    return toInside(value, unit);
  });
}
