import { sentenceOf } from '../../src/errors.ts';
import {
  answerMeasured,
  type CalibrationAnswer,
  directionsOf,
  type Measured,
  type ReadingProblem,
  readMeasured,
} from '../../src/trade/calibration/index.ts';
import { readNumber } from '../../src/units/index.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { type Field, readField, readForm, textOf, type Values } from '../form/fields.ts';
import { MASS_FIELD, READING_FIELD, SENSOR_FIELDS, WEIGHT_FIELDS } from './fields.ts';

export type Kind = Measured['kind'];
type Way = 'up' | 'down';

/** One line of the table of readings, as typed: weight and reading, or reading and reference. */
export interface Row {
  readonly key: number;
  readonly first: string;
  readonly second: string;
  /** Null: as the weights go. */
  readonly way: Way | null;
  /** What it was read from; where the text is still the same, its full digits stay. */
  readonly from?: { readonly first: number; readonly second: number };
}

/** A calibration as it is being typed, in the units in which it was begun. */
export interface Draft {
  readonly kind: Kind;
  readonly units: UnitSystem;
  readonly texts: Readonly<Record<string, string>>;
  /** What the texts were made from. */
  readonly values: Values;
  readonly rows: readonly Row[];
}

/** What a draft amounts to so far. */
export interface Understood {
  readonly measured: Measured | null;
  readonly answer: CalibrationAnswer | null;
  /** Why there is no answer yet; null where there is one. */
  readonly missing: string | null;
  /** By field. */
  readonly troubles: Readonly<Record<string, string>>;
  /** By line of the table. */
  readonly rowTroubles: ReadonlyMap<number, string>;
  /** Which way each line counts, empty lines left out. */
  readonly ways: ReadonlyMap<number, Way>;
  /** Lines that count, in the order of the answer's residuals. */
  readonly counted: readonly number[];
}

/** @param unit  of a sensor that is kept, which the form must know even where it does not offer it */
export function fieldsOf(kind: Kind, unit?: unknown): readonly Field[] {
  if (kind !== 'sensor') return WEIGHT_FIELDS;
  if (typeof unit !== 'string') return SENSOR_FIELDS;
  return SENSOR_FIELDS.map((field) =>
    field.key !== 'unit' || field.choices?.some(({ value }) => value === unit)
      ? field
      : { ...field, choices: [...(field.choices ?? []), { value: unit, label: unit }] },
  );
}

const ROOT3 = Math.sqrt(3);
/** A limit within which something surely lies has a standard uncertainty of its third root's part. */
const twelve = (value: number) => Number(value.toPrecision(12));

/** What the form shows of what is kept; a standard uncertainty is shown as the limit it came from. */
function valuesOf(measured: Measured): Values {
  if (measured.kind === 'sensor') {
    const { sensor, unit, reference, referenceUncertainty } = measured;
    return {
      sensor,
      unit,
      reference,
      referenceLimit: Number((referenceUncertainty * ROOT3).toPrecision(6)),
    };
  }
  const { arm, uncertainty, resolutionNm } = measured;
  return {
    ...arm,
    resolutionNm,
    massLimit: uncertainty.massRelative * ROOT3,
    armLimitM: uncertainty.armLengthRelative * ROOT3 * arm.lengthM,
    gravityLimit: uncertainty.gravityRelative * ROOT3,
    offLevelLimitDeg: uncertainty.offLevelLimitDeg,
  };
}

/** Common practice, no source: a steel rule, weights of a shop's own, a spirit level, gravity as in the books. */
const FRESH: Readonly<Record<Kind, Values>> = {
  'dead weights': {
    gravityMPerS2: 9.80665,
    offLevelDeg: 0,
    massLimit: 0.001,
    armLimitM: 0.0005,
    gravityLimit: 0.0025,
    offLevelLimitDeg: 1,
    resolutionNm: 0.1,
  },
  sensor: { unit: '°C' },
};

export function freshDraft(kind: Kind, units: UnitSystem): Draft {
  const values = FRESH[kind];
  return { kind, units, values, texts: textsOf(kind, values, units), rows: [emptyRow(0)] };
}

/** @param measured  as it is kept */
export function draftOf(measured: Measured, units: UnitSystem): Draft {
  const values = valuesOf(measured);
  const { kind } = measured;
  const rows = rowsOf(measured, units);
  return {
    kind,
    units,
    values,
    texts: textsOf(kind, values, units),
    rows: [...rows, emptyRow(rows.length)],
  };
}

const textsOf = (kind: Kind, values: Values, units: UnitSystem) =>
  Object.fromEntries(
    fieldsOf(kind).map((field) => [field.key, textOf(field, values[field.key], units)]),
  );

/** Lines for points that are known; a draft's lines are put in their place. */
export function rowsOf(measured: Pick<Measured, 'kind' | 'points'>, units: UnitSystem): Row[] {
  const [first, second] = cellsOf(measured.kind);
  return measured.points.map((point, key): Row => {
    const from =
      'massKg' in point
        ? { first: point.massKg, second: point.readingNm }
        : { first: point.reading, second: point.reference };
    return {
      key,
      first: textOf(first, from.first, units),
      second: textOf(second, from.second, units),
      way: 'direction' in point ? point.direction : null,
      from,
    };
  });
}

