/** Routes of the build sheet: each is one call of the record, or of the room that computes what follows. */
import { answerSheet } from '../../build/index.ts';
import type { PullbookRecord } from '../../record/index.ts';
import { sheets } from '../contract/sheets.ts';
import { RequestRefused } from '../errors.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

export function serveSheets(api: Api, record: PullbookRecord): void {
  api.openapi(sheets.get, async (c) =>
    c.json((await record.sheets.get(c.req.valid('param').id)) as never, 200),
  );
  api.openapi(sheets.put, async (c) => {
    const { version, sheet } = c.req.valid('json');
    const { id } = c.req.valid('param');
    const kept = await record.sheets.save(id, sheet as never, version, changeOf(c));
    return c.json(kept as never, 200);
  });
  api.openapi(sheets.answer, async (c) => {
    const { sheet } = await record.sheets.get(c.req.valid('param').id);
    if (sheet === null)
      throw new RequestRefused(404, 'input', 'This build has no sheet yet; keep one first.');
    const { windows } = await record.shop.get();
    return c.json(answerSheet(sheet, windows) as never, 200);
  });
  api.openapi(sheets.copy, async (c) => {
    const { name, changed } = c.req.valid('json');
    const { id } = c.req.valid('param');
    return c.json(await record.sheets.startBuild(id, { name, changed }, changeOf(c)), 201);
  });
}
