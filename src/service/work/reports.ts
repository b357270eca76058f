/** A kept hand-over as the report (PDF, with its bundle in it) and as the page for the owner (HTML). */
import type { DrawFigure } from '../../figures.ts';
import type { Id, PullbookRecord } from '../../record/index.ts';
import { type HandOver, type Language, pageOf, paperOf, usualSize } from '../../report/index.ts';
import { pdfOf } from '../../report/paper/pdf.ts';
import { shippedFigures, shippedPageScript } from '../figures.ts';
import { bundleOf, documentOf, keyOfShop } from './handOverKept.ts';

export const PAPER_SIZES = ['letter', 'a4'] as const;
export interface ReportWish {
  readonly language: Language;
  readonly size: (typeof PAPER_SIZES)[number];
}

export async function reportOf(
  record: PullbookRecord,
  id: Id,
  wish: { readonly [K in keyof ReportWish]?: ReportWish[K] | undefined },
): Promise<Uint8Array> {
  const handOver = await documentOf(record, id);
  const { publicKey } = await keyOfShop(record);
  const pieces: Uint8Array[] = [];
  const keep = async (piece: Uint8Array) => {
    pieces.push(piece.slice());
  };
  await bundleOf(record, id, keep, false);
  return reportFrom(handOver, publicKey, new Uint8Array(Buffer.concat(pieces)), {
    language: wish.language ?? 'en',
    size: wish.size ?? usualSize(handOver),
  });
}

/** The report of a hand-over whose bundle is at hand: the same bytes from the same three. */
export async function reportFrom(
  handOver: HandOver,
  publicKey: string,
  bundle: Uint8Array,
  { language, size }: ReportWish,
  draw?: DrawFigure,
): Promise<Uint8Array> {
  return pdfOf(paperOf(handOver, language, publicKey), {
    size,
    draw: draw ?? (await shippedFigures()),
    attached: {
      name: 'hand-over.zip',
      description:
        'The recordings and every figure behind this report; pullbook verify holds them against each other.',
      bytes: bundle,
    },
  });
}

export async function ownerPage(
  record: PullbookRecord,
  id: Id,
  language: Language,
): Promise<string> {
  const handOver = await documentOf(record, id);
  const { publicKey } = await keyOfShop(record);
  return pageOf(paperOf(handOver, language, publicKey), {
    draw: await shippedFigures(),
    script: await shippedPageScript(),
  });
}
