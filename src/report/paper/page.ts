/** Blocks as one HTML file that needs nothing else: for sending to an owner, its pictures answering to the cursor. */
import { createHash } from 'node:crypto';
import type { DrawFigure, FigureWanted } from '../../figures.ts';
import { bound, steady } from '../../signs.ts';
import type { Block, Paper, Tick } from './blocks.ts';
import { PAGE_CSS } from './pageStyle.ts';

export interface PageOptions {
  readonly draw: DrawFigure;
  /** Gives the pictures their cursor; null: they stand still. */
  readonly script: string | null;
}

const FIGURE_WIDTH = 860;

/** @returns the text of the file; the same paper gives the same text */
export function pageOf(paper: Paper, { draw, script }: PageOptions): string {
  const figures: FigureWanted[] = [];
  const html = (block: Block) => {
    if (block.kind !== 'figure') return htmlOf(block);
    figures.push(block.figure);
    const svg = draw(block.figure, { width: FIGURE_WIDTH, height: block.height });
    return `<figure data-figure="${figures.length - 1}" data-height="${block.height}"><div class="drawing">${svg}</div><figcaption>${text(`${block.figure.title}. ${block.caption}`)}</figcaption></figure>`;
  };
  const { first, title, opening, parts } = partsOf(paper.blocks);
  const facts = first.find(({ kind }) => kind === 'facts');
  const body = [
    `<section class="findings">\n${first.map((block) => html(block) + (block === facts ? contentsOf(parts) : '')).join('\n')}\n</section>`,
    ...(title === null ? [] : [html(title)]),
    // The script puts a button into it that opens or folds all parts.
    `<div class="all" data-open="${text(paper.parts.open)}" data-fold="${text(paper.parts.fold)}"></div>`,
    ...opening.map(html),
    ...parts.map(
      ({ heading, blocks }, at) =>
        // Open, so that all is there where no script runs; the script folds what is not asked for.
        `<details class="part" id="part-${at + 1}" open><summary>${html(heading)}</summary>\n${blocks.map(html).join('\n')}\n</details>`,
    ),
  ].join('\n');
  const code = script === null ? '' : script.replaceAll('</script', '<\\/script');
  const digest = createHash('sha256').update(code).digest('base64');
  const policy = [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    'img-src data:',
    code === '' ? '' : `script-src 'sha256-${digest}'`,
  ];
  return [
    '<!doctype html>',
    `<html lang="${text(paper.language)}">`,
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy.filter((one) => one !== '').join('; ')}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${text(paper.title)}</title>`,
    `<style>${PAGE_CSS}</style>`,
    '</head>',
    `<body><main>\n${markOf(paper)}${body}\n</main>`,
    `<footer>${text(paper.foot)}</footer>`,
    // Data, never markup: no tag can begin inside it.
    `<script type="application/json" id="figures">${JSON.stringify(dataOf(figures)).replaceAll('<', '\\u003c')}</script>`,
    ...(code === '' ? [] : [`<script>${code}</script>`]),
    '</body></html>\n',
  ].join('\n');
}

interface Part {
  readonly heading: Block;
  readonly blocks: readonly Block[];
}

/** The findings, and the evidence in parts, each under a heading of the second level. */
function partsOf(blocks: readonly Block[]): {
  readonly first: readonly Block[];
  readonly title: Block | null;
  readonly opening: readonly Block[];
  readonly parts: readonly Part[];
} {
  const end = blocks.findIndex(({ kind }) => kind === 'newPage');
  if (end < 0) return { first: blocks, title: null, opening: [], parts: [] };
  const [title = null, ...rest] = blocks.slice(end + 1);
  const starts = rest.flatMap((block, at) =>
    block.kind === 'heading' && block.level === 2 ? [at] : [],
  );
  return {
    first: blocks.slice(0, end),
    title,
    opening: rest.slice(0, starts[0] ?? rest.length),
    parts: starts.map((start, at) => ({
      heading: rest[start]!,
      blocks: rest.slice(start + 1, starts[at + 1] ?? rest.length),
    })),
  };
}

/** Where each part of the evidence is, behind what the engine is. */
function contentsOf(parts: readonly Part[]): string {
  if (parts.length === 0) return '';
  const items = parts.map(
    ({ heading }, at) =>
      `<li><a href="#part-${at + 1}">${own(heading.kind === 'heading' ? heading.text : '')}</a></li>`,
  );
  return `<nav class="contents"><ul>${items.join('')}</ul></nav>`;
}

/** The pictures as data; they share their words. */
const dataOf = (figures: readonly FigureWanted[]) => ({
  words: figures[0]?.words,
  figures: figures.map(({ words: _, ...figure }) => figure),
});

/** As a picture: what an SVG holds cannot act there. */
const markOf = ({ mark, author }: Paper): string =>
  mark === null ? '' : `<img class="mark" src="${text(mark)}" alt="${text(author)}">\n`;

/** Text from outside as it may stand in HTML, in an element or in quotes. */
function text(words: string): string {
  return bound(steady(words)).replace(
    /[&<>"']/g,
    (letter) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' })[letter]!,
  );
}

/** A name that is written from right to left, or turns the writing, stays inside its own place. */
const own = (words: string) => `<bdi>${text(words)}</bdi>`;

const SIGNS: Readonly<Record<Tick['state'], string>> = { done: '☑', open: '☐', struck: '☒' };

function htmlOf(block: Exclude<Block, { kind: 'figure' }>): string {
  switch (block.kind) {
    case 'heading':
      return `${block.over === undefined ? '' : `<p class="over">${text(block.over)}</p>`}<h${block.level}>${own(block.text)}</h${block.level}>`;
    case 'headline':
      return `<dl class="headline">${block.figures
        .map(
          ({ label, value, interval, where }) =>
            `<div><dt>${text(label)}</dt><dd><b>${text(value)}</b><span>${text(interval)}</span><span class="quiet">${text(where)}</span></dd></div>`,
        )
        .join('')}</dl>`;
    case 'ticks':
      return `<ul class="ticks">${block.items
        .map(
          ({ state, text: what, by }) =>
            `<li><span aria-hidden="true">${SIGNS[state]}</span><span>${own(what)}</span><span class="quiet">${own(by)}</span></li>`,
        )
        .join('')}</ul>`;
    case 'paragraph':
      return `<p${block.quiet ? ' class="quiet"' : ''}>${own(block.text)}</p>`;
    case 'facts':
      return `<dl${block.beside ? ' class="beside"' : ''}>${block.rows
        .map(([label, value]) => `<div><dt>${text(label)}</dt><dd>${own(value)}</dd></div>`)
        .join('')}</dl>`;
    case 'table':
      return tableOf(block);
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${own(item)}</li>`).join('')}</ul>`;
    case 'care':
      return `<section class="care"><h3><span aria-hidden="true">▲</span> ${text(block.word)}</h3><ul>${block.items.map((item) => `<li>${own(item)}</li>`).join('')}</ul></section>`;
    case 'newPage':
      return '<hr>';
  }
}

/** Columns up to which a table is set in whatever width there is; a wider one is moved inside its own frame. */
const MOST_COLUMNS = 3;
/** The same where all but the first are short. */
const MOST_NUMBERS = 4;

function tableOf({
  caption,
  columns,
  rows,
  note,
  sources,
  halves,
}: Extract<Block, { kind: 'table' }>): string {
  const kind = columns.map(({ align }) => (align === 'right' ? ' class="number"' : ''));
  const head = columns.map(({ title }, i) => `<th scope="col"${kind[i]}>${text(title)}</th>`);
  const lines = rows.map((row) =>
    row.length === 1 && columns.length > 1
      ? `<tr><th scope="colgroup" colspan="${columns.length}">${own(row[0]!)}</th></tr>`
      : `<tr>${row.map((cell, i) => `<td${kind[i]}>${own(cell)}</td>`).join('')}</tr>`,
  );
  const table = `<table><caption>${text(caption)}</caption><thead><tr>${head.join('')}</tr></thead><tbody>${lines.join('')}</tbody></table>`;
  const frame =
    columns.length > (halves === true ? MOST_NUMBERS : MOST_COLUMNS)
      ? `<div class="wide" tabindex="0" role="region" aria-label="${text(caption)}">${table}</div>`
      : `<div class="narrow">${table}</div>`;
  return [
    frame,
    ...(note === undefined ? [] : [`<p class="quiet">${text(note)}</p>`]),
    ...(sources === undefined || sources.items.length === 0
      ? []
      : [
          `<p class="quiet">${text(`${sources.title}: ${sources.items.map((one, i) => `[${i + 1}]\u00a0${one}`).join('; ')}.`)}</p>`,
        ]),
  ].join('');
}