export const emptyRow = (key: number): Row => ({ key, first: '', second: '', way: null });

const PLAIN: Field = { key: 'reading', label: 'Reading', kind: 'number' };
const cellsOf = (kind: Kind): readonly [Field, Field] =>
  kind === 'sensor'
    ? [PLAIN, { ...PLAIN, key: 'reference', label: 'Reference' }]
    : [MASS_FIELD, READING_FIELD];

/** With an empty line at the end to type on in. */
export function withRow(draft: Draft, key: number, change: Partial<Row>): Draft {
  const rows = draft.rows.map((row) => (row.key === key ? { ...row, ...change } : row));
  const last = rows.at(-1);
  const next = 1 + Math.max(-1, ...rows.map((row) => row.key));
  const full = last === undefined || last.first !== '' || last.second !== '';
  return { ...draft, rows: full ? [...rows, emptyRow(next)] : rows };
}

export function withoutRow(draft: Draft, key: number): Draft {
  const rows = draft.rows.filter((row) => row.key !== key);
  return { ...draft, rows: rows.length === 0 ? [emptyRow(key + 1)] : rows };
}

/** Points that were pasted stand in the place of all lines. */
export function withPoints(draft: Draft, points: Measured['points']): Draft {
  const rows = rowsOf({ kind: draft.kind, points } as Measured, draft.units);
  return { ...draft, rows: [...rows, emptyRow(rows.length)] };
}

/** What the draft means, with all that is wrong with it. Nothing here throws. */
export function understood(draft: Draft): Understood {
  const { kind, units, texts, values } = draft;
  const { patch, troubles } = readForm(fieldsOf(kind, values.unit), texts, values, units, true);
  const rowTroubles = new Map<number, string>();
  const filled = draft.rows.filter(({ first, second }) => first !== '' || second !== '');
  const read = filled.flatMap((row) => {
    const [a, b] = cellsOf(kind);
    const first = cell(a, row.first, row.from?.first, units);
    const second = cell(b, row.second, row.from?.second, units);
    const wrong = [first, second].find((one) => typeof one === 'string');
    if (wrong !== undefined) rowTroubles.set(row.key, wrong as string);
    return typeof first === 'number' && typeof second === 'number' ? [{ row, first, second }] : [];
  });
  const found = directionsOf(read.map(({ first }) => first));
  const ways = new Map(read.map(({ row }, at) => [row.key, row.way ?? found[at]!]));
  const common = { troubles, rowTroubles, ways, counted: read.map(({ row }) => row.key) };
  const nothing = (missing: string) => ({ ...common, measured: null, answer: null, missing });
  const [wrong] = [...Object.values(troubles), ...rowTroubles.values()];
  if (wrong !== undefined) return nothing(wrong);
  const least = kind === 'sensor' ? 1 : 3;
  if (read.length < least)
    return nothing(
      kind === 'sensor'
        ? 'A reading beside the reference is needed; three or more say how far it can be trusted.'
        : 'Three readings or more make a line; going up and down shows what hangs.',
    );
  try {
    const points = read.map(({ row, first, second }) =>
      kind === 'sensor'
        ? { reading: first, reference: second }
        : { massKg: first, readingNm: second, direction: ways.get(row.key)! },
    );
    const measured = readMeasured(measuredOf(kind, patch, points));
    return { ...common, measured, answer: answerMeasured(measured), missing: null };
  } catch (error) {
    return nothing(sentenceOf(error).replace(/^column [^:]+: /, ''));
  }
}

/** A number of the table, or one sentence why it is none. */
function cell(field: Field, text: string, from: number | undefined, units: UnitSystem) {
  if (from !== undefined && textOf(field, from, units) === text) return from;
  if (field.kind === 'number') {
    const value = readNumber(text.trim());
    return value === undefined ? `“${text}” is not a number.` : value;
  }
  const read = readField({ ...field, required: true }, text, units);
  return 'trouble' in read ? read.trouble : (read.value as number);
}

function measuredOf(kind: Kind, patch: Values, points: readonly object[]): unknown {
  const number = (key: string) => (patch[key] as number | null | undefined) ?? 0;
  if (kind === 'sensor')
    return {
      kind,
      sensor: patch.sensor,
      unit: patch.unit,
      reference: patch.reference ?? '',
      referenceUncertainty: twelve(number('referenceLimit') / ROOT3),
      points,
    };
  return {
    kind,
    arm: {
      lengthM: patch.lengthM,
      gravityMPerS2: patch.gravityMPerS2,
      offLevelDeg: number('offLevelDeg'),
    },
    uncertainty: {
      massRelative: twelve(number('massLimit') / ROOT3),
      armLengthRelative: twelve(number('armLimitM') / ROOT3 / (patch.lengthM as number)),
      gravityRelative: twelve(number('gravityLimit') / ROOT3),
      offLevelLimitDeg: number('offLevelLimitDeg'),
    },
    resolutionNm: number('resolutionNm'),
    points,
  };
}

/** One sentence for what was pasted and cannot be read. */
export function pasteTrouble([first, ...others]: readonly ReadingProblem[]): string {
  const { row, column, found, expected } = first!;
  const more = others.length === 0 ? '' : ` ${others.length} more like it.`;
  return `Line ${row}, column ${column}: “${found}”; expected ${expected}.${more}`;
}
