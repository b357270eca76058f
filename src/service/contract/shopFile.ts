/** A shop from machine to machine. */
import { id, isoTime, list, z } from '../schema/common.ts';
import { answers, createRoute, json, nameQuery, refusals } from './parts.ts';

const tags = ['shop'];
const body = {
  content: {
    'application/octet-stream': { schema: z.any().openapi({ type: 'string', format: 'binary' }) },
  },
  required: true,
};
const settings = z
  .object({ taken: list(z.string()), kept: list(z.string()), renamed: list(z.string()) })
  .openapi({
    description:
      'What becomes of the shop’s own settings: nothing that stands here is written over. Each in a few words.',
  });
const look = z
  .object({
    shop: z.string(),
    madeAt: isoTime,
    fresh: z.record(z.string(), z.number().int()).openapi({
      description: 'Rows by kind that are not here yet.',
    }),
    known: z.number().int(),
    settings,
    conflicts: list(z.object({ sentence: z.string() })),
    sentence: z.string(),
  })
  .openapi('ShopFileLook', { description: 'What the archive would bring; nothing was written.' });
const taken = z
  .object({ taken: z.number().int(), known: z.number().int(), settings })
  .openapi('ShopFileTaken');

export const shopFile = {
  export: createRoute({
    method: 'get',
    path: '/export',
    tags,
    summary: 'The whole shop, or one engine with all under it, as a zip for another machine',
    request: { query: z.object({ engine: id.optional() }) },
    responses: {
      200: {
        content: { 'application/zip': { schema: z.any() } },
        description: 'Rows as JSON, run files and photos as they came',
      },
      ...refusals,
    },
  }),
  look: createRoute({
    method: 'post',
    path: '/take/look',
    tags,
    summary: 'What such a zip would bring, and what stands here otherwise',
    request: { query: nameQuery, body },
    responses: answers(look, 'What would come in'),
  }),
  take: createRoute({
    method: 'post',
    path: '/take',
    tags,
    summary: 'Take such a zip in, in one change; POST /undo takes it back',
    request: { query: nameQuery, body },
    responses: { 201: json(taken, 'How much was taken in'), ...refusals },
  }),
};
