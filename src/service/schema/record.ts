/** Import, what was understood of a file, events, the first screen, health. */
import { ENTITIES } from '../../record/types.ts';
import { calibrationState } from './calibrations.ts';
import {
  errorBody,
  id,
  isoDate,
  isoTime,
  list,
  numberOrNull,
  orNull,
  torqueBasis,
  z,
} from './common.ts';
import { decision } from './decisions.ts';
import {
  build,
  cell,
  day,
  engine,
  ladder,
  pull,
  pullSpan,
  rememberedOptions,
  settingName,
  shop,
  storedRecording,
} from './entities.ts';

export const question = z
  .object({
    key: z.string().openapi({ description: 'Stable name: torqueIs, unit:Torque, dayFirst …' }),
    header: z.string().nullable(),
    sentence: z.string(),
    meanwhile: z.string().openapi({ description: 'What was taken until it is answered.' }),
    choices: list(z.object({ label: z.string(), answer: rememberedOptions })),
  })
  .openapi('Question', {
    description:
      'What the file does not say, asked once for each cell and shape of file. Merge the chosen answer into the remembered ones.',
  });

export const understood = z
  .object({
    fileName: z.string(),
    shape: z.string().openapi({ description: 'Key of the file shape for PUT …/mappings/{shape}.' }),
    kind: z.enum(['time series', 'speed table']),
    rows: z.number().int(),
    channels: list(
      z.object({
        header: z.string(),
        quantity: z.string(),
        unit: z.string().nullable(),
        basis: orNull(torqueBasis),
        bank: z.number().nullable(),
        cylinder: z.number().nullable(),
        derivedFrom: z.string().nullable(),
      }),
    ),
    spans: list(pullSpan),
    questions: list(question),
    warnings: list(z.string()),
    answers: rememberedOptions.openapi({ description: 'What was remembered and used.' }),
  })
  .openapi('Understood', { description: 'What was understood of one run file.' });

export const imported = z
  .object({
    fileName: z.string(),
    duplicate: z.boolean().openapi({
      description:
        'These very bytes were in the record: nothing was stored, pulls are those that have them.',
    }),
    recording: storedRecording,
    pulls: list(pull),
    understood: orNull(understood),
  })
  .openapi('Imported');

/** A refusal of a file, with what was understood of it where its columns were not recognised. */
export const fileRefusal = errorBody
  .extend({ understood: understood.optional() })
  .openapi('FileRefusal', { description: 'Why a file was not taken.' });

export const importProgress = z
  .union([
    z.object({ stage: z.literal('receiving'), fileName: z.string(), bytes: z.number() }),
    z.object({
      stage: z.enum(['reading', 'finding pulls', 'storing']),
      fileName: z.string(),
      share: numberOrNull,
    }),
    z.object({ stage: z.literal('done'), fileName: z.string(), imported }),
    z.object({
      stage: z.literal('refused'),
      fileName: z.string(),
      error: errorBody.shape.error,
      understood: understood.optional().openapi({
        description:
          'Only where the columns were not recognised: say what they are by PUT …/mappings/{shape} and post the file again.',
      }),
    }),
  ])
  .openapi('ImportProgress', {
    description: 'One line of the progress of one file; the last line is done or refused.',
  });

export const touched = z
  .object({
    entity: z.enum(ENTITIES),
    id,
    before: z.record(z.string(), z.unknown()).nullable(),
    after: z.record(z.string(), z.unknown()).nullable(),
  })
  .openapi('Touched');

export const recordEvent = z
  .object({
    id: z.number().int(),
    at: isoTime,
    who: z.string(),
    kind: z.enum(['change', 'import', 'undo', 'redo']),
    summary: z.string(),
    of: z.number().int().nullable(),
    undone: z.boolean(),
    touched: list(touched).optional(),
  })
  .openapi('RecordEvent');

const engineSummary = z
  .object({
    id,
    name: z.string(),
    serial: z.string(),
    owner: z.string(),
    aspiration: z.enum(['natural', 'boosted', 'nitrous']),
    cylinders: numberOrNull,
    displacementM3: numberOrNull,
    builds: list(
      z.object({
        id,
        name: z.string(),
        dayCount: z.number().int(),
        pullCount: z.number().int(),
        lastDate: isoDate.nullable(),
      }),
    ),
  })
  .openapi('EngineSummary');

const daySummary = z
  .object({
    id,
    name: z.string(),
    date: isoDate.nullable(),
    engineId: id,
    engineName: z.string(),
    buildId: id,
    buildName: z.string(),
    pullCount: z.number().int(),
    lowLeadDeg: numberOrNull,
    highLeadDeg: numberOrNull,
    ladders: list(z.object({ id, name: z.string(), setting: settingName })),
    decisions: list(z.object({ kind: settingName, use: z.string(), setting: numberOrNull })),
  })
  .openapi('DaySummary');

export const shopSummary = z
  .object({
    shop,
    engineCount: z.number().int(),
    dayCount: z.number().int(),
    pullCount: z.number().int(),
    engines: list(engineSummary),
    latestDays: list(daySummary),
  })
  .openapi('ShopSummary');

export const health = z
  .object({
    ok: z.boolean(),
    product: z.literal('pullbook'),
    version: z.string(),
    apiVersion: z.literal(1),
  })
  .openapi('Health');

/** All that the screen of one engine shows, in one answer. */
export const enginePage = z
  .object({
    engine,
    builds: list(build),
    days: list(daySummary),
  })
  .openapi('EnginePage');

/** All that the screen of one test day shows but its curves, in one answer. */
export const dayPage = z
  .object({
    day,
    build,
    engine,
    cell,
    calibration: calibrationState,
    pulls: list(pull),
    recordings: list(storedRecording),
    ladders: list(ladder),
    decisions: list(decision),
  })
  .openapi('DayPage');
