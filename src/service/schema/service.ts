/** What was done to an engine and read of it between its builds, as it crosses HTTP. */
import { id, isoDate, isoTime, label, list, positiveOrNull, text, z } from './common.ts';

const hoursS = z.number().min(0).max(3.6e9).nullable().openapi({
  description: 'What the engine had run then, as its meter or log says [s].',
});
const eventFields = z.object({
  kind: z.enum(['refresh', 'work']).openapi({
    description: 'A refresh begins its hours and pulls anew; other work leaves them as they are.',
  }),
  doneOn: isoDate,
  what: text,
  parts: text,
  hoursS,
});
const written = { id, engineId: id, who: label, writtenAt: isoTime };
export const serviceEvent = eventFields.extend(written).openapi('ServiceEvent');
export const newServiceEvent = eventFields
  .partial()
  .required({ doneOn: true })
  .strict()
  .openapi('NewServiceEvent');
export const serviceEventPatch = eventFields.partial().strict().openapi('ServiceEventPatch');

const byCylinder = (most: number) => list(z.number().min(0).max(most).nullable()).nullable();
const readingFields = z.object({
  readOn: isoDate,
  hoursS,
  leakDown: byCylinder(1).openapi({
    description: 'By cylinder, as a share; null for one that was not read.',
  }),
  leakDownError: positiveOrNull.openapi({
    description: 'What the gauge may be wrong by, ± the same share; null: nobody said.',
  }),
  crankingGaugePa: byCylinder(1e7).openapi({
    description: 'Cranking pressure by cylinder over the air about it [Pa].',
  }),
  crankingErrorPa: positiveOrNull,
  note: text,
});
export const serviceReading = readingFields.extend(written).openapi('ServiceReading');
export const newServiceReading = readingFields
  .partial()
  .required({ readOn: true })
  .strict()
  .openapi('NewServiceReading');
export const serviceReadingPatch = readingFields.partial().strict().openapi('ServiceReadingPatch');
