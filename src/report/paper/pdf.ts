/** Blocks set as PDF by Typst: fonts embedded, text selectable, tagged, and to PDF/A-3, so that the bundle may ride in it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { StoreError } from '../../errors.ts';
import type { DrawFigure } from '../../figures.ts';
import { type Block, INDENT, type Paper } from './blocks.ts';
import { spelled, steady } from './signs.ts';
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
/** Heights in which the picture of the first page is tried, as shares of its own: the tallest for which there is room. */
const SHARES = [1.3, 1.15, 1, 0.85, 0.7] as const;
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

/** Loaded when a report is set, and not before: it is thirty megabytes of machine code. */
async function typesetter() {
  try {
    return await import('@myriaddreamin/typst-ts-node-compiler');
  } catch (error) {
    throw new StoreError(
      'The part that sets PDF pages does not load on this machine; the page for the owner (HTML) says the same.',
      {},
      error,
    );
  }
}

/** The report as a PDF. The same paper gives the same bytes. */
export async function pdfOf(
  paper: Paper,
  { size, draw, attached }: PdfOptions,
): Promise<Uint8Array> {
  const { NodeCompiler } = await typesetter();
  // A workspace that holds nothing: the template can read what is handed to it here, and no file.
  const workspace = join(import.meta.dirname, 'nothing-is-here');
  const compiler = NodeCompiler.create({ workspace, fontArgs: [{ fontBlobs: fontBlobs() }] });
  const put = (name: string, bytes: Uint8Array | string) =>
    compiler.mapShadow(join(workspace, name), Buffer.from(bytes));
  const first = paper.blocks.findIndex(({ kind }) => kind === 'newPage');
  const blocks = paper.blocks.map((block, index) => {
    if (block.kind !== 'figure') return readable(block);
    const shares = index < first ? SHARES : [1];
    const files = shares.map((share) => `figure-${index}-${100 * share}.svg`);
    for (const [at, share] of shares.entries())
      put(
        files[at]!,
        draw(block.figure, { width: FIGURE_WIDTH, height: Math.round(share * block.height) }),
      );
    return {
      kind: 'figure',
      files: files.map((file) => `/${file}`),
      caption: `${block.figure.title}. ${block.caption}`,
      alt: `${block.figure.title}. ${block.caption}`,
    };
  });
  if (attached !== undefined) put(attached.name, attached.bytes);
  const { mark, ...words } = paper;
  const markFile = mark === null ? null : markIn(mark);
  if (markFile !== null) put(markFile.name, markFile.bytes);
  const data = {
    ...words,
    markFile: markFile === null ? null : `/${markFile.name}`,
    size: size === 'letter' ? 'us-letter' : 'a4',
    first: blocks.slice(0, Math.max(first, 0)),
    blocks: blocks.slice(Math.max(first, 0)),
    heights: SHARES.length,
    attached:
      attached === undefined ? null : { name: attached.name, description: attached.description },
  };
  const options = {
    pdfStandard: 'a-3a' as never,
    creationTimestamp: Math.floor(Date.parse(paper.madeAt) / 1000),
  };
  let text = JSON.stringify(data);
  try {
    for (let tries = 1; ; tries += 1) {
      put('paper.json', text);
      try {
        return new Uint8Array(compiler.pdf({ mainFileContent: TEMPLATE }, options));
      } catch (error) {
        // A mark that cannot be drawn here must not keep the report from being set.
        if (markFile !== null && tries === 1 && /decode|parse|svg/i.test(String(error))) {
          text = JSON.stringify({ ...data, markFile: null });
          continue;
        }
        const spelled = spelledOut(text, error);
        if (spelled === null || tries === MOST_TRIES) throw notSet(error);
        text = spelled;
      }
    }
  } finally {
    compiler.evictCache(0);
  }
}

function markIn(dataUrl: string): { readonly name: string; readonly bytes: Buffer } {
  const [kind, base64] = dataUrl.split(',') as [string, string];
  return {
    name: kind.includes('svg') ? 'mark.svg' : 'mark.png',
    bytes: Buffer.from(base64, 'base64'),
  };
}

