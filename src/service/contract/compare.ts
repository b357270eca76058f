/** Side by side, comparisons that are kept, and fair tests of a part. */
import { list } from '../schema/common.ts';
import * as c from '../schema/compare.ts';
import { answers, body, byId, createRoute, json, refusals, shelfRoutes } from './parts.ts';

const tags = ['side by side'];
export const sideBySide = {
  compare: createRoute({
    method: 'post',
    path: '/compare',
    tags,
    summary: 'Two or more sides compared over the speeds that they share; nothing is stored',
    request: { body: body(c.compareWanted) },
    responses: answers(c.comparisonAnswer, 'The answer, and what each side was made of'),
  }),
  members: createRoute({
    method: 'post',
    path: '/compare/members',
    tags,
    summary: 'The pulls of each side with their curves, brought together but not compared',
    request: { body: body(c.compareWanted) },
    responses: answers(c.compareMembers, 'What a browser needs to compare them itself'),
  }),
};

const shelf = shelfRoutes({
  tag: 'kept comparisons',
  one: 'kept comparison',
  listPath: '/engines/{id}/comparisons',
  listParams: byId,
  onePath: '/comparisons/{id}',
  entity: c.comparison,
  entities: list(c.comparison),
  fresh: c.newComparison,
  patch: c.comparisonPatch,
});
export const comparisons = {
  list: shelf.list,
  get: shelf.get,
  update: shelf.update,
  remove: shelf.remove,
  create: createRoute({
    method: 'post',
    path: '/comparisons',
    tags: ['kept comparisons'],
    summary: 'Keep a comparison with what it says now; it stands on the page of its first engine',
    request: { body: body(c.newComparison) },
    responses: { 201: json(c.comparison, 'The kept comparison'), ...refusals },
  }),
};

export const partTests = {
  ...shelfRoutes({
    tag: 'part tests',
    one: 'part test',
    listPath: '/days/{id}/part-tests',
    listParams: byId,
    onePath: '/part-tests/{id}',
    entity: c.partTest,
    entities: list(c.partTest),
    fresh: c.newPartTest,
    patch: c.partTestPatch,
  }),
  repeatability: createRoute({
    method: 'get',
    path: '/days/{id}/repeatability',
    tags: ['part tests'],
    summary: 'How far pulls of one setting differ on the cell of a day',
    request: { params: byId },
    responses: answers(c.repeatability, 'As the shop states it, as its pulls show it, or as usual'),
  }),
  preview: createRoute({
    method: 'post',
    path: '/days/{id}/part-tests/plan',
    tags: ['part tests'],
    summary: 'How many pulls of each would be needed, and in which order; nothing is stored',
    request: { params: byId, body: body(c.partWanted) },
    responses: answers(c.partPreview, 'The plan as it would be'),
  }),
  reading: createRoute({
    method: 'get',
    path: '/part-tests/{id}/reading',
    tags: ['part tests'],
    summary: 'A part test after the pulls made: whether to go on, and which pull is next',
    request: { params: byId },
    responses: answers(c.partReading, 'The part test as it stands'),
  }),
  putPulls: createRoute({
    method: 'post',
    path: '/part-tests/{id}/pulls',
    tags: ['part tests'],
    summary: 'Say which side pulls of the day are of',
    request: { params: byId, body: body(c.partPulls) },
    responses: answers(c.partReading, 'The part test as it then stands'),
  }),
};
