/** What engines are for, as it crosses HTTP: vehicles and uses as typed, and builds under them. */
import { banded, id, isoTime, label, list, numberOrNull, orNull, z } from './common.ts';
import { brought, compareInput, sidesWanted, sideWanted } from './compare.ts';

const written = (format: string, sample: string) =>
  z.record(z.string().max(60), z.unknown()).openapi({
    description: `An object of the format ${format}, as typed: quantities are texts with their unit (${sample}). See docs/use.md.`,
  });
const vehicleWritten = written('vehicle/1', '`"mass": "3500 lb"`');
const useWritten = written('use/1', '`"speed": "5500 rpm"`');
const kept = { id, engineId: id, name: label, who: label, keptAt: isoTime };

export const keptVehicle = z.object({ ...kept, written: vehicleWritten }).openapi('KeptVehicle', {
  description: 'A vehicle that an engine goes into, as somebody typed it.',
});
export const newVehicle = z
  .object({ name: label.min(1), written: vehicleWritten })
  .strict()
  .openapi('NewVehicle');
export const vehiclePatch = newVehicle.partial().strict().openapi('VehiclePatch');

export const keptUse = z
  .object({ ...kept, written: useWritten })
  .openapi('KeptUse', { description: 'A use of one’s own, typed or from a log.' });
export const newUse = z
  .object({ name: label.min(1), written: useWritten })
  .strict()
  .openapi('NewUse');
export const usePatch = newUse.partial().strict().openapi('UsePatch');

const wanted = {
  ...sidesWanted,
  sides: z.array(sideWanted).min(1).max(12).readonly().openapi({
    description: 'Builds, or anything else that can be compared; one is enough for a vehicle.',
  }),
};
export const useMembersWanted = z.object(wanted).strict().openapi('UseMembersWanted');
export const useWanted = z
  .object({
    ...wanted,
    use: z
      .union([
        z.literal('all'),
        z.object({ chosen: z.string().max(80) }).strict(),
        z.object({ keptId: id }).strict(),
        z.object({ written: useWritten }).strict(),
      ])
      .optional()
      .openapi({
        description:
          'All that can be chosen, one of them by name, a kept one, or one typed here; left out: the vehicle’s own quarter mile, or all.',
      }),
    vehicle: z
      .union([z.object({ keptId: id }).strict(), z.object({ written: vehicleWritten }).strict()])
      .optional(),
    aboveRpm: z.number().min(100).max(30_000).optional().openapi({
      description: 'Engine speed about which a use is dragged.',
    }),
    goal: z.string().max(40).optional().openapi({
      description: 'The time that counts: `quarterMile` unless said, `0-60mph`, `1km` …',
    }),
  })
  .strict()
  .openapi('UseWanted');

const figure = {
  id: z.string(),
  name: z.string(),
  unit: z.enum(['s', 'm/s']),
  value: numberOrNull,
  low: numberOrNull,
  high: numberOrNull,
};
const published = z.looseObject({
  use: z.string(),
  from: z.enum(['chosen', 'typed', 'log', 'vehicle']),
  reason: z.string(),
  refused: z.string().nullable(),
  coverage: numberOrNull,
  builds: list(z.object({ name: z.string(), meanPowerW: banded })),
  pairs: list(
    z.looseObject({ a: z.string(), b: z.string(), gainPercent: banded, finding: z.string() }),
  ),
});
export const usesAnswer = z
  .object({
    format: z.literal('use-answer/1'),
    builds: list(z.string()),
    standard: z.string(),
    uses: list(published),
    vehicle: orNull(
      z.looseObject({
        name: z.string(),
        builds: list(z.looseObject({ name: z.string(), figures: list(z.object(figure)) })),
        pairs: list(
          z.looseObject({
            a: z.string(),
            b: z.string(),
            differences: list(z.object({ ...figure, chanceBetter: numberOrNull })),
            finding: z.string(),
          }),
        ),
        assumed: list(z.string()),
      }),
    ),
    finding: z.string().openapi({ description: 'A paragraph for the owner.' }),
    warnings: list(z.string()),
  })
  .openapi('UsesAnswer', {
    description: 'Builds under uses and in a vehicle; intervals are 95 %. See docs/command.md.',
  });
export const useMembers = z.object({ ...brought, input: compareInput }).openapi('UseMembers', {
  description: 'Builds brought to one air and one setting, for a browser that answers by itself.',
});
export const useOfLog = z
  .object({ name: label, written: useWritten, notes: list(z.string()) })
  .openapi('UseOfLog', { description: 'A use read from a logged drive; nothing is stored.' });
