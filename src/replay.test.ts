import { describe, expect, it } from 'vitest';
import type { ReplayWanted } from './figures.ts';
import { frameName, framesOf, readmeOf } from './replay.ts';
import { catalogueOf, LANGUAGES } from './report/paper/say/index.ts';

describe('the pictures of a replay', () => {
  it('cover the sweep at even steps and the finished picture for two seconds', () => {
    const { count, firstStill, timeS } = framesOf({ durationS: 4.95 }, 25);
    expect(firstStill).toBe(124);
    expect(count).toBe(124 + 50);
    expect(timeS(1)).toBeCloseTo(0.04, 12);
    expect(timeS(firstStill - 1)).toBeLessThan(4.95);
    expect(timeS(firstStill)).toBe(4.95);
    expect(timeS(count - 1)).toBe(4.95);
    // A whole number of steps must not gain one by rounding.
    expect(framesOf({ durationS: 0.1 * 3 }, 10).firstStill).toBe(3);
  });

  it('are named so that they sort as they run', () => {
    expect(frameName(0, 200)).toBe('frame-0001.png');
    const names = [8, 9, 99, 99_998].map((frame) => frameName(frame, 100_000));
    expect([...names].sort()).toEqual(names);
  });

  it('say their rate and size in every language, with no place left open', () => {
    for (const language of LANGUAGES) {
      const { replay, charts } = catalogueOf(language).words;
      const wanted = {
        shown: { title: 'Six, first', scenario: '', by: 'Shop', figure: { words: charts } },
        durationS: 4.95,
        told: [replay.inTime({ line: '', pull: 'X', day: 'Y' })],
        words: { time: replay.time, speed: replay.speed, readme: replay.readme },
      } as unknown as ReplayWanted;
      const text = readmeOf(wanted, { width: 1080, height: 1920 }, 25);
      for (const part of ['1080 × 1920', '25', '174', 'frame-0001.png', 'frame-0174.png'])
        expect(text).toContain(part);
      expect(text).toContain(charts.decimalComma ? '6,96' : '6.96');
      expect(text).not.toMatch(/[{}]|undefined/);
    }
  });
});
