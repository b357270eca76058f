import { describe, expect, it } from 'vitest';
import { chartStyle } from '../theme/chart-style.ts';
import { fileName } from './save.ts';
import { standaloneSvg } from './standalone.ts';

const caption = { title: 'Loss by speed & lead', scenario: 'Rally six, build 2, <14 May>' };

describe('a saved picture', () => {
  const svg = standaloneSvg('<g id="inside"/>', 400, 300, caption, chartStyle(), null);

  it('carries its own title and scenario, escaped', () => {
    expect(svg).toContain('>Loss by speed &amp; lead</text>');
    expect(svg).toContain('>Rally six, build 2, &lt;14 May&gt;</text>');
  });

  it('breaks a long caption into lines that its picture holds, and grows by them', () => {
    const scenario =
      'Short four, Build 1, 25 November 2026, SAE J1349, judged between 5300 and 7800 rpm';
    const long = standaloneSvg('', 260, 300, { ...caption, scenario }, chartStyle(), null);
    const lines = [...long.matchAll(/fill-opacity="0.75">([^<]+)</g)].map(([, line]) => line);
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.join(' ')).toBe(scenario);
    const high = (text: string) => Number(/ height="(\d+)"/.exec(text)![1]);
    expect(high(long)).toBeGreaterThan(high(svg));
  });

  it('shortens a title of letters that are joined of several signs, and cuts none of them', () => {
    for (const letter of ['\u{1f468}\u200d\u{1f469}\u200d\u{1f467}', 'e\u0301\u0302\u0303']) {
      const long = standaloneSvg(
        '',
        260,
        300,
        { ...caption, title: letter.repeat(60) },
        chartStyle(),
        null,
      );
      const [, shown] = /font-weight="600"[^>]*>([^<]+)</.exec(long)!;
      expect(shown).toMatch(new RegExp(`^(${letter})+…$`, 'u'));
      expect(shown!.length).toBeLessThan(30 * letter.length);
    }
  });

  it('stands alone: paper, size, no outside address, no variables', () => {
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="\d+" height="\d+"/);
    expect(svg).toContain(`fill="${chartStyle().palette.paper}"`);
    expect(svg).not.toContain('var(');
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toContain('http');
  });

  it('has a file name of what it shows', () => {
    expect(fileName(caption, 'png')).toBe('loss-by-speed-lead-rally-six-build-2-14-may.png');
    expect(fileName({ title: '°', scenario: '' }, 'svg')).toBe('picture.svg');
  });
});
