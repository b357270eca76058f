/** A person's decision on a ladder, kept with what Pullbook advised at that moment. */
import { answerLadder, type UseRule } from '../../ladder/index.ts';
import { type AirStandard, CURVE_VERSION } from '../../pull/index.ts';
import {
  type Advice,
  type BandRpm,
  type Change,
  ConflictError,
  type Decision,
  type Id,
  type NewDecision,
  type PullbookRecord,
} from '../../record/index.ts';
import { adviceOf } from '../../report/index.ts';
import type { Curves } from './curves.ts';
import { readLadder } from './ladders.ts';

/** What stood on the screen where it was not what the record holds: a standard tried, a band or a rule just moved. */
export interface AsShown {
  readonly standard?: AirStandard | undefined;
  readonly bandRpm?: BandRpm | undefined;
  readonly uses?: readonly UseRule[] | undefined;
}

export interface Deciding extends Omit<NewDecision, 'ladderId' | 'advice'> {
  readonly asShown?: AsShown | undefined;
  /** The figure that the person saw advised; the decision is refused where it is no longer that. */
  readonly advised?: number | null | undefined;
}

/**
 * Stores a decision with its advice, computed here and now from the record, so that nobody can bring his own.
 * @throws ConflictError  the advice is no longer the one the person saw
 */
export async function decide(
  record: PullbookRecord,
  curves: Curves,
  ladderId: Id,
  { asShown = {}, advised, ...decision }: Deciding,
  change: Change,
): Promise<Decision> {
  const advice = await adviceFor(record, curves, ladderId, decision.use, asShown);
  const now = advice?.value ?? null;
  if (advised !== undefined && advised !== now) {
    throw new ConflictError(
      `The ladder changed while you decided: it now advises ${now ?? 'nothing yet'} for ${decision.use}, not ${advised ?? 'nothing'}. Look again, then decide.`,
      { found: String(advised), expected: String(now) },
    );
  }
  return record.decisions.create({ ...decision, ladderId, advice }, change);
}

async function adviceFor(
  record: PullbookRecord,
  curves: Curves,
  ladderId: Id,
  use: string,
  { standard, bandRpm, uses }: AsShown,
): Promise<Advice | null> {
  const reading = await readLadder(record, curves, ladderId, { standard });
  if (reading.input === null || reading.answer === null) return null;
  const input = {
    ...reading.input,
    ...(bandRpm === undefined ? {} : { bandRpm }),
    ...(uses === undefined ? {} : { uses }),
  };
  const asRecorded = bandRpm === undefined && uses === undefined;
  const answer = asRecorded ? reading.answer : answerLadder(input);
  return adviceOf(use, input, answer, { standard: reading.standard, curveVersion: CURVE_VERSION });
}
