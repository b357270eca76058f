import { beforeAll, describe, expect, it } from 'vitest';
import { evaluateSpline } from '../src/numerics/spline.ts';
import { type DemoDay, type DemoEngine, demoShop } from './shop.ts';
import { type Story, storyOf } from './story.ts';

const shop = demoShop();
const engineOf = (name: string): DemoEngine =>
  shop.engines.find((one) => one.engine.name === name)!;
const lastDay = (engine: DemoEngine): DemoDay => engine.builds.at(-1)!.days.at(-1)!;

/** From the bytes of its run files through intake, pull and ladder. */
const told = (name: string) => {
  const engine = engineOf(name);
  const demo = lastDay(engine);
  const story: { now?: Story } = {};
  beforeAll(async () => {
    story.now = await storyOf(shop, engine, demo);
  }, 60_000);
  return { demo, story: () => story.now! };
};

describe('the rally six', () => {
  const { demo, story } = told('Rally six');
  const best = demo.truth.bestLeadOverBandDeg;

  it('reached its knee: the best is closed on both sides and holds the truth', () => {
    const { answer } = story();
    expect(answer.best.low!).toBeLessThan(best);
    expect(answer.best.high!).toBeGreaterThan(best);
    expect(answer.next.action).toBe('stop');
  });

  it('gets a setting for each use at least its holdback below the true best', () => {
    const { answer } = story();
    expect(answer.uses.bursts!.value!).toBeLessThanOrEqual(best - 2);
    expect(answer.uses.sustained!.value!).toBeLessThanOrEqual(best - 4);
    expect(demo.truth.lossPercent(answer.uses.bursts!.value!)).toBeLessThan(1.5);
    expect(demo.decisions[0]!.setting!).toBeLessThanOrEqual(answer.uses.bursts!.value!);
  });

  it('finds every step within its interval', () => {
    for (const { from, to, lowPercent, highPercent } of story().answer.steps) {
      const gain = 100 * (demo.truth.meanPowerW(to) / demo.truth.meanPowerW(from) - 1);
      expect(lowPercent).toBeLessThan(gain);
      expect(highPercent).toBeGreaterThan(gain);
    }
  });
});

describe('the rescue boat V8', () => {
  const { demo, story } = told('Rescue boat V8');
  const limit = demo.truth.limitLeadDeg!;
  const curveAt = (leadDeg: number) =>
    story().curves[demo.pulls.findIndex((pull) => pull.leadDeg === leadDeg)]!;

  it('was stopped by its limit, which its knock channel watched', () => {
    const { answer } = story();
    expect(answer.limitWatched).toBe(true);
    expect(answer.limit).not.toBeNull();
    expect(['back', 'stop']).toContain(answer.next.action);
    expect(answer.best.high).toBeNull();
  });

  it('is left a setting for each use that stands below the true limit by the holdback', () => {
    const { answer } = story();
    expect(answer.uses.bursts!.value!).toBeLessThanOrEqual(limit - 2);
    expect(answer.uses.sustained!.value!).toBeLessThanOrEqual(limit - 4);
    expect(answer.next.value ?? 0).toBeLessThan(limit);
    expect(demo.decisions[0]!.setting!).toBeLessThanOrEqual(answer.uses.sustained!.value!);
  });

  it('marks the blip where it was, in that pull alone', () => {
    const serious = demo.pulls.map((pull) =>
      curveAt(pull.leadDeg!).marks.filter(
        (mark) => mark.kind === 'blip' && mark.severity === 'look again',
      ),
    );
    expect(serious.map((marks) => marks.length)).toEqual([0, 0, 1, 0, 0, 0]);
    const [blip] = serious[2]!;
    expect(blip!.fromRpm!).toBeGreaterThan(4000);
    expect(blip!.toRpm!).toBeLessThan(4300);
    expect(blip!.sizeNm!).toBeLessThan(0);
  });

  it('marks the sensor that stuck, in that pull alone', () => {
    const stuck = demo.pulls.map((pull) =>
      curveAt(pull.leadDeg!).marks.filter((mark) => mark.kind === 'stuck channel'),
    );
    expect(stuck.map((marks) => marks.length)).toEqual([0, 0, 0, 1, 0, 0]);
  });
});

describe('the grass-track single', () => {
  const { demo, story } = told('Grass-track single');

  it('is not finished: the best is open, the next move is one rung up, nothing is recommended', () => {
    const { answer } = story();
    expect(answer.best.high).toBeNull();
    expect(answer.next.action).toBe('pull');
    expect(answer.next.value).toBe(30);
    expect(answer.uses.bursts!.value).toBeNull();
    expect(answer.uses.sustained!.value).toBeNull();
  });

  it('has its torque brought from the chained brake to the crank', () => {
    for (const [i, curve] of story().curves.entries()) {
      const trueNm =
        demo.truth.torqueNm(6500, demo.pulls[i]!.leadDeg!) *
        (1 + demo.truth.offsetsPercent[i]! / 100) *
        (1 + demo.truth.calibrationPercent / 100);
      expect(Math.abs(evaluateSpline(curve.spline, 6500) / trueNm - 1)).toBeLessThan(0.015);
    }
  });
});
