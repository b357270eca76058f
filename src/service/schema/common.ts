/** Small schemas that all others are made of. Numbers carry their unit in their name, as everywhere. */
import { z } from '@hono/zod-openapi';
import { AIR_STANDARDS } from '../../pull/recording.ts';

export { z };

/** Arrays are answered, never changed, so their type is read-only. */
export const list = <T extends z.ZodType>(item: T) => z.array(item).readonly();

/** A registered schema or null; `.nullable()` would leak the null into the shared component. */
export const orNull = <T extends z.ZodType>(schema: T) => z.union([schema, z.null()]);

export const id = z.string().min(1).max(64);
export const label = z.string().max(200);
export const text = z.string().max(20_000);
export const numberOrNull = z.number().nullable();
export const positive = z.number().positive();
export const positiveOrNull = positive.nullable();
export const temperatureK = z.number().min(150).max(400);
export const percent = z.number().min(0).max(100);
export const chance = z.number().min(0).max(1);

export const airStandard = z.enum(AIR_STANDARDS).openapi('AirStandard');
export const isoDate = z.iso.date();
export const isoTime = z.iso.datetime();

export const bandRpm = z
  .tuple([z.number().min(0).max(100_000), z.number().min(0).max(100_000)])
  .readonly()
  .refine(([low, high]) => low < high, {
    message: 'expected two speeds in rev/min, the lower one first',
  })
  .openapi('BandRpm', { description: 'Two speeds [rev/min], low before high.' });

export const torqueBasis = z
  .object({
    air: z.enum(['observed', ...AIR_STANDARDS, 'unknown']),
    inertia: z.enum(['in', 'out', 'unknown']),
  })
  .openapi('TorqueBasis', {
    description:
      'Which torque a column holds. inertia out: the torque that accelerated the rotating parts is not in it.',
  });

export const banded = z
  .object({ value: z.number(), low: z.number(), high: z.number() })
  .openapi('Banded', { description: 'A number with its 95 % interval.' });

export const errorBody = z
  .object({
    error: z.object({
      code: z
        .string()
        .openapi({ description: 'input, format, nonphysical, no-convergence, store, too-large …' }),
      message: z.string(),
      file: z.string().optional(),
      line: z.number().optional(),
      column: z.union([z.number(), z.string()]).optional(),
      found: z.string().optional(),
      expected: z.string().optional(),
    }),
  })
  .openapi('ErrorBody', { description: 'One sentence a person can act on, with its place.' });
