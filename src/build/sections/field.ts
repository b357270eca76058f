import type { DisplayKind } from '../../units/display.ts';
import type { Dimension } from '../../units/types.ts';
import type { Place } from '../sheet/types.ts';

export interface Choice {
  readonly value: string;
  readonly label: string;
}

/** One thing that is measured or said, as the sheet asks for it. */
export interface FieldSpec {
  /** Unique within its section; with the section in front (`block.boreNominal`) in the whole sheet. */
  readonly id: string;
  readonly label: string;
  readonly kind: 'quantity' | 'number' | 'text' | 'choice' | 'date' | 'yesNo';
  /** Of a quantity: what it measures, and as what it is shown. */
  readonly dimension?: Dimension;
  readonly shown?: DisplayKind;
  /** Where it is repeated; left out where it stands once. */
  readonly per?: Place;
  /** Beyond these [inside units] a number is a slip of the pen and is refused. */
  readonly low?: number;
  readonly high?: number;
  readonly choices?: readonly Choice[];
  /** How it is measured, or what counts, in one sentence. */
  readonly help?: string;
}

/** A free table of a section. */
export interface TableSpec {
  readonly id: string;
  readonly label: string;
  readonly columns: readonly FieldSpec[];
  readonly help?: string;
}

/** One section of the sheet. */
export interface SectionSpec {
  readonly id: string;
  readonly title: string;
  readonly fields: readonly FieldSpec[];
  readonly tables?: readonly TableSpec[];
}

type Extra = Partial<Pick<FieldSpec, 'per' | 'help' | 'low' | 'high' | 'shown'>>;

/** A maker of fields of one dimension, with the display and the bounds such fields usually have. */
const quantity =
  (dimension: Dimension, shown: DisplayKind, low: number, high: number) =>
  (id: string, label: string, extra: Extra = {}): FieldSpec => ({
    id,
    label,
    kind: 'quantity',
    dimension,
    shown,
    low,
    high,
    ...extra,
  });

/* Bounds in SI: wide enough for a model engine and a ship's, narrow enough to catch a slipped unit. */
/** Diameters and distances that a micrometer reads. */
export const size = quantity('length', 'bore', 0, 2);
/** Fits and gaps: a clearance beyond 20 mm is a slip. */
export const gap = quantity('length', 'bore', -0.02, 0.02);
/** Valve and lobe lifts. */
export const lift = quantity('length', 'lift', 0, 0.05);
/** Runners, pipes and throttles. */
export const pipe = quantity('length', 'pipe', 0, 5);
export const area = quantity('area', 'area', 0, 1);
export const smallVolume = quantity('volume', 'smallVolume', -1e-3, 5e-3);
export const volume = quantity('volume', 'displacement', 0, 1);
export const partMass = quantity('mass', 'partMass', 0, 100);
export const force = quantity('force', 'force', 0, 1e5);
export const springRate = quantity('stiffness', 'springRate', 0, 1e7);
export const torque = quantity('torque', 'torque', 0, 5e3);
export const unbalance = quantity('unbalance', 'unbalance', 0, 1);
export const angle = quantity('angle', 'angle', -720, 720);
export const rpm = quantity('rotationalSpeed', 'speed', 0, 30_000);
export const power = quantity('power', 'power', 0, 1e7);
export const gaugePressure = quantity('pressure', 'gaugePressure', 0, 3e7);
export const temperature = quantity('temperature', 'temperature', 200, 1500);
export const percent = quantity('fraction', 'percent', 0, 1);
export const massFlow = quantity('massFlow', 'fuelFlow', 0, 10);
export const airFlow = quantity('volumeFlow', 'volumeFlow', 0, 10);
export const fuelVolumeFlow = quantity('volumeFlow', 'fuelVolumeFlow', 0, 1);
export const time = quantity('time', 'time', 0, 1e9);

export const number = (id: string, label: string, extra: Extra = {}): FieldSpec => ({
  id,
  label,
  kind: 'number',
  ...extra,
});
export const text = (id: string, label: string, help?: string): FieldSpec => ({
  id,
  label,
  kind: 'text',
  ...(help === undefined ? {} : { help }),
});
export const date = (id: string, label: string): FieldSpec => ({ id, label, kind: 'date' });
export const yesNo = (id: string, label: string): FieldSpec => ({ id, label, kind: 'yesNo' });
export const choice = (
  id: string,
  label: string,
  choices: readonly (readonly [string, string] | string)[],
  help?: string,
): FieldSpec => ({
  id,
  label,
  kind: 'choice',
  choices: choices.map((one) =>
    typeof one === 'string' ? { value: one, label: one } : { value: one[0], label: one[1] },
  ),
  ...(help === undefined ? {} : { help }),
});
/** The same field at each place. */
export const each = (per: Place, field: FieldSpec): FieldSpec => ({ ...field, per });

export const METALS = ['iron', 'aluminium', 'steel', 'titanium'] as const;
