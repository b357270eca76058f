import { FormatError } from '../../errors.ts';
import { SECTIONS, type SectionSpec, sectionOf } from '../sections/index.ts';
import { readEntry } from './entry.ts';
import { countOf } from './layout.ts';
import { nearest } from './near.ts';
import { readLayout } from './readLayout.ts';
import { readTable } from './readTable.ts';
import { isPlain, oneOf, orNear, type Problems, pathTo, textOf, unknownKeys } from './shape.ts';
import type { Attachment, PartLine, SectionData, Sheet } from './types.ts';

const SHEET_KEYS = ['format', 'name', 'layout', 'use', 'sections', 'attachments'];
const SECTION_KEYS = ['values', 'tables', 'parts', 'notes'];
const SECTION_IDS = SECTIONS.map((section) => section.id);
const SECTION_TITLES = SECTIONS.map((section) => [section.id, section.title] as const);
/** Of a file with this many slips the rest would only bury the first. */
const MOST_PROBLEMS = 50;

/** Parts of a section, files of a sheet: more are no list that somebody wrote. */
const MOST_ITEMS = 1000;

/** One thing wrong with a sheet: where, by its path, and what to do about it. */
export interface FieldProblem {
  /** `sections.block.values.boreNominal`, or `sections.heads.tables.flow.rows[3].lift`. */
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

/**
 * A sheet from parsed JSON, written by hand or by `writeSheet`. Numbers keep the unit that they were typed in.
 * A quantity may be written short: `"4.030 in"` or `"4.030 ± 0.0002 in"`.
 * @returns the sheet, or everything that is wrong with it (50 at most)
 */
export function readSheet(
  value: unknown,
): { readonly sheet: Sheet } | { readonly problems: readonly FieldProblem[] } {
  const found: FieldProblem[] = [];
  const problems: Problems = {
    add: (path, what, expected) => {
      if (found.length < MOST_PROBLEMS) found.push({ path, found: textOf(what), expected });
    },
  };
  const sheet = wholeSheet(value, problems);
  return found.length > 0 || sheet === null ? { problems: found } : { sheet };
}

/** `sections.crank.values.stroke: found 88.4; expected a text of number and unit, ...`. */
export const problemSentence = ({ path, found, expected }: FieldProblem): string =>
  `${path}: found ${found}; expected ${expected}`;

/**
 * As `readSheet`, for callers that want one error.
 * @throws FormatError  naming the first field that is wrong and how many more there are; `place.also` has those
 */
export function parseSheet(value: unknown, file?: string): Sheet {
  const read = readSheet(value);
  if ('sheet' in read) return read.sheet;
  const [first, ...others] = read.problems;
  const more = others.length === 0 ? '' : ` (and ${others.length} more)`;
  throw new FormatError(`${problemSentence(first!)}${more}`, {
    ...(file === undefined ? {} : { file }),
    found: first!.found,
    expected: first!.expected,
    ...(others.length === 0 ? {} : { also: others.map(problemSentence) }),
  });
}

function wholeSheet(value: unknown, problems: Problems): Sheet | null {
  if (!isPlain(value)) {
    problems.add('sheet', value, 'an object with "format": "sheet/1"');
    return null;
  }
  if (value.format !== 'sheet/1') {
    problems.add('format', value.format, '"sheet/1"');
    return null;
  }
  unknownKeys(value, SHEET_KEYS, '', problems);
  const layout = readLayout(value.layout, problems);
  if (layout === null) return null;
  const sections: Record<string, SectionData> = {};
  const isSection = (id: string) => sectionOf(id) !== undefined;
  for (const [id, data] of entriesOf(value.sections, 'sections', problems, isSection)) {
    const path = pathTo('sections', id);
    if (isSection(id)) {
      const section = oneSection(id, data, path, layout, problems);
      if (section !== null) sections[id] = section;
    } else problems.add(path, id, orNear('a section', id, SECTION_IDS, SECTION_TITLES));
  }
  const name = optionalText(value.name, 'name', problems);
  const use = optionalText(value.use, 'use', problems);
  const attachments = readList(value.attachments, 'attachments', problems, readAttachment);
  return {
    format: 'sheet/1',
    ...(name === undefined ? {} : { name }),
    layout,
    ...(use === undefined ? {} : { use }),
    sections,
    ...(attachments === undefined ? {} : { attachments }),
  };
}

function oneSection(
  id: string,
  value: unknown,
  path: string,
  layout: Sheet['layout'],
  problems: Problems,
): SectionData | null {
  if (!isPlain(value)) {
    problems.add(path, value, `an object with ${oneOf(SECTION_KEYS)}`);
    return null;
  }
  const spec = sectionOf(id)!;
  const misplaced = spec.fields.map((field) => field.id).filter((key) => Object.hasOwn(value, key));
  for (const key of misplaced)
    problems.add(`${path}.${key}`, value[key], `it in "values": ${path}.values.${key}`);
  unknownKeys(value, [...SECTION_KEYS, ...misplaced], path, problems);
  const isField = (key: string) => spec.fields.some((field) => field.id === key);
  const isTable = (key: string) => spec.tables?.some((table) => table.id === key) ?? false;
  const values: Record<string, NonNullable<ReturnType<typeof readEntry>>> = {};
  for (const [key, given] of entriesOf(value.values, `${path}.values`, problems, isField)) {
    if (given === null) continue; // not measured: the same as not written
    const at = pathTo(`${path}.values`, key);
    const field = spec.fields.find((one) => one.id === key);
    if (field === undefined) problems.add(at, key, expectedField(spec, key));
    else {
      const count = field.per === undefined ? null : countOf(field.per, layout);
      const entry = readEntry(field, given, at, count, problems);
      if (entry !== null) values[key] = entry;
    }
  }
  const tables: Record<string, NonNullable<ReturnType<typeof readTable>>> = {};
  for (const [key, given] of entriesOf(value.tables, `${path}.tables`, problems, isTable)) {
    const at = pathTo(`${path}.tables`, key);
    const table = spec.tables?.find((one) => one.id === key);
    if (table === undefined)
      problems.add(
        at,
        key,
        orNear('a table of this section', key, spec.tables?.map((one) => one.id) ?? []),
      );
    else {
      const read = readTable(table, given, at, problems);
      if (read !== null) tables[key] = read;
    }
  }
  const parts = readList(value.parts, `${path}.parts`, problems, readPart);
  const notes = optionalText(value.notes, `${path}.notes`, problems);
  return {
    ...(Object.keys(values).length === 0 ? {} : { values }),
    ...(Object.keys(tables).length === 0 ? {} : { tables }),
    ...(parts === undefined ? {} : { parts }),
    ...(notes === undefined ? {} : { notes }),
  };
}

/** The field that was meant, of this section or another; else all that there are. */
function expectedField(spec: SectionSpec, key: string): string {
  const elsewhere = SECTIONS.find(
    (other) => other !== spec && other.fields.some((field) => field.id === key),
  );
  const here = nearest(
    key,
    spec.fields.map((field) => field.id),
    spec.fields.map((field) => [field.id, field.label] as const),
  );
  if (here !== null) return `a field of this section; perhaps "${here}" is meant`;
  if (elsewhere !== undefined)
    return `a field of this section; this one stands in "${elsewhere.id}"`;
  return `a field of this section: ${oneOf(spec.fields.map((field) => field.id))}`;
}

function entriesOf(
  value: unknown,
  path: string,
  problems: Problems,
  isKnown: (key: string) => boolean,
): [string, unknown][] {
  if (value === undefined) return [];
  if (isPlain(value)) {
    const known = Object.keys(value).filter((key) => isKnown(key));
    // Of unknown keys as many as are shown: looking for what was meant takes time.
    const unknown = Object.keys(value).filter((key) => !isKnown(key));
    return [...known, ...unknown.slice(0, MOST_PROBLEMS)].map((key) => [key, value[key]]);
  }
  problems.add(path, value, 'an object with a key for each');
  return [];
}

function optionalText(value: unknown, path: string, problems: Problems): string | undefined {
  if (value === undefined || typeof value === 'string') return value;
  problems.add(path, value, 'a text');
  return undefined;
}

function readList<T>(
  value: unknown,
  path: string,
  problems: Problems,
  one: (value: unknown, path: string, problems: Problems) => T | null,
): T[] | undefined {
  if (value === undefined) return undefined;
  if (!Array.isArray(value)) {
    problems.add(path, value, 'a list');
    return undefined;
  }
  if (value.length > MOST_ITEMS)
    problems.add(path, `a list of ${value.length}`, `at most ${MOST_ITEMS} of them`);
  return value
    .slice(0, MOST_ITEMS)
    .map((item, i) => one(item, `${path}[${i}]`, problems))
    .filter((item): item is NonNullable<typeof item> => item !== null);
}

function texts(
  value: unknown,
  path: string,
  problems: Problems,
  required: readonly string[],
  optional: readonly string[],
): Record<string, string> | null {
  if (!isPlain(value)) {
    problems.add(path, value, `an object with ${required.join(', ')}`);
    return null;
  }
  unknownKeys(value, [...required, ...optional], path, problems);
  const out: Record<string, string> = {};
  for (const key of [...required, ...optional]) {
    const given = value[key];
    if (typeof given === 'string' && (given !== '' || optional.includes(key))) out[key] = given;
    else if (given !== undefined || required.includes(key))
      problems.add(`${path}.${key}`, given, 'a text');
  }
  return required.every((key) => key in out) ? out : null;
}

const readPart = (value: unknown, path: string, problems: Problems) =>
  texts(value, path, problems, ['name'], ['serial', 'note']) as PartLine | null;

function readAttachment(value: unknown, path: string, problems: Problems): Attachment | null {
  const read = texts(value, path, problems, ['sha256', 'fileName'], ['section', 'note']);
  if (read !== null && !/^[0-9a-f]{64}$/.test(read.sha256!)) {
    problems.add(`${path}.sha256`, read.sha256, '64 hexadecimal digits');
    return null;
  }
  return read as Attachment | null;
}
