/** Routes of parts that move between engines: what the sheets name, put together by the room of the sheet. */
import { partHistory } from '../../build/index.ts';
import type { PullbookRecord } from '../../record/index.ts';
import { parts } from '../contract/partHistory.ts';
import type { Api } from './api.ts';

export function serveParts(api: Api, record: PullbookRecord): void {
  api.openapi(parts.list, async (c) => c.json(await record.sheets.serials(), 200));
  api.openapi(parts.history, async (c) => {
    const { serial } = c.req.valid('query');
    const homes = (await record.sheets.withSerial(serial)).map((home) => ({
      engine: home.engineName,
      build: home.buildName,
      sheet: home.sheet,
      testedOn: home.days.find(({ date }) => date !== null)?.date ?? null,
      home,
    }));
    const stays = partHistory(serial, homes).map(({ of: { home }, ...stay }) => ({
      engineId: home.engineId,
      buildId: home.buildId,
      days: home.days,
      stay,
    }));
    return c.json({ serial, stays } as never, 200);
  });
}
