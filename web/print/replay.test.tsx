import { describe, expect, it } from 'vitest';
import { CHARTS_IN_ENGLISH } from '../../src/chartWords.ts';
import type { ReplayWanted } from '../../src/figures.ts';
import type { Pace } from '../../src/pull/reached.ts';
import { drawReplay, drawShown } from './figures.tsx';

const speedRpm = Array.from({ length: 31 }, (_, at) => 3000 + 100 * at);
const curveOf = (level: number) => {
  const torqueNm = speedRpm.map((rpm) => level - 2e-5 * (rpm - 4400) ** 2);
  return {
    setting: null,
    speedRpm,
    torqueNm,
    lowNm: torqueNm.map((nm) => nm - 3),
    highNm: torqueNm.map((nm) => nm + 3),
    powerW: torqueNm.map((nm, at) => (nm * speedRpm[at]! * Math.PI) / 30),
  };
};
/** 3000 to 6000 rev/min in so many seconds, and a pause of one second at 4000. */
const paced = (seconds: number): Pace => ({
  timeS: [0, seconds / 3, seconds / 3 + 1, seconds + 1],
  speedRpm: [3000, 4000, 4000, 6000],
});

function replay(before: Pace | null, language = CHARTS_IN_ENGLISH): ReplayWanted {
  return {
    shown: {
      title: 'Six, second build',
      scenario: 'in standard air',
      headlines: [['300 kW', 'at 5400 rpm']],
      by: 'Shop',
      mark: null,
      figure: {
        kind: 'curves',
        id: 'curve',
        title: '',
        scenario: '',
        units: 'metric',
        words: language,
        bandRpm: [4000, 5500],
        series: [
          { ...curveOf(500), id: 'now', label: 'now' },
          { ...curveOf(450), id: 'before', label: 'before', faint: true },
        ],
      },
    },
    durationS: 7,
    paces: { now: paced(6), before },
    told: ['now: in the time of pull 3', 'before: as it says'],
    words: { time: 'time', speed: 'speed', readme: '' as never },
  };
}
const SIZE = { width: 1920, height: 1080 };
const at = (timeS: number, of = replay(null), size = SIZE) => drawReplay(of, size, timeS);

/** Place on the picture up to which the torque of a line is drawn; null: nowhere. */
function reachOf(markup: string, id: string): number | null {
  const d = new RegExp(`data-pull="${id}" d="([^"]*)"`).exec(markup)![1]!;
  const xs = [...d.matchAll(/[ML](-?[\d.]+)/g)].map(([, x]) => Number(x));
  return xs.length < 2 ? null : Math.max(...xs);
}
/** Figures and names along the axes: what must never move. */
const axesOf = (markup: string) =>
  [...markup.matchAll(/<text x="[^" ]*" y="[^"]*" [^>]*>\d+<\/text>/g)].map(([text]) => text);

describe('a replay', () => {
  it('begins with the axes of the end and no curve', () => {
    const [first, last] = [at(0), at(7)];
    expect(axesOf(first).length).toBeGreaterThan(8);
    expect(axesOf(first)).toEqual(axesOf(last));
    for (const id of ['now', 'before']) {
      expect(reachOf(first, id)).toBeNull();
      expect(reachOf(last, id)).not.toBeNull();
    }
    expect(first).toContain('now: in the time of pull 3');
  });

  it('ends as the picture that is shown, to the byte', () => {
    const { shown } = replay(null);
    expect(at(7)).toBe(drawShown(shown, SIZE));
    expect(at(60)).toBe(drawShown(shown, SIZE));
    expect(at(6.99)).not.toBe(drawShown(shown, SIZE));
  });

  it('grows and never shrinks, as fast as the sweep, and stands where it stood', () => {
    const places = Array.from({ length: 70 }, (_, step) => reachOf(at(0.1 * (step + 1)), 'now')!);
    places.forEach((x, step) => {
      if (step > 0) expect(x).toBeGreaterThanOrEqual(places[step - 1]!);
    });
    const [whole, left] = [reachOf(at(7), 'now')!, reachOf(at(0.01), 'now')!];
    const rpmAt = (x: number) => 3000 + (3000 * (x - left)) / (whole - left);
    expect(rpmAt(reachOf(at(1), 'now')!)).toBeCloseTo(3500, -1.5);
    expect(reachOf(at(2.05), 'now')).toBe(reachOf(at(2.95), 'now'));
    expect(rpmAt(reachOf(at(5), 'now')!)).toBeCloseTo(5000, -1.5);
  });

  it('draws the other in its own time, and where none is known at the same engine speed', () => {
    const same = at(4);
    expect(reachOf(same, 'before')).toBe(reachOf(same, 'now'));
    const own = at(4, replay(paced(3)));
    expect(reachOf(own, 'before')).toBe(reachOf(at(7), 'before'));
    expect(reachOf(own, 'now')).toBe(reachOf(same, 'now'));
  });

  it('reads time, speed, torque and power where the engine stands, in the places of every other moment', () => {
    const figures = (timeS: number) =>
      [
        ...at(timeS).matchAll(
          /<text x="[\d. ]+" font-size="([\d.]+)" text-anchor="middle"[^>]*>([^<]+)</g,
        ),
      ].map(([, size, text]) => [Number(size), text]);
    // 4000 rev/min: 500 - 2e-5 · 400² = 496.8 N·m; times 4000 · π/30 rad/s, 208.1 kW.
    expect(figures(2.5).map(([, text]) => text)).toEqual(['2.5', '4000', '497', '208']);
    expect(figures(0.3).map(([size]) => size)).toEqual(figures(6.9).map(([size]) => size));
    expect(new Set(figures(1).map(([size]) => size)).size).toBe(1);
  });

  it('keeps to each of the sizes', () => {
    for (const [width, height] of [
      [3840, 2160],
      [1080, 1080],
      [1080, 1920],
    ] as const)
      for (const timeS of [0, 3, 7])
        expect(at(timeS, replay(null), { width, height })).toMatch(
          new RegExp(`^<svg [^>]*width="${width}" height="${height}"`),
        );
  });
});
