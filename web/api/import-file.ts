import { addressOf, refusalOf, ServiceError, SILENT, signature } from './client.ts';
import type { Imported, ImportProgress, Understood } from './types.gen.ts';

/** Where one file stands on its way; `share` is null while it cannot be told. */
export interface Stage {
  readonly words: 'sending' | 'reading' | 'finding pulls' | 'storing';
  readonly share: number | null;
}

/** A file refused because its columns are not known to be a run's, with what was understood of them so far. */
export class UnknownColumns extends ServiceError {
  readonly understood: Understood;

  constructor(refusal: ServiceError, understood: Understood) {
    super(refusal.message, refusal.code, refusal.place);
    this.understood = understood;
  }
}

/** The last line of a refused file as an error. */
export function refusedBy(line: Extract<ImportProgress, { stage: 'refused' }>): ServiceError {
  const { code, message, ...place } = line.error;
  const refusal = new ServiceError(message, code, place);
  return line.understood === undefined ? refusal : new UnknownColumns(refusal, line.understood);
}

/** Takes whole lines off the answer as it grows and leaves the unfinished one for later. */
export function lineReader(take: (line: ImportProgress) => void): (text: string) => void {
  let read = 0;
  return (text) => {
    for (let end = text.indexOf('\n', read); end !== -1; end = text.indexOf('\n', read)) {
      const line = text.slice(read, end).trim();
      read = end + 1;
      if (line !== '') take(JSON.parse(line) as ImportProgress);
    }
  };
}

/**
 * Sends one run file as it is and follows it until its pulls are stored.
 * An XMLHttpRequest, since fetch tells nothing of a body on its way out.
 * @throws ServiceError  with the place in the file; `code` is `cancelled` where the signal cut it off
 */
export function importFile(
  dayId: string,
  file: File,
  onStage: (stage: Stage) => void,
  signal: AbortSignal,
): Promise<Imported> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    let result: Imported | ServiceError | null = null;
    const readLines = lineReader((line) => {
      if (line.stage === 'done') result = line.imported;
      else if (line.stage === 'refused') result = refusedBy(line);
      else if (line.stage !== 'receiving') onStage({ words: line.stage, share: line.share });
    });
    const cancelled = new ServiceError('Cancelled; nothing of this file was stored.', 'cancelled');
    const stop = () => request.abort();
    const finish = () => signal.removeEventListener('abort', stop);

    request.open('POST', addressOf('/days/{id}/recordings', { id: dayId }, { name: file.name }));
    request.setRequestHeader('accept', 'application/x-ndjson');
    request.setRequestHeader('content-type', 'application/octet-stream');
    for (const [name, value] of Object.entries(signature())) request.setRequestHeader(name, value);
    request.upload.onprogress = (event) =>
      onStage({ words: 'sending', share: event.total > 0 ? event.loaded / event.total : null });
    request.onprogress = () => {
      if (request.status < 400) readLines(request.responseText);
    };
    request.onload = () => {
      finish();
      if (request.status >= 400) return reject(refusalOf(request.status, request.responseText));
      if (request.getResponseHeader('content-type')?.includes('ndjson'))
        readLines(`${request.responseText}\n`);
      else result = JSON.parse(request.responseText) as Imported;
      if (result instanceof ServiceError) reject(result);
      else if (result === null)
        reject(new ServiceError('The service ended without saying what became of it.', 'unknown'));
      else resolve(result);
    };
    request.onerror = () => {
      finish();
      reject(new ServiceError(SILENT, 'silent'));
    };
    request.onabort = () => {
      finish();
      reject(cancelled);
    };
    if (signal.aborted) return reject(cancelled);
    signal.addEventListener('abort', stop);
    request.send(file);
  });
}
