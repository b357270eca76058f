/** The letters that set the report, and which signs they have. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { spelled, steady } from '../../signs.ts';

const FONTS = [
  ['@expo-google-fonts/inter', '400Regular/Inter_400Regular.ttf'],
  ['@expo-google-fonts/inter', '600SemiBold/Inter_600SemiBold.ttf'],
  // For the letters that Inter has not.
  ['dejavu-fonts-ttf', 'ttf/DejaVuSans.ttf'],
] as const;

let fonts: Buffer[] | null = null;

/** Read once: two megabytes. */
export function fontBlobs(): Buffer[] {
  fonts ??= fontFiles().map((file) => readFileSync(file));
  return fonts;
}

/** Our own letters, as files: nothing is ever set in those of the machine. */
export function fontFiles(): string[] {
  const { resolve } = createRequire(import.meta.url);
  return FONTS.map(([name, file]) => join(resolve(`${name}/package.json`), '..', file));
}

let had: ReadonlySet<number> | null = null;

/** Signs that one of the fonts has; the heavier cut of a font has those of the lighter. */
function signsHad(): ReadonlySet<number> {
  had ??= new Set(fontBlobs().flatMap((font) => signsOf(font)));
  return had;
}

const isPlain = (text: string): boolean => /^[\n\u0020-\u007e\u00a0-\u017f]*$/.test(text);

/**
 * Text in which nothing steers and every sign can be drawn. PDF/A wants each to be: one that no font of ours has (a
 * picture, a script that nobody foresaw) stands as its number, `[U+1F525]`, so that it can still be read and searched
 * for, and with it all that is joined to it.
 */
export function printable(text: string): string {
  if (isPlain(text)) return text;
  const calm = steady(text);
  const known = signsHad();
  const isDrawn = (signs: string) => [...signs].every((sign) => known.has(sign.codePointAt(0)!));
  if (isDrawn(calm)) return calm;
  return [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(calm)]
    .map(({ segment }) => (isDrawn(segment) ? segment : [...segment].map(shown).join('')))
    .join('');
}

const shown = (sign: string): string =>
  /^[\s\u0021-\u007e\u200b]$/.test(sign) ? sign : spelled(sign);

/** Code points that a TrueType font maps to a glyph: its `cmap`, subtables of format 4 and 12 for Unicode. */
export function signsOf(font: Buffer): number[] {
  const tables = font.readUInt16BE(4);
  const at = Array.from({ length: tables }, (_, i) => 12 + 16 * i).find(
    (record) => font.toString('latin1', record, record + 4) === 'cmap',
  );
  if (at === undefined) return [];
  const cmap = font.subarray(font.readUInt32BE(at + 8));
  return Array.from({ length: cmap.readUInt16BE(2) }, (_, i) => 4 + 8 * i).flatMap((record) => {
    const [platform, encoding] = [cmap.readUInt16BE(record), cmap.readUInt16BE(record + 2)];
    const isUnicode = platform === 0 || (platform === 3 && (encoding === 1 || encoding === 10));
    const table = cmap.subarray(cmap.readUInt32BE(record + 4));
    const format = table.readUInt16BE(0);
    if (!isUnicode) return [];
    return format === 4 ? signsByRange(table) : format === 12 ? signsByGroup(table) : [];
  });
}

function signsByRange(table: Buffer): number[] {
  const signs: number[] = [];
  const segments = table.readUInt16BE(6) / 2;
  const [ends, starts] = [14, 16 + 2 * segments];
  const [deltas, offsets] = [starts + 2 * segments, starts + 4 * segments];
  for (let i = 0; i < segments; i += 1) {
    const start = table.readUInt16BE(starts + 2 * i);
    const delta = table.readUInt16BE(deltas + 2 * i);
    const offset = table.readUInt16BE(offsets + 2 * i);
    for (let sign = start; sign <= table.readUInt16BE(ends + 2 * i) && sign < 0xffff; sign += 1) {
      const place = offsets + 2 * i + offset + 2 * (sign - start);
      const glyph = offset === 0 ? sign : table.readUInt16BE(place);
      if (glyph !== 0 && ((glyph + delta) & 0xffff) !== 0) signs.push(sign);
    }
  }
  return signs;
}

function signsByGroup(table: Buffer): number[] {
  const signs: number[] = [];
  for (let i = 0; i < table.readUInt32BE(12); i += 1) {
    const group = 16 + 12 * i;
    const last = table.readUInt32BE(group + 4);
    for (let sign = table.readUInt32BE(group); sign <= last; sign += 1) signs.push(sign);
  }
  return signs;
}
