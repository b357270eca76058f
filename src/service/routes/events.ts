/** The list of changes, undo and redo. */
import type { PullbookRecord } from '../../record/index.ts';
import * as contract from '../contract/work.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

export function serveEvents(api: Api, { events }: PullbookRecord): void {
  api.openapi(contract.listEvents, async (c) => {
    const { before, limit } = c.req.valid('query');
    return c.json(await events.list({ limit, ...(before === undefined ? {} : { before }) }), 200);
  });
  api.openapi(contract.getEvent, async (c) =>
    c.json(await events.get(c.req.valid('param').event), 200),
  );
  api.openapi(contract.undoEvent, async (c) =>
    c.json(await events.undo(c.req.valid('param').event, changeOf(c)), 200),
  );
  api.openapi(contract.redoEvent, async (c) =>
    c.json(await events.redo(c.req.valid('param').event, changeOf(c)), 200),
  );
  api.openapi(contract.undo, async (c) => c.json(await events.undo(undefined, changeOf(c)), 200));
  api.openapi(contract.redo, async (c) => c.json(await events.redo(undefined, changeOf(c)), 200));
}
