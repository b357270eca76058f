import { stat, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { InputError } from '../errors.ts';
import type { SessionSetting } from '../intake/index.ts';
import { speedTableCsv } from '../ladder/two/index.ts';
import {
  type DayWork,
  type LadderObject,
  type LoadAnswer,
  ladderObject,
  NO_BAND_RPM,
  refusedSession,
  twoObject,
  twoTable,
  workSession,
} from '../report/index.ts';
import type { AirStandard } from '../trade/index.ts';
import { parquetOf } from '../units/export/parquet.ts';
import { xlsxOf } from '../units/export/xlsx.ts';
import type { UnitSystem } from '../units/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showLadder } from './show/ladder.ts';
import { showRefusal } from './show/look.ts';
import { showTwo } from './show/two.ts';

export interface LadderFlags {
  readonly json?: boolean;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly units: UnitSystem;
  readonly setting?: SessionSetting;
  /** Where the table of lead and lambda by speed goes. */
  readonly table?: string;
  /** Whose table it is. */
  readonly use?: string;
}

/**
 * `pullbook ladder`: one answer a session, in the order given; a refused one makes the exit code 1. With
 * `--setting both` (or a session that says so) lead and lambda at once; `--table` writes their table by speed.
 */
export async function ladder(
  sessions: readonly string[],
  flags: LadderFlags,
  io: CommandIo,
): Promise<number> {
  let refused = false;
  if (flags.table !== undefined && sessions.length > 1)
    throw new InputError('--table takes one session: each would write over the last.');
  if (flags.table !== undefined && flags.setting !== undefined && flags.setting !== 'both')
    throw new InputError(
      `--table holds lead and lambda by speed; it does not go with --setting ${flags.setting}.`,
    );
  const setting = flags.setting ?? (flags.table === undefined ? undefined : 'both');
  const progress = new Progress(io);
  for (const [index, given] of sessions.entries()) {
    const session = await sessionFileOf(given, io);
    progress.file(session, index, sessions.length);
    try {
      const work = await workSession(resolve(io.cwd, session), {
        name: session,
        ...(flags.standard === undefined ? {} : { standard: flags.standard }),
        ...(flags.correctBoosted ? { correctBoosted: true } : {}),
        ...(setting === undefined ? {} : { setting }),
        signal: io.signal,
        onFile: (file, at, count) => progress.part(`${session}: ${file}`, at, count),
      });
      progress.clear();
      if (work.wantsBoth) {
        const answers = work.both();
        const both = twoObject(session, work, answers);
        io.out(flags.json ? jsonLine(both) : showTwo(both, flags.units, io.columns));
        if (flags.table !== undefined) await writeTable(flags.table, flags.use, work, answers, io);
        continue;
      }
      const object = objectOf(session, work);
      io.out(flags.json ? jsonLine(object) : showLadder(object, flags.units, io.columns));
    } catch (error) {
      if (io.signal.aborted) throw error;
      progress.clear();
      refused = true;
      const object = refusedSession(session, error);
      if (flags.json) io.out(jsonLine(object));
      else
        io.err(
          showRefusal({
            file: placeIn(session, object.error.file),
            ok: false,
            error: object.error,
          }),
        );
    }
  }
  return refused ? EXIT.refused : EXIT.done;
}

/**
 * Writes the table of one use: the one asked for, else the session's, else the first.
 * @throws InputError  no such use, or no table is known for it yet
 */
async function writeTable(
  path: string,
  asked: string | undefined,
  work: DayWork,
  answers: readonly LoadAnswer[],
  io: CommandIo,
): Promise<void> {
  const tables = answers.flatMap(({ answer }) => answer.tables);
  const use = asked ?? work.session.use ?? tables[0]?.use ?? '';
  const table = tables.find((one) => one.use === use);
  if (table === undefined) {
    const known = [...new Set(tables.map((one) => one.use))].join(', ');
    throw new InputError(`"${use}" is not a use that is known; expected ${known}.`);
  }
  const made = twoTable(answers, use, work.session.engine.fuel);
  if (made === null) throw new InputError(`No table for ${use} was written: ${table.why}`);
  await writeFile(
    resolve(io.cwd, path),
    /\.xlsx$/i.test(path)
      ? await xlsxOf(made, [
          ['Engine', work.session.engine.name ?? 'not named'],
          ['For', use],
          ['Air standard', work.standard],
          ['Made', new Date().toISOString()],
        ])
      : /\.parquet$/i.test(path)
        ? parquetOf(made, [['For', use]])
        : speedTableCsv(made),
  );
  io.err(`the table for ${use} is in ${path}\n`);
}

/** A folder stands for the session file in it. */
async function sessionFileOf(given: string, io: CommandIo): Promise<string> {
  const found = await stat(resolve(io.cwd, given)).catch(() => null);
  return found?.isDirectory() ? join(given, 'session.json') : given;
}

/** A run file that stopped a session is named with it. */
const placeIn = (session: string, file: string | null): string =>
  file === null || file === session ? session : `${session}: ${file}`;

function objectOf(session: string, work: DayWork): LadderObject {
  return ladderObject({
    session,
    setting: work.input.kind.name,
    unit: work.input.kind.unit,
    standard: work.standard,
    bandRpm: work.input.bandRpm === NO_BAND_RPM ? null : work.input.bandRpm,
    answer: work.answer,
    pulls: work.pulls,
    warnings: work.warnings,
    fuel: work.session.engine.fuel,
  });
}
