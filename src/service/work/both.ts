/** Lead and lambda of a day at once: the record's pulls as the surface's question, and its answer. */

import { LAMBDA } from '../../ladder/index.ts';
import { answerTwo } from '../../ladder/two/index.ts';
import type { AirStandard } from '../../pull/index.ts';
import type { Id, Pull, PullbookRecord } from '../../record/index.ts';
import {
  type LoadAnswer,
  type TwoDayPull,
  twoInputsByLoad,
  twoTable,
  twoUses,
} from '../../report/index.ts';
import type { Table } from '../../units/export/table.ts';
import { RequestRefused } from '../errors.ts';
import { type CurveWish, contextOf, engineSetup } from './context.ts';
import type { Curves } from './curves.ts';
import { exhaustLimitOn } from './exhaustLimit.ts';
import { dayPullOf, setAtOf, settingsOf, usesFor } from './ladders.ts';

export interface TwoReading {
  readonly dayId: Id;
  readonly standard: AirStandard;
  readonly fuel: string;
  /** One a load that was held, full throttle first; empty where there is nothing to compute from yet. */
  readonly loads: readonly LoadAnswer[];
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
    loads: [],
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
    const { setting: _set, ...rest } = dayPullOf(pull, pull.leadDeg!, curve, null);
    pulls.push({ ...rest, ...setAtOf(pull, context.day.lambdaTarget, curve) });
  }
  const lead = settingsOf(
    { setting: 'lead', bandRpm: null, step: null, worthPercent: null, repeatabilityPercent: null },
    context,
    pulls.map((pull) => ({ ...pull, setting: pull.leadDeg })),
  );
  const asked = twoInputsByLoad(pulls, {
    ...lead,
    exhaustLimitK: await exhaustLimitOn(record, dayId),
    uses: twoUses(lead.uses, usesFor('lambda', context.shop)),
    stepLambda: LAMBDA.defaultStep,
  });
  const loads = asked.flatMap(({ loadPercent, input: all }) => {
    const input = { ...all, pulls: all.pulls.filter(({ lambda }) => Number.isFinite(lambda)) };
    return input.pulls.length === 0 ? [] : [{ loadPercent, input, answer: answerTwo(input) }];
  });
  if (loads.length === 0)
    return none(
      'No pull has its lambda yet: set it in the table of pulls, or record it with a sensor.',
    );
  return { dayId, standard, fuel, loads, whyNone: null };
}

/**
 * The tables of a use, one block a load.
 * @throws RequestRefused  the use is not known, or no table of it is known yet: with the reason
 */
export function bothTable({ loads, whyNone, fuel }: TwoReading, use: string): Table {
  const [first] = loads;
  if (first === undefined) throw new RequestRefused(404, 'input', whyNone ?? '');
  const { tables } = first.answer;
  const table = tables.find((one) => one.use === use);
  if (table === undefined)
    throw new RequestRefused(
      404,
      'input',
      `"${use}" is not a use that is known; expected ${tables.map((one) => one.use).join(', ')}.`,
    );
  const made = twoTable(loads, use, fuel);
  if (made === null) throw new RequestRefused(404, 'input', table.why);
  return made;
}
