/** Import, recordings, curves, traces, ladder answers, events, backup, health. */
import { LANGUAGES } from '../../report/index.ts';
import { airStandard, id, list, z } from '../schema/common.ts';
import { storedRecording } from '../schema/entities.ts';
import {
  fileRefusal,
  health,
  imported,
  importProgress,
  recordEvent,
  understood,
} from '../schema/record.ts';
import { ladderReading, pullCurve, trace } from '../schema/results.ts';
import { twoReading } from '../schema/two.ts';
import { replayWanted } from './handOvers.ts';
import {
  answers,
  byId,
  bySha,
  createRoute,
  json,
  nameQuery,
  rawFile,
  refusals,
  standardQuery,
  takenAs,
  takenContent,
} from './parts.ts';

export const importFile = createRoute({
  method: 'post',
  path: '/days/{id}/recordings',
  tags: ['recordings'],
  summary: 'Post one run file as it came; its pulls join the day',
  description:
    'Body: the raw bytes. The day `latest` is the one made last, for a script of the logger. With `Accept: application/x-ndjson` the answer is a stream of ImportProgress lines; ' +
    'dropping the connection cancels, and nothing is stored. Otherwise one Imported object: 201 when stored, 200 when the bytes were known.',
  request: { params: byId, query: nameQuery, body: { ...rawFile, required: true } },
  responses: {
    200: {
      description: 'Known already, and nothing was stored; or the lines of progress.',
      content: {
        'application/json': { schema: imported },
        'application/x-ndjson': { schema: importProgress },
      },
    },
    201: json(imported, 'Stored.'),
    default: json(fileRefusal, 'Refused; nothing was stored.'),
  },
});
export const lookAtFile = createRoute({
  method: 'post',
  path: '/cells/{id}/look',
  tags: ['recordings'],
  summary: 'What would be understood of a run file; nothing is stored',
  request: { params: byId, query: nameQuery, body: { ...rawFile, required: true } },
  responses: {
    200: json(understood, 'What was understood'),
    default: json(fileRefusal, 'Refused.'),
  },
});
export const getRecording = createRoute({
  method: 'get',
  path: '/recordings/{sha256}',
  tags: ['recordings'],
  summary: 'What is stored of one file',
  request: { params: bySha },
  responses: answers(storedRecording, 'The recording'),
});
export const getRecordingBytes = createRoute({
  method: 'get',
  path: '/recordings/{sha256}/bytes',
  tags: ['recordings'],
  summary: 'The file as it came, byte for byte',
  request: { params: bySha },
  responses: { 200: rawFile, ...refusals },
});
export const getUnderstood = createRoute({
  method: 'get',
  path: '/recordings/{sha256}/understood',
  tags: ['recordings'],
  summary: 'What is understood of a stored file with the answers remembered for a cell',
  request: { params: bySha, query: z.object({ cellId: z.string().max(64).optional() }) },
  responses: answers(understood, 'What was understood'),
});

export const getCurve = createRoute({
  method: 'get',
  path: '/pulls/{id}/curve',
  tags: ['curves'],
  summary: 'The curve of one pull in a standard air',
  request: { params: byId, query: standardQuery },
  responses: answers(pullCurve, 'The curve, or why there is none'),
});
export const getDayCurves = createRoute({
  method: 'get',
  path: '/days/{id}/curves',
  tags: ['curves'],
  summary: 'The curves of all pulls of a day in a standard air',
  request: { params: byId, query: standardQuery },
  responses: answers(list(pullCurve), 'One for each pull, in the order of the pulls'),
});
export const getTrace = createRoute({
  method: 'get',
  path: '/pulls/{id}/trace',
  tags: ['curves'],
  summary: 'Channels of the recording behind a pull, thinned for drawing',
  request: {
    params: byId,
    query: z.object({
      points: z.coerce.number().int().min(10).max(20_000).default(2000),
      whole: z
        .enum(['true', 'false'])
        .default('false')
        .openapi({ description: 'true: the whole recording; false: the rows of this pull.' }),
      fromRow: z.coerce.number().int().min(0).optional().openapi({
        description: 'Only from this row of the recording on: fewer rows a bin, so finer.',
      }),
      toRow: z.coerce.number().int().min(0).optional().openapi({
        description: 'Only up to this row of the recording, itself included.',
      }),
    }),
  },
  responses: answers(trace, 'Lowest and highest value of each bin of rows'),
});

