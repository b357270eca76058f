/** Curves, traces and ladder answers. */
import { InputError } from '../../errors.ts';
import { speedTableCsv } from '../../ladder/two/index.ts';
import type { PullbookRecord } from '../../record/index.ts';
import * as contract from '../contract/work.ts';
import { bothTable, readBoth } from '../work/both.ts';
import { type CurveWish, contextOf, engineSetup } from '../work/context.ts';
import type { Curves } from '../work/curves.ts';
import { readLadder } from '../work/ladders.ts';
import type { Readings } from '../work/readings.ts';
import { replayOfOnePull } from '../work/replays.ts';
import { tableFile } from '../work/tableFile.ts';
import { traceOf } from '../work/traces.ts';
import type { Api } from './api.ts';

export function serveCurves(
  api: Api,
  record: PullbookRecord,
  readings: Readings,
  curves: Curves,
): void {
  const wishOf = (query: {
    standard?: CurveWish['standard'];
    correctBoosted?: string | undefined;
  }) => ({
    standard: query.standard,
    correctBoosted: query.correctBoosted === 'true',
  });
  api.openapi(contract.getCurve, async (c) =>
    c.json(await curves.ofPull(c.req.valid('param').id, wishOf(c.req.valid('query'))), 200),
  );
  api.openapi(contract.getDayCurves, async (c) =>
    c.json(await curves.ofDay(c.req.valid('param').id, wishOf(c.req.valid('query'))), 200),
  );
  api.openapi(contract.getLadderReading, async (c) =>
    c.json(
      await readLadder(record, curves, c.req.valid('param').id, wishOf(c.req.valid('query'))),
      200,
    ),
  );
  api.openapi(contract.getBoth, async (c) =>
    c.json(
      await readBoth(record, curves, c.req.valid('param').id, wishOf(c.req.valid('query'))),
      200,
    ),
  );
  api.openapi(contract.getBothTable, async (c) => {
    const { use, as, ...wish } = c.req.valid('query');
    const reading = await readBoth(record, curves, c.req.valid('param').id, wishOf(wish));
    const { engine, build, day } = await contextOf(record, reading.dayId);
    const about = [
      ['Engine', engine.name],
      ['Build', build.name],
      ['Test day', [day.name, day.date].filter(Boolean).join(', ')],
      ['Air standard', reading.standard],
      ['For', use],
      ['Made', new Date().toISOString()],
    ] as const;
    const file = await tableFile(bothTable(reading, use), as, about, speedTableCsv);
    return c.body(file.bytes, 200, {
      'content-type': file.type,
      'content-disposition': `attachment; filename="lead-and-lambda.${as}"`,
    }) as never;
  });
  api.openapi(contract.getPullReplay, async (c) => {
    const { beside, ...wish } = c.req.valid('query');
    const { id } = c.req.valid('param');
    const replay = await replayOfOnePull(record, readings, curves, id, beside ?? null, wish);
    return c.json(replay as never, 200);
  });
  api.openapi(contract.getTrace, async (c) => {
    const pull = await record.pulls.get(c.req.valid('param').id);
    const { points, whole, fromRow, toRow } = c.req.valid('query');
    const stored =
      pull.recordingSha256 === null ? null : await record.recordings.find(pull.recordingSha256);
    if (stored === null) {
      throw new InputError('This pull was typed by hand; it has no recording to draw.');
    }
    const context = await contextOf(record, pull.dayId);
    const told = await readings.toldFor(stored, context.cell, engineSetup(context).fuel);
    const { recording } = (await readings.stored(stored, told)).run;
    const all = whole === 'true' || pull.span === null;
    const first = Math.max(fromRow ?? 0, all ? 0 : pull.span!.firstRow);
    const last = Math.min(
      toRow ?? recording.rows - 1,
      all ? recording.rows - 1 : pull.span!.lastRow,
      recording.rows - 1,
    );
    if (first > last) {
      throw new InputError('There are no rows of this pull between these two.', {
        found: `${fromRow ?? 0} to ${toRow ?? recording.rows - 1}`,
        expected: `rows of 0 to ${recording.rows - 1}, the first before the last`,
      });
    }
    return c.json(traceOf(pull.id, recording, pull.span, first, last, points), 200);
  });
}
