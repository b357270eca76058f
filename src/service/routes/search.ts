/** The route of search. Peaks that nobody has computed yet are computed behind it, a day at a time. */
import type { PullbookRecord } from '../../record/index.ts';
import { search } from '../contract/search.ts';
import type { Curves } from '../work/curves.ts';
import type { Api } from './api.ts';

export function serveSearch(
  api: Api,
  record: PullbookRecord,
  curves: Curves,
  report: (error: unknown) => void,
): void {
  let isFilling = false;
  const fill = async () => {
    if (isFilling) return;
    isFilling = true;
    try {
      await computePeaks(record, curves);
    } catch (error) {
      // The book may have been closed meanwhile.
      if (!record.isClosed()) report(error);
    } finally {
      isFilling = false;
    }
  };
  api.openapi(search.ask, async (c) => {
    const { q, units, limit } = c.req.valid('query');
    const finding = await record.search(q, { units, limit });
    if ((finding.peaksNotKnown ?? 0) > 0) void fill();
    return c.json(finding, 200);
  });
}

async function computePeaks(record: PullbookRecord, curves: Curves): Promise<void> {
  for (const dayId of await record.peaks.daysWithout()) {
    if (record.isClosed() || (await record.days.find(dayId)) === null) continue;
    await curves.ofDay(dayId, {});
    // Requests come first.
    await new Promise((resolve) => setImmediate(resolve));
  }
}
