/** One run file into the record: received, looked up, read, its pulls found, stored in one transaction. */
import { FormatError } from '../../errors.ts';
import { findPulls, type PullSpan, type Recording } from '../../pull/index.ts';
import type { Change, Id, Imported, NewPull, PullbookRecord } from '../../record/index.ts';
import { contextOf, engineSetup } from './context.ts';
import type { Reading, Readings } from './readings.ts';
import type { Spool } from './spool.ts';
import { type Understood, understoodOf } from './understood.ts';

export interface ImportedFile extends Imported {
  readonly fileName: string;
  readonly understood: Understood | null;
}
type ImportStage = 'reading' | 'finding pulls' | 'storing';

export interface ImportWatch {
  readonly signal?: AbortSignal;
  readonly onStage?: (stage: ImportStage, share: number | null) => void;
}

/**
 * Nothing is stored of a file that is refused, or whose import is cancelled before it is stored.
 * @throws FormatError, InputError when it is no run file, or no pull is in it; AbortError when cancelled
 */
export async function importFile(
  record: PullbookRecord,
  readings: Readings,
  dayId: Id,
  fileName: string,
  spooled: Pick<Spool, 'sha256' | 'file' | 'source'>,
  change: Change = {},
  { signal, onStage }: ImportWatch = {},
): Promise<ImportedFile> {
  const context = await contextOf(record, dayId);
  const [known, standing] = await Promise.all([
    record.recordings.find(spooled.sha256),
    record.recordings.pulls(spooled.sha256),
  ]);
  if (known !== null && standing.length > 0) {
    return { fileName, recording: known, pulls: standing, duplicate: true, understood: null };
  }
  onStage?.('reading', 0);
  const reading = await readings.fresh(
    () => spooled.source,
    fileName,
    context.cell,
    engineSetup(context).fuel,
    {
      ...(signal === undefined ? {} : { signal }),
      onProgress: (done, total) => onStage?.('reading', total === null ? null : done / total),
    },
  );
  signal?.throwIfAborted();
  onStage?.('finding pulls', null);
  const spans = pullsIn(reading, fileName);
  signal?.throwIfAborted();
  onStage?.('storing', null);
  const { recording, shape } = reading.run;
  const imported = await record.recordings.import(
    {
      dayId,
      fileName,
      bytes: spooled.file,
      kind: recording.kind,
      rows: recording.rows,
      shape: shape.fingerprint,
      pulls: spans.map((span) => freshPull(recording, span)),
    },
    change,
  );
  await readings.keep(imported.recording, reading);
  return { ...imported, fileName, understood: understoodOf(fileName, reading, spans) };
}

function pullsIn(reading: Reading, fileName: string): PullSpan[] {
  const spans = findPulls(reading.run.recording);
  if (spans.length === 0) {
    throw new FormatError('There is no full-throttle pull in this file.', {
      file: fileName,
      found: `${reading.run.recording.rows} rows without a sweep or held speeds`,
      expected: 'at least one pull',
    });
  }
  return spans;
}

/** What the recording itself says of the pull: its lead, where a channel holds one steady figure. */
function freshPull(recording: Recording, span: PullSpan): Omit<NewPull, 'dayId'> {
  const lead = recording.channels.find((channel) => channel.quantity === 'lead');
  if (lead === undefined) return { span };
  const values = [...lead.values.subarray(span.firstRow, span.lastRow + 1)]
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  if (values.length === 0) return { span };
  const at = (share: number) => values[Math.floor(share * (values.length - 1))]!;
  // A lead that follows speed is no single rung; the operator says which it is.
  if (at(0.95) - at(0.05) > 1) return { span };
  return { span, leadDeg: Math.round(at(0.5) * 10) / 10 };
}
