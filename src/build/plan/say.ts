import type { DisplayKind } from '../../units/display.ts';
import { quantityText, type UnitSystem } from '../../units/index.ts';
import { fieldOf, tableOf } from '../sections/index.ts';
import type { PlanGroup, PlanItem, PlanPart } from './types.ts';

export type { PlanPart };

export const COMMON = 'common practice, no source';

type Quantity = Extract<PlanPart, { quantity: unknown }>;

/** A quantity for `say`. */
export const q = (
  value: number,
  shown: DisplayKind,
  more: { readonly decimals?: number; readonly isDifference?: true } = {},
): Quantity => ({ quantity: { value, shown, ...more } });

/** A sentence with quantities and words in it. */
export function say(
  words: TemplateStringsArray,
  ...between: readonly (Quantity | string)[]
): readonly PlanPart[] {
  const parts: PlanPart[] = [];
  const text = (more: string) => {
    const last = parts.at(-1);
    if (more === '') return;
    if (last !== undefined && 'text' in last) parts[parts.length - 1] = { text: last.text + more };
    else parts.push({ text: more });
  };
  words.forEach((word, i) => {
    text(word);
    const next = between[i];
    if (typeof next === 'string') text(next);
    else if (next !== undefined) parts.push(next);
  });
  return parts;
}

/** An item as a sentence in the units of a person. */
export function planSentence(item: Pick<PlanItem, 'parts'>, system: UnitSystem): string {
  return item.parts
    .map((part) => {
      if ('text' in part) return part.text;
      const { value, shown, decimals, isDifference } = part.quantity;
      return quantityText(value, shown, system, {
        ...(decimals === undefined ? {} : { decimals }),
        ...(isDifference ? { difference: true } : {}),
      })
        .replace(/ 1$/, '')
        .replace(/^-/, '−');
    })
    .join('');
}

/** What an item says, whatever the units: two items say the same where this is the same. */
export const contentOf = (item: Pick<PlanItem, 'parts' | 'table'>): string =>
  JSON.stringify([item.parts, item.table]);

type More = Partial<Omit<PlanItem, 'id' | 'group' | 'parts'>>;

/** Makes the items of one group: what should be done by common practice, unless said otherwise. */
export const itemsOf =
  (group: PlanGroup, usual: More = {}) =>
  (id: string, parts: readonly PlanPart[], more: More = {}): PlanItem => ({
    id,
    group,
    parts,
    source: COMMON,
    weight: 'should',
    beforeFirstStart: false,
    isSafety: false,
    measure: [],
    window: null,
    table: null,
    ...usual,
    ...more,
  });

/** Labels of paths, for "measure first". */
export const labelsOf = (paths: readonly string[]): string =>
  paths
    .map((path) => {
      const [section, id] = path.split('.') as [string, string];
      return fieldOf(path)?.label ?? tableOf(section, id)?.label ?? path;
    })
    .join(', ');
