/**
 * Which column holds which field of an entity. One table of kinds serves reading, writing, events and undo,
 * so that a field cannot be saved by one and forgotten by another.
 */
import { InputError } from '../errors.ts';
import type { EntityName, EntityTypes } from './types.ts';

type SqlValue = string | number | bigint | Uint8Array | null;
export type Row = Record<string, SqlValue>;
type Kind = 'plain' | 'boolean' | 'json';

interface TableSpec {
  readonly table: string;
  /** How a person calls one of them in a sentence. */
  readonly one: string;
  readonly kinds: Readonly<Record<string, Kind>>;
  /** Fields that name another entity which must exist. */
  readonly refs: Readonly<Record<string, EntityName>>;
  /** Where its removal takes others along, or is refused while others use it. */
  readonly children: readonly { entity: EntityName; field: string; onRemove: 'along' | 'refuse' }[];
  /** Columns of the order in which people read them. */
  readonly order: readonly string[];
}

const spec = <E extends EntityName>(
  table: TableSpec & { readonly kinds: Readonly<Record<keyof EntityTypes[E], Kind>> },
): TableSpec => table;

const measures = {
  cylinders: 'plain',
  displacementM3: 'plain',
  strokeM: 'plain',
  compressionRatio: 'plain',
} as const;

export const TABLES: Readonly<Record<EntityName, TableSpec>> = {
  shop: spec<'shop'>({
    table: 'shop',
    one: 'shop',
    kinds: {
      name: 'plain',
      invented: 'boolean',
      address: 'plain',
      mark: 'plain',
      units: 'plain',
      standard: 'plain',
      worthPercent: 'plain',
      stepDeg: 'plain',
      repeatabilityPercent: 'plain',
      holdbackDegPer10K: 'plain',
      holdbackDegPerOctane: 'plain',
      uses: 'json',
      windows: 'json',
    },
    refs: {},
    children: [],
    order: ['id'],
  }),
  cell: spec<'cell'>({
    table: 'cell',
    one: 'cell',
    kinds: {
      id: 'plain',
      name: 'plain',
      notes: 'plain',
      inertiaKgM2: 'plain',
      sensorLagS: 'plain',
      ratio: 'plain',
      torqueIs: 'json',
      calibrationRelSd: 'plain',
      applyCalibration: 'boolean',
    },
    refs: {},
    children: [
      { entity: 'mapping', field: 'cellId', onRemove: 'along' },
      { entity: 'calibration', field: 'cellId', onRemove: 'along' },
      { entity: 'day', field: 'cellId', onRemove: 'refuse' },
    ],
    order: ['name', 'id'],
  }),
  mapping: spec<'mapping'>({
    table: 'mapping',
    one: 'remembered file shape',
    kinds: { id: 'plain', cellId: 'plain', shape: 'plain', answers: 'json' },
    refs: { cellId: 'cell' },
    children: [],
    order: ['id'],
  }),
  engine: spec<'engine'>({
    table: 'engine',
    one: 'engine',
    kinds: {
      id: 'plain',
      name: 'plain',
      serial: 'plain',
      owner: 'plain',
      notes: 'plain',
      ...measures,
      cycle: 'plain',
      aspiration: 'plain',
      fuel: 'plain',
      refreshAfterS: 'plain',
      refreshAfterPulls: 'plain',
      refreshAfterThrottleS: 'plain',
      refreshAfterMonths: 'plain',
    },
    refs: {},
    children: [
      { entity: 'serviceEvent', field: 'engineId', onRemove: 'along' },
      { entity: 'serviceReading', field: 'engineId', onRemove: 'along' },
      { entity: 'comparison', field: 'engineId', onRemove: 'along' },
      { entity: 'vehicle', field: 'engineId', onRemove: 'along' },
      { entity: 'engineUse', field: 'engineId', onRemove: 'along' },
      { entity: 'build', field: 'engineId', onRemove: 'along' },
    ],
    order: ['name', 'id'],
  }),
  build: spec<'build'>({
    table: 'build',
    one: 'build',
    kinds: { id: 'plain', engineId: 'plain', name: 'plain', notes: 'plain', ...measures },
    refs: { engineId: 'engine' },
    children: [
      { entity: 'day', field: 'buildId', onRemove: 'along' },
      { entity: 'sheet', field: 'buildId', onRemove: 'along' },
      { entity: 'buildFile', field: 'buildId', onRemove: 'along' },
      { entity: 'handOver', field: 'buildId', onRemove: 'along' },
    ],
    order: ['id'],
  }),
  day: spec<'day'>({
    table: 'test_day',
    one: 'test day',
    kinds: {
      id: 'plain',
      buildId: 'plain',
      cellId: 'plain',
      name: 'plain',
      date: 'plain',
      notes: 'plain',
      fuel: 'plain',
      octane: 'plain',
      fuelBatch: 'plain',
      inletTemperatureK: 'plain',
      worstInletTemperatureK: 'plain',
      worstOctane: 'plain',
      airPressureAbsPa: 'plain',
      airTemperatureK: 'plain',
      airHumidity: 'plain',
      configuration: 'json',
      standard: 'plain',
      bandRpm: 'json',
      use: 'plain',
      lambdaTarget: 'plain',
      inertiaKgM2: 'plain',
      isReference: 'boolean',
    },
    refs: { buildId: 'build', cellId: 'cell' },
    children: [
      { entity: 'pull', field: 'dayId', onRemove: 'along' },
      { entity: 'ladder', field: 'dayId', onRemove: 'along' },
      { entity: 'plan', field: 'dayId', onRemove: 'along' },
      { entity: 'partTest', field: 'dayId', onRemove: 'along' },
    ],
    order: ['date', 'id'],
  }),
  pull: spec<'pull'>({
    table: 'pull',
    one: 'pull',
    kinds: {
      id: 'plain',
      dayId: 'plain',
      recordingSha256: 'plain',
      fileName: 'plain',
      span: 'json',
      order: 'plain',
      madeAt: 'plain',
      leadDeg: 'plain',
      lambdaTarget: 'plain',
      lambdaMeasured: 'plain',
      lambdaErrorSd: 'plain',
      jets: 'plain',
      loadPercent: 'plain',
      note: 'plain',
      excludedBecause: 'plain',
      watched: 'plain',
      knockHeard: 'json',
      specksOnPlug: 'boolean',
      aborted: 'boolean',
      group: 'plain',
      configuration: 'json',
      peakPowerW: 'plain',
      peakPowerSpeedRpm: 'plain',
      peakTorqueNm: 'plain',
      peakTorqueSpeedRpm: 'plain',
      peaksAre: 'json',
    },
    refs: { dayId: 'day' },
    children: [],
    order: ['pull_order', 'id'],
  }),
  ladder: spec<'ladder'>({
    table: 'ladder',
    one: 'ladder',
    kinds: {
      id: 'plain',
      dayId: 'plain',
      name: 'plain',
      setting: 'plain',
      group: 'plain',
      heldLeadDeg: 'plain',
      heldLambda: 'plain',
      bandRpm: 'json',
      standard: 'plain',
      use: 'plain',
      step: 'plain',
      worthPercent: 'plain',
      repeatabilityPercent: 'plain',
    },
    refs: { dayId: 'day' },
    children: [{ entity: 'decision', field: 'ladderId', onRemove: 'along' }],
    order: ['id'],
  }),
  decision: spec<'decision'>({
    table: 'decision',
    one: 'decision',
    kinds: {
      id: 'plain',
      ladderId: 'plain',
      use: 'plain',
      setting: 'plain',
      who: 'plain',
      decidedAt: 'plain',
      why: 'plain',
      advice: 'json',
    },
    refs: { ladderId: 'ladder' },
    children: [],
    order: ['decided_at', 'id'],
  }),
  sheet: spec<'sheet'>({
    table: 'sheet',
    one: 'sheet',
    kinds: {
      id: 'plain',
      buildId: 'plain',
      name: 'plain',
      layout: 'json',
      use: 'plain',
      attachments: 'json',
    },
    refs: { buildId: 'build' },
    children: [{ entity: 'sheetSection', field: 'sheetId', onRemove: 'along' }],
    order: ['id'],
  }),
  sheetSection: spec<'sheetSection'>({
    table: 'sheet_section',
    one: 'section of a sheet',
    kinds: { id: 'plain', sheetId: 'plain', section: 'plain', data: 'json' },
    refs: { sheetId: 'sheet' },
    children: [],
    order: ['id'],
  }),
  buildFile: spec<'buildFile'>({
    table: 'build_file',
    one: 'file',
    kinds: {
      id: 'plain',
      buildId: 'plain',
      sha256: 'plain',
      fileName: 'plain',
      section: 'plain',
      caption: 'plain',
      who: 'plain',
      putAt: 'plain',
    },
    refs: { buildId: 'build' },
    children: [],
    order: ['put_at', 'id'],
  }),
  plan: spec<'plan'>({
    table: 'plan',
    one: 'test plan',
    kinds: {
      id: 'plain',
      dayId: 'plain',
      madeAt: 'plain',
      who: 'plain',
      version: 'plain',
      plan: 'json',
    },
    refs: { dayId: 'day' },
    children: [{ entity: 'tick', field: 'planId', onRemove: 'along' }],
    order: ['id'],
  }),
  tick: spec<'tick'>({
    table: 'tick',
    one: 'tick',
    kinds: { id: 'plain', planId: 'plain', itemId: 'plain', who: 'plain', tickedAt: 'plain' },
    refs: { planId: 'plan' },
    children: [],
    order: ['ticked_at', 'id'],
  }),
  calibration: spec<'calibration'>({
    table: 'calibration',
    one: 'calibration',
    kinds: {
      id: 'plain',
      cellId: 'plain',
      doneOn: 'plain',
      who: 'plain',
      intervalMonths: 'plain',
      notes: 'plain',
      measured: 'json',
    },
    refs: { cellId: 'cell' },
    children: [],
    order: ['done_on', 'id'],
  }),
  comparison: spec<'comparison'>({
    table: 'comparison',
    one: 'kept comparison',
    kinds: {
      id: 'plain',
      engineId: 'plain',
      engineIds: 'json',
      name: 'plain',
      note: 'plain',
      sides: 'json',
      bandRpm: 'json',
      standard: 'plain',
      who: 'plain',
      keptAt: 'plain',
      said: 'json',
    },
    refs: { engineId: 'engine' },
    children: [],
    order: ['kept_at', 'id'],
  }),
  partTest: spec<'partTest'>({
    table: 'part_test',
    one: 'part test',
    kinds: {
      id: 'plain',
      dayId: 'plain',
      name: 'plain',
      groupA: 'plain',
      groupB: 'plain',
      gainPercent: 'plain',
      repeatabilityPercent: 'plain',
      bandRpm: 'json',
      plan: 'json',
      who: 'plain',
      madeAt: 'plain',
    },
    refs: { dayId: 'day' },
    children: [],
    order: ['made_at', 'id'],
  }),
  vehicle: spec<'vehicle'>({
    table: 'vehicle',
    one: 'vehicle',
    kinds: {
      id: 'plain',
      engineId: 'plain',
      name: 'plain',
      written: 'json',
      who: 'plain',
      keptAt: 'plain',
    },
    refs: { engineId: 'engine' },
    children: [],
    order: ['kept_at', 'id'],
  }),
  engineUse: spec<'engineUse'>({
    table: 'engine_use',
    one: 'use',
    kinds: {
      id: 'plain',
      engineId: 'plain',
      name: 'plain',
      written: 'json',
      who: 'plain',
      keptAt: 'plain',
    },
    refs: { engineId: 'engine' },
    children: [],
    order: ['kept_at', 'id'],
  }),
  handOver: spec<'handOver'>({
    table: 'hand_over',
    one: 'hand-over',
    kinds: {
      id: 'plain',
      buildId: 'plain',
      madeAt: 'plain',
      madeBy: 'plain',
      pullbook: 'plain',
      choice: 'json',
      documentSha256: 'plain',
      partSha256: 'plain',
    },
    refs: { buildId: 'build' },
    children: [],
    order: ['made_at', 'id'],
  }),
  serviceEvent: spec<'serviceEvent'>({
    table: 'service_event',
    one: 'service',
    kinds: {
      id: 'plain',
      engineId: 'plain',
      kind: 'plain',
      doneOn: 'plain',
      what: 'plain',
      parts: 'plain',
      hoursS: 'plain',
      who: 'plain',
      writtenAt: 'plain',
    },
    refs: { engineId: 'engine' },
    children: [],
    order: ['done_on', 'id'],
  }),
  serviceReading: spec<'serviceReading'>({
    table: 'service_reading',
    one: 'service reading',
    kinds: {
      id: 'plain',
      engineId: 'plain',
      readOn: 'plain',
      hoursS: 'plain',
      leakDown: 'json',
      leakDownError: 'plain',
      crankingGaugePa: 'json',
      crankingErrorPa: 'plain',
      note: 'plain',
      who: 'plain',
      writtenAt: 'plain',
    },
    refs: { engineId: 'engine' },
    children: [],
    order: ['read_on', 'id'],
  }),
};

