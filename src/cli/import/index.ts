import { basename, resolve } from 'node:path';
import { UsageError } from '../../errors.ts';
import { openRecord, type Pull, type TestDay } from '../../record/index.ts';
import { type RefusedObject, refusedObject } from '../../report/index.ts';
import { calibrationOn } from '../../service/work/calibrations.ts';
import { Readings } from '../../service/work/readings.ts';
import { recordFolder } from '../folder.ts';
import { type CommandIo, EXIT, jsonLine, plain } from '../io.ts';
import { Progress } from '../progress.ts';
import { showRefusal } from '../show/look.ts';
import { wrapped } from '../table.ts';
import { type PlaceNames, placeFor } from './places.ts';
import { type Into, importRunFile } from './runFile.ts';
import {
  importTyped,
  laddersOfLambda,
  laddersOfParts,
  pullFields,
  readSessionFile,
  type SessionFile,
} from './session.ts';

export interface ImportFlags {
  readonly json?: boolean;
  readonly data?: string;
  readonly engine?: string;
  readonly build?: string;
  readonly day?: string;
  readonly cell: string;
}

/** What became of one file, as `pullbook import --json` prints it. */
interface ImportedObject {
  readonly file: string;
  readonly ok: true;
  /** These very bytes were in the record: nothing was stored, `pulls` are those that have them. */
  readonly duplicate: boolean;
  readonly sha256: string | null;
  readonly day: { readonly id: string; readonly name: string };
  readonly pulls: readonly { readonly id: string; readonly leadDeg: number | null }[];
  /** What the day should be known with, such as a cell past its calibration. */
  readonly remarks: readonly string[];
}

/** `pullbook import`: each file in a transaction of its own; a refused one makes the exit code 1. */
export async function importFiles(
  files: readonly string[],
  flags: ImportFlags,
  io: CommandIo,
): Promise<number> {
  if (flags.engine === undefined && !files.every(isSession))
    throw new UsageError('--engine is missing: run files do not say to which engine they belong');
  const record = await openRecord(recordFolder(flags.data, io));
  const progress = new Progress(io);
  let refused = false;
  // Files of one day say the same of its cell: a person hears it once.
  const said = new Set<string>();
  const say = (answer: ImportedObject | RefusedObject) => {
    progress.clear();
    refused ||= !answer.ok;
    if (flags.json) io.out(jsonLine(answer));
    else if (answer.ok) {
      const fresh = answer.remarks.filter((remark) => !said.has(remark));
      for (const remark of fresh) said.add(remark);
      io.out(showImported({ ...answer, remarks: fresh }, io.columns));
    } else io.err(showRefusal(answer));
  };
  const into: Into = {
    record,
    readings: new Readings(record),
    change: { who: 'pullbook import' },
    signal: io.signal,
    onShare: () => {},
  };
  try {
    for (const [index, file] of files.entries()) {
      progress.file(file, index, files.length);
      try {
        if (isSession(file)) await importSession(file, flags, io, into, progress, say);
        else say(await importRun(file, flags, io, into));
      } catch (error) {
        if (io.signal.aborted) throw error;
        say(refusedObject(file, error));
      }
    }
  } finally {
    await record.close();
  }
  return refused ? EXIT.refused : EXIT.done;
}

const isSession = (file: string) => /\.json$/i.test(file);

async function importRun(
  file: string,
  flags: ImportFlags,
  io: CommandIo,
  into: Into,
): Promise<ImportedObject> {
  const day = await placeFor(into.record, namesOf(flags, null), null, into.change);
  const imported = await importRunFile(resolve(io.cwd, file), file, day.id, into);
  return importedObject(file, day, imported.pulls, imported, await remarksOf(into, day));
}

async function importSession(
  file: string,
  flags: ImportFlags,
  io: CommandIo,
  into: Into,
  progress: Progress,
  say: (answer: ImportedObject | RefusedObject) => void,
): Promise<void> {
  const sessionFile = await readSessionFile(resolve(io.cwd, file), file);
  const { session, runs, typed } = sessionFile;
  const day = await placeFor(into.record, namesOf(flags, sessionFile), session, into.change);
  const remarks = await remarksOf(into, day);
  for (const [index, run] of runs.entries()) {
    progress.part(`${file}: ${run.shownName}`, index, runs.length);
    try {
      const imported = await importRunFile(run.path, run.shownName, day.id, into);
      // What stands in the record of a known file may have been corrected there since: it is left alone.
      const pulls = imported.duplicate
        ? imported.pulls
        : await into.record.pulls.updateMany(
            imported.pulls.map(({ id }) => ({ id, patch: pullFields(run.pull, run.order) })),
            { ...into.change, summary: `what ${basename(file)} says of ${imported.fileName}` },
          );
      say(importedObject(run.shownName, day, pulls, imported, remarks));
    } catch (error) {
      if (io.signal.aborted) throw error;
      say(refusedObject(run.shownName, error));
    }
  }
  if (typed.length > 0) {
    const pulls = await importTyped(into.record, day.id, sessionFile, into.change);
    say(importedObject(file, day, pulls, null, remarks));
  }
  await laddersOfParts(into.record, day.id, session, into.change);
  await laddersOfLambda(into.record, day.id, session, into.change);
}

function namesOf(flags: ImportFlags, file: SessionFile | null): PlaceNames {
  return {
    engine: flags.engine ?? file!.session.engine.name,
    build: flags.build,
    cell: flags.cell,
    day: flags.day ?? file?.day ?? today(),
  };
}

/** The date where the command runs: what a shop calls today. */
function today(): string {
  const now = new Date();
  const two = (figure: number) => String(figure).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function importedObject(
  file: string,
  day: TestDay,
  pulls: readonly Pull[],
  imported: { readonly duplicate: boolean; readonly recording: { readonly sha256: string } } | null,
  remarks: readonly string[],
): ImportedObject {
  return {
    file,
    ok: true,
    duplicate: imported?.duplicate ?? false,
    sha256: imported?.recording.sha256 ?? null,
    day: { id: day.id, name: day.name },
    pulls: pulls.map(({ id, leadDeg }) => ({ id, leadDeg })),
    remarks,
  };
}

/** How the calibrations of the day's cell stand on it, where that is worth a word. */
async function remarksOf({ record }: Into, day: TestDay): Promise<readonly string[]> {
  const { state } = await calibrationOn(record, await record.cells.get(day.cellId), day.date);
  return state.remarks.map(({ sentence }) => sentence);
}

function showImported(
  { file, duplicate, day, pulls, remarks }: ImportedObject,
  columns: number,
): string {
  const count = pulls.length === 1 ? '1 pull' : `${pulls.length} pulls`;
  const leads = pulls.map(({ leadDeg }) => (leadDeg === null ? 'no lead yet' : `${leadDeg} deg`));
  const what = duplicate ? 'known already, nothing was stored' : `into "${day.name}"`;
  return [
    `${plain(file)}: ${count} (${leads.join(', ')}) ${plain(what)}\n`,
    ...remarks.map((remark) => wrapped(`note: ${plain(remark)}`, columns, '  ')),
  ].join('');
}
