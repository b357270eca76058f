import { describe, expect, it } from 'vitest';
import { newSheetFrom } from './copy.ts';
import { parseSheet } from './read.ts';
import { writeSheet } from './write.ts';

const LAST = parseSheet({
  format: 'sheet/1',
  name: 'first build',
  layout: { cylinders: 1 },
  use: 'bursts',
  sections: {
    intent: { values: { highestSpeed: '7000 rpm' } },
    pistons: {
      values: { material: 'cast', compressionHeight: '31.0 mm', mass: '310 g' },
      parts: [{ name: 'piston', serial: 'P-1' }],
      notes: 'light scuffing',
    },
    heads: {
      values: { material: 'iron', chamberVolume: '50 cc' },
      tables: { flow: { units: { lift: 'mm' }, rows: [{ lift: 5 }] } },
    },
    condition: { values: { assembled: '2026-01-02', assembledBy: 'somebody', leakDown: '4 %' } },
  },
  attachments: [
    { sha256: '0'.repeat(64), fileName: 'crown.jpg', section: 'pistons' },
    { sha256: '1'.repeat(64), fileName: 'whole.jpg' },
  ],
});

describe('a new build starts as a copy of the last', () => {
  it('with nothing cleared but the condition where nothing was changed', () => {
    const { sections, ...rest } = newSheetFrom(LAST);
    const { condition: _condition, ...kept } = LAST.sections;
    expect(sections).toEqual(kept);
    expect(rest).toEqual({
      format: 'sheet/1',
      layout: LAST.layout,
      use: 'bursts',
      attachments: LAST.attachments,
    });
  });

  it('with what was measured of the changed sections to be filled in, parts and words kept', () => {
    const { sections, attachments, name } = newSheetFrom(LAST, ['pistons', 'intent'], 'second');
    expect(name).toBe('second');
    expect(sections.pistons).toEqual({
      values: { material: { value: 'cast' } },
      parts: [{ name: 'piston', serial: 'P-1' }],
    });
    expect(sections.heads).toEqual(LAST.sections.heads);
    expect(sections.intent).toEqual(LAST.sections.intent);
    expect(attachments?.map((one) => one.fileName)).toEqual(['whole.jpg']);
  });

  it('and the last sheet is left as it was', () => {
    const before = writeSheet(LAST);
    newSheetFrom(LAST, ['heads', 'pistons']);
    expect(writeSheet(LAST)).toBe(before);
  });
});
