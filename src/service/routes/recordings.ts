/** Run files in and out. */
import type { Context } from 'hono';
import { stream } from 'hono/streaming';
import { InputError } from '../../errors.ts';
import { UnknownColumnsError } from '../../intake/index.ts';
import { findPulls } from '../../pull/index.ts';
import { NotInRecordError, type PullbookRecord } from '../../record/index.ts';
import * as contract from '../contract/work.ts';
import { refusalOf } from '../errors.ts';
import { importFile } from '../work/imports.ts';
import { headerText } from '../work/mediaType.ts';
import type { Readings } from '../work/readings.ts';
import { bodyOf, spool, tooLarge } from '../work/spool.ts';
import { understoodOf, understoodSoFar } from '../work/understood.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

interface UploadOptions {
  readonly maxBytes: number;
  readonly report: (error: unknown) => void;
}

/** The day with that id; `latest` is the one that was made last, so that a logger's script need not know its id. */
async function dayMeant(record: PullbookRecord, id: string): Promise<string> {
  if (id !== 'latest') return (await record.days.get(id)).id;
  const days = await record.days.list();
  // Ids begin with the time they were made.
  const [latest] = days
    .map((day) => day.id)
    .sort()
    .reverse();
  if (latest !== undefined) return latest;
  throw new InputError('There is no test day yet; make one, then post the file again.', {
    expected: 'a test day for these pulls',
  });
}

/** What was understood, where that may help to say what the columns are. */
const soFar = (fileName: string, error: unknown) =>
  error instanceof UnknownColumnsError ? { understood: understoodSoFar(fileName, error) } : {};

function fileRefusal(c: Context, fileName: string, error: unknown) {
  if (!(error instanceof UnknownColumnsError)) throw error;
  const { status, error: refused } = refusalOf(error);
  return c.json({ error: refused, ...soFar(fileName, error) }, status);
}

export function serveRecordings(
  api: Api,
  record: PullbookRecord,
  readings: Readings,
  { maxBytes, report }: UploadOptions,
): void {
  const received = (c: Context, fileName: string, onBytes: (bytes: number) => void = () => {}) => {
    if (Number(c.req.header('content-length') ?? 0) > maxBytes) throw tooLarge(fileName, maxBytes);
    return spool(c.req.raw.body, { folder: record.folder, fileName, maxBytes, onBytes });
  };

  api.openapi(contract.importFile, async (c) => {
    const { name } = c.req.valid('query');
    const id = await dayMeant(record, c.req.valid('param').id);
    if (c.req.header('accept')?.includes('application/x-ndjson') === true) {
      return withProgress(c, id, name) as never;
    }
    const spooled = await received(c, name);
    try {
      const { signal } = c.req.raw;
      const imported = await importFile(record, readings, id, name, spooled, changeOf(c), {
        signal,
      });
      return c.json(imported as never, imported.duplicate ? 200 : 201);
    } catch (error) {
      return fileRefusal(c, name, error) as never;
    } finally {
      await spooled.release();
    }
  });

  /** Lines of progress while the file is taken; the last one is done or refused. */
  function withProgress(c: Context, dayId: string, fileName: string) {
    const change = changeOf(c);
    c.header('content-type', 'application/x-ndjson');
    return stream(c, async (out) => {
      const cancelled = new AbortController();
      out.onAbort(() => cancelled.abort());
      c.req.raw.signal.addEventListener('abort', () => cancelled.abort());
      // A line a percent is plenty; writes are not awaited, so that a slow reader does not slow the import.
      let last = '';
      const say = (line: object) => {
        const text = JSON.stringify(line);
        if (text === last) return;
        last = text;
        void out.write(`${text}\n`);
      };
      try {
        const spooled = await received(c, fileName, (bytes) => {
          const rounded = Math.floor(bytes / 1e6) * 1e6;
          say({ stage: 'receiving', fileName, bytes: rounded });
        });
        try {
          const imported = await importFile(record, readings, dayId, fileName, spooled, change, {
            signal: cancelled.signal,
            onStage: (stage, share) => {
              const rounded = share === null ? null : Math.round(share * 100) / 100;
              say({ stage, fileName, share: rounded });
            },
          });
          await out.write(`${JSON.stringify({ stage: 'done', fileName, imported })}\n`);
        } finally {
          await spooled.release();
        }
      } catch (error) {
        if (cancelled.signal.aborted) return;
        const { status, error: refused } = refusalOf(error);
        if (status >= 500) report(error);
        const line = { stage: 'refused', fileName, error: refused, ...soFar(fileName, error) };
        await out.write(`${JSON.stringify(line)}\n`);
      }
    });
  }

  api.openapi(contract.lookAtFile, async (c) => {
    const cell = await record.cells.get(c.req.valid('param').id);
    const { name } = c.req.valid('query');
    const spooled = await received(c, name);
    try {
      const { signal } = c.req.raw;
      const reading = await readings.fresh(() => spooled.source, name, cell, null, { signal });
      const spans = findPulls(reading.run.recording);
      return c.json(understoodOf(name, reading, spans) as never, 200);
    } catch (error) {
      return fileRefusal(c, name, error) as never;
    } finally {
      await spooled.release();
    }
  });

  const find = async (sha256: string) => {
    const recording = await record.recordings.find(sha256);
    if (recording === null) throw new NotInRecordError('recording', sha256.slice(0, 64));
    return recording;
  };
  api.openapi(contract.getRecording, async (c) =>
    c.json(await find(c.req.valid('param').sha256), 200),
  );
  api.openapi(contract.getUnderstood, async (c) => {
    const recording = await find(c.req.valid('param').sha256);
    const { cellId } = c.req.valid('query');
    const cell = cellId === undefined ? null : await record.cells.get(cellId);
    const told = await readings.toldFor(recording, cell, null);
    const reading = await readings.stored(recording, told);
    const spans = findPulls(reading.run.recording);
    return c.json(understoodOf(recording.fileName, reading, spans) as never, 200);
  });
  api.openapi(contract.getRecordingBytes, async (c) => {
    const recording = await find(c.req.valid('param').sha256);
    return new Response(bodyOf(record.recordings.pieces(recording.sha256)), {
      headers: {
        'content-type': 'application/octet-stream',
        'content-disposition': `attachment; filename*=UTF-8''${headerText(recording.fileName)}`,
      },
    }) as never;
  });
}
