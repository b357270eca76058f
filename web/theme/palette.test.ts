import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  contrast,
  differenceColour,
  lossFill,
  mix,
  PALETTES,
  type Palette,
  rungColour,
  type Scheme,
} from './palette.ts';

const schemes = Object.keys(PALETTES) as Scheme[];

describe('the palettes', () => {
  it('are the same in the style sheet and in the charts', () => {
    const css = readFileSync(join(import.meta.dirname, 'theme.css'), 'utf8');
    for (const scheme of schemes) {
      const opening = scheme === 'light' ? ':root {' : ':root[data-mantine-color-scheme="dark"] {';
      const start = css.indexOf(opening);
      const block = css.slice(start, css.indexOf('}', start));
      for (const [name, colour] of Object.entries(PALETTES[scheme]) as [keyof Palette, string][]) {
        if (name !== 'scheme')
          expect(block, `${scheme} ${name}`).toContain(`--pb-${name}: ${colour};`);
      }
    }
  });

  // WCAG 2.1, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (graphics 3:1).
  it.each(schemes)(
    '%s: text reads at 4.5:1 and lines at 3:1 on every ground they stand on',
    (scheme) => {
      const palette = PALETTES[scheme];
      for (const ground of [palette.paper, palette.raised, palette.band]) {
        for (const text of ['ink', 'muted', 'gain', 'loss', 'look', 'stop'] as const) {
          expect(contrast(palette[text], ground), `${text} on ${ground}`).toBeGreaterThanOrEqual(
            4.5,
          );
        }
        expect(contrast(palette.chanceLine, ground)).toBeGreaterThanOrEqual(3);
      }
    },
  );

  it('knows the contrast of black on white', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2); // WCAG's well-known grey just below AA
  });
});

describe('the ramp of a difference', () => {
  it.each(schemes)('%s: reads as a line at every size, and ends in gain and loss', (scheme) => {
    const palette = PALETTES[scheme];
    expect(differenceColour(1, true, palette)).toBe(palette.gain);
    expect(differenceColour(-1, false, palette)).toBe(palette.loss);
    for (const share of [0, 0.25, 0.5, 1])
      for (const ahead of [true, false])
        for (const ground of [palette.paper, palette.band])
          expect(
            contrast(differenceColour(share, ahead, palette), ground),
            `${share} on ${ground}`,
          ).toBeGreaterThanOrEqual(3);
  });
});

describe('the ramp of the rungs', () => {
  it.each(schemes)(
    '%s: gets steadily lighter with the setting and stays off the paper',
    (scheme) => {
      const palette = PALETTES[scheme];
      const colours = [22, 24, 26, 28, 30, 32].map((at) => rungColour(at, [22, 32], palette));
      const against = colours.map((colour) => contrast(colour, '#000000'));
      for (let at = 1; at < against.length; at += 1) {
        expect(against[at]!).toBeGreaterThan(against[at - 1]!);
      }
      for (const colour of colours) {
        expect(contrast(colour, palette.paper), colour).toBeGreaterThanOrEqual(3); // WCAG 2.1, 1.4.11
      }
    },
  );

  it('gives one rung, and settings off the ladder, a colour of the ramp', () => {
    const palette = PALETTES.light;
    expect(rungColour(28, [28, 28], palette)).toMatch(/^#[0-9a-f]{6}$/);
    expect(rungColour(99, [22, 32], palette)).toBe(rungColour(32, [22, 32], palette));
  });
});

describe('loss', () => {
  it.each(schemes)('%s: figures stay readable on the deepest loss', (scheme) => {
    const palette = PALETTES[scheme];
    expect(contrast(palette.ink, lossFill(1, palette))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.stop, lossFill(0.5, palette))).toBeGreaterThanOrEqual(3);
  });

  it('starts as paper and deepens', () => {
    const palette = PALETTES.light;
    expect(lossFill(0, palette)).toBe(palette.paper);
    const depth = [0, 0.25, 0.5, 1].map((share) =>
      contrast(lossFill(share, palette), palette.paper),
    );
    expect([...depth].sort((a, b) => a - b)).toEqual(depth);
    expect(mix('#000000', '#ffffff', 0.5)).toBe('#808080');
  });
});
