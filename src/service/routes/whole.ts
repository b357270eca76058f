/** What concerns the record or the server as a whole: health, backup, the interface's own document. */
import { createReadStream } from 'node:fs';
import { mkdtemp, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import type { PullbookRecord } from '../../record/index.ts';
import { API_PAGE_CSS, apiPage } from '../apiPage.ts';
import type { ApiDocument } from '../apiTypes.ts';
import { openApiDocument } from '../contract/document.ts';
import * as contract from '../contract/work.ts';
import type { Api } from './api.ts';

export function serveWhole(api: Api, record: PullbookRecord, version: string): void {
  api.openapi(contract.getHealth, (c) =>
    c.json({ ok: true, product: 'pullbook' as const, version, apiVersion: 1 as const }, 200),
  );
  api.openapi(contract.getBackup, async () => {
    // Beside the record, because the temporary folder of a small computer may not hold it.
    const folder = await mkdtemp(join(record.folder, 'backup-'));
    const file = join(folder, 'pullbook.sqlite');
    try {
      await record.backup(file);
      const { size } = await stat(file);
      const stream = createReadStream(file);
      stream.once('close', () => rm(folder, { recursive: true, force: true }));
      const day = new Date().toISOString().slice(0, 10);
      return new Response(Readable.toWeb(stream) as ReadableStream, {
        headers: {
          'content-type': 'application/octet-stream',
          'content-length': String(size),
          'content-disposition': `attachment; filename="pullbook-${day}.sqlite"`,
        },
      }) as never;
    } catch (error) {
      await rm(folder, { recursive: true, force: true });
      throw error;
    }
  });

  const document = openApiDocument();
  api.get('/openapi.json', (c) => c.json(document));
  const page = apiPage(document as unknown as ApiDocument & { info: { description?: string } });
  api.get('/page', (c) => c.html(page));
  api.get('/page.css', (c) => c.body(API_PAGE_CSS, 200, { 'content-type': 'text/css' }));
}
