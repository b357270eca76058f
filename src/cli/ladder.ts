import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import {
  type DayWork,
  type LadderObject,
  ladderObject,
  NO_BAND_RPM,
  refusedSession,
  workSession,
} from '../report/index.ts';
import type { AirStandard } from '../trade/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showLadder } from './show/ladder.ts';
import { showRefusal } from './show/look.ts';

export interface LadderFlags {
  readonly json?: boolean;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly units: UnitSystem;
}

/** `pullbook ladder`: one answer a session, in the order given; a refused one makes the exit code 1. */
export async function ladder(
  sessions: readonly string[],
  flags: LadderFlags,
  io: CommandIo,
): Promise<number> {
  let refused = false;
  const progress = new Progress(io);
  for (const [index, given] of sessions.entries()) {
    const session = await sessionFileOf(given, io);
    progress.file(session, index, sessions.length);
    try {
      const work = await workSession(resolve(io.cwd, session), {
        name: session,
        ...(flags.standard === undefined ? {} : { standard: flags.standard }),
        ...(flags.correctBoosted ? { correctBoosted: true } : {}),
        signal: io.signal,
        onFile: (file, at, count) => progress.part(`${session}: ${file}`, at, count),
      });
      progress.clear();
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
  });
}
