/** Processes of `report.bench.ts`: Typst alone, or the parts of a cold report, each measured by itself. */
import { join } from 'node:path';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';

/** Pages of plain text, each full; what PDF/A asks for besides is said once. */
const plainText = (pages: number) => `
#set document(title: "Plain text", date: datetime(year: 2026, month: 1, day: 1))
#set page(paper: "a4", margin: 17mm)
#set text(size: 9.2pt, lang: "en")
#for page in range(${pages}) {
  if page > 0 { pagebreak() }
  par(lorem(700))
}
`;

function typst(pages: number): number {
  const from = performance.now();
  const workspace = join(import.meta.dirname, 'nothing-is-here');
  const compiler = NodeCompiler.create({ workspace });
  const pdf = compiler.pdf(
    { mainFileContent: plainText(pages) },
    { pdfStandard: 'a-3a' as never, creationTimestamp: 0 },
  );
  const ms = performance.now() - from;
  const set = Number(/NPages>(\d+)</.exec(Buffer.from(pdf).toString('latin1'))?.[1]);
  if (set !== pages) throw new Error(`Typst set ${set} pages, not ${pages}`);
  return ms;
}

async function parts(folder: string): Promise<Readonly<Record<string, number>>> {
  const { openRecord } = await import('../src/record/index.ts');
  const { Curves } = await import('../src/service/work/curves.ts');
  const { Readings } = await import('../src/service/work/readings.ts');
  const { readLadder } = await import('../src/service/work/ladders.ts');
  const { freezeHandOver } = await import('../src/service/work/handover.ts');
  const kept = await import('../src/service/work/handOverKept.ts');
  const { pdfOf } = await import('../src/report/paper/pdf.ts');
  const { paperOf } = await import('../src/report/index.ts');
  const { shippedFigures } = await import('../src/service/figures.ts');
  const { BUILD } = await import('./reportShop.ts');
  const ms: Record<string, number> = {};
  let from = performance.now();
  const lap = (what: string) => {
    const now = performance.now();
    ms[what] = Math.round(now - from);
    from = now;
  };
  const record = await openRecord(folder);
  lap('open');
  const build = (await record.builds.list()).find(({ name }) => BUILD.endsWith(name))!;
  const choice = await kept.choiceOf(record, build.id, {});
  const { standard } = choice;
  const curves = new Curves(record, new Readings(record));
  const days = await record.days.list();
  for (const { id } of days) await curves.ofDay(id, { standard });
  lap('curves');
  for (const { id: dayId } of days)
    for (const { id } of await record.ladders.list({ dayId }))
      await readLadder(record, curves, id, { standard });
  lap('ladders');
  const freezing = { madeAt: '2026-11-26T12:00:00.000Z', pullbook: '0' };
  const alone = await freezeHandOver(record, { ...choice, comparedBuildId: null }, freezing);
  lap('frozen alone');
  const { id } = await kept.keepHandOver(record, choice, freezing);
  lap('frozen beside the build before, and kept');
  const draw = await shippedFigures();
  const handOver = await kept.documentOf(record, id);
  const { publicKey } = await kept.keyOfShop(record);
  const paper = paperOf(handOver, 'en', publicKey);
  const drawn = new Map<object, string>();
  for (const block of paper.blocks)
    if (block.kind === 'figure')
      drawn.set(block.figure, draw(block.figure, { width: 680, height: block.height }));
  lap('pictures');
  const pieces: Uint8Array[] = [];
  await kept.bundleOf(record, id, async (piece) => void pieces.push(piece.slice()), false);
  lap('packing');
  await pdfOf(paper, {
    size: 'a4',
    draw: (figure) => drawn.get(figure)!,
    attached: { name: 'hand-over.zip', description: '', bytes: Buffer.concat(pieces) },
  });
  lap('typesetting');
  await record.close();
  if (alone.days.length === 0) throw new Error('nothing was frozen');
  return ms;
}

const [, , what = '', of = '', times = '1'] = process.argv;
if (what === 'typst') {
  const ms = Array.from({ length: Number(times) }, () => typst(Number(of)));
  process.stdout.write(String(ms.sort((a, b) => a - b)[ms.length >> 1]!));
} else {
  const ms = await parts(of);
  process.stdout.write(
    Object.entries(ms)
      .map(([part, took]) => `${part} ${took}`)
      .join(', '),
  );
}
