import { describe, expect, it } from 'vitest';
import { decision as decisionSchema } from './schema/decisions.ts';
import * as schema from './schema/entities.ts';
import { dayPage, enginePage, recordEvent, shopSummary } from './schema/record.ts';
import { type Asked, withApp } from './testing.ts';

type WithId = { id: string };

/** Cell, engine, build and day, made over HTTP. */
async function made({ json }: Asked) {
  const cell = await json<WithId>('POST', '/cells', { name: 'North cell' }, 201);
  const engine = await json<WithId>('POST', '/engines', { name: 'Six', cylinders: 6 }, 201);
  const build = await json<WithId>('POST', `/engines/${engine.id}/builds`, { name: 'First' }, 201);
  const day = await json<WithId>(
    'POST',
    `/builds/${build.id}/days`,
    { cellId: cell.id, date: '2026-05-17', bandRpm: [3000, 6000] },
    201,
  );
  const [ladder] = await json<WithId[]>('GET', `/days/${day.id}/ladders`);
  return { cell, engine, build, day, ladder: ladder! };
}

describe('the entities over HTTP', () => {
  it('are made, read, changed, listed and removed, as their schemas say', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const { cell, engine, build, day, ladder } = await made(asked);
      const pull = await json<WithId>(
        'POST',
        `/days/${day.id}/pulls`,
        { leadDeg: 32, peakPowerW: 578_000, peaksAre: { air: 'SAE J1349', inertia: 'in' } },
        201,
      );
      const decision = await json<WithId>(
        'POST',
        `/ladders/${ladder.id}/decisions`,
        { use: 'bursts', setting: 30, who: 'Ann', why: 'clean' },
        201,
      );
      const each = [
        ['cells', cell.id, schema.cell, { ratio: 2 }, '/cells'],
        ['engines', engine.id, schema.engine, { owner: 'B' }, '/engines'],
        ['builds', build.id, schema.build, { notes: 'n' }, `/engines/${engine.id}/builds`],
        ['days', day.id, schema.day, { octane: 98 }, `/builds/${build.id}/days`],
        ['pulls', pull.id, schema.pull, { knockHeard: 5000 }, `/days/${day.id}/pulls`],
        [
          'ladders',
          ladder.id,
          schema.ladder,
          { step: 0.5, heldLambda: 0.9 },
          `/days/${day.id}/ladders`,
        ],
        ['decisions', decision.id, decisionSchema, { why: 'w' }, `/ladders/${ladder.id}/decisions`],
      ] as const;
      for (const [name, id, form, patch, listPath] of each) {
        const before = await json('GET', `/${name}/${id}`);
        form.strict().parse(before);
        const after = await json('PATCH', `/${name}/${id}`, patch);
        expect(after).toEqual({ ...before, ...patch });
        expect(await json('GET', listPath)).toEqual([after]);
      }
      const summary = shopSummary.parse(await json('GET', '/shop/summary'));
      expect(summary).toMatchObject({ engineCount: 1, dayCount: 1, pullCount: 1 });
      expect(enginePage.parse(await json('GET', `/engines/${engine.id}/page`)).days).toHaveLength(
        1,
      );
      const page = dayPage.parse(await json('GET', `/days/${day.id}/page`));
      expect(page.pulls[0]).toMatchObject({ leadDeg: 32, knockHeard: 5000 });
      expect(page.decisions[0]).toMatchObject({ use: 'bursts', why: 'w' });
      for (const [name, id] of [...each].reverse()) {
        expect((await ask('DELETE', `/api/v1/${name}/${id}`)).status).toBe(204);
        await json('GET', `/${name}/${id}`, undefined, 404);
      }
    }));

  it('change many pulls of a day in one step, none of another day', () =>
    withApp(async (asked) => {
      const { json } = asked;
      const { day } = await made(asked);
      const pulls = [];
      for (const peakPowerW of [1e5, 2e5])
        pulls.push(await json<WithId>('POST', `/days/${day.id}/pulls`, { peakPowerW }, 201));
      const patches = pulls.map(({ id }, index) => ({ id, patch: { leadDeg: 28 + index } }));
      const after = await json<{ leadDeg: number }[]>('PATCH', `/days/${day.id}/pulls`, patches);
      expect(after.map((pull) => pull.leadDeg)).toEqual([28, 29]);
      const stranger = [{ id: 'pull_of_another_day', patch: { leadDeg: 1 } }];
      await json('PATCH', `/days/${day.id}/pulls`, stranger, 404);
    }));

  it('remember what a file shape means, and answer what is remembered', () =>
    withApp(async (asked) => {
      const { json } = asked;
      const { cell } = await made(asked);
      const answers = {
        mapping: { 'Tq 1 (odd)': { quantity: 'torque', unit: 'lb-ft' } },
        torqueIs: { air: 'observed', inertia: 'out' },
      };
      await json('GET', `/cells/${cell.id}/mappings/abc`, undefined, 404);
      const put = await json('PUT', `/cells/${cell.id}/mappings/abc`, { answers });
      expect(put).toMatchObject({ cellId: cell.id, shape: 'abc', answers });
      expect(await json('GET', `/cells/${cell.id}/mappings/abc`)).toEqual(put);
      const again = await json('PUT', `/cells/${cell.id}/mappings/abc`, { answers: {} });
      expect(await json('GET', `/cells/${cell.id}/mappings`)).toEqual([again]);
    }));

  it('say which field is wrong and why', () =>
    withApp(async (asked) => {
      const { json } = asked;
      const { day } = await made(asked);
      expect(await json('PATCH', `/days/${day.id}`, { bandRpm: [6000, 3000] }, 400)).toEqual({
        error: {
          code: 'request',
          message:
            'The field bandRpm is not as it should be: expected two speeds in rev/min, the lower one first.',
          column: 'bandRpm',
        },
      });
      await json('PATCH', `/days/${day.id}`, { noSuchField: 1 }, 400);
      await json('POST', `/days/${day.id}/pulls`, { leadDeg: 30 }, 422);
      await json('POST', '/engines/none/builds', { name: 'B' }, 404);
      expect(await json('GET', '/pulls/none', undefined, 404)).toMatchObject({
        error: { code: 'input', found: 'none', expected: 'the id of a pull in this shop' },
      });
    }));
});

