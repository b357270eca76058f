/**
 * Whether two files made of a hand-over say the same, where their bytes differ: another machine rounds the last digits
 * otherwise, and another version of the program sets the same words otherwise.
 */
import { type Difference, differences } from './held.ts';

/** What a file says, as plain data. Null: its kind cannot be read back (a PDF), or it is not of that kind. */
type Said = unknown;

/**
 * @returns in what the contents differ; null where only the bytes can tell. Of a table, its description and a picture
 *          the contents are all there is; a page besides has a style and a script, which are not looked at
 */
export async function contentsDiffer(
  path: string,
  found: Uint8Array,
  again: Uint8Array,
): Promise<readonly Difference[] | null> {
  const read = READERS[path.slice(path.lastIndexOf('.') + 1)];
  if (read === undefined || found.length > 4 * again.length + 10_000) return null;
  try {
    return differences(await read(found), await read(again));
  } catch {
    return null;
  }
}

/** Whether nothing stands in such a file besides what `contentsDiffer` compares. */
export const isAllContents = (path: string): boolean => !/\.(html|pdf)$/.test(path);

const textOf = (bytes: Uint8Array) => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

const READERS: Readonly<Record<string, (bytes: Uint8Array) => Said | Promise<Said>>> = {
  json: (bytes) => JSON.parse(textOf(bytes)),
  csv: (bytes) => [...textOf(bytes).matchAll(CELL)].map(([, cell, end]) => [unquoted(cell!), end]),
  svg: (bytes) => pieces(textOf(bytes)),
  parquet: async (bytes) => {
    const { parquetReadObjects } = await import('hyparquet');
    return parquetReadObjects({ file: new Uint8Array(bytes).buffer });
  },
  html: (bytes) => pageSays(textOf(bytes)),
};

/** One cell of RFC 4180 with what ends it. */
const CELL = /("(?:[^"]|"")*"|[^,\r\n]*)(,|\r\n|$)/g;

/** Where quotes are not needed they say nothing. */
const unquoted = (cell: string) =>
  cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : numberOrWords(cell);

/** Numbers apart from what stands between them, so that `3.0000000001` and `3` are the same place of a drawing. */
const pieces = (text: string): Said =>
  text.split(/(-?\d+(?:\.\d+)?(?:e[+-]?\d+)?)/).map(numberOrWords);

function numberOrWords(text: string): number | string {
  return /^-?\d+(\.\d+)?(e[+-]?\d+)?$/.test(text) ? Number(text) : text;
}

/** The words of a page in their order, and the figures that its pictures answer with. */
function pageSays(html: string): Said {
  const figures = without(html, FIGURES, '</script>').taken[0];
  const silent = ['script', 'style'].reduce(
    (rest, tag) => without(rest, `<${tag}`, `</${tag}>`).rest,
    html,
  );
  const words = silent
    .replace(/<[^<>]*>/g, '\n')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return { words, figures: JSON.parse(figures ?? 'null') };
}

const FIGURES = '<script type="application/json" id="figures">';

/**
 * A text less every stretch from one mark to another, and what stood between them. In one pass: a page from outside may
 * open a thousand tags that it never closes, and a pattern would look for the end of each to the end of the page.
 */
function without(text: string, from: string, to: string) {
  const taken: string[] = [];
  let rest = '';
  let at = 0;
  for (let start = text.indexOf(from); start >= 0; start = text.indexOf(from, at)) {
    const end = text.indexOf(to, start + from.length);
    if (end < 0) break;
    rest += `${text.slice(at, start)} `;
    taken.push(text.slice(start + from.length, end));
    at = end + to.length;
  }
  return { rest: rest + text.slice(at), taken };
}
