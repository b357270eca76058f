/** The whole HTTP side of one open record, testable in process. */
import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import type { PullbookRecord } from '../record/index.ts';
import { API_BASE } from './contract/document.ts';
import { answerError, RequestRefused } from './errors.ts';
import { guard, safeHeaders } from './guard.ts';
import { makeApi } from './routes/api.ts';
import { serveCalibrations } from './routes/calibrations.ts';
import { serveCompare, servePartTests } from './routes/compare.ts';
import { serveCurves } from './routes/curves.ts';
import { serveDayTables } from './routes/dayTables.ts';
import { serveEvents } from './routes/events.ts';
import { serveFiles } from './routes/files.ts';
import { serveHandOvers } from './routes/handOvers.ts';
import { serveParts } from './routes/partHistory.ts';
import { serveRecordings } from './routes/recordings.ts';
import { serveSearch } from './routes/search.ts';
import { serveServiceRecord } from './routes/serviceRecord.ts';
import { serveSheetFiles } from './routes/sheetFiles.ts';
import { servePlans, serveSheets } from './routes/sheets.ts';
import { serveShelves } from './routes/shelves.ts';
import { serveShopFile } from './routes/shopFile.ts';
import { serveUses } from './routes/uses.ts';
import { serveWhole } from './routes/whole.ts';
import { readWebFiles, serveWeb } from './webFiles.ts';
import { Curves } from './work/curves.ts';
import { Readings } from './work/readings.ts';

export interface AppOptions {
  /** Port it will be addressed at. */
  readonly port: () => number;
  readonly names?: readonly string[];
  /** Folder of the built browser side; null: only the interface. */
  readonly webRoot?: string | null;
  readonly version?: string;
  /** Largest run file taken [bytes]. */
  readonly maxUploadBytes?: number;
  /** Where faults of ours are reported; the answer never shows them. */
  readonly report?: (error: unknown) => void;
}

/** A request that is no file is small: a pasted table of a thousand pulls has some 100 kB. */
const MAX_JSON_BYTES = 2 * 1024 * 1024;

/** A cell's longest recordings run to some gigabytes; what is larger is no run file. */
const MAX_UPLOAD_BYTES = 4 * 1024 ** 3;

export function createApp(record: PullbookRecord, options: AppOptions): Hono {
  const report = options.report ?? ((error) => console.error(error));
  const app = new Hono();
  app.onError((error, c) => answerError(error, c, report));
  app.use(safeHeaders());
  app.use(guard({ port: options.port, names: options.names ?? [] }));

  const api = makeApi();
  const jsonLimit = bodyLimit({
    maxSize: MAX_JSON_BYTES,
    onError: () => {
      throw new RequestRefused(413, 'too-large', 'This request is larger than any form of ours.', {
        expected: `at most ${MAX_JSON_BYTES} bytes`,
      });
    },
  });
  api.use(async (c, next) =>
    // Files have limits of their own, counted while they stream in.
    c.req.method === 'POST' &&
    /\/(recordings|look|files|sheet\/read|verify|from-log|take|take\/look)$/.test(c.req.path)
      ? next()
      : jsonLimit(c, next),
  );
  const readings = new Readings(record);
  const curves = new Curves(record, readings);
  serveShelves(api, record, readings, curves);
  serveSheets(api, record);
  serveSheetFiles(api, record);
  servePlans(api, record);
  serveFiles(api, record);
  serveCompare(api, record, curves);
  servePartTests(api, record, curves);
  serveUses(api, record, curves);
  serveCalibrations(api, record);
  serveParts(api, record);
  serveSearch(api, record, curves, report);
  serveCurves(api, record, readings, curves);
  serveRecordings(api, record, readings, {
    maxBytes: options.maxUploadBytes ?? MAX_UPLOAD_BYTES,
    report,
  });
  serveHandOvers(api, record, readings, options.version ?? '0');
  serveDayTables(api, record, curves);
  serveServiceRecord(api, record, curves);
  serveShopFile(api, record, options.version ?? '0');
  serveEvents(api, record);
  serveWhole(api, record, options.version ?? '0');
  app.route(API_BASE, api);

  app.use(serveWeb(readWebFiles(options.webRoot ?? null)));
  app.notFound((c) =>
    c.json(
      { error: { code: 'not-found', message: `There is nothing at ${c.req.path.slice(0, 200)}.` } },
      404,
    ),
  );
  return app;
}
