import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebR } from 'webr';
import { contrastQuantile, groupMeans } from '../src/compare/means.ts';
import { lookAtPartTest, planPartTest } from '../src/compare/partTest.ts';
import { gaussian } from '../src/numerics/simulated.fixture.ts';

/** R itself, compiled to WebAssembly (webr, R 4.6): t.test, power.t.test. The same figures go to both sides. */
const r = new WebR();
beforeAll(async () => {
  await r.init();
});
afterAll(() => r.close());
const numbers = (code: string): Promise<number[]> => r.evalRRaw(code, 'number[]');

describe('mean power of two groups and R', () => {
  it('comes near to Welch’s interval with many pulls of one day', async () => {
    const normal = gaussian(5);
    const sd = 0.004;
    const z = Array.from({ length: 160 }, (_, i) => (i % 2) * 0.01 + sd * normal());
    const points = z.map((value, i) => ({
      group: i % 2,
      day: 0,
      cell: 0,
      order: i,
      z: value,
      zSd: 0,
    }));
    const parts = groupMeans(points, 2, null, [0]);
    const ours = [0.025, 0.975].map((p) => contrastQuantile(parts, [-1, 1], p));
    await r.objs.globalEnv.bind('z', z);
    const theirs = await numbers(
      'as.vector(t.test(z[seq(2, 160, 2)], z[seq(1, 159, 2)])$conf.int)',
    );
    const width = theirs[1]! - theirs[0]!;
    // The day's drift is estimated with it, which costs or saves a little: within a tenth of the interval's width.
    ours.forEach((end, i) => {
      expect(Math.abs(end - theirs[i]!)).toBeLessThan(0.1 * width);
    });
  });
});

describe('a part test and R', () => {
  const plan = planPartTest(1, 0.4, 'by turns', false);

  it('has the paired interval of t.test, at the error of its last look', async () => {
    const normal = gaussian(6);
    const differences = Array.from({ length: plan.blocks }, () => 0.2 + 0.6 * normal());
    const { gain } = lookAtPartTest(plan, differences);
    const total = Array.from({ length: plan.blocks - 2 }, (_, i) => (i + 3) ** 2).reduce(
      (sum, one) => sum + one,
      0,
    );
    const error = (0.05 * plan.blocks ** 2) / total;
    await r.objs.globalEnv.bind('d', differences);
    const theirs = await numbers(`as.vector(t.test(d, conf.level = 1 - ${error})$conf.int)`);
    expect(gain!.low).toBeCloseTo(theirs[0]!, 9);
    expect(gain!.high).toBeCloseTo(theirs[1]!, 9);
  });

  it.each([
    [1, 0.4],
    [0.5, 0.4],
    [2, 0.5],
  ])(
    'plans a gain of %s %% at %s %% with the power that power.t.test gives its last look',
    async (gain, sd) => {
      const { blocks } = planPartTest(gain, sd, 'by turns', false);
      const total = Array.from({ length: blocks - 2 }, (_, i) => (i + 3) ** 2).reduce(
        (sum, one) => sum + one,
        0,
      );
      const [power] = await numbers(
        `power.t.test(n = ${blocks}, delta = ${gain}, sd = ${Math.SQRT2 * sd}, sig.level = ${(0.05 * blocks ** 2) / total}, type = "paired")$power`,
      );
      expect(power).toBeGreaterThan(0.79);
      expect(power).toBeLessThan(0.97);
    },
  );
});
