import { describe, expect, it } from 'vitest';
import { type Field, readField, readForm, textOf, unitOf } from './fields.ts';

const displacement: Field = {
  key: 'displacementM3',
  label: 'Displacement',
  kind: 'quantity',
  shown: 'displacement',
  dimension: 'volume',
};

describe('fields of a form', () => {
  it('shows and reads a quantity in the units of the person', () => {
    expect(textOf(displacement, 0.005445, 'metric')).toBe('5.445');
    expect(readField(displacement, '5.445', 'metric')).toEqual({ value: 0.005445 });
    // 1 in = 25.4 mm by definition, so 350 in³ = 350 × 0.0254³ m³.
    const read = readField(displacement, '350', 'us') as { value: number };
    expect(read.value).toBeCloseTo(350 * 0.0254 ** 3, 12);
  });

  it('takes a unit that is written out over the one that is shown', () => {
    expect(readField(displacement, '5.7 L', 'us')).toEqual({ value: 0.0057 });
    expect(readField(displacement, '12 lb-ft', 'us')).toHaveProperty('trouble');
  });

  it('tells empty text from nothing said', () => {
    const note: Field = { key: 'notes', label: 'Notes', kind: 'long' };
    const fuel: Field = { key: 'fuel', label: 'Fuel', kind: 'text', nullable: true };
    expect(readField(note, '', 'us')).toEqual({ value: '' });
    expect(readField(fuel, ' ', 'us')).toEqual({ value: null });
    expect(readField({ ...note, required: true }, '', 'us')).toEqual({
      trouble: 'Notes is needed.',
    });
  });

  it('reads a band of speeds', () => {
    const band: Field = { key: 'bandRpm', label: 'Band', kind: 'band' };
    expect(readField(band, '5 000 to 7 200', 'us')).toEqual({ value: [5000, 7200] });
    expect(readField(band, '7200-5000', 'us')).toHaveProperty('trouble');
  });

  it('hands on only what was changed, and keeps the digits of what was not', () => {
    const stored = { displacementM3: 0.005444871234, name: 'a' };
    const fields: Field[] = [displacement, { key: 'name', label: 'Name', kind: 'text' }];
    const texts = { displacementM3: textOf(displacement, stored.displacementM3, 'us'), name: 'b' };
    expect(readForm(fields, texts, stored, 'us')).toEqual({ patch: { name: 'b' }, troubles: {} });
  });

  it('sends what a new thing was offered with, but nothing for what was left empty', () => {
    const fields: Field[] = [
      { key: 'name', label: 'Name', kind: 'text', required: true },
      { key: 'owner', label: 'Owner', kind: 'text' },
    ];
    const offered = { name: 'Build 2' };
    expect(readForm(fields, { name: 'Build 2', owner: '' }, offered, 'us', true).patch).toEqual(
      offered,
    );
    expect(readForm(fields, { name: '', owner: '' }, {}, 'us', true).troubles).toEqual({
      name: 'Name is needed.',
    });
  });

  it('takes dates with the year first, the same on every machine, and no others', () => {
    const date = { key: 'date', label: 'Date', kind: 'date' } as const;
    const read = (text: string) => readField(date, text, 'us');
    expect(textOf(date, '2026-04-09', 'us')).toBe('2026-04-09');
    expect(unitOf(date, 'us')).toBe('year-month-day');
    expect(read('2026-04-09')).toEqual({ value: '2026-04-09' });
    expect(read('2026/4/9')).toEqual({ value: '2026-04-09' });
    expect(read('')).toEqual({ value: null });
    for (const text of ['04/09/2026', '9.4.2026', '2026-02-30', '2026-13-01', '2026-4/9', 'today'])
      expect(read(text), text).toHaveProperty('trouble');
    expect(read('2024-02-29')).toEqual({ value: '2024-02-29' });
  });
});
