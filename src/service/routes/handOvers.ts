/** Routes of the hand-over: frozen, read, taken away, held against its recordings. */
import { readFile } from 'node:fs/promises';
import { Readable } from 'node:stream';
import type { PullbookRecord } from '../../record/index.ts';
import { findingsOf, keyName, SHAPES, shownOf } from '../../report/index.ts';
import { handOvers } from '../contract/handOvers.ts';
import { shippedShown } from '../figures.ts';
import { programOf } from '../program.ts';
import { bundleOf, choiceOf, documentOf, keepHandOver, keyOfShop } from '../work/handOverKept.ts';
import { freezeHandOver } from '../work/handover.ts';
import type { Readings } from '../work/readings.ts';
import { replayOfHandOver } from '../work/replays.ts';
import { ownerPage, reportOf } from '../work/reports.ts';
import { spool } from '../work/spool.ts';
import { verifyFile } from '../work/verify.ts';
import { piecesFrom } from '../written.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

/** The largest bundle that is read whole to be held against its recordings. */
const MOST_BUNDLE_BYTES = 1024 ** 3;

export function serveHandOvers(
  api: Api,
  record: PullbookRecord,
  readings: Readings,
  version: string,
): void {
  // Of the files as they were when it started: another version may be put in their place while it serves.
  const program = programOf(version);
  api.openapi(handOvers.list, async (c) => {
    const { id } = c.req.valid('param');
    await record.builds.get(id);
    return c.json((await record.handOvers.list({ buildId: id })) as never, 200);
  });
  api.openapi(handOvers.make, async (c) => {
    const change = changeOf(c);
    const wish = c.req.valid('json');
    const choice = await choiceOf(record, c.req.valid('param').id, {
      ...wish,
      by: wish.by ?? change.who,
    });
    const freezing = {
      madeAt: new Date().toISOString(),
      pullbook: program,
      signal: c.req.raw.signal,
    };
    return c.json((await keepHandOver(record, choice, freezing, change)) as never, 201);
  });
  api.openapi(handOvers.standing, async (c) => {
    const choice = await choiceOf(record, c.req.valid('param').id, c.req.valid('query'));
    const document = await freezeHandOver(record, choice, {
      madeAt: new Date().toISOString(),
      pullbook: version,
      signal: c.req.raw.signal,
    });
    return c.json(findingsOf(document, 'en') as never, 200);
  });
  api.openapi(handOvers.get, async (c) => {
    const { id } = c.req.valid('param');
    const kept = await record.handOvers.get(id);
    return c.json({ kept, document: await documentOf(record, id) } as never, 200);
  });
  api.openapi(handOvers.findings, async (c) => {
    const { id } = c.req.valid('param');
    const { language = 'en', units } = c.req.valid('query');
    return c.json(findingsOf(await documentOf(record, id), language, units) as never, 200);
  });
  api.openapi(handOvers.remove, async (c) => {
    await record.handOvers.remove(c.req.valid('param').id, changeOf(c));
    return c.body(null, 204);
  });
  api.openapi(handOvers.bundle, async (c) => {
    const kept = await record.handOvers.get(c.req.valid('param').id);
    return new Response(
      Readable.toWeb(piecesFrom((write) => bundleOf(record, kept.id, write))) as ReadableStream,
      {
        headers: {
          'content-type': 'application/zip',
          'content-disposition': `attachment; filename="hand-over-${kept.madeAt.slice(0, 10)}.zip"`,
        },
      },
    ) as never;
  });
  api.openapi(handOvers.report, async (c) => {
    const kept = await record.handOvers.get(c.req.valid('param').id);
    const pdf = await reportOf(record, kept.id, c.req.valid('query'));
    return new Response(pdf as Uint8Array<ArrayBuffer>, {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="hand-over-${kept.madeAt.slice(0, 10)}.pdf"`,
      },
    }) as never;
  });
  api.openapi(handOvers.page, async (c) => {
    const kept = await record.handOvers.get(c.req.valid('param').id);
    const page = await ownerPage(record, kept.id, c.req.valid('query').language ?? 'en');
    // Taken away and opened from a disk: under our own address its script would be refused.
    return new Response(page, {
      headers: {
        'content-type': 'text/html; charset=utf-8',
        'content-disposition': `attachment; filename="hand-over-${kept.madeAt.slice(0, 10)}.html"`,
      },
    }) as never;
  });
  api.openapi(handOvers.picture, async (c) => {
    const kept = await record.handOvers.get(c.req.valid('param').id);
    const { shape = 'screen', language = 'en', units } = c.req.valid('query');
    const shown = shownOf(await documentOf(record, kept.id), language, units);
    return new Response((await shippedShown())(shown, SHAPES[shape]), {
      headers: {
        'content-type': 'image/svg+xml; charset=utf-8',
        'content-disposition': `attachment; filename="hand-over-${kept.madeAt.slice(0, 10)}-${shape}.svg"`,
      },
    }) as never;
  });
  api.openapi(handOvers.replay, async (c) => {
    const handOver = await documentOf(record, c.req.valid('param').id);
    const replay = await replayOfHandOver(record, readings, handOver, c.req.valid('query'));
    return c.json(replay as never, 200);
  });
  api.openapi(handOvers.key, async (c) => {
    const { publicKey } = await keyOfShop(record);
    return c.json({ publicKey, name: keyName(publicKey) }, 200);
  });
  api.openapi(handOvers.verify, async (c) => {
    const { name } = c.req.valid('query');
    const spooled = await spool(c.req.raw.body, {
      folder: record.folder,
      fileName: name,
      maxBytes: MOST_BUNDLE_BYTES,
    });
    try {
      const { source } = spooled;
      const bytes = typeof source === 'string' ? new Uint8Array(await readFile(source)) : source;
      const verified = await verifyFile(bytes, name, program, c.req.raw.signal);
      const { publicKey } = await keyOfShop(record);
      const isOurs = verified.signedBy?.publicKey === publicKey;
      return c.json({ ...verified, isOurs } as never, 200);
    } finally {
      await spooled.release();
    }
  });
}