/** Words that SQL keeps for itself, or that snake case would split badly. */
const COLUMN_NAMES: Readonly<Record<string, string>> = {
  group: 'pull_group',
  order: 'pull_order',
  use: 'use_name',
  recordingSha256: 'recording_sha256',
  documentSha256: 'document_sha256',
  partSha256: 'part_sha256',
  holdbackDegPer10K: 'holdback_deg_per_10k',
};

export function columnOf(field: string): string {
  return COLUMN_NAMES[field] ?? field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** Fields as they go into columns; fields that the entity does not have are left out. */
export function toRow(entity: EntityName, fields: Readonly<Record<string, unknown>>): Row {
  const { kinds } = TABLES[entity];
  const row: Row = {};
  for (const [field, value] of Object.entries(fields)) {
    const kind = kinds[field];
    if (kind === undefined || value === undefined) continue;
    if (typeof value === 'number' && !Number.isFinite(value)) {
      throw new InputError(`The field ${field} is not a number that can be kept.`, {
        found: String(value),
        expected: 'a finite number, or null where it is not known',
      });
    }
    row[columnOf(field)] = encoded(kind, value);
  }
  return row;
}

function encoded(kind: Kind, value: unknown): SqlValue {
  if (value === null) return null;
  if (kind === 'json') return JSON.stringify(value);
  if (kind === 'boolean') return value === true ? 1 : 0;
  return value as SqlValue;
}

export function fromRow<E extends EntityName>(entity: E, row: Row): EntityTypes[E] {
  const fields: Record<string, unknown> = {};
  for (const [field, kind] of Object.entries(TABLES[entity].kinds)) {
    const value = row[columnOf(field)] ?? null;
    if (value === null) fields[field] = null;
    else if (kind === 'json') fields[field] = JSON.parse(value as string);
    else fields[field] = kind === 'boolean' ? value === 1 : value;
  }
  return fields as unknown as EntityTypes[E];
}
