/** What became of leak-down and cranking pressure, in sentences. */
import { quantityText, type UnitSystem } from '../../units/index.ts';
import type { Wear, WearChange, WearMeasure } from './wear.ts';

const NAMES: Readonly<Record<WearMeasure, string>> = {
  leakDown: 'leak-down',
  crankingPressure: 'cranking pressure',
};

/** A difference of leak-down stands in points, since 5 % more of 8 % would be read as 8.4 %. */
function wearText(value: number, measure: WearMeasure, units: UnitSystem): string {
  return measure === 'leakDown'
    ? `${(100 * value).toFixed(1)} points`
    : quantityText(value, 'gaugePressure', units, {
        decimals: units === 'us' ? 0 : 2,
        difference: true,
      });
}

export function wearSentences(wear: Wear, measure: WearMeasure, units: UnitSystem): string[] {
  const name = NAMES[measure];
  const { word, moved, together, fromDate, toDate, dates, cylinders } = wear;
  if (word === 'not known yet' || together === null)
    return [
      `Whether ${name} moved is not known yet: readings of every cylinder on three dates would begin to tell; there ${dates === 1 ? 'is 1' : `are ${dates === 0 ? 'none' : dates}`}.`,
    ];
  const stretch = `from ${fromDate} to ${toDate}`;
  const told = moved.map(({ cylinder, against }) => {
    const { by, between } = inWords(against, measure, units);
    return `Against the other cylinders, cylinder ${cylinder} ${against.value > 0 ? 'rose' : 'fell'} by ${by} (${between}) ${stretch}.`;
  });
  const rest = moved.length > 0 ? 'the others together' : cylinders < 2 ? 'it' : 'all together';
  if (together.moved) {
    const { by, between } = inWords(together, measure, units);
    return [
      ...told,
      `${rest[0]!.toUpperCase()}${rest.slice(1)} ${together.value > 0 ? 'rose' : 'fell'} by ${by} (${between}) ${stretch}. Another gauge, a colder engine or a slower starter moves ${cylinders < 2 ? 'it' : 'them'} as well.`,
    ];
  }
  const ends = [together.low, together.high].map(
    (value) => `${value < 0 ? '−' : '+'}${wearText(Math.abs(value), measure, units)}`,
  );
  return [
    ...told,
    `Over ${dates} dates a change of ${moved.length > 0 ? `${rest}` : name} cannot be told from chance${cylinders < 2 || moved.length > 0 ? '' : ', nor one cylinder from the others'}: ${ends[0]} to ${ends[1]}.`,
  ];
}

function inWords({ value, low, high }: WearChange, measure: WearMeasure, units: UnitSystem) {
  const text = (size: number) => wearText(Math.abs(size), measure, units);
  const ends = [low, high].sort((a, b) => Math.abs(a) - Math.abs(b));
  // The unit is said once.
  const bare = text(ends[0]!).replace(/\s*\D+$/, '');
  return { by: text(value), between: `${bare} to ${text(ends[1]!)}` };
}