/** Each try spells out every sign that the one before could not draw. */
const MOST_TRIES = 4;

/**
 * PDF/A wants every sign to be drawn. One that no font of ours has (a picture, a script that nobody foresaw) stands as its
 * number, `[U+1F525]`, so that it can still be read and searched for. Null where that was not the trouble.
 */
function spelledOut(text: string, error: unknown): string | null {
  const missing = [...String(error).matchAll(/the text `\\?"(.+?)\\?"` could not be displayed/g)];
  if (missing.length === 0) return null;
  const signs = new Set(missing.flatMap(([, signs]) => [...signs!]));
  return [...text].map((sign) => (signs.has(sign) ? spelled(sign) : sign)).join('');
}

const notSet = (error: unknown) =>
  new StoreError(
    'The pages of the report could not be set; the page for the owner (HTML) says the same.',
    { found: String(error).slice(0, 400) },
    error,
  );

/** A block with every field that the template reads, and words that can be broken where a line ends. */
function readable(block: Exclude<Block, { kind: 'figure' }>): object {
  switch (block.kind) {
    case 'heading':
      return {
        ...block,
        text: breakable(block.text),
        over: block.over ?? null,
        contents: block.contents ?? false,
      };
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
        rows: undefined,
        parts: partsOf(block).map((part) =>
          part.map((rows) => rows.map((row) => row.map(breakable))),
        ),
        note: block.note ?? null,
        sources:
          block.sources === undefined || block.sources.items.length === 0
            ? null
            : { title: block.sources.title, items: block.sources.items.map(breakable) },
      };
    case 'headline':
      return block;
    case 'ticks':
      return {
        ...block,
        items: block.items.map((item) => ({
          ...item,
          text: breakable(item.text),
          by: breakable(item.by),
        })),
      };
    case 'list':
    case 'care':
      return { ...block, items: block.items.map(breakable) };
    default:
      return block;
  }
}

type Rows = Extract<Block, { kind: 'table' }>['rows'];

/** Fewer rows than this stand in one column all the same. */
const LEAST_HALVED = 10;
/** Rows beside each other in one piece; the next piece stands below it, so that the order of reading is plain. */
const MOST_HALVED = 44;

/** The rows of a table in pieces below each other, each of one part or of two that stand side by side. */
function partsOf({
  rows,
  halves,
}: Extract<Block, { kind: 'table' }>): readonly (readonly Rows[])[] {
  if (halves !== true || rows.length < LEAST_HALVED) return [[rows]];
  const parts: Rows[][] = [];
  for (let from = 0; from < rows.length; ) {
    const to = cut(rows, from + MOST_HALVED);
    const half = cut(rows, from + Math.ceil((to - from) / 2));
    parts.push([named(rows, from, half), ...(half < to ? [named(rows, half, to)] : [])]);
    from = to;
  }
  return parts;
}

/** Where to cut: never right behind a row that names what follows. */
const cut = (rows: Rows, at: number): number =>
  at >= rows.length ? rows.length : rows[at - 1]!.length === 1 ? at - 1 : at;

/** Some of the rows; where they begin amid a group, its name stands above them again. */
function named(rows: Rows, from: number, to: number): Rows {
  const some = rows.slice(from, to);
  if (!rows[from]![0]!.startsWith(INDENT)) return some;
  const name = rows.slice(0, from).findLast((row) => row.length === 1);
  return name === undefined ? some : [name, ...some];
}

/** The longest word that stands in one line whatever its column. */
const LONGEST = 22;
const ZERO_WIDTH_SPACE = '\u200b';

/** Nothing that steers, and places to break inside words that would run out of their column. */
export function breakable(text: string): string {
  return steady(text).replace(/\S{23,}/g, (word) => {
    const letters = [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(word)].map(
      ({ segment }) => segment,
    );
    const parts: string[] = [];
    for (let at = 0; at < letters.length; at += LONGEST / 2)
      parts.push(letters.slice(at, at + LONGEST / 2).join(''));
    return parts.join(ZERO_WIDTH_SPACE);
  });
}