describe('events over HTTP', () => {
  it('name who acted, and can be taken back and brought back', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const { engine } = await made(asked);
      const who = {
        'x-pullbook-who': encodeURIComponent('Jürgen'),
        'content-type': 'application/json',
      };
      await ask('PATCH', `/api/v1/engines/${engine.id}`, '{"owner":"Ann"}', who);
      const [newest] = await json<{ id: number; who: string; summary: string }[]>(
        'GET',
        '/events?limit=1',
      );
      expect(newest).toMatchObject({ who: 'Jürgen', summary: 'engine: owner', undone: false });
      const undo = recordEvent.parse(await json('POST', '/undo'));
      expect(undo).toMatchObject({ kind: 'undo', of: newest!.id });
      expect(await json('GET', `/engines/${engine.id}`)).toMatchObject({ owner: '' });
      await json('POST', `/events/${newest!.id}/redo`);
      expect(await json('GET', `/engines/${engine.id}`)).toMatchObject({ owner: 'Ann' });
      expect(await json('GET', `/events/${newest!.id}`)).toMatchObject({
        touched: [{ entity: 'engine', before: { owner: '' }, after: { owner: 'Ann' } }],
      });
      expect(await json('POST', '/events/1/undo', undefined, 409)).toMatchObject({
        error: { code: 'input', message: expect.stringContaining('take that back first') },
      });
      expect(await json('GET', `/events?before=${newest!.id}&limit=1`)).toMatchObject([
        { id: newest!.id - 1 },
      ]);
    }));
});
