/** The build sheet: read, kept from the version that was read, what follows from it, and the next build begun as a copy. */
import { PLAN_GROUPS } from '../../build/plan/types.ts';
import { id, list, z } from '../schema/common.ts';
import { build } from '../schema/entities.ts';
import { answers, body, byId, createRoute, json, nameQuery, rawFile, refusals } from './parts.ts';

/** Its fields are checked by the record, which names the one that is wrong; see docs/sheet.md for the form. */
const sheet = z
  .looseObject({ format: z.literal('sheet/1') })
  .openapi('Sheet', { description: 'A build sheet, form sheet/1; see docs/sheet.md.' });
const keptSheet = z
  .object({
    buildId: id,
    version: z
      .number()
      .int()
      .openapi({ description: 'Rises with every change; 0: there never was a sheet.' }),
    sheet: sheet.nullable(),
  })
  .openapi('KeptSheet');
const sheetReading = z
  .object({
    version: z
      .number()
      .int()
      .openapi({ description: 'Of the sheet that it was held against; a PUT names it.' }),
    given: sheet.nullable().openapi({
      description: 'What could be read of the file; null: nothing.',
    }),
    sheet: sheet.nullable().openapi({
      description:
        'The sheet with that put onto it, as a PUT would keep it; null: it cannot be kept.',
    }),
    taken: list(
      z.object({
        section: z.string().nullable(),
        label: z.string(),
        before: z.string().nullable().openapi({ description: 'null: nothing stood there.' }),
        after: z.string(),
      }),
    ),
    refused: list(
      z.object({
        row: z.number().int().nullable(),
        column: z.number().int().nullable(),
        path: z.string().nullable(),
        found: z.string(),
        expected: z.string(),
      }),
    ),
  })
  .openapi('SheetReading', {
    description: 'What a file would fill in and change of a sheet, and what of it was not taken.',
  });
const sheetAnswer = z
  .looseObject({
    figures: z.array(z.looseObject({ id: z.string() })),
    checks: z.array(z.looseObject({ id: z.string() })),
    measureNext: z.array(z.looseObject({ path: z.string() })),
  })
  .openapi('SheetAnswer', { description: 'All that follows from a build sheet.' });
const plan = z
  .looseObject({ version: z.number(), sections: z.array(z.looseObject({ group: z.string() })) })
  .openapi('Plan', { description: 'The test plan that follows from a build sheet.' });
const planTick = z
  .object({ itemId: z.string(), by: z.string(), at: z.string() })
  .openapi('PlanTick');
const words = z.string().trim().min(1).max(500);
const itemId = z.string().min(1).max(200);
const planEdit = z
  .discriminatedUnion('act', [
    z.object({ act: z.literal('strike'), itemId, reason: words }),
    z.object({
      act: z.literal('number'),
      itemId,
      part: z.number().int().min(0).max(100).openapi({
        description: 'Which stretch of the sentence holds the number, from 0.',
      }),
      value: z.number().openapi({ description: 'In the inside unit of that number.' }),
      reason: words,
    }),
    z.object({ act: z.literal('restore'), itemId }),
    z.object({
      act: z.literal('add'),
      group: z.enum(PLAN_GROUPS.map(([group]) => group)),
      sentence: words,
      weight: z.enum(['must', 'should']).default('should'),
      beforeFirstStart: z.boolean().default(false),
    }),
    z.object({ act: z.literal('remove'), itemId }),
  ])
  .openapi('PlanEdit', {
    description:
      'Strike an item, change a number of it, bring it back as it was made, add one of your own, remove that again. Items that keep people safe are refused.',
  });
const keptPlan = z
  .object({
    planId: id.nullable().openapi({ description: 'null: none was made for this day yet.' }),
    madeAt: z.string().nullable(),
    plan: plan.nullable(),
    ticks: z.array(planTick),
  })
  .openapi('KeptPlan');
