/** The route of the tables of a day. */

import type { PullbookRecord } from '../../record/index.ts';
import { dayCurvesTable, dayPullsTable } from '../../report/index.ts';
import { dayTables } from '../contract/dayTables.ts';
import { contextOf } from '../work/context.ts';
import type { Curves } from '../work/curves.ts';
import { tableFile } from '../work/tableFile.ts';
import type { Api } from './api.ts';

export function serveDayTables(api: Api, record: PullbookRecord, curves: Curves): void {
  api.openapi(dayTables.get, async (c) => {
    const { id, table } = c.req.valid('param');
    const { as, standard } = c.req.valid('query');
    const { engine, build, day } = await contextOf(record, id);
    const of = {
      engine: engine.name,
      build: build.name,
      day,
      pulls: await record.pulls.list({ dayId: id }),
      curves: (await curves.ofDay(id, { standard })).map(({ curve }) => curve),
    };
    const made = table === 'pulls' ? dayPullsTable(of) : dayCurvesTable(of);
    const { bytes, type } = await tableFile(made, as, [
      ['Shop', (await record.shop.get()).name],
      ['Engine', engine.name],
      ['Build', build.name],
      ['Test day', [day.name, day.date].filter(Boolean).join(', ')],
      ['Air standard', standard ?? day.standard ?? 'each pull as it says'],
      ['Made', new Date().toISOString()],
    ]);
    return new Response(bytes as Uint8Array<ArrayBuffer>, {
      headers: {
        'content-type': type,
        'content-disposition': `attachment; filename="${table}-${day.date ?? 'day'}.${as}"`,
      },
    }) as never;
  });
}
