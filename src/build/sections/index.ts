import {
  CONDITION,
  EXHAUST,
  FASTENERS,
  FUEL_SYSTEM,
  IGNITION,
  INDUCTION,
  INTENT,
  OILING,
} from './aroundIt.ts';
import { BLOCK, CRANK, DECK, PISTONS, RODS } from './bottomEnd.ts';
import type { FieldSpec, SectionSpec, TableSpec } from './field.ts';
import { CAMSHAFT, HEADS, VALVE_TRAIN } from './topEnd.ts';

export type { Choice, FieldSpec, SectionSpec, TableSpec } from './field.ts';

/** The sections of a sheet in the order in which an engine is built. */
export const SECTIONS: readonly SectionSpec[] = [
  INTENT,
  BLOCK,
  CRANK,
  RODS,
  PISTONS,
  DECK,
  HEADS,
  CAMSHAFT,
  VALVE_TRAIN,
  INDUCTION,
  FUEL_SYSTEM,
  IGNITION,
  EXHAUST,
  OILING,
  FASTENERS,
  CONDITION,
];

const byId = new Map(SECTIONS.map((section) => [section.id, section]));
const fieldById = new Map<string, FieldSpec>(
  SECTIONS.flatMap((section) =>
    section.fields.map((field) => [`${section.id}.${field.id}`, field] as const),
  ),
);

export const sectionOf = (id: string): SectionSpec | undefined => byId.get(id);

/** The field of a path such as `block.boreNominal`. */
export const fieldOf = (path: string): FieldSpec | undefined => fieldById.get(path);

export const tableOf = (sectionId: string, tableId: string): TableSpec | undefined =>
  byId.get(sectionId)?.tables?.find((table) => table.id === tableId);

/** Every path of the sheet, section by section. */
export const FIELD_PATHS: readonly string[] = [...fieldById.keys()];
