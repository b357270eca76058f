/** What an engine is for: vehicles and uses kept on its page, and builds under them. */
import { list } from '../schema/common.ts';
import * as u from '../schema/uses.ts';
import { answers, body, byId, createRoute, nameQuery, rawFile, shelfRoutes } from './parts.ts';

const tags = ['what it is for'];
export const uses = {
  answer: createRoute({
    method: 'post',
    path: '/use',
    tags,
    summary: 'Builds under a use and in a vehicle; nothing is stored',
    request: { body: body(u.useWanted) },
    responses: answers(u.usesAnswer, 'Which build suits, by how much, with what certainty'),
  }),
  members: createRoute({
    method: 'post',
    path: '/use/members',
    tags,
    summary: 'The pulls of each build with their curves, brought together but not answered for',
    request: { body: body(u.useMembersWanted) },
    responses: answers(u.useMembers, 'What a browser needs to answer by itself'),
  }),
  fromLog: createRoute({
    method: 'post',
    path: '/uses/from-log',
    tags,
    summary: 'Read a logged drive into a use; the body is its bytes, nothing is stored',
    request: { query: nameQuery, body: { ...rawFile, required: true } },
    responses: answers(u.useOfLog, 'Time by engine speed, at high throttle where that is logged'),
  }),
};

export const vehicles = shelfRoutes({
  tag: 'vehicles',
  one: 'vehicle',
  listPath: '/engines/{id}/vehicles',
  listParams: byId,
  onePath: '/vehicles/{id}',
  entity: u.keptVehicle,
  entities: list(u.keptVehicle),
  fresh: u.newVehicle,
  patch: u.vehiclePatch,
});

export const keptUses = shelfRoutes({
  tag: 'uses',
  one: 'use',
  listPath: '/engines/{id}/uses',
  listParams: byId,
  onePath: '/uses/{id}',
  entity: u.keptUse,
  entities: list(u.keptUse),
  fresh: u.newUse,
  patch: u.usePatch,
});
