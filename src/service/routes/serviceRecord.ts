/** The route of the service record. */
import type { PullbookRecord } from '../../record/index.ts';
import { serviceEvents, serviceReadings, serviceRecord } from '../contract/serviceRecord.ts';
import type { Curves } from '../work/curves.ts';
import { serviceRecordOf } from '../work/serviceRecord.ts';
import type { Api } from './api.ts';
import { serveShelf } from './shelves.ts';

export function serveServiceRecord(api: Api, record: PullbookRecord, curves: Curves): void {
  api.openapi(serviceRecord.get, async (c) => {
    const { on, units } = c.req.valid('query');
    const told = await serviceRecordOf(record, curves, c.req.valid('param').id, {
      on: on ?? new Date().toISOString().slice(0, 10),
      units: units ?? (await record.shop.get()).units,
    });
    return c.json(told as never, 200);
  });
  serveShelf(api, serviceEvents, record.serviceEvents, 'engineId', {
    create: (fresh, change = {}) =>
      record.serviceEvents.create({ ...fresh, who: change.who ?? '' }, change),
  });
  serveShelf(api, serviceReadings, record.serviceReadings, 'engineId', {
    create: (fresh, change = {}) =>
      record.serviceReadings.create({ ...fresh, who: change.who ?? '' }, change),
  });
}
