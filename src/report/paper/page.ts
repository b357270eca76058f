/** Blocks as one HTML file that needs nothing else: for sending to an owner, its pictures answering to the cursor. */
import { createHash } from 'node:crypto';
import type { DrawFigure, FigureWanted } from '../../figures.ts';
import type { Block, Paper, Tick } from './blocks.ts';
import { PAGE_CSS } from './pageStyle.ts';
import { steady } from './signs.ts';

export interface PageOptions {
  readonly draw: DrawFigure;
  /** Gives the pictures their cursor; null: they stand still. */
  readonly script: string | null;
}

const FIGURE_WIDTH = 860;

/** @returns the text of the file; the same paper gives the same text */
export function pageOf(paper: Paper, { draw, script }: PageOptions): string {
  const figures: FigureWanted[] = [];
  const body = paper.blocks
    .map((block) => {
      if (block.kind !== 'figure') return htmlOf(block);
      figures.push(block.figure);
      const svg = draw(block.figure, { width: FIGURE_WIDTH, height: block.height });
      return `<figure data-figure="${figures.length - 1}" data-height="${block.height}"><div class="drawing">${svg}</div><figcaption>${text(`${block.figure.title}. ${block.caption}`)}</figcaption></figure>`;
    })
    .join('\n');
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
  return steady(words).replace(
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
    case 'table': {
      const kind = block.columns.map(({ align }) => (align === 'right' ? ' class="number"' : ''));
      const head = block.columns.map(
        ({ title }, i) => `<th scope="col"${kind[i]}>${text(title)}</th>`,
      );
      const rows = block.rows.map(
        (row) => `<tr>${row.map((cell, i) => `<td${kind[i]}>${own(cell)}</td>`).join('')}</tr>`,
      );
      const note = block.note === undefined ? '' : `<p class="quiet">${text(block.note)}</p>`;
      return `<div class="wide" tabindex="0" role="region" aria-label="${text(block.caption)}"><table><caption>${text(block.caption)}</caption><thead><tr>${head.join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></div>${note}`;
    }
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${own(item)}</li>`).join('')}</ul>`;
    case 'care':
      return `<section class="care"><h3><span aria-hidden="true">▲</span> ${text(block.word)}</h3><ul>${block.items.map((item) => `<li>${own(item)}</li>`).join('')}</ul></section>`;
    case 'newPage':
      return '<hr>';
  }
}
