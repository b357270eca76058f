/** Routes of a shop as an archive. */
import { readFile } from 'node:fs/promises';
import { Readable } from 'node:stream';
import type { PullbookRecord } from '../../record/index.ts';
import { shopFile } from '../contract/shopFile.ts';
import { exportShop, lookAtShopFile, readShopFile, takeShopFile } from '../work/shopFile.ts';
import { spool } from '../work/spool.ts';
import { piecesFrom } from '../written.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

const MOST_BYTES = 1024 ** 3;

export function serveShopFile(api: Api, record: PullbookRecord, version: string): void {
  const read = async (body: ReadableStream<Uint8Array> | null, name: string) => {
    const spooled = await spool(body, {
      folder: record.folder,
      fileName: name,
      maxBytes: MOST_BYTES,
    });
    try {
      const { source } = spooled;
      const bytes = typeof source === 'string' ? new Uint8Array(await readFile(source)) : source;
      return readShopFile(bytes, name);
    } finally {
      await spooled.release();
    }
  };
  api.openapi(shopFile.export, async (c) => {
    const { engine } = c.req.valid('query');
    const madeAt = new Date().toISOString();
    if (engine !== undefined) await record.engines.get(engine);
    const pieces = piecesFrom(async (write) => {
      await exportShop(
        record,
        engine === undefined ? 'all' : [engine],
        { madeAt, pullbook: version },
        write,
      );
    });
    return new Response(Readable.toWeb(pieces) as ReadableStream, {
      headers: {
        'content-type': 'application/zip',
        'content-disposition': `attachment; filename="${engine === undefined ? 'shop' : 'engine'}-${madeAt.slice(0, 10)}.zip"`,
      },
    }) as never;
  });
  api.openapi(shopFile.look, async (c) => {
    const given = await read(c.req.raw.body, c.req.valid('query').name);
    return c.json((await lookAtShopFile(record, given)) as never, 200);
  });
  api.openapi(shopFile.take, async (c) => {
    const given = await read(c.req.raw.body, c.req.valid('query').name);
    return c.json(await takeShopFile(record, given, changeOf(c)), 201);
  });
}
