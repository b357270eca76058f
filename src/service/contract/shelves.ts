/** Shop, cells, engines, builds, days, pulls, ladders, decisions. */
import { list } from '../schema/common.ts';
import * as d from '../schema/decisions.ts';
import * as e from '../schema/entities.ts';
import { dayPage, enginePage, shopSummary } from '../schema/record.ts';
import {
  answers,
  body,
  byCellAndShape,
  byId,
  createRoute,
  noParams,
  shelfRoutes,
} from './parts.ts';

export const shop = {
  get: createRoute({
    method: 'get',
    path: '/shop',
    tags: ['shop'],
    summary: 'The shop and its settings',
    responses: answers(e.shop, 'The shop'),
  }),
  update: createRoute({
    method: 'patch',
    path: '/shop',
    tags: ['shop'],
    summary: 'Change settings of the shop; fields left out stay',
    request: { body: body(e.shopPatch) },
    responses: answers(e.shop, 'The shop as it now stands'),
  }),
  summary: createRoute({
    method: 'get',
    path: '/shop/summary',
    tags: ['shop'],
    summary: 'All that the first screen shows',
    responses: answers(shopSummary, 'First screen'),
  }),
};

export const cells = {
  ...shelfRoutes({
    tag: 'cells',
    one: 'cell',
    listPath: '/cells',
    listParams: noParams,
    onePath: '/cells/{id}',
    entity: e.cell,
    entities: list(e.cell),
    fresh: e.newCell,
    patch: e.cellPatch,
  }),
  mappings: createRoute({
    method: 'get',
    path: '/cells/{id}/mappings',
    tags: ['cells'],
    summary: 'What is remembered of the file shapes of this cell',
    request: { params: byId },
    responses: answers(list(e.mapping), 'Remembered answers'),
  }),
  getMapping: createRoute({
    method: 'get',
    path: '/cells/{id}/mappings/{shape}',
    tags: ['cells'],
    summary: 'What is remembered of one file shape',
    request: { params: byCellAndShape },
    responses: answers(e.mapping, 'Remembered answers'),
  }),
  putMapping: createRoute({
    method: 'put',
    path: '/cells/{id}/mappings/{shape}',
    tags: ['cells'],
    summary: 'Remember the answers for one file shape; curves follow at once',
    request: { params: byCellAndShape, body: body(e.mappingBody) },
    responses: answers(e.mapping, 'Remembered answers'),
  }),
};

export const engines = {
  ...shelfRoutes({
    tag: 'engines',
    one: 'engine',
    listPath: '/engines',
    listParams: noParams,
    onePath: '/engines/{id}',
    entity: e.engine,
    entities: list(e.engine),
    fresh: e.newEngine,
    patch: e.enginePatch,
  }),
  page: createRoute({
    method: 'get',
    path: '/engines/{id}/page',
    tags: ['engines'],
    summary: 'All that the screen of one engine shows',
    request: { params: byId },
    responses: answers(enginePage, 'Engine, its builds and their days, newest first'),
  }),
};

export const builds = shelfRoutes({
  tag: 'builds',
  one: 'build',
  listPath: '/engines/{id}/builds',
  listParams: byId,
  onePath: '/builds/{id}',
  entity: e.build,
  entities: list(e.build),
  fresh: e.newBuild,
  patch: e.buildPatch,
});

export const days = {
  ...shelfRoutes({
    tag: 'days',
    one: 'test day',
    listPath: '/builds/{id}/days',
    listParams: byId,
    onePath: '/days/{id}',
    entity: e.day,
    entities: list(e.day),
    fresh: e.newDay,
    patch: e.dayPatch,
  }),
  page: createRoute({
    method: 'get',
    path: '/days/{id}/page',
    tags: ['days'],
    summary: 'All that the screen of one test day shows but its curves',
    request: { params: byId },
    responses: answers(dayPage, 'The day with what stands around and under it'),
  }),
};

export const pulls = {
  ...shelfRoutes({
    tag: 'pulls',
    one: 'pull',
    listPath: '/days/{id}/pulls',
    listParams: byId,
    onePath: '/pulls/{id}',
    entity: e.pull,
    entities: list(e.pull),
    fresh: e.newPull,
    patch: e.pullPatch,
  }),
  updateMany: createRoute({
    method: 'patch',
    path: '/days/{id}/pulls',
    tags: ['pulls'],
    summary: 'Change many pulls of a day in one step (a pasted table)',
    request: { params: byId, body: body(e.pullPatches) },
    responses: answers(list(e.pull), 'All pulls of the day as they now stand'),
  }),
};

export const ladders = shelfRoutes({
  tag: 'ladders',
  one: 'ladder',
  listPath: '/days/{id}/ladders',
  listParams: byId,
  onePath: '/ladders/{id}',
  entity: e.ladder,
  entities: list(e.ladder),
  fresh: e.newLadder,
  patch: e.ladderPatch,
});

export const decisions = shelfRoutes({
  tag: 'decisions',
  one: 'decision',
  listPath: '/ladders/{id}/decisions',
  listParams: byId,
  onePath: '/decisions/{id}',
  entity: d.decision,
  entities: list(d.decision),
  fresh: d.newDecision,
  patch: d.decisionPatch,
});
