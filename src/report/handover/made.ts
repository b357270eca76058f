/** All that a bundle holds beside the hand-over itself and what came from outside, made of it again at any time. */
import type { DrawFigure } from '../../figures.ts';
import { paperOf } from '../paper/index.ts';
import { pageOf } from '../paper/page.ts';
import { pdfOf } from '../paper/pdf.ts';
import type { MadeFile } from './bundle.ts';
import { tableFiles } from './tables.ts';
import type { HandOver } from './types.ts';

export interface Making {
  readonly draw: DrawFigure;
  /** Gives the pictures of the page their cursor; null: they stand still. */
  readonly script: string | null;
  /** Of the key that the bundle is signed with, base64; the report names it. */
  readonly publicKey: string | null;
  /** Also report and page; not in a bundle that rides in a report, which stands around it. */
  readonly withReport: boolean;
}

/** Letter where inches are read, A4 elsewhere. */
export const usualSize = ({ choice }: Pick<HandOver, 'choice'>): 'letter' | 'a4' =>
  choice.units === 'us' ? 'letter' : 'a4';

const FIGURE = { width: 1200, height: 640, withCaption: true, larger: 1.3 } as const;

/** The same bytes from the same hand-over. The report in it is in English and has nothing in itself. */
export async function madeOf(
  handOver: HandOver,
  { draw, script, publicKey, withReport }: Making,
): Promise<MadeFile[]> {
  const encoder = new TextEncoder();
  const paper = paperOf(handOver, 'en', publicKey);
  const figures = paper.blocks.flatMap((block) => (block.kind === 'figure' ? [block.figure] : []));
  return [
    ...tableFiles(handOver),
    ...figures.map((figure, at) => ({
      path: `figures/${String(at + 1).padStart(2, '0')}-${figure.kind}.svg`,
      what: figure.title,
      bytes: encoder.encode(draw(figure, FIGURE)),
    })),
    ...(withReport
      ? [
          {
            path: 'report.pdf',
            what: 'the report for people',
            bytes: await pdfOf(paper, { size: usualSize(handOver), draw }),
            isPacked: true,
          },
          {
            path: 'page.html',
            what: 'the report as a page for a screen',
            bytes: encoder.encode(pageOf(paper, { draw, script })),
          },
        ]
      : []),
  ];
}
