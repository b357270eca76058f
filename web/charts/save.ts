import fontUrl from '@fontsource-variable/inter/files/inter-latin-wght-normal.woff2?url';
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

/** A caption in lines no wider than its picture, broken between words. */
function linesOf(text: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

const escaped = (text: string) =>
  text.replace(
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
    `<text x="${margin}" y="${margin + strong}" font-size="${strong * 1.15}" font-weight="600" ${words}>${escaped(caption.title)}</text>`,
    ...lines.map(
      (line, at) =>
        `<text x="${margin}" y="${margin + strong + label * (1.6 + LEADING * at)}" font-size="${label}" ${words} fill-opacity="0.75">${escaped(line)}</text>`,
    ),
    `<g transform="translate(${margin} ${margin + head})">${inner}</g>`,
    '</svg>',
  ].join('');
}

/** The drawing inside an `<svg>` on the page, without what only a screen needs. */
function innerOf(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const element of copy.querySelectorAll('[data-screen-only]')) element.remove();
  return new XMLSerializer()
    .serializeToString(copy)
    .replace(/^<svg[^>]*>/, '')
    .replace(/<\/svg>$/, '');
}

async function fontAsDataUrl(): Promise<string | null> {
  try {
    const bytes = new Uint8Array(await (await fetch(fontUrl)).arrayBuffer());
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    return `data:font/woff2;base64,${btoa(text)}`;
  } catch {
    // Without the font the picture is still right, only in the system's letters.
    return null;
  }
}

async function svgTextOf(svg: SVGSVGElement, caption: Caption, style: ChartStyle): Promise<string> {
  const { width, height } = svg.viewBox.baseVal;
  return standaloneSvg(innerOf(svg), width, height, caption, style, await fontAsDataUrl());
}

/** A name for the file out of what it shows. */
export function fileName({ title, scenario }: Caption, ending: string): string {
  const name = `${title} ${scenario}`
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 100)
    .replace(/^-|-$/g, '');
  return `${name || 'picture'}.${ending}`;
}

function handOver(blob: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

export async function saveSvg(
  svg: SVGSVGElement,
  caption: Caption,
  style: ChartStyle,
): Promise<void> {
  const text = await svgTextOf(svg, caption, style);
  handOver(new Blob([text], { type: 'image/svg+xml' }), fileName(caption, 'svg'));
}

/** PNG at twice the size on screen, for print and for other screens. */
export async function pngOf(
  svg: SVGSVGElement,
  caption: Caption,
  style: ChartStyle,
): Promise<Blob> {
  const text = await svgTextOf(svg, caption, style);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth * 2;
  canvas.height = image.naturalHeight * 2;
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((give, refuse) => {
    canvas.toBlob(
      (blob) =>
        blob === null ? refuse(new Error('The picture is too large to be saved.')) : give(blob),
      'image/png',
    );
  });
}

export async function savePng(
  svg: SVGSVGElement,
  caption: Caption,
  style: ChartStyle,
): Promise<void> {
  handOver(await pngOf(svg, caption, style), fileName(caption, 'png'));
}
