import { createHash } from 'node:crypto';
import { FormatError } from '../errors.ts';
import type { Recording } from '../pull/recording.ts';
import { type Draft, draftChannels } from './channels.ts';
import { doubts } from './checks.ts';
import { deriveChannels } from './derive.ts';
import { quoted, shown } from './display.ts';
import { isParquet, isZip } from './encoding.ts';
import { kindOf, refuseConstantSpeed, refuseOtherFiles, refuseOtherThanDrive } from './kind.ts';
import { basisQuestions, dayOrderQuestion, pressureQuestions } from './questions.ts';
import { openSource, type RunSource } from './source.ts';
import { readSpreadsheet } from './spreadsheet.ts';
import { readText } from './text.ts';
import type { FileShape, RawTable, ReadOptions, RunFile } from './types.ts';
import { UnknownColumnsError } from './unknownColumns.ts';

/**
 * Reads a run file: delimited text, .xlsx or Parquet, told apart by their bytes.
 *
 * @param source   a path, the bytes, or bytes as they arrive; text is read in one pass, whatever its length
 * @returns        channels in inside units, warnings, and the questions that the file leaves open
 * @throws FormatError  the file is no run file or is broken: file, line, column, what stands there, what was expected
 * @throws InputError   there is no such file
 * @throws DOMException `AbortError` when `options.signal` says so
 */
export async function readRunFile(source: RunSource, options: ReadOptions): Promise<RunFile> {
  const named = { ...options, fileName: shown(options.fileName, 200) };
  const opened = await openSource(source, named.fileName);
  try {
    let table: RawTable;
    if (isParquet(opened.head)) {
      // Loaded for such a file and not before, with the packages that it stands on.
      const { readParquet } = await import('./parquet.ts');
      table = await readParquet(opened, typeof source === 'string' ? source : null, named);
    } else if (isZip(opened.head)) table = await readSpreadsheet(opened, named);
    else table = await readText(opened, named);
    return interpret(table, named);
  } finally {
    await opened.close();
  }
}

function interpret(table: RawTable, options: ReadOptions): RunFile {
  const { drafts, warnings, questions } = draftChannels(table, options);
  const channels = deriveChannels(drafts, options, warnings, questions);
  const shape = shapeOf(table);
  try {
    if (options.isDrive) refuseOtherThanDrive(table, channels, options.fileName);
    else refuseOtherFiles(table, channels, options.fileName, misfitsOf(drafts));
  } catch (error) {
    throw error instanceof FormatError ? new UnknownColumnsError(error, shape, channels) : error;
  }
  const speed = channels.find((channel) => channel.quantity === 'speed')!;
  refuseConstantSpeed(table, speed, options.fileName);
  const kind = kindOf(channels);
  if (kind === 'time series' && !channels.some((channel) => channel.quantity === 'time'))
    warnings.push(
      'The file has no time: inertia and sensor lag cannot be taken out, and rows are taken in the order they stand.',
    );
  const recording: Recording = {
    kind,
    rows: table.rows,
    channels,
    lineOfRow: table.lineOfRow,
    warnings: [...table.warnings, ...warnings, ...doubts(channels, table.lineOfRow)],
  };
  return {
    recording,
    shape,
    questions: [
      ...questions,
      ...basisQuestions(drafts, options),
      ...pressureQuestions(drafts),
      ...(table.dayMonthOpen ? [dayOrderQuestion()] : []),
    ],
    notes: table.notes,
  };
}

function misfitsOf(drafts: readonly Draft[]): string[] {
  return drafts
    .filter(({ reading }) => ['speed', 'torque', 'power'].includes(reading.misfit ?? ''))
    .slice(0, 3)
    .map(
      ({ header, reading }) =>
        `${quoted(header)} has a unit that is none of ${reading.misfit === 'speed' ? 'engine speed' : reading.misfit}`,
    );
}

function shapeOf(table: RawTable): FileShape {
  const { format, delimiter, headers, unitRow } = table;
  const fingerprint = createHash('sha256')
    .update(JSON.stringify([format, delimiter, headers, unitRow]))
    .digest('hex');
  return { fingerprint, format, delimiter, headers };
}
