/** What an event says it did, where its maker gave no sentence. */
import { TABLES } from './codec.ts';
import type { Fields } from './draft.ts';
import type { EntityName, Touched } from './types.ts';

const UNIT_SUFFIX =
  /(Deg|Nm|W|Rpm|K|AbsPa|Pa|KgM2|M3|M|S|Percent|RelSd|Sd|SpeedRpm|DegPer10K|DegPerOctane)$/;

/** `peakPowerW` → `peak power`. */
function fieldWords(field: string): string {
  return field
    .replace(UNIT_SUFFIX, '')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .trim();
}

function nameOf(entity: EntityName, fields: Fields | null): string {
  if (fields === null) return '';
  if (entity === 'calibration' || entity === 'serviceEvent') return ` of ${fields.doneOn}`;
  if (entity === 'serviceReading') return ` of ${fields.readOn}`;
  const name = fields.name ?? fields.fileName ?? fields.use ?? fields.date;
  return typeof name === 'string' && name !== '' && entity !== 'mapping' ? ` ${name}` : '';
}

export function sentenceFor(touched: readonly Touched[]): string {
  // The row that was asked for stands last where others came off before it, first where others followed.
  const main = touched[0]!.after === null ? touched.at(-1)! : touched[0]!;
  const { one } = TABLES[main.entity];
  const many = touched.filter((row) => row.entity === main.entity).length;
  if (main.before === null) return `new ${one}${nameOf(main.entity, main.after)}`;
  if (main.after === null) return `removed ${one}${nameOf(main.entity, main.before)}`;
  const fields = [
    ...new Set(touched.flatMap((row) => Object.keys(row.after ?? {}).map(fieldWords))),
  ];
  const what = many > 1 ? `${many} ${one}s` : one;
  return `${what}: ${fields.join(', ')}`;
}
