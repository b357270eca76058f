/** The test plan of a day: made from the sheet of its build, the windows of the shop, the use and the cell. */
import {
  answerSheet,
  PLAN_VERSION,
  type Plan,
  type PlanContext,
  planFor,
  type Sheet,
  withEditsOf,
} from '../../build/index.ts';
import type { Change, DayPlan, Id, PullbookRecord } from '../../record/index.ts';
import { RequestRefused } from '../errors.ts';
import { planCalibration } from './calibrations.ts';
import { contextOf, type DayContext } from './context.ts';
import { usesFor } from './ladders.ts';

/** The newest plan of a day is the one that counts. */
export async function newestPlan(record: PullbookRecord, dayId: Id): Promise<DayPlan | undefined> {
  return (await record.plans.list({ dayId })).reduce<DayPlan | undefined>(
    (newest, one) => (newest === undefined || one.madeAt >= newest.madeAt ? one : newest),
    undefined,
  );
}

/**
 * Makes the plan of a day anew; what was changed in the last one goes along, the last one itself stays in the record.
 * @throws RequestRefused where the build has no sheet
 */
export async function makePlan(
  record: PullbookRecord,
  dayId: Id,
  change: Change,
  madeAt?: string,
): Promise<DayPlan> {
  const context = await contextOf(record, dayId);
  const { sheet } = await record.sheets.get(context.day.buildId);
  if (sheet === null)
    throw new RequestRefused(
      404,
      'input',
      'A plan follows from the build sheet, and this build has none yet; begin its sheet first.',
    );
  const last = await newestPlan(record, dayId);
  const given = planContext(context, sheet);
  const made = planFor(sheet, answerSheet(sheet, given.windows), given);
  return record.plans.create(
    {
      dayId,
      version: PLAN_VERSION,
      plan: withEditsOf(made, (last?.plan ?? null) as Plan | null),
      who: change.who ?? '',
      ...(madeAt === undefined ? {} : { madeAt }),
    } as never,
    change,
  );
}

/** What a plan takes from everything around the sheet. */
function planContext({ shop, day, calibration }: DayContext, sheet: Sheet): PlanContext {
  const name = day.use ?? sheet.use ?? null;
  return {
    windows: shop.windows,
    use: usesFor('lead', shop).find((use) => use.name === name) ?? null,
    calibration: planCalibration(calibration.state),
  };
}
