/** Routes of the build sheet: each is one call of the record, or of the room that computes what follows. */
import { randomUUID } from 'node:crypto';
import {
  answerSheet,
  editPlan,
  editSummary,
  type Plan,
  type PlanEdit,
  planSentence,
  shortly,
  tickedPlan,
} from '../../build/index.ts';
import type { DayPlan, PullbookRecord } from '../../record/index.ts';
import { plans, sheets } from '../contract/sheets.ts';
import { RequestRefused } from '../errors.ts';
import { makePlan, newestPlan } from '../work/plans.ts';
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
  api.openapi(plans.get, async (c) => {
    const { id } = c.req.valid('param');
    await record.days.get(id);
    return c.json((await kept(await newestPlan(record, id))) as never, 200);
  });
  api.openapi(plans.make, async (c) => {
    const made = await makePlan(record, c.req.valid('param').id, changeOf(c));
    return c.json((await kept(made)) as never, 201);
  });
  api.openapi(plans.tick, async (c) => {
    const made = await record.plans.get(c.req.valid('param').id);
    const { itemId, ticked } = c.req.valid('json');
    const item = tickedPlan(made.plan as Plan, [])
      .sections.flatMap((section) => section.items)
      .find((one) => one.id === itemId);
    if (item === undefined)
      throw new RequestRefused(404, 'input', 'This plan has no such item.', { found: itemId });
    const { units } = await record.shop.get();
    const summary = `${ticked ? 'ticked' : 'unticked'} “${shortly(planSentence(item, units))}”`;
    await record.plans.tick(made.id, itemId, ticked, { ...changeOf(c), summary });
    return c.json((await kept(made)) as never, 200);
  });
  api.openapi(plans.edit, async (c) => {
    const edit = c.req.valid('json') as PlanEdit;
    const { id } = c.req.valid('param');
    const change = changeOf(c);
    const standing = (await record.plans.get(id)).plan as Plan;
    const editor = { by: change.who ?? '', at: new Date().toISOString(), newId: randomUUID() };
    const made = await record.plans.revise(
      id,
      ({ plan }) => ({ ...(plan as Plan), edits: editPlan(plan as Plan, edit, editor) }),
      { ...change, summary: editSummary(standing, edit) },
    );
    return c.json((await kept(made)) as never, 200);
  });
}