const tags = ['build sheet'];

export const sheets = {
  get: createRoute({
    method: 'get',
    path: '/builds/{id}/sheet',
    tags,
    summary: 'The sheet of a build and its version',
    request: { params: byId },
    responses: answers(keptSheet, 'The sheet; null where the build has none'),
  }),
  put: createRoute({
    method: 'put',
    path: '/builds/{id}/sheet',
    tags,
    summary:
      'Keep the sheet of a build; refused where another was kept since the version it was made from',
    request: { params: byId, body: body(z.object({ version: z.number().int(), sheet })) },
    responses: answers(keptSheet, 'The sheet as it now stands'),
  }),
  read: createRoute({
    method: 'post',
    path: '/builds/{id}/sheet/read',
    tags,
    summary: 'What a table or build file would fill in and change; nothing is kept',
    description:
      'The body is the file: .csv, .xlsx or .json, as docs/sheet.md has it. What it does not hold stays as it is. Keep `sheet` by PUT from `version`.',
    request: {
      params: byId,
      query: nameQuery.extend({
        cylinders: z.coerce.number().int().min(1).max(64).optional().openapi({
          description: 'Where neither the file nor the build says how many there are.',
        }),
      }),
      body: { ...rawFile, required: true },
    },
    responses: answers(sheetReading, 'What would be taken, and what not'),
  }),
  file: createRoute({
    method: 'get',
    path: '/builds/{id}/sheet/file',
    tags,
    summary: 'The sheet as a file: a build file, or a table for spreadsheets',
    description: 'A table runs no formula in a spreadsheet; photos and files have no place in it.',
    request: { params: byId, query: z.object({ as: z.enum(['json', 'csv', 'xlsx']) }) },
    responses: { 200: rawFile, ...refusals },
  }),
  answer: createRoute({
    method: 'get',
    path: '/builds/{id}/sheet/answer',
    tags,
    summary: 'What follows from the sheet, judged by the windows of the shop',
    request: { params: byId },
    responses: answers(sheetAnswer, 'Figures, checks, and what to measure next'),
  }),
  copy: createRoute({
    method: 'post',
    path: '/builds/{id}/next',
    tags,
    summary:
      'The next build of the engine, begun as a copy; measurements of changed sections are left to be filled in',
    request: {
      params: byId,
      body: body(
        z.object({
          name: z.string().min(1).max(200),
          changed: z.array(z.string().max(40)).max(40).default([]),
        }),
      ),
    },
    responses: { 201: json(build, 'The new build'), ...refusals },
  }),
};

/** The test plan of a day: kept as it was made with what the day changed beside it, ticked by whoever does it. */
export const plans = {
  get: createRoute({
    method: 'get',
    path: '/days/{id}/plan',
    tags,
    summary: 'The newest test plan of a day with who ticked what',
    request: { params: byId },
    responses: answers(keptPlan, 'The plan as it was made; null where there is none'),
  }),
  make: createRoute({
    method: 'post',
    path: '/days/{id}/plan',
    tags,
    summary:
      'Make the test plan of a day from the sheet of its build; an older one stays in the record',
    request: { params: byId },
    responses: { 201: json(keptPlan, 'The plan as it was made'), ...refusals },
  }),
  tick: createRoute({
    method: 'post',
    path: '/plans/{id}/ticks',
    tags,
    summary: 'Tick an item of a plan, or take the tick back',
    request: {
      params: byId,
      body: body(z.object({ itemId, ticked: z.boolean() })),
    },
    responses: answers(keptPlan, 'The plan with all its ticks'),
  }),
  edit: createRoute({
    method: 'post',
    path: '/plans/{id}/edits',
    tags,
    summary:
      'Change the plan of a day; what was made stays beside it, and POST /undo takes it back',
    request: { params: byId, body: body(planEdit) },
    responses: answers(keptPlan, 'The plan with its changes under `edits`'),
  }),
};
