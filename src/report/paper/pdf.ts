/** Blocks set as PDF by Typst: fonts embedded, text selectable, tagged, and to PDF/A-3, so that the bundle may ride in it. */
import { join } from 'node:path';
import { StoreError } from '../../errors.ts';
import type { DrawFigure } from '../../figures.ts';
import { bound } from '../../signs.ts';
import { type Block, INDENT, type Paper } from './blocks.ts';
import { fontBlobs, printable } from './fonts.ts';
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
/** Letters of a title from which it is set smaller. */
const LONG_TITLE = 90;
/** Heights in which the picture of the first page is tried, as shares of its own: the tallest for which there is room. */
const SHARES = [1.3, 1.15, 1, 0.85, 0.7] as const;

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
        printable(
          draw(block.figure, { width: FIGURE_WIDTH, height: Math.round(share * block.height) }),
        ),
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
    isLong: paper.title.length > LONG_TITLE,
    attached:
      attached === undefined ? null : { name: attached.name, description: attached.description },
  };
  const options = {
    pdfStandard: 'a-3a' as never,
    creationTimestamp: Math.floor(Date.parse(paper.madeAt) / 1000),
  };
  const set = (told: object) => {
    const text = JSON.stringify(told, (_, value) =>
      typeof value === 'string' ? printable(value) : value,
    );
    put('paper.json', text);
    return new Uint8Array(compiler.pdf({ mainFileContent: TEMPLATE }, options));
  };
  try {
    try {
      return set(data);
    } catch (error) {
      // A mark that cannot be drawn here must not keep the report from being set.
      if (markFile !== null && /decode|parse|svg/i.test(String(error)))
        return set({ ...data, markFile: null });
      throw error;
    }
  } catch (error) {
    throw new StoreError(
      'The pages of the report could not be set; the page for the owner (HTML) says the same.',
      { found: String(error).slice(0, 400) },
      error,
    );
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
        columns: block.columns.map((column, i) => ({
          ...column,
          wide:
            column.wide ??
            block.rows.some(
              (row) => row.length > 1 && row[i]!.length > MOST_BESIDE && !isCopied(row[i]!),
            ),
        })),
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

/** Letters up to which a cell takes the width it wants; a column of longer ones shares what is left. */
const MOST_BESIDE = 40;
/** The longest word that stands in one line whatever its column. */
const LONGEST = 22;
/** Letters between two places where a longer word may be broken. */
const PIECE = 5;
const ZERO_WIDTH_SPACE = '\u200b';
/** Digests and keys are copied out of the page: nothing may stand in them, and they have room. */
const isCopied = (word: string): boolean => /^([0-9a-f]{64}|[A-Za-z0-9+/]{43}=)$/.test(word);

/** Places to break inside words that would run out of their column, none between a number and its unit. */
export function breakable(text: string): string {
  return bound(printable(text)).replace(/\S{23,}/g, (word) => {
    if (isCopied(word)) return word;
    const letters = [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(word)].map(
      ({ segment }) => segment,
    );
    if (letters.length <= LONGEST) return word;
    const parts: string[] = [];
    for (let at = 0; at < letters.length; at += PIECE)
      parts.push(letters.slice(at, at + PIECE).join(''));
    return parts.join(ZERO_WIDTH_SPACE);
  });
}
