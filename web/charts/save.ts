import fontUrl from '@fontsource-variable/inter/files/inter-latin-wght-normal.woff2?url';
import type { ChartStyle } from '../theme/chart-style.ts';
import { type Caption, standaloneSvg } from './standalone.ts';

/** The drawing inside an `<svg>` on the page, without what only a screen needs. */
function innerOf(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const element of copy.querySelectorAll('[data-screen-only]')) element.remove();
  return new XMLSerializer()
    .serializeToString(copy)
    .replace(/^<svg[^>]*>/, '')
    .replace(/<\/svg>$/, '');
}

/** Our letters, to be carried in a drawing; null where they cannot be had. */
export async function lettersAsDataUrl(): Promise<string | null> {
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
  return standaloneSvg(innerOf(svg), width, height, caption, style, await lettersAsDataUrl());
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

/** Puts a file made in the browser among what the person has saved. */
export function handToPerson(blob: Blob, name: string): void {
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
  handToPerson(new Blob([text], { type: 'image/svg+xml' }), fileName(caption, 'svg'));
}

/** A drawing of its own size with our letters in it, saved as it is or as the pixels of that size. */
export async function saveDrawing(svg: string, name: string, as: 'svg' | 'png'): Promise<void> {
  const text = withLetters(svg, await lettersAsDataUrl());
  const blob = as === 'svg' ? new Blob([text], { type: 'image/svg+xml' }) : await pixelsOf(text, 1);
  handToPerson(blob, `${name}.${as}`);
}

/** A drawing of ours that begins with its title, and its letters in it. */
export function withLetters(svg: string, letters: string | null): string {
  if (letters === null) return svg;
  return svg.replace(
    '</title>',
    `</title><style>@font-face{font-family:"Inter Variable";font-weight:100 900;src:url(${letters}) format("woff2")}text{font-feature-settings:"tnum"}</style>`,
  );
}

/** PNG at twice the size on screen, for print and for other screens. */
export async function pngOf(
  svg: SVGSVGElement,
  caption: Caption,
  style: ChartStyle,
): Promise<Blob> {
  return pixelsOf(await svgTextOf(svg, caption, style), 2);
}

async function pixelsOf(text: string, times: number): Promise<Blob> {
  const image = await imageOf(text);
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth * times;
  canvas.height = image.naturalHeight * times;
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  return pngOfCanvas(canvas);
}

/** The address of a drawing for an `<img>`, where nothing in it can run. */
export const imageAddress = (svg: string): string =>
  `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;

/** A drawing ready to be put on a canvas. */
export async function imageOf(svg: string): Promise<HTMLImageElement> {
  const image = new Image();
  image.src = imageAddress(svg);
  await image.decode();
  return image;
}

export function pngOfCanvas(canvas: HTMLCanvasElement): Promise<Blob> {
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
  handToPerson(await pngOf(svg, caption, style), fileName(caption, 'png'));
}
