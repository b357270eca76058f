/** Routes of the entities: each is one call of the record. */
import type { Context } from 'hono';
import type { RememberedOptions } from '../../intake/index.ts';
import { ladderOrder } from '../../ladder/index.ts';
import type { Change, Id, NewPull, PullbookRecord, Shelf } from '../../record/index.ts';
import * as contract from '../contract/shelves.ts';
import { RequestRefused } from '../errors.ts';
import { calibrationOn } from '../work/calibrations.ts';
import type { Curves } from '../work/curves.ts';
import { decide } from '../work/decisions.ts';
import { findPullsAgain, movesPulls } from '../work/findAgain.ts';
import type { Readings } from '../work/readings.ts';
import type { Api } from './api.ts';

/** Who acts, as the browser or a script says in a header; for the list of events only. */
export function changeOf(c: Context): Change {
  const who = c.req.header('x-pullbook-who') ?? '';
  try {
    return { who: decodeURIComponent(who).slice(0, 200) };
  } catch {
    return { who: who.slice(0, 200) };
  }
}

interface ShelfContract {
  list: unknown;
  create: unknown;
  get: unknown;
  update: unknown;
  remove: unknown;
}

/**
 * Five routes over one shelf. The contract of each route is checked against the record's types by the schema
 * tests; here the five are alike for all shelves, which the typed form of the router cannot express.
 */
export function serveShelf<T, N, P>(
  api: Api,
  routes: ShelfContract,
  shelf: Shelf<T, N, P>,
  parentField: string | null,
  { create = shelf.create }: Partial<Pick<Shelf<T, N, P>, 'create'>> = {},
): void {
  // biome-ignore lint/suspicious/noExplicitAny: see above.
  const open = (route: unknown, handler: (c: any) => Promise<Response>) =>
    api.openapi(route as never, handler as never);
  const parentOf = (c: { req: { valid(part: 'param'): { id?: Id } } }) => {
    const { id } = c.req.valid('param');
    return parentField === null ? {} : { [parentField]: id };
  };
  open(routes.list, async (c) => c.json(await shelf.list(parentOf(c) as P), 200));
  open(routes.create, async (c) => {
    const fresh = { ...c.req.valid('json'), ...parentOf(c) } as N;
    return c.json(await create(fresh, changeOf(c)), 201);
  });
  open(routes.get, async (c) => c.json(await shelf.get(c.req.valid('param').id), 200));
  open(routes.update, async (c) =>
    c.json(await shelf.update(c.req.valid('param').id, c.req.valid('json'), changeOf(c)), 200),
  );
  open(routes.remove, async (c) => {
    await shelf.remove(c.req.valid('param').id, changeOf(c));
    return c.body(null, 204);
  });
}

export function serveShelves(
  api: Api,
  record: PullbookRecord,
  readings: Readings,
  curves: Curves,
): void {
  api.openapi(contract.shop.summary, async (c) => c.json(await record.summary(), 200));
  api.openapi(contract.shop.get, async (c) => c.json(await record.shop.get(), 200));
  api.openapi(contract.shop.update, async (c) =>
    c.json(await record.shop.update(c.req.valid('json') as never, changeOf(c)), 200),
  );

  api.openapi(contract.cells.mappings, async (c) => {
    const { id } = c.req.valid('param');
    await record.cells.get(id);
    return c.json((await record.mappings.list({ cellId: id })) as never, 200);
  });
  api.openapi(contract.cells.getMapping, async (c) => {
    const { id, shape } = c.req.valid('param');
    const mapping = await record.mappings.findByShape(id, shape);
    if (mapping === null) {
      throw new RequestRefused(404, 'input', 'Nothing is remembered of this file shape yet.');
    }
    return c.json(mapping as never, 200);
  });
  api.openapi(contract.cells.putMapping, async (c) => {
    const { id, shape } = c.req.valid('param');
    const answers = c.req.valid('json').answers as RememberedOptions;
    const before = await record.mappings.findByShape(id, shape);
    const mapping = await record.mappings.put(id, shape, answers, changeOf(c));
    if (movesPulls(before?.answers ?? {}, answers)) {
      await findPullsAgain(record, readings, id, shape, changeOf(c));
    }
    return c.json(mapping as never, 200);
  });

  api.openapi(contract.engines.page, async (c) => {
    const engine = await record.engines.get(c.req.valid('param').id);
    const builds = await record.builds.list({ engineId: engine.id });
    return c.json({ engine, builds, days: await record.daysOfEngine(engine.id) }, 200);
  });
  api.openapi(contract.days.page, async (c) =>
    c.json(await dayPage(record, c.req.valid('param').id), 200),
  );
  api.openapi(contract.pulls.updateMany, async (c) => {
    const day = await record.days.get(c.req.valid('param').id);
    const patches = c.req.valid('json');
    const own = new Set((await record.pulls.list({ dayId: day.id })).map((pull) => pull.id));
    const stranger = patches.find((patch) => !own.has(patch.id));
    if (stranger !== undefined) {
      throw new RequestRefused(
        404,
        'input',
        'One of these pulls is not of this day; nothing was changed.',
        { found: stranger.id },
      );
    }
    await record.pulls.updateMany(patches as never, changeOf(c));
    return c.json(await record.pulls.list({ dayId: day.id }), 200);
  });

  serveShelf(api, contract.cells, record.cells, null);
  serveShelf(api, contract.engines, record.engines, null);
  serveShelf(api, contract.builds, record.builds, 'engineId');
  serveShelf(api, contract.days, record.days, 'buildId');
  serveShelf(api, contract.pulls, record.pulls, 'dayId', {
    create: (fresh, change) => {
      checkTypedPull(fresh);
      return record.pulls.create(fresh, change);
    },
  });
  serveShelf(api, contract.ladders, record.ladders, 'dayId');
  serveShelf(api, contract.decisions, record.decisions, 'ladderId', {
    create: ({ ladderId, ...deciding }, change = {}) =>
      decide(record, curves, ladderId, deciding, change),
  });
}

function checkTypedPull(fresh: NewPull): void {
  if ((fresh.peakPowerW ?? null) !== null || (fresh.peakTorqueNm ?? null) !== null) return;
  throw new RequestRefused(
    422,
    'input',
    'A pull typed by hand needs its peak power or its peak torque; a recorded pull comes with its file.',
    { column: 'peakPowerW', expected: 'peakPowerW [W] or peakTorqueNm [N·m]' },
  );
}

/** The day with what stands around and under it. */
async function dayPage(record: PullbookRecord, id: Id) {
  const day = await record.days.get(id);
  const [build, cell, pulls, standing] = await Promise.all([
    record.builds.get(day.buildId),
    record.cells.get(day.cellId),
    record.pulls.list({ dayId: id }),
    record.ladders.list({ dayId: id }),
  ]);
  const ladders = [...ladderOrder(standing, pulls, day.lambdaTarget)];
  const [engine, { state: calibration }] = await Promise.all([
    record.engines.get(build.engineId),
    calibrationOn(record, cell, day.date),
  ]);
  const digests = new Set(pulls.map((pull) => pull.recordingSha256));
  const recordings = await Promise.all(
    [...digests].map((sha256) => (sha256 === null ? null : record.recordings.find(sha256))),
  );
  const decisions = await Promise.all(
    ladders.map((ladder) => record.decisions.list({ ladderId: ladder.id })),
  );
  return {
    day,
    build,
    engine,
    cell,
    calibration,
    pulls,
    recordings: recordings.filter((recording) => recording !== null),
    ladders,
    decisions: decisions.flat(),
  };
}