export const getPullReplay = createRoute({
  method: 'get',
  path: '/pulls/{id}/replay',
  tags: ['curves'],
  summary: 'A pull in its own time, another of the shop beside it where one is named',
  request: {
    params: byId,
    query: z.object({
      beside: id.optional().openapi({ description: 'Another pull; left out: none.' }),
      standard: airStandard.optional(),
      language: z.enum(LANGUAGES).optional(),
      units: z.enum(['us', 'metric']).optional(),
    }),
  },
  responses: answers(replayWanted, 'What is drawn, with the time of each line'),
});

export const getLadderReading = createRoute({
  method: 'get',
  path: '/ladders/{id}/reading',
  tags: ['ladders'],
  summary: 'Input and answer of a ladder as it stands',
  request: { params: byId, query: standardQuery },
  responses: answers(ladderReading, 'Input and answer'),
});

export const getBoth = createRoute({
  method: 'get',
  path: '/days/{id}/both',
  tags: ['ladders'],
  summary: 'Lead and lambda of a day at once: input and answer as they stand',
  request: { params: byId, query: standardQuery },
  responses: answers(twoReading, 'Input and answer'),
});

export const getBothTable = createRoute({
  method: 'get',
  path: '/days/{id}/both/table',
  tags: ['ladders'],
  summary:
    'Lead and lambda by speed for one use, with units in its heads: CSV, a workbook or Parquet',
  request: {
    params: byId,
    query: standardQuery.extend({ use: z.string().max(200), as: takenAs.default('csv') }),
  },
  responses: {
    200: {
      description: 'The table.',
      content: takenContent,
    },
    ...refusals,
  },
});

export const listEvents = createRoute({
  method: 'get',
  path: '/events',
  tags: ['events'],
  summary: 'Every change of the record, newest first',
  request: {
    query: z.object({
      before: z.coerce.number().int().min(1).optional(),
      limit: z.coerce.number().int().min(1).max(500).default(100),
    }),
  },
  responses: answers(list(recordEvent), 'Events'),
});
const byEvent = z.object({
  event: z.coerce
    .number()
    .int()
    .min(1)
    .openapi({ param: { name: 'event', in: 'path' } }),
});
export const getEvent = createRoute({
  method: 'get',
  path: '/events/{event}',
  tags: ['events'],
  summary: 'One event with the rows it touched, before and after',
  request: { params: byEvent },
  responses: answers(recordEvent, 'The event'),
});
export const undoEvent = createRoute({
  method: 'post',
  path: '/events/{event}/undo',
  tags: ['events'],
  summary: 'Take back one event',
  request: { params: byEvent },
  responses: answers(recordEvent, 'The undo, itself an event'),
});
export const redoEvent = createRoute({
  method: 'post',
  path: '/events/{event}/redo',
  tags: ['events'],
  summary: 'Bring back one undone event',
  request: { params: byEvent },
  responses: answers(recordEvent, 'The redo, itself an event'),
});
export const undo = createRoute({
  method: 'post',
  path: '/undo',
  tags: ['events'],
  summary: 'Take back the newest event that stands',
  responses: answers(recordEvent, 'The undo, itself an event'),
});
export const redo = createRoute({
  method: 'post',
  path: '/redo',
  tags: ['events'],
  summary: 'Bring back the event last undone',
  responses: answers(recordEvent, 'The redo, itself an event'),
});

export const getBackup = createRoute({
  method: 'get',
  path: '/backup',
  tags: ['record'],
  summary: 'A whole, consistent copy of the database, made while it stays in use',
  responses: { 200: rawFile, ...refusals },
});
export const getHealth = createRoute({
  method: 'get',
  path: '/health',
  tags: ['record'],
  summary: 'Whether the server answers, and its version',
  responses: answers(health, 'Healthy'),
});
