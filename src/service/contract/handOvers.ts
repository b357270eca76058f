/** Hand-overs: frozen, listed, taken away as a bundle, and held against the recordings in them. */
import { LANGUAGES } from '../../report/index.ts';
import { airStandard, id, label, list, orNull, text, z } from '../schema/common.ts';
import { answers, body, byId, createRoute, json, nothing, refusals } from './parts.ts';

const tags = ['hand-over'];

export const handOverWish = z
  .object({
    dayIds: list(id)
      .optional()
      .openapi({ description: 'Left out: every day of the build that has pulls.' }),
    comparedBuildId: id
      .nullable()
      .optional()
      .openapi({ description: 'Left out: the build before it of the same engine; null: none.' }),
    standard: airStandard.optional().openapi({ description: "Left out: the shop's." }),
    units: z.enum(['us', 'metric']).optional(),
    stepRpm: z
      .number()
      .min(50)
      .max(2000)
      .optional()
      .openapi({ description: 'Step of the table by speed.' }),
    notes: text.optional(),
    by: label.optional(),
  })
  .openapi('HandOverWish');

export const handOverChoice = z.object({
  buildId: id,
  dayIds: list(id),
  comparedBuildId: id.nullable(),
  standard: airStandard,
  units: z.enum(['us', 'metric']),
  stepRpm: z.number().min(50).max(2000),
  notes: text,
  by: label,
});

export const handOverKept = z
  .object({
    id,
    buildId: id,
    madeAt: z.string(),
    madeBy: z.string(),
    pullbook: z.string(),
    choice: handOverChoice,
    documentSha256: z.string(),
    partSha256: z.string(),
  })
  .openapi('HandOverKept', { description: 'A hand-over as it was frozen.' });

const document = z
  .looseObject({ format: z.literal('handover/1') })
  .openapi('HandOver', { description: 'Every figure that was handed over; see docs/handover.md.' });

const figureWanted = z
  .looseObject({ kind: z.string() })
  .openapi('FigureWanted', { description: 'What a picture shows, for the charts of the screens.' });

export const replayWanted = z
  .looseObject({ durationS: z.number() })
  .openapi('ReplayWanted', { description: 'A curve with the time of its pull, to be drawn.' });

const findings = z
  .object({
    title: z.string(),
    language: z.string(),
    blocks: list(
      z.discriminatedUnion('kind', [
        z.object({
          kind: z.literal('heading'),
          level: z.union([z.literal(1), z.literal(2), z.literal(3)]),
          text: z.string(),
          over: z.string().optional(),
        }),
        z.object({
          kind: z.literal('paragraph'),
          text: z.string(),
          quiet: z.boolean().optional(),
        }),
        z.object({
          kind: z.literal('facts'),
          rows: list(z.tuple([z.string(), z.string()]).readonly()),
        }),
        z.object({
          kind: z.literal('headline'),
          figures: list(
            z.object({
              label: z.string(),
              value: z.string(),
              interval: z.string(),
              where: z.string(),
            }),
          ),
        }),
        z.object({
          kind: z.literal('figure'),
          figure: figureWanted,
          caption: z.string(),
          height: z.number(),
        }),
        z.object({ kind: z.literal('list'), items: list(z.string()) }),
        z.object({ kind: z.literal('care'), word: z.string(), items: list(z.string()) }),
      ]),
    ),
  })
  .openapi('Findings', { description: 'The first page of the report, in words.' });

const shopKey = z
  .object({
    publicKey: z.string().openapi({ description: 'Ed25519, 32 bytes, base64.' }),
    name: z.string().openapi({ description: 'Short name of the key, for people to compare.' }),
  })
  .openapi('ShopKey');

export const verified = z
  .object({
    file: z.string(),
    verdict: z.enum([
      'follows',
      'changed',
      'does not follow',
      'other version',
      'cannot be computed',
    ]),
    sentence: z.string(),
    problems: list(z.object({ where: z.string(), sentence: z.string() })).openapi({
      description: 'What was changed since it was made.',
    }),
    unheld: list(z.object({ where: z.string(), sentence: z.string() })).openapi({
      description: 'What could not be held against the figures here, and why.',
    }),
    differences: list(
      z.object({
        where: z.string(),
        place: z.string().openapi({ description: 'The same in words.' }),
        says: z.unknown(),
        follows: z.unknown(),
      }),
    ),
    held: z.number(),
    rounding: z.number().openapi({
      description:
        'The most by which figures that agree differ in their last digits, as a part of them.',
    }),
    engine: z.string(),
    build: z.string(),
    madeAt: z.string(),
    madeWith: z.string(),
    signedBy: orNull(shopKey),
    isOurs: z.boolean().openapi({ description: 'Signed with the key of this very shop.' }),
  })
  .openapi('Verified');

