/** The route of the service record. */
import type { PullbookRecord } from '../../record/index.ts';
import { serviceRecord } from '../contract/serviceRecord.ts';
import type { Curves } from '../work/curves.ts';
import { serviceRecordOf } from '../work/serviceRecord.ts';
import type { Api } from './api.ts';

export function serveServiceRecord(api: Api, record: PullbookRecord, curves: Curves): void {
  api.openapi(serviceRecord.get, async (c) => {
    const { on, units } = c.req.valid('query');
    const told = await serviceRecordOf(record, curves, c.req.valid('param').id, {
      on: on ?? new Date().toISOString().slice(0, 10),
      units: units ?? (await record.shop.get()).units,
    });
    return c.json(told as never, 200);
  });
}
