import { fittedTo, steady } from '../../src/signs.ts';
import type { ChartStyle } from '../theme/chart-style.ts';
import { textWidth } from './text.ts';

export interface Caption {
  readonly title: string;
  /** Engine, build, day, band: which scenario the picture is of. */
  readonly scenario: string;
}

/** Room above the picture for its caption, as a multiple of the label size. */
const HEAD = 4.2;
/** From one line of the caption to the next, as a multiple of its size. */
const LEADING = 1.4;

/** A word that is wider than a line, in pieces that are not. */
function pieces(word: string, width: number, size: number): readonly string[] {
  if (textWidth(word, size) <= width) return [word];
  const letters = [...word];
  const most = Math.max(1, Math.floor((letters.length * width) / textWidth(word, size)) - 1);
  return Array.from({ length: Math.ceil(letters.length / most) }, (_, at) =>
    letters.slice(at * most, (at + 1) * most).join(''),
  );
}

/** A title in one line, shortened where it is wider. */
const inOneLine = (text: string, width: number, size: number): string =>
  fittedTo(text, (one) => textWidth(one, size, true) <= width);

/** A caption in lines no wider than its picture, broken between words. */
function linesOf(text: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').flatMap((one) => pieces(one, width, size))) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

const escaped = (text: string) =>
  steady(text).replace(
    /[&<>"]/g,
    (letter) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[letter]!,
  );

/**
 * A drawing as a file of its own: with caption, paper and font, without cursor and grips.
 * Colours are already values in our charts, so nothing depends on a style sheet.
 */
export function standaloneSvg(
  inner: string,
  width: number,
  height: number,
  caption: Caption,
  style: ChartStyle,
  fontDataUrl: string | null,
): string {
  const { palette, label, strong } = style;
  const margin = Math.round(label * 1.4);
  const lines = linesOf(caption.scenario, width, label);
  const head = Math.round(label * (HEAD + LEADING * (lines.length - 1)));
  const [wide, high] = [width + 2 * margin, height + head + 2 * margin];
  const font =
    fontDataUrl === null
      ? ''
      : `<style>@font-face{font-family:"Inter Variable";font-weight:100 900;src:url(${fontDataUrl}) format("woff2")}</style>`;
  const words = `font-family="${escaped(style.fontFamily)}" fill="${palette.ink}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${high}" viewBox="0 0 ${wide} ${high}">`,
    `<title>${escaped(`${caption.title}. ${caption.scenario}`)}</title>`,
    font,
    `<style>text{font-feature-settings:"tnum"}</style>`,
    `<rect width="${wide}" height="${high}" fill="${palette.paper}"/>`,
    `<text x="${margin}" y="${margin + strong}" font-size="${strong * 1.15}" font-weight="600" ${words}>${escaped(inOneLine(caption.title, width, strong * 1.15))}</text>`,
    ...lines.map(
      (line, at) =>
        `<text x="${margin}" y="${margin + strong + label * (1.6 + LEADING * at)}" font-size="${label}" ${words} fill-opacity="0.75">${escaped(line)}</text>`,
    ),
    `<g transform="translate(${margin} ${margin + head})">${inner}</g>`,
    '</svg>',
  ].join('');
}
