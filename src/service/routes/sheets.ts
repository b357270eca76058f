/** Routes of the build sheet: each is one call of the record, or of the room that computes what follows. */
import { answerSheet, PLAN_VERSION, type Plan, planFor } from '../../build/index.ts';
import type { DayPlan, PullbookRecord } from '../../record/index.ts';
import { plans, sheets } from '../contract/sheets.ts';
import { RequestRefused } from '../errors.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

export function serveSheets(api: Api, record: PullbookRecord): void {
  api.openapi(sheets.get, async (c) =>
    c.json((await record.sheets.get(c.req.valid('param').id)) as never, 200),
  );
  api.openapi(sheets.put, async (c) => {
    const { version, sheet } = c.req.valid('json');
    const { id } = c.req.valid('param');
    const kept = await record.sheets.save(id, sheet as never, version, changeOf(c));
    return c.json(kept as never, 200);
  });
  api.openapi(sheets.answer, async (c) => {
    const { sheet } = await record.sheets.get(c.req.valid('param').id);
    if (sheet === null)
      throw new RequestRefused(404, 'input', 'This build has no sheet yet; keep one first.');
    const { windows } = await record.shop.get();
    return c.json(answerSheet(sheet, windows) as never, 200);
  });
  api.openapi(sheets.copy, async (c) => {
    const { name, changed } = c.req.valid('json');
    const { id } = c.req.valid('param');
    return c.json(await record.sheets.startBuild(id, { name, changed }, changeOf(c)), 201);
  });
}

/** Routes of the test plan. A plan is kept as it was made, so that what was ticked stays what was read. */
export function servePlans(api: Api, record: PullbookRecord): void {
  const kept = async (made: DayPlan | undefined) => ({
    planId: made?.id ?? null,
    madeAt: made?.madeAt ?? null,
    plan: (made?.plan ?? null) as Plan | null,
    ticks:
      made === undefined
        ? []
        : (await record.plans.ticks(made.id)).map(({ itemId, who, tickedAt }) => ({
            itemId,
            by: who,
            at: tickedAt,
          })),
  });
  const newestOf = async (dayId: string) =>
    (await record.plans.list({ dayId })).reduce<DayPlan | undefined>(
      (newest, one) => (newest === undefined || one.madeAt >= newest.madeAt ? one : newest),
      undefined,
    );
  api.openapi(plans.get, async (c) => {
    const { id } = c.req.valid('param');
    await record.days.get(id);
    return c.json((await kept(await newestOf(id))) as never, 200);
  });
  api.openapi(plans.make, async (c) => {
    const day = await record.days.get(c.req.valid('param').id);
    const { sheet } = await record.sheets.get(day.buildId);
    if (sheet === null)
      throw new RequestRefused(
        404,
        'input',
        'A plan follows from the build sheet, and this build has none yet; begin its sheet first.',
      );
    const { windows } = await record.shop.get();
    const plan = planFor(sheet, answerSheet(sheet, windows), { windows });
    const change = changeOf(c);
    const made = await record.plans.create(
      { dayId: day.id, version: PLAN_VERSION, plan, who: change.who ?? '' } as never,
      change,
    );
    return c.json((await kept(made)) as never, 201);
  });
  api.openapi(plans.tick, async (c) => {
    const made = await record.plans.get(c.req.valid('param').id);
    const { itemId, ticked } = c.req.valid('json');
    const items = (made.plan as Plan).sections.flatMap((section) => section.items);
    if (!items.some((item) => item.id === itemId))
      throw new RequestRefused(404, 'input', 'This plan has no such item.', { found: itemId });
    await record.plans.tick(made.id, itemId, ticked, changeOf(c));
    return c.json((await kept(made)) as never, 200);
  });
}
