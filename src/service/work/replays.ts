/** Curves in the time of their pulls, as the recordings in the record have it. */
import { InputError } from '../../errors.ts';
import type { ReplayWanted } from '../../figures.ts';
import { type Pace, paceOf } from '../../pull/index.ts';
import type { Id, Pull, PullbookRecord } from '../../record/index.ts';
import {
  type HandOver,
  type Language,
  type PacedPull,
  type PullShown,
  replayOf,
  replayOfPull,
} from '../../report/index.ts';
import type { UnitSystem } from '../../units/index.ts';
import { type CurveWish, contextOf, type DayContext, engineSetup } from './context.ts';
import type { Curves } from './curves.ts';
import type { Readings } from './readings.ts';

export interface ReplayWish extends CurveWish {
  readonly language?: Language | undefined;
  readonly units?: UnitSystem | undefined;
}

/**
 * What was handed over, drawn in the time of the last of its pulls whose recording has one.
 * @throws InputError where there is no curve, or none of its pulls has a time
 */
export async function replayOfHandOver(
  record: PullbookRecord,
  readings: Readings,
  handOver: HandOver,
  { language = 'en', units }: ReplayWish,
): Promise<ReplayWanted> {
  const before = handOver.sinceLast?.comparison?.before ?? null;
  return replayOf(
    handOver,
    {
      now: await lastPaced(record, readings, handOver.final?.pullIds ?? []),
      before: await lastPaced(record, readings, before?.pullIds ?? []),
    },
    language,
    units,
  );
}

/** @throws InputError where a pull has no curve, or the first has no time */
export async function replayOfOnePull(
  record: PullbookRecord,
  readings: Readings,
  curves: Curves,
  pullId: Id,
  besideId: Id | null,
  { language = 'en', units, ...wish }: ReplayWish,
): Promise<ReplayWanted> {
  const shownOf = async (id: Id): Promise<PullShown & { readonly context: DayContext }> => {
    const pull = await record.pulls.get(id);
    const context = await contextOf(record, pull.dayId);
    const { curve, whyNone } = await curves.of(context, pull, wish);
    if (curve === null) throw new InputError(whyNone ?? 'This pull has no curve.');
    const { name, date } = context.day;
    const pace = await paceOfPull(record, readings, pull, context);
    return { number: pull.order + 1, day: { name, date }, curve, pace, context };
  };
  const pull = await shownOf(pullId);
  const { shop, engine, build } = pull.context;
  return replayOfPull(
    { title: `${engine.name}, ${build.name}`, by: shop.name, mark: shop.mark },
    pull,
    besideId === null ? null : await shownOf(besideId),
    language,
    units ?? shop.units,
  );
}

async function lastPaced(
  record: PullbookRecord,
  readings: Readings,
  pullIds: readonly Id[],
): Promise<PacedPull | null> {
  for (const id of [...pullIds].reverse()) {
    // A hand-over stands as it was frozen; a pull of it may be gone from the shop since.
    const pull = await record.pulls.find(id);
    if (pull === null) continue;
    const context = await contextOf(record, pull.dayId);
    const pace = await paceOfPull(record, readings, pull, context);
    const { name, date } = context.day;
    if (pace !== null) return { number: pull.order + 1, day: { name, date }, pace };
  }
  return null;
}

/** Null for typed peaks and where the recording has no time. */
async function paceOfPull(
  record: PullbookRecord,
  readings: Readings,
  pull: Pull,
  context: DayContext,
): Promise<Pace | null> {
  if (pull.recordingSha256 === null || pull.span === null) return null;
  const stored = await record.recordings.find(pull.recordingSha256);
  if (stored === null) return null;
  const told = await readings.toldFor(stored, context.cell, engineSetup(context).fuel);
  const { run } = await readings.stored(stored, told);
  return paceOf(run.recording, pull.span);
}
