import { UNITS } from './table.ts';
import type { Dimension, Unit } from './types.ts';

/** UTF-8 read as Latin-1 or Windows-1252, as loggers and spreadsheets leave it behind. */
const MOJIBAKE: readonly (readonly [RegExp, string])[] = [
  [/Â(?=[°·²³µ¹"])/g, ''],
  [/Î»/g, 'λ'],
  [/â‹…|â€¢/g, '·'],
  [/â€³|â€/g, '"'],
  [/âˆ’|â»/g, '-'],
  [/Ã—/g, '×'],
];

/** One spelling for all that only differs in case, space, dot, dash, multiplication sign or superscript. */
export function unitKey(text: string): string {
  let key = text.trim();
  for (const [wrong, right] of MOJIBAKE) key = key.replace(wrong, right);
  key = key
    .replace(/[º˚∘]/g, '°')
    .replace(/[″“”]|''/g, '"')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/\uFFFD/g, '')
    .replace(/"/g, 'in')
    .replace(/°/g, 'deg')
    .replace(/\bper\b/g, '/')
    .replace(/\bsquared?\b/g, '2')
    .replace(/[\s·⋅•∙*×._^'()[\]{}−–—‐‑-]/g, '');
  return key;
}

const byKey = new Map<string, Unit[]>();
for (const row of UNITS) {
  const { spellings, ...unit } = row;
  for (const spelling of [row.symbol, ...spellings]) {
    const key = unitKey(spelling);
    const known = byKey.get(key) ?? [];
    if (!known.some((other) => other.symbol === unit.symbol && other.dimension === unit.dimension))
      known.push(unit);
    byKey.set(key, known);
  }
}
const PLAIN_RATIO = UNITS.find((row) => row.symbol === '1') as Unit;

/** All units that a spelling can mean; more than one only where dimensions differ. */
export function unitsSpelled(text: string): readonly Unit[] {
  const bare = text.trim().replace(/^[[({]\s*|\s*[\])}]$/g, '');
  if (/^[-–—−]$/.test(bare)) return [PLAIN_RATIO];
  const key = unitKey(text);
  return key === '' ? [] : (byKey.get(key) ?? []);
}

/**
 * The unit that a text spells, however it is spelled (`lb-ft`, `ft·lbf`, `FT.LBS`), or undefined.
 * @param expected  only a unit of this dimension will do
 */
export function findUnit(text: string, expected?: Dimension): Unit | undefined {
  const units = unitsSpelled(text);
  return expected === undefined ? units[0] : units.find((unit) => unit.dimension === expected);
}
