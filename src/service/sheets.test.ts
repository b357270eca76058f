import { describe, expect, it } from 'vitest';
import { layoutOf, type Plan, type Sheet, type SheetAnswer } from '../build/index.ts';
import { withApp } from './testing.ts';

type KeptPlan = { planId: string; plan: Plan; ticks: { itemId: string }[] };
type Kept = { version: number; sheet: Sheet | null };
const SHEET = {
  format: 'sheet/1',
  layout: layoutOf(6),
  sections: {
    block: { values: { boreNominal: { value: 3.28, unit: 'in' } } },
    crank: {
      values: { stroke: { value: 3.5, unit: 'in' }, bobweight: { value: 1800, unit: 'g' } },
    },
  },
};

describe('the build sheet over HTTP', () => {
  it('is kept as typed, answered for, undone, and refused from a version that is past', () =>
    withApp(async ({ json, ask }) => {
      const engine = await json<{ id: string }>('POST', '/engines', { name: 'Six' }, 201);
      const build = await json<{ id: string }>(
        'POST',
        `/engines/${engine.id}/builds`,
        { name: 'First' },
        201,
      );
      const path = `/builds/${build.id}/sheet`;
      expect(await json<Kept>('GET', path)).toMatchObject({ version: 0, sheet: null });
      expect((await ask('GET', `/api/v1${path}/answer`)).status).toBe(404);
      const kept = await json<Kept>('PUT', path, { version: 0, sheet: SHEET });
      expect(kept.sheet).toEqual(SHEET);
      const { figures } = await json<SheetAnswer>('GET', `${path}/answer`);
      const displacement = figures.find((figure) => figure.id === 'displacement')!;
      expect(displacement.value! / 0.0254 ** 3).toBeCloseTo((Math.PI / 4) * 3.28 ** 2 * 3.5 * 6, 6);

      const late = await ask('PUT', `/api/v1${path}`, { version: 0, sheet: SHEET });
      expect(late.status).toBe(409);
      expect(((await late.json()) as { error: { code: string } }).error.code).toBe('stale');
      const wrong = structuredClone(SHEET) as { sections: { block: { values: object } } };
      wrong.sections.block.values = { boreNominl: { value: 3.28, unit: 'in' } };
      const refused = await ask('PUT', `/api/v1${path}`, { version: kept.version, sheet: wrong });
      expect(refused.status).toBe(422);
      const { error } = (await refused.json()) as { error: { message: string; column: string } };
      expect(error.column).toContain('boreNominl');

      const next = await json<{ id: string; name: string }>(
        'POST',
        `/builds/${build.id}/next`,
        { name: 'Second', changed: ['crank'] },
        201,
      );
      const copy = await json<Kept>('GET', `/builds/${next.id}/sheet`);
      expect(copy.sheet!.sections.block).toEqual(SHEET.sections.block);
      expect(copy.sheet!.sections.crank?.values ?? {}).not.toHaveProperty('bobweight');

      await json('PATCH', '/shop', {
        windows: [
          {
            name: 'quench',
            uses: null,
            when: {},
            low: 0.001,
            high: 0.002,
            stopBelow: null,
            stopAbove: null,
            perM: false,
            source: 'the shop’s own',
          },
        ],
      });
      const judged = await json<SheetAnswer>('GET', `${path}/answer`);
      const quench = judged.checks.find((check) => check.id === 'quench')!;
      expect(quench.window).toMatchObject({ high: 0.002, source: 'the shop’s own' });

      await json('POST', '/undo');
      await json('POST', '/undo');

      const cell = await json<{ id: string }>('POST', '/cells', { name: 'North cell' }, 201);
      const day = await json<{ id: string }>(
        'POST',
        `/builds/${build.id}/days`,
        { cellId: cell.id, date: '2026-05-17' },
        201,
      );
      const planPath = `/days/${day.id}/plan`;
      expect(await json('GET', planPath)).toMatchObject({ planId: null, plan: null });
      const made = await json<KeptPlan>('POST', planPath, undefined, 201);
      const [first] = made.plan.sections.flatMap((section) => section.items);
      const tickPath = `/plans/${made.planId}/ticks`;
      const ticked = await json<KeptPlan>('POST', tickPath, { itemId: first!.id, ticked: true });
      expect(ticked.ticks.map((tick) => tick.itemId)).toEqual([first!.id]);
      await json('PUT', path, {
        version: (await json<Kept>('GET', path)).version,
        sheet: { ...SHEET, sections: {} },
      });
      expect((await json<KeptPlan>('GET', planPath)).plan).toEqual(made.plan);
      await json('POST', tickPath, { itemId: 'no such item', ticked: true }, 404);
      const editPath = `/plans/${made.planId}/edits`;
      const strike = { act: 'strike', itemId: 'runIn.cool', reason: 'cooled last night' };
      const struck = await json<KeptPlan>('POST', editPath, strike);
      expect(struck.plan.sections).toEqual(made.plan.sections);
      expect(struck.plan.edits!.strikes).toMatchObject([{ itemId: strike.itemId }]);
      await json('POST', editPath, { ...strike, itemId: 'safety.stop' }, 422);
      await json('POST', editPath, { ...strike, reason: '' }, 400);
      await json('POST', '/undo');
      expect((await json<KeptPlan>('GET', planPath)).plan).toEqual(made.plan);
      await json('POST', '/undo');
      await json('POST', '/undo');
      expect((await json<KeptPlan>('GET', planPath)).ticks).toEqual([]);
      for (let i = 0; i < 4; i++) await json('POST', '/undo');
      expect((await json<Kept>('GET', path)).sheet).toBeNull();
    }));
});
