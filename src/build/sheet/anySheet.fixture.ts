import fc from 'fast-check';
import { type Dimension, fromInside, UNITS, type Unit } from '../../units/index.ts';
import { type FieldSpec, SECTIONS, type SectionSpec, type TableSpec } from '../sections/index.ts';
import { countOf, layoutOf } from './layout.ts';
import type { EachEntry, Entry, Layout, SectionData, Sheet, Table } from './types.ts';

/** Any sheet that is whole and sound, for property tests: every section, kind of field and unit comes up. */

const text = fc.string({ maxLength: 20, unit: 'grapheme' });
const day = fc
  .date({ min: new Date('1990-01-01'), max: new Date('2040-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const provenance = fc.record({ by: text, with: text, on: day, note: text }, { requiredKeys: [] });

/** Units that a person may type for this dimension; those whose number would be absurd are left out. */
const unitsOf = (dimension: Dimension): readonly Unit[] =>
  UNITS.filter((unit) => unit.dimension === dimension);

/** A number between the bounds of a field, in inside units. */
const insideNumber = (field: FieldSpec) => {
  const low = field.low ?? -1e3;
  const high = field.high ?? 1e3;
  // A little within, so that turning units does not carry it over the edge; never −0, which JSON cannot tell from 0.
  return fc
    .double({ min: 0.001, max: 0.999, noNaN: true })
    .map((share) => low + share * (high - low) + 0);
};

const entryOf = (field: FieldSpec, layout: Layout): fc.Arbitrary<Entry | EachEntry> => {
  const plain = (value: fc.Arbitrary<Entry['value']>) =>
    fc.tuple(value, provenance).map(([one, about]) => ({ value: one, ...about }));
  switch (field.kind) {
    case 'text':
      return plain(text);
    case 'date':
      return plain(day);
    case 'yesNo':
      return plain(fc.boolean());
    case 'choice':
      return plain(fc.constantFrom(...field.choices!.map((one) => one.value)));
    default:
      return numberEntry(field, layout);
  }
};

function numberEntry(field: FieldSpec, layout: Layout): fc.Arbitrary<Entry | EachEntry> {
  const unit =
    field.kind === 'number' ? fc.constant(null) : fc.constantFrom(...unitsOf(field.dimension!));
  const count = field.per === undefined ? null : countOf(field.per, layout);
  const numbers: fc.Arbitrary<number | (number | null)[]> =
    count === null
      ? insideNumber(field)
      : fc.oneof(
          insideNumber(field),
          fc.array(fc.option(insideNumber(field)), { minLength: count, maxLength: count }),
        );
  const tolerance = fc.option(
    fc.double({ min: 0, max: 10, noNaN: true }).map((one) => one + 0),
    {
      nil: undefined,
    },
  );
  return fc.tuple(numbers, unit, tolerance, provenance).map(([inside, one, plusMinus, about]) => {
    const typed = (value: number) => (one === null ? value : fromInside(value, one));
    return {
      ...(Array.isArray(inside)
        ? { each: inside.map((value) => (value === null ? null : typed(value))) }
        : { value: typed(inside) }),
      ...(one === null ? {} : { unit: one.symbol }),
      ...(plusMinus === undefined ? {} : { plusMinus }),
      ...about,
    } as Entry | EachEntry;
  });
}

const tableOfSpec = (spec: TableSpec): fc.Arbitrary<Table> =>
  fc.record({
    rows: fc.array(
      fc.record(
        Object.fromEntries(
          spec.columns.map((column) => [
            column.id,
            fc.option<string | number | boolean>(
              column.kind === 'text'
                ? text
                : column.kind === 'yesNo'
                  ? fc.boolean()
                  : insideNumber(column),
            ),
          ]),
        ),
      ),
      { maxLength: 5 },
    ),
    // Inside units have a symbol each; the numbers above are in them.
    units: fc.constant(
      Object.fromEntries(
        spec.columns
          .filter((column) => column.kind === 'quantity')
          .map((column) => [
            column.id,
            unitsOf(column.dimension!).find((unit) => unit.factor === 1 && unit.offset === 0)!
              .symbol,
          ]),
      ),
    ),
  });

const valuesOf = (spec: SectionSpec, layout: Layout) =>
  fc
    .subarray([...spec.fields], { minLength: 1, maxLength: Math.min(6, spec.fields.length) })
    .chain((fields) =>
      fc
        .tuple(...fields.map((field) => entryOf(field, layout)))
        .map((entries) => Object.fromEntries(fields.map((field, i) => [field.id, entries[i]!]))),
    );

const sectionOfSpec = (spec: SectionSpec, layout: Layout): fc.Arbitrary<SectionData> =>
  fc.record(
    {
      ...(spec.fields.length === 0 ? {} : { values: valuesOf(spec, layout) }),
      ...(spec.tables === undefined
        ? {}
        : {
            tables: fc.record(
              Object.fromEntries(spec.tables.map((table) => [table.id, tableOfSpec(table)])),
            ),
          }),
      parts: fc.array(
        fc.record(
          { name: text.filter((one) => one !== ''), serial: text, note: text },
          { requiredKeys: ['name'] },
        ),
        { maxLength: 3 },
      ),
      notes: text,
    },
    { requiredKeys: ['notes'] },
  ) as fc.Arbitrary<SectionData>;

const layouts: fc.Arbitrary<Layout> = fc
  .record({
    cylinders: fc.integer({ min: 1, max: 12 }),
    intakeValvesPerCylinder: fc.integer({ min: 0, max: 3 }),
    exhaustValvesPerCylinder: fc.integer({ min: 0, max: 2 }),
    aspiration: fc.constantFrom('natural', 'boosted', 'nitrous'),
    mainJournals: fc.option(fc.integer({ min: 1, max: 13 })),
  })
  .map((some) => ({ ...layoutOf(some.cylinders), ...some }) as Layout);

/** @param sections  how many sections hold something, at most */
export const anySheet = (sections = 4): fc.Arbitrary<Sheet> =>
  layouts.chain((layout) =>
    fc
      .subarray([...SECTIONS], { maxLength: sections })
      .chain((specs) =>
        fc
          .tuple(...specs.map((spec) => sectionOfSpec(spec, layout)))
          .map((data) => Object.fromEntries(specs.map((spec, i) => [spec.id, data[i]!]))),
      )
      .chain((filled) =>
        fc.record(
          {
            format: fc.constant('sheet/1' as const),
            name: text,
            layout: fc.constant(layout),
            use: text,
            sections: fc.constant(filled),
            attachments: fc.array(
              fc.record({
                sha256: fc.string({
                  unit: fc.constantFrom(...'0123456789abcdef'),
                  minLength: 64,
                  maxLength: 64,
                }),
                fileName: text.filter((one) => one !== ''),
              }),
              { maxLength: 2 },
            ),
          },
          { requiredKeys: ['format', 'layout', 'sections'] },
        ),
      ),
  ) as fc.Arbitrary<Sheet>;
