/** The published OpenAPI document, made from the same routes that validate every request. */
import { OpenAPIHono, type RouteConfig } from '@hono/zod-openapi';
import { calibrations } from './calibrations.ts';
import { comparisons, partTests, sideBySide } from './compare.ts';
import { dayTables } from './dayTables.ts';
import { files } from './files.ts';
import { handOvers } from './handOvers.ts';
import { parts } from './partHistory.ts';
import { search } from './search.ts';
import { serviceEvents, serviceReadings, serviceRecord } from './serviceRecord.ts';
import { plans, sheets } from './sheets.ts';
import * as shelves from './shelves.ts';
import { shopFile } from './shopFile.ts';
import { keptUses, uses, vehicles } from './uses.ts';
import * as work from './work.ts';

export const API_BASE = '/api/v1';

const DOCUMENT_HEAD = {
  openapi: '3.1.0',
  info: {
    title: 'Pullbook',
    version: '1',
    description:
      'The record of one engine shop: engines, builds, test days, pulls, ladders. Numbers are SI with the unit in the name; ' +
      'speeds in rev/min, crank angles in degrees. Pullbook records and advises; it never replaces the shutdowns of the cell. ' +
      'A change may carry the header `x-pullbook-who` with the name of the person; every change is an event and can be undone.',
  },
  servers: [{ url: API_BASE }],
};

/** Every route of the contract, in the order the page lists them. */
const ALL_ROUTES: readonly RouteConfig[] = [
  ...Object.values(shelves).flatMap((shelf) => Object.values(shelf) as RouteConfig[]),
  ...(Object.values(sheets) as RouteConfig[]),
  ...(Object.values(plans) as RouteConfig[]),
  ...(Object.values(parts) as RouteConfig[]),
  ...(Object.values(serviceRecord) as RouteConfig[]),
  ...(Object.values(serviceEvents) as RouteConfig[]),
  ...(Object.values(serviceReadings) as RouteConfig[]),
  ...(Object.values(dayTables) as RouteConfig[]),
  ...(Object.values(shopFile) as RouteConfig[]),
  ...(Object.values(search) as RouteConfig[]),
  ...(Object.values(files) as RouteConfig[]),
  ...(Object.values(sideBySide) as RouteConfig[]),
  ...(Object.values(comparisons) as RouteConfig[]),
  ...(Object.values(partTests) as RouteConfig[]),
  ...(Object.values(uses) as RouteConfig[]),
  ...(Object.values(vehicles) as RouteConfig[]),
  ...(Object.values(keptUses) as RouteConfig[]),
  ...(Object.values(handOvers) as RouteConfig[]),
  ...(Object.values(calibrations) as RouteConfig[]),
  ...(Object.values(work) as RouteConfig[]),
];

/** The OpenAPI 3.1 document as plain data. */
export function openApiDocument() {
  const app = new OpenAPIHono();
  for (const route of ALL_ROUTES) app.openAPIRegistry.registerPath(route);
  return app.getOpenAPI31Document(DOCUMENT_HEAD);
}
