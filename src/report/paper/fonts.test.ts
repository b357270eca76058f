import { describe, expect, it } from 'vitest';
import { fontBlobs, printable, signsOf } from './fonts.ts';

describe('signs that can be printed', () => {
  it('are those of the fonts, as their own tables say', () => {
    const [inter, , dejavu] = fontBlobs().map((font) => new Set(signsOf(font)));
    const has = (font: ReadonlySet<number>, signs: string) =>
      [...signs].map((sign) => font.has(sign.codePointAt(0)!));
    // By the fonts' own lists of what they cover: Latin, Cyrillic and Greek in both, Arabic and Hebrew in one.
    expect(has(inter!, 'aÄЖλ−'.concat('·'))).not.toContain(false);
    expect(has(inter!, 'שم🔥')).toEqual([false, false, false]);
    expect(has(dejavu!, 'שم☑▲')).not.toContain(false);
    expect(has(dejavu!, '日ไ')).toEqual([false, false]);
  });

  it.each([
    ['Läufe · 28° ≤ λ ☑', 'Läufe · 28° ≤ λ ☑'],
    ['مرحبا שלום', 'مرحبا שלום'],
    ['hot \u{1f525}!', 'hot [U+1F525]!'],
    // Joined pictures are one sign, and so is a letter with what stands over it.
    ['\u{1f468}\u200d\u{1f527}', '[U+1F468][U+200D][U+1F527]'],
    ['日本 a', '[U+65E5][U+672C] a'],
    ['a\u202eb\u0000', 'a[U+202E]b[U+0000]'],
    ['\ud800', '[U+D800]'],
  ])('%j is printed as %j', (text, printed) => {
    expect(printable(text)).toBe(printed);
  });
});
