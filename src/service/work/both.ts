/** Lead and lambda of a day at once: the record's pulls as the surface's question, and its answer. */
import { LAMBDA } from '../../ladder/index.ts';
import { answerTwo, type TwoAnswer, type TwoInput } from '../../ladder/two/index.ts';
import type { AirStandard } from '../../pull/index.ts';
import type { Id, Pull, PullbookRecord } from '../../record/index.ts';
import {
  bandFromCurves,
  NO_BAND_RPM,
  type TwoDayPull,
  twoCsv,
  twoInputOf,
  twoUses,
} from '../../report/index.ts';
import { RequestRefused } from '../errors.ts';
import { type CurveWish, contextOf, engineSetup } from './context.ts';
import type { Curves } from './curves.ts';
import { exhaustLimitOn } from './exhaustLimit.ts';
import { dayPullOf, settingsOf, usesFor } from './ladders.ts';

export interface TwoReading {
  readonly dayId: Id;
  readonly standard: AirStandard;
  readonly fuel: string;
  readonly input: TwoInput | null;
  readonly answer: TwoAnswer | null;
  readonly whyNone: string | null;
}

/** A day's pulls without those of part tests, unless there are no others. */
function mainPulls(pulls: readonly Pull[]): readonly Pull[] {
  const main = pulls.filter(({ group }) => group === null);
  return main.length === 0 ? pulls : main;
}

export async function readBoth(
  record: PullbookRecord,
  curves: Curves,
  dayId: Id,
  wish: CurveWish,
): Promise<TwoReading> {
  const context = await contextOf(record, dayId);
  const standard = wish.standard ?? context.day.standard ?? context.shop.standard;
  const { fuel } = engineSetup(context);
  const none = (whyNone: string): TwoReading => ({
    dayId,
    standard,
    fuel,
    input: null,
    answer: null,
    whyNone,
  });
  const ofDay = mainPulls(await record.pulls.list({ dayId }));
  if (ofDay.length === 0)
    return none('No pull yet: drop the run files of the day on its page, or type peaks.');
  const withLead = ofDay.filter((pull) => pull.leadDeg !== null);
  if (withLead.length === 0)
    return none('No pull has its lead yet: set lead and lambda of each in the table of pulls.');
  const pulls: TwoDayPull[] = [];
  for (const pull of withLead) {
    const { curve } = await curves.of(context, pull, { ...wish, standard });
    const { setting: leadDeg, ...rest } = dayPullOf(pull, pull.leadDeg!, curve, null);
    pulls.push({
      ...rest,
      leadDeg,
      lambdaTarget: pull.lambdaTarget ?? context.day.lambdaTarget,
      lambdaMeasured: null,
      lambdaErrorSd: null,
      jets: null,
      loadPercent: null,
    });
  }
  const band =
    context.day.bandRpm ?? bandFromCurves(pulls.map(({ curve }) => curve)) ?? NO_BAND_RPM;
  const lead = settingsOf(
    { setting: 'lead', bandRpm: band, step: null, worthPercent: null, repeatabilityPercent: null },
    context,
    pulls.map((pull) => ({ ...pull, setting: pull.leadDeg })),
  );
  const input = twoInputOf(
    pulls,
    {
      ...lead,
      exhaustLimitK: await exhaustLimitOn(record, dayId),
      uses: twoUses(lead.uses, usesFor('lambda', context.shop)),
      stepLambda: LAMBDA.defaultStep,
    },
    band,
  );
  const known = input.pulls.filter(({ lambda }) => Number.isFinite(lambda));
  if (known.length === 0)
    return none(
      'No pull has its lambda yet: set it in the table of pulls, or record it with a sensor.',
    );
  return {
    dayId,
    standard,
    fuel,
    input: { ...input, pulls: known },
    answer: answerTwo({ ...input, pulls: known }),
    whyNone: null,
  };
}

/**
 * The table of a use as CSV.
 * @throws RequestRefused  the use is not known, or its table is not known yet: with the reason
 */
export function bothCsv({ input, answer, whyNone, fuel }: TwoReading, use: string): string {
  if (input === null || answer === null) throw new RequestRefused(404, 'input', whyNone ?? '');
  const table = answer.tables.find((one) => one.use === use);
  if (table === undefined)
    throw new RequestRefused(
      404,
      'input',
      `"${use}" is not a use that is known; expected ${answer.tables.map((one) => one.use).join(', ')}.`,
    );
  const csv = twoCsv([{ loadPercent: null, input, answer }], use, fuel);
  if (csv === null) throw new RequestRefused(404, 'input', table.why);
  return csv;
}
