/** Blocks set as PDF by Typst: fonts embedded, text selectable, tagged, and to PDF/A-3, so that the bundle may ride in it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import type { DrawFigure } from '../../figures.ts';
import type { Block, Paper } from './blocks.ts';
import { TEMPLATE } from './template.ts';

export interface PdfOptions {
  readonly size: 'a4' | 'letter';
  readonly draw: DrawFigure;
  /** A file that rides in the report. */
  readonly attached?: {
    readonly name: string;
    readonly description: string;
    readonly bytes: Uint8Array;
  };
}

/** Width of a picture on the page [CSS pixels]. */
const FIGURE_WIDTH = 680;
const FONTS = [
  ['@expo-google-fonts/inter', '400Regular/Inter_400Regular.ttf'],
  ['@expo-google-fonts/inter', '600SemiBold/Inter_600SemiBold.ttf'],
  // For the letters that Inter has not.
  ['dejavu-fonts-ttf', 'ttf/DejaVuSans.ttf'],
] as const;

let fonts: Buffer[] | null = null;

/** Read once: two megabytes. */
function fontBlobs(): Buffer[] {
  const { resolve } = createRequire(import.meta.url);
  fonts ??= FONTS.map(([name, file]) =>
    readFileSync(join(resolve(`${name}/package.json`), '..', file)),
  );
  return fonts;
}

/** The report as a PDF. The same paper gives the same bytes. */
export function pdfOf(paper: Paper, { size, draw, attached }: PdfOptions): Uint8Array {
  // A workspace that holds nothing: the template can read what is handed to it here, and no file.
  const workspace = join(import.meta.dirname, 'nothing-is-here');
  const compiler = NodeCompiler.create({ workspace, fontArgs: [{ fontBlobs: fontBlobs() }] });
  const put = (name: string, bytes: Uint8Array | string) =>
    compiler.mapShadow(join(workspace, name), Buffer.from(bytes));
  const blocks = paper.blocks.map((block, index) => {
    if (block.kind !== 'figure') return readable(block);
    const file = `figure-${index}.svg`;
    put(file, draw(block.figure, { width: FIGURE_WIDTH, height: block.height }));
    return {
      kind: 'figure',
      file: `/${file}`,
      caption: `${block.figure.title}. ${block.caption}`,
      alt: `${block.figure.title}. ${block.caption}`,
    };
  });
  if (attached !== undefined) put(attached.name, attached.bytes);
  const data = {
    ...paper,
    size: size === 'letter' ? 'us-letter' : 'a4',
    blocks,
    attached:
      attached === undefined ? null : { name: attached.name, description: attached.description },
  };
  put('paper.json', JSON.stringify(data));
  const pdf = compiler.pdf(
    { mainFileContent: TEMPLATE },
    {
      pdfStandard: 'a-3a' as never,
      creationTimestamp: Math.floor(Date.parse(paper.madeAt) / 1000),
    },
  );
  compiler.evictCache(0);
  return new Uint8Array(pdf);
}

/** A block with every field that the template reads, and words that can be broken where a line ends. */
function readable(block: Exclude<Block, { kind: 'figure' }>): object {
  switch (block.kind) {
    case 'heading':
      return { ...block, text: breakable(block.text) };
    case 'paragraph':
      return { ...block, text: breakable(block.text), quiet: block.quiet ?? false };
    case 'facts':
      return {
        ...block,
        rows: block.rows.map((row) => row.map(breakable)),
        beside: block.beside ?? false,
      };
    case 'table':
      return {
        ...block,
        columns: block.columns.map((column) => ({ ...column, wide: column.wide ?? false })),
        rows: block.rows.map((row) => row.map(breakable)),
        note: block.note ?? null,
      };
    case 'list':
    case 'care':
      return { ...block, items: block.items.map(breakable) };
    default:
      return block;
  }
}

/** The longest word that stands in one line whatever its column. */
const LONGEST = 22;
const ZERO_WIDTH_SPACE = '\u200b';

/** Control characters out, and places to break inside words that would run out of their column. */
export function breakable(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
      .replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g, '\ufffd')
      .replace(/\S{23,}/g, (word) => {
        const letters = [
          ...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(word),
        ].map(({ segment }) => segment);
        const parts: string[] = [];
        for (let at = 0; at < letters.length; at += LONGEST / 2)
          parts.push(letters.slice(at, at + LONGEST / 2).join(''));
        return parts.join(ZERO_WIDTH_SPACE);
      })
  );
}
