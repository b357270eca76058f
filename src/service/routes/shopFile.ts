/** Routes of a shop as an archive. */
import { Readable } from 'node:stream';
import type { PullbookRecord } from '../../record/index.ts';
import { shopFile } from '../contract/shopFile.ts';
import {
  exportShop,
  lookAtShopFile,
  type ShopFile,
  takeShopFile,
  withShopFile,
} from '../work/shopFile.ts';
import { spool } from '../work/spool.ts';
import { piecesFrom } from '../written.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

/** All that such an archive can be. It lies on the disk meanwhile, not in memory. */
const MOST_BYTES = 4 * 1024 ** 3;

export function serveShopFile(api: Api, record: PullbookRecord, version: string): void {
  const reading = async <T>(
    body: ReadableStream<Uint8Array> | null,
    name: string,
    work: (given: ShopFile) => Promise<T>,
  ) => {
    const spooled = await spool(body, {
      folder: record.folder,
      fileName: name,
      maxBytes: MOST_BYTES,
    });
    try {
      return await withShopFile(spooled.source, name, work);
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
    const { name } = c.req.valid('query');
    const look = await reading(c.req.raw.body, name, (given) => lookAtShopFile(record, given));
    return c.json(look as never, 200);
  });
  api.openapi(shopFile.take, async (c) => {
    const { name } = c.req.valid('query');
    const change = changeOf(c);
    const taken = await reading(c.req.raw.body, name, (given) =>
      takeShopFile(record, given, change),
    );
    return c.json(taken, 201);
  });
}
