/** Routes of side by side: comparisons asked for, comparisons that are kept, part tests. */
import type { Id, PullbookRecord, SideWanted } from '../../record/index.ts';
import * as contract from '../contract/compare.ts';
import { RequestRefused } from '../errors.ts';
import { bringTogether, comparisonOf, membersOf, saidBy } from '../work/compared.ts';
import type { Curves } from '../work/curves.ts';
import {
  type FreshPartTest,
  makePartTest,
  planOn,
  putPulls,
  readPart,
  repeatabilityOfDay,
} from '../work/partTests.ts';
import type { Api } from './api.ts';
import { changeOf, serveShelf } from './shelves.ts';

export function serveCompare(api: Api, record: PullbookRecord, curves: Curves): void {
  const { sideBySide, comparisons } = contract;
  api.openapi(sideBySide.compare, async (c) => {
    const brought = await bringTogether(record, curves, c.req.valid('json'));
    return c.json(comparisonOf(brought) as never, 200);
  });
  api.openapi(sideBySide.members, async (c) => {
    const brought = await bringTogether(record, curves, c.req.valid('json'));
    return c.json(membersOf(brought) as never, 200);
  });

  api.openapi(comparisons.create, async (c) => {
    const { sides, bandRpm = null, standard = null, name, note = '' } = c.req.valid('json');
    const found = comparisonOf(
      await bringTogether(record, curves, {
        sides,
        ...(bandRpm === null ? {} : { bandRpm }),
        ...(standard === null ? {} : { standard }),
      }),
    );
    const engineIds = await enginesOf(record, sides);
    const [engineId] = engineIds;
    if (engineId === undefined)
      throw new RequestRefused(
        422,
        'input',
        'Two curves from paper have no engine of the shop on whose page they could be kept.',
      );
    const change = changeOf(c);
    const kept = await record.comparisons.create(
      {
        engineId,
        engineIds,
        name: name ?? found.sides.map((side) => side.name).join(' and '),
        note,
        sides,
        bandRpm,
        standard,
        who: change.who ?? '',
        said: saidBy(found),
      },
      change,
    );
    return c.json(kept, 201);
  });
  api.openapi(comparisons.list, async (c) => {
    const { id } = await record.engines.get(c.req.valid('param').id);
    const all = await record.comparisons.list();
    return c.json(
      all.filter(({ engineIds }) => engineIds.includes(id)),
      200,
    );
  });
  api.openapi(comparisons.get, async (c) =>
    c.json(await record.comparisons.get(c.req.valid('param').id), 200),
  );
  api.openapi(comparisons.update, async (c) => {
    const { id } = c.req.valid('param');
    const patch = c.req.valid('json');
    return c.json(await record.comparisons.update(id, patch as never, changeOf(c)), 200);
  });
  api.openapi(comparisons.remove, async (c) => {
    await record.comparisons.remove(c.req.valid('param').id, changeOf(c));
    return c.body(null, 204);
  });
}

/** Engines of all sides, in their order. */
async function enginesOf(record: PullbookRecord, sides: readonly SideWanted[]): Promise<string[]> {
  const ofBuild = async (id: string) => (await record.builds.get(id)).engineId;
  const ofDay = async (id: string) => ofBuild((await record.days.get(id)).buildId);
  const found: string[] = [];
  for (const side of sides) {
    if (side.kind === 'engine') found.push(side.engineId);
    else if (side.kind === 'build' || side.kind === 'left') found.push(await ofBuild(side.buildId));
    else if (side.kind === 'day' || side.kind === 'group') found.push(await ofDay(side.dayId));
    else if (side.kind === 'ladder' || side.kind === 'rung')
      found.push(await ofDay((await record.ladders.get(side.ladderId)).dayId));
    else if (side.kind === 'pulls')
      for (const id of side.pullIds) found.push(await ofDay((await record.pulls.get(id)).dayId));
  }
  return [...new Set(found)];
}

export function servePartTests(api: Api, record: PullbookRecord, curves: Curves): void {
  const { partTests } = contract;
  const reading = async (id: Id) => readPart(record, curves, await record.partTests.get(id));
  api.openapi(partTests.repeatability, async (c) =>
    c.json(await repeatabilityOfDay(record, curves, c.req.valid('param').id), 200),
  );
  api.openapi(partTests.preview, async (c) => {
    const { percent: _, ...preview } = await planOn(
      record,
      curves,
      c.req.valid('param').id,
      c.req.valid('json'),
    );
    return c.json(preview, 200);
  });
  serveShelf(api, partTests, record.partTests, 'dayId', {
    // What crosses asks for a plan; what is kept has one.
    create: (fresh, change) =>
      makePartTest(record, curves, fresh as unknown as FreshPartTest, change),
  });
  api.openapi(partTests.reading, async (c) =>
    c.json((await reading(c.req.valid('param').id)) as never, 200),
  );
  api.openapi(partTests.putPulls, async (c) => {
    const { id } = c.req.valid('param');
    const { pullIds, side } = c.req.valid('json');
    await putPulls(record, id, pullIds, side, changeOf(c));
    return c.json((await reading(id)) as never, 200);
  });
}
