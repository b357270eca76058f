import { sectionOf } from '../sections/index.ts';
import type { SectionData, Sheet } from './types.ts';

/** Always measured afresh on a new build. */
const ALWAYS: readonly string[] = ['condition'];
/** What is aimed at, not measured: it stays, whatever was changed. */
const NEVER: readonly string[] = ['intent'];

/**
 * The sheet that a new build of an engine starts from: the last one's, with what was changed to be measured again.
 * Of the changed sections (and always of the condition) every measured number, by place and in tables, every date,
 * photo and tick is cleared; what was said about them in words and choices (materials, sizes of threads, part lines)
 * stays, and so do layout, use and intent.
 * @param changed  sections whose parts are new or were worked on
 * @param name     of the new build; left out where there is none yet
 */
export function newSheetFrom(sheet: Sheet, changed: readonly string[] = [], name?: string): Sheet {
  const cleared = new Set([...ALWAYS, ...changed].filter((id) => !NEVER.includes(id)));
  const sections = Object.entries(sheet.sections).flatMap(([id, data]) => {
    const kept = cleared.has(id) ? unmeasured(id, data) : data;
    return Object.keys(kept).length === 0 ? [] : [[id, kept] as const];
  });
  const attachments = sheet.attachments?.filter((one) => !cleared.has(one.section ?? ''));
  return {
    format: sheet.format,
    ...(name === undefined ? {} : { name }),
    layout: sheet.layout,
    ...(sheet.use === undefined ? {} : { use: sheet.use }),
    sections: Object.fromEntries(sections),
    ...(attachments === undefined || attachments.length === 0 ? {} : { attachments }),
  };
}

/** A section without what was measured. */
function unmeasured(id: string, data: SectionData): SectionData {
  const spec = sectionOf(id);
  const stays = (key: string) => {
    const kind = spec?.fields.find((field) => field.id === key)?.kind;
    return (kind === 'text' || kind === 'choice') && !ALWAYS.includes(id);
  };
  const values = Object.entries(data.values ?? {}).filter(([key]) => stays(key));
  return {
    ...(values.length === 0 ? {} : { values: Object.fromEntries(values) }),
    ...(data.parts === undefined ? {} : { parts: data.parts }),
  };
}