const bytesOf = (type: string, description: string) => ({
  200: { content: { [type]: { schema: z.any() } }, description },
  ...refusals,
});

export const handOvers = {
  list: createRoute({
    method: 'get',
    path: '/builds/{id}/handovers',
    tags,
    summary: 'Hand-overs of a build, the oldest first',
    request: { params: byId },
    responses: answers(list(handOverKept), 'Hand-overs'),
  }),
  make: createRoute({
    method: 'post',
    path: '/builds/{id}/handovers',
    tags,
    summary: 'Freeze what the record says of a build into a hand-over',
    request: { params: byId, body: body(handOverWish) },
    responses: { 201: json(handOverKept, 'The hand-over'), ...refusals },
  }),
  standing: createRoute({
    method: 'get',
    path: '/builds/{id}/findings',
    tags,
    summary: 'What a hand-over of this build would find today, in words; nothing is frozen or kept',
    request: {
      params: byId,
      query: z.object({
        standard: airStandard.optional().openapi({ description: "Left out: the shop's." }),
        units: z.enum(['us', 'metric']).optional(),
      }),
    },
    responses: answers(findings, 'The findings'),
  }),
  get: createRoute({
    method: 'get',
    path: '/handovers/{id}',
    tags,
    summary: 'A hand-over and every figure of it',
    request: { params: byId },
    responses: answers(z.object({ kept: handOverKept, document }), 'The hand-over'),
  }),
  findings: createRoute({
    method: 'get',
    path: '/handovers/{id}/findings',
    tags,
    summary: 'What the first page of the report says, as blocks of text and one picture',
    request: {
      params: byId,
      query: z.object({
        language: z.enum(LANGUAGES).optional(),
        units: z
          .enum(['us', 'metric'])
          .optional()
          .openapi({ description: 'Left out: those of the hand-over.' }),
      }),
    },
    responses: answers(findings, 'The findings'),
  }),
  remove: createRoute({
    method: 'delete',
    path: '/handovers/{id}',
    tags,
    summary: 'Remove a hand-over; POST /undo brings it back',
    request: { params: byId },
    responses: nothing,
  }),
  bundle: createRoute({
    method: 'get',
    path: '/handovers/{id}/bundle',
    tags,
    summary: 'The bundle: one zip with everything, signed, that needs no Pullbook to be read',
    request: { params: byId },
    responses: bytesOf('application/zip', 'The bundle'),
  }),
  report: createRoute({
    method: 'get',
    path: '/handovers/{id}/report',
    tags,
    summary: 'The report as a PDF, with the bundle in it',
    request: {
      params: byId,
      query: z.object({
        language: z.enum(LANGUAGES).optional(),
        size: z
          .enum(['letter', 'a4'])
          .optional()
          .openapi({ description: 'Left out: letter in US units, else A4.' }),
      }),
    },
    responses: bytesOf('application/pdf', 'The report'),
  }),
  page: createRoute({
    method: 'get',
    path: '/handovers/{id}/page',
    tags,
    summary: 'The page for the owner: one HTML file whose pictures answer to the cursor',
    request: { params: byId, query: z.object({ language: z.enum(LANGUAGES).optional() }) },
    responses: bytesOf('text/html', 'The page'),
  }),
  picture: createRoute({
    method: 'get',
    path: '/handovers/{id}/picture',
    tags,
    summary: 'The result as a picture to be shown (SVG), with the mark of the shop',
    request: {
      params: byId,
      query: z.object({
        shape: z
          .enum(['screen', 'large', 'square', 'story'])
          .optional()
          .openapi({ description: '1920×1080 (left out), 3840×2160, 1080×1080, 1080×1920.' }),
        language: z.enum(LANGUAGES).optional(),
        units: z.enum(['us', 'metric']).optional(),
      }),
    },
    responses: bytesOf('image/svg+xml', 'The picture'),
  }),
  replay: createRoute({
    method: 'get',
    path: '/handovers/{id}/replay',
    tags,
    summary: 'The curve in the time of its pull, that of the build before beside it',
    request: {
      params: byId,
      query: z.object({
        language: z.enum(LANGUAGES).optional(),
        units: z.enum(['us', 'metric']).optional(),
      }),
    },
    responses: answers(replayWanted, 'The picture that is shown, with the time of each line'),
  }),
  key: createRoute({
    method: 'get',
    path: '/shop/key',
    tags,
    summary: 'The public half of the key that the shop signs with; made at its first use',
    responses: answers(shopKey, 'The key'),
  }),
  verify: createRoute({
    method: 'post',
    path: '/verify',
    tags,
    summary: 'Hold a bundle against the recordings in it; nothing is stored',
    request: {
      query: z.object({ name: z.string().min(1).max(500) }),
      body: { content: { 'application/octet-stream': { schema: z.any() } }, required: true },
    },
    responses: answers(verified, 'What follows and what does not'),
  }),
};
