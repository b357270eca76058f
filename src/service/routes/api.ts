/** The router that all routes of /api/v1 are put on. */
import { OpenAPIHono } from '@hono/zod-openapi';
import { schemaRefusal } from '../errors.ts';

export type Api = OpenAPIHono;

export function makeApi(): Api {
  return new OpenAPIHono({
    defaultHook: (result) => {
      if (!result.success) throw schemaRefusal(result.error.issues);
    },
  });
}
