import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayUnit, fromInside, type UnitSystem } from '../../units/index.ts';
import { answerSheet } from '../index.ts';
import { fieldOf, SECTIONS } from '../sections/index.ts';
import { anySheet } from './anySheet.fixture.ts';
import { parseSheet } from './read.ts';
import { isEach, type Sheet } from './types.ts';
import { insideOf, unitOfField } from './units.ts';
import { writeSheet } from './write.ts';

const SEED = 20261125;
const SYSTEMS = ['us', 'metric'] as const;

/** The same sheet as a person of the other system would have typed it. */
function typedIn(sheet: Sheet, system: UnitSystem): Sheet {
  const sections = Object.entries(sheet.sections).map(([id, data]) => [
    id,
    {
      ...data,
      values: Object.fromEntries(
        Object.entries(data.values ?? {}).map(([key, entry]) => {
          const field = fieldOf(`${id}.${key}`)!;
          if (field.kind !== 'quantity') return [key, entry];
          const old = unitOfField(field, entry.unit!)!;
          const unit = displayUnit(field.shown!, system);
          const typed = (value: number) => fromInside(insideOf(field, value, entry.unit), unit);
          return [
            key,
            {
              ...entry,
              ...(isEach(entry)
                ? { each: entry.each.map((one) => (one === null ? null : typed(one))) }
                : { value: typed(entry.value as number) }),
              unit: unit.symbol,
              ...(entry.plusMinus === undefined
                ? {}
                : { plusMinus: (entry.plusMinus * old.factor) / unit.factor }),
            },
          ];
        }),
      ),
    },
  ]);
  return { ...sheet, sections: Object.fromEntries(sections) };
}

describe('a sheet goes through its file and back', () => {
  it('without loss, whatever its units (property)', () => {
    fc.assert(
      fc.property(anySheet(5), (sheet) => {
        expect(parseSheet(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
        expect(parseSheet(JSON.parse(writeSheet(sheet)))).toEqual(sheet);
      }),
      { seed: SEED, numRuns: 100 },
    );
  }, 120_000);

  it('and is the same text whichever way its keys stood (property)', () => {
    const reversed = (value: unknown): unknown =>
      Array.isArray(value)
        ? value.map(reversed)
        : typeof value === 'object' && value !== null
          ? Object.fromEntries(
              Object.entries(value)
                .reverse()
                .map(([key, one]) => [key, reversed(one)]),
            )
          : value;
    fc.assert(
      fc.property(anySheet(3), (sheet) => {
        const { parts, ...rest } = { parts: null, ...sheet };
        expect(parts).toBeNull();
        const turned = parseSheet(reversed(rest));
        // Parts and attachments keep their own keys' order; they are lists that nobody sorts.
        const bare = (one: Sheet): Sheet => ({
          ...one,
          attachments: [],
          sections: Object.fromEntries(
            Object.entries(one.sections).map(([id, { parts: _parts, ...data }]) => [id, data]),
          ),
        });
        expect(writeSheet(bare(turned))).toBe(writeSheet(bare(sheet)));
      }),
      { seed: SEED, numRuns: 40 },
    );
  }, 120_000);

  it('has its sections and fields in the order of the form', () => {
    const order = [...writeSheet(everything()).matchAll(/^ {4}"(\w+)": \{/gm)].map((one) => one[1]);
    expect(order).toEqual(SECTIONS.filter((one) => one.fields.length > 0).map((one) => one.id));
  });
});

/** A sheet with one value in each section, the last section first. */
function everything(): Sheet {
  const sections = [...SECTIONS].reverse().flatMap(({ id, fields }) => {
    const [field] = fields;
    return field === undefined ? [] : [[id, { notes: field.label }] as const];
  });
  return {
    ...parseSheet({ format: 'sheet/1', layout: { cylinders: 4 } }),
    sections: Object.fromEntries(sections),
  };
}

describe('units are only how a sheet is typed', () => {
  it('inches or millimetres, what follows is the same (property)', () => {
    const near = (a: number | null, b: number | null) => {
      if (a === null || b === null) expect(a).toBe(b);
      else
        expect(Math.abs(a - b)).toBeLessThanOrEqual(
          1e-9 * Math.max(Math.abs(a), Math.abs(b), 1e-9),
        );
    };
    fc.assert(
      fc.property(anySheet(SECTIONS.length), fc.constantFrom(...SYSTEMS), (sheet, first) => {
        // Typed in one system and switched to the other, whichever came first.
        const one = typedIn(sheet, first);
        const us = answerSheet(first === 'us' ? one : typedIn(one, 'us'));
        const metric = answerSheet(first === 'metric' ? one : typedIn(one, 'metric'));
        us.figures.forEach((figure, i) => {
          const other = metric.figures[i]!;
          near(figure.value, other.value);
          expect(other.missing).toEqual(figure.missing);
        });
        us.checks.forEach((check, i) => {
          near(check.value, metric.checks[i]!.value);
          expect(metric.checks[i]!.verdict).toBe(check.verdict);
        });
        expect(metric.measureNext).toEqual(us.measureNext);
      }),
      { seed: SEED, numRuns: 40 },
    );
  }, 120_000);
});
