import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebR } from 'webr';
import { wearOf } from '../src/build/service/wear.ts';
import { contrastQuantile, groupMeans } from '../src/compare/means.ts';
import { answerPartTest } from '../src/compare/partAnswer.ts';
import {
  byLeastSquares,
  inBlocks,
  intervalOn,
  type PartPoint,
  whateverTheDay,
} from '../src/compare/partDrift.ts';
import { lookAtPartTest, planPartTest } from '../src/compare/partTest.ts';
import { surfaceLoss, surfacePosterior } from '../src/ladder/two/surface.ts';
import { gaussian } from '../src/numerics/simulated.fixture.ts';
import { tBelow } from '../src/numerics/studentT.ts';

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

  it.each([
    [1, 0.4],
    [0.7, 0.4],
    [1, 0.5],
  ])(
    'plans A/B/A for %s %% at %s %% with the power that power.t.test gives two means',
    async (gain, sd) => {
      const { blocks, order } = planPartTest(gain, sd, 'A/B/A', false);
      expect(order.filter((side) => side === 'a')).toHaveLength(blocks);
      const power = (n: number) =>
        numbers(
          `power.t.test(n = ${n}, delta = ${gain}, sd = ${sd}, sig.level = 0.05, type = "two.sample")$power`,
        );
      const [planned] = await power(blocks);
      expect(planned).toBeGreaterThan(0.8);
      // No more than asked for: two pulls fewer of each would not do, save at the least of four.
      if (blocks > 4) expect((await power(blocks - 2))[0]).toBeLessThan(0.85);
    },
  );

  it('tells drift and part as lm does, and settles the scatter with what was known before', async () => {
    const normal = gaussian(8);
    const points = [...'aabbbbaab'].map(
      (group, at): PartPoint => ({
        group: group as 'a' | 'b',
        day: 'one',
        order: at + (at > 4 ? 1 : 0),
        logPowerPercent: 1200 + (group === 'b' ? 0.7 : 0) + 0.1 * at + 0.4 * normal(),
      }),
    );
    const { gain, drift, repeatability } = byLeastSquares(points, null);
    await r.objs.globalEnv.bind(
      'z',
      points.map((point) => point.logPowerPercent),
    );
    await r.objs.globalEnv.bind(
      'o',
      points.map(({ order }) => order),
    );
    const fit = `fit <- lm(z ~ b + o, data.frame(z = z, o = o, b = c(0,0,1,1,1,1,0,0,1)))`;
    const theirs = await numbers(
      `${fit}; c(coef(fit)[2:3], sqrt(diag(vcov(fit)))[2:3], sigma(fit)^2)`,
    );
    expect(gain!.value).toBeCloseTo(theirs[0]!, 9);
    expect(drift!.value).toBeCloseTo(theirs[1]!, 9);
    const before = 1 / (2 * (Math.log(0.01 / 0.0015) / 3.92) ** 2);
    const variance = (before * 0.4 ** 2 + 6 * theirs[4]!) / (before + 6);
    expect(repeatability.value ** 2).toBeCloseTo(variance, 9);
    expect(drift!.error).toBeCloseTo(theirs[3]! * Math.sqrt(variance / theirs[4]!), 9);
    expect(gain!.error).toBeCloseTo(theirs[2]! * Math.sqrt(variance / theirs[4]!), 9);
    // Without noise to speak of only the drift is left of all kinds of day: the average is lm's too.
    const steady = points.map((point) => ({
      ...point,
      logPowerPercent: 1200 + (point.group === 'b' ? 0.7 : 0) + 3 * point.order,
    }));
    expect(intervalOn(whateverTheDay(steady, 0.05), 0.05).value).toBeCloseTo(0.7, 6);
  });

  it('has the paired interval of t.test on blocks whose drift lm took from their means', async () => {
    const normal = gaussian(9);
    const points = [...'abbaabbaab'].map(
      (group, at): PartPoint => ({
        group: group as 'a' | 'b',
        day: 'one',
        order: at,
        logPowerPercent: 1200 + (group === 'b' ? 0.5 : 0) + 0.2 * at + 0.3 * normal(),
      }),
    );
    const { gain, by } = answerPartTest(points, null, null);
    expect(by).toBe('blocks');
    await r.objs.globalEnv.bind(
      'z',
      points.map((point) => point.logPowerPercent),
    );
    const theirs = await numbers(
      `first <- z[seq(1, 9, 2)]; second <- z[seq(2, 10, 2)]; s <- c(1, -1, 1, -1, 1)
       drift <- coef(lm(m ~ t, data.frame(m = (first + second) / 2, t = seq(0.5, 8.5, 2))))[2]
       d <- 100 * expm1((s * (second - first) - drift * s) / 100)
       c(drift, t.test(d)$conf.int)`,
    );
    expect(inBlocks(points)!.driftPercent).toBeCloseTo(theirs[0]!, 9);
    expect(gain!.low).toBeCloseTo(theirs[1]!, 9);
    expect(gain!.high).toBeCloseTo(theirs[2]!, 9);
  });

  it('has the chances of pt', async () => {
    for (const [value, freedom] of [
      [-2.3, 1],
      [0.4, 2],
      [1.7, 5],
      [-0.01, 12],
      [4, 250],
    ] as const) {
      const [theirs] = await numbers(`pt(${value}, ${freedom})`);
      expect(tBelow(value, freedom)).toBeCloseTo(theirs!, 10);
    }
  });
});

describe('a response surface and R’s lm', () => {
  it('has the best, the surface and its standard error of lm where pulls leave the priors little to say', async () => {
    // Thirty-six pulls of a symmetric truth on a cell that repeats within 0.1 %: lm's full quadratic is then the truth.
    const normal = gaussian(11);
    const points = Array.from({ length: 36 }, (_, i) => {
      const [leadDeg, lambda] = [22 + 3.2 * (i % 6), 0.79 + 0.034 * Math.floor(i / 6)];
      const [e, d] = [lambda - 0.88, leadDeg - 30 - 10 * (lambda - 0.88)];
      const y = 1 - 7e-4 * d * d - 1.9 * e * e + 0.001 * normal();
      // The order of the pulls is shuffled, so that drift is free of both settings.
      return { leadDeg, lambda, lambdaSd: 0, day: 0, order: (i * 17) % 36, y, ySd: 0 };
    });
    const { draws } = surfacePosterior(points, 0.1);
    await r.objs.globalEnv.bind(
      'x',
      points.map((point) => point.leadDeg - 30),
    );
    await r.objs.globalEnv.bind(
      'z',
      points.map((point) => 100 * (point.lambda - 0.88)),
    );
    await r.objs.globalEnv.bind(
      'y',
      points.map((point) => point.y),
    );
    const [bestX, bestZ, fit, se, interaction] = (await r.evalRRaw(
      `m <- lm(y ~ x + z + I(x^2) + I(z^2) + I(x*z)); b <- coef(m)
       best <- solve(matrix(c(2*b[4], b[6], b[6], 2*b[5]), 2), -b[2:3])
       p <- predict(m, data.frame(x = c(0, -6), z = c(0, -6)), se.fit = TRUE)
       v <- vcov(m); a <- model.matrix(~ x + z + I(x^2) + I(z^2) + I(x*z), data.frame(x = c(0, -6), z = c(0, -6)))
       d <- a[1,] - a[2,]
       c(best, p$fit[1] - p$fit[2], sqrt(as.numeric(t(d) %*% v %*% d)), -b[6] * 100 / (2 * b[4]))`,
      'number[]',
    )) as [number, number, number, number, number];
    const mean = (of: (d: number) => number) =>
      Array.from({ length: draws.count }, (_, d) => of(d)).reduce((sum, one) => sum + one, 0) /
      draws.count;
    const gain = (d: number) => surfaceLoss(draws, d, 24, 0.82) - surfaceLoss(draws, d, 30, 0.88);
    const gainMean = mean(gain);
    const gainSd = Math.sqrt(mean((d) => (gain(d) - gainMean) ** 2));
    expect(Math.abs(mean((d) => draws.bestLead[d]!) - 30 - bestX)).toBeLessThan(0.3);
    expect(Math.abs(100 * (mean((d) => draws.bestLambda[d]!) - 0.88) - bestZ)).toBeLessThan(0.5);
    expect(Math.abs(gainMean - fit)).toBeLessThan(2 * se);
    // Our surface may lean, which lm's cannot: its error is no smaller, and not much larger.
    expect(gainSd).toBeGreaterThan(0.7 * se);
    expect(gainSd).toBeLessThan(2.5 * se);
    expect(Math.abs(mean((d) => draws.ridge[d]!) - interaction)).toBeLessThan(3);
  });
});

describe('cylinders over time and R', () => {
  it('has the contrasts of slopes of lm() with dates and cylinders as factors, and the slope of the means', async () => {
    const normal = gaussian(8);
    const days = [0, 31, 59, 120, 200];
    const [n, m] = [6, days.length];
    const y = days.map((day) => {
      const shared = 0.4 * normal();
      return Array.from(
        { length: n },
        (_, at) => 8 + 0.3 * at + shared + 0.3 * normal() + (at === 3 ? 0.02 * day : 0),
      );
    });
    const readings = days.map((day, at) => ({
      date: new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10),
      values: y[at]!,
      error: null,
    }));
    const { moved, together } = wearOf(readings, 'leakDown');
    await r.objs.globalEnv.bind('y', y.flat());
    await r.objs.globalEnv.bind('days', days);
    const theirs = await numbers(`{
      n <- ${n}; m <- ${m}
      cylinder <- factor(rep(1:n, m)); date <- factor(rep(1:m, each = n)); t <- rep(days, each = n)
      contrasts(cylinder) <- contr.sum(n)
      own <- model.matrix(~cylinder)[, -1]
      fit <- summary(lm(y ~ date + own + I(own * t)))
      row <- fit$coefficients[paste0('I(own * t)cylinder', 4), ]
      against <- row[1] * n / (n - 1) * 200
      half <- qt(1 - 0.025 / n / 2, fit$df[2]) * row[2] * n / (n - 1) * 200
      left <- y[cylinder != 4]
      means <- tapply(left, rep(1:m, each = n - 1), mean)
      line <- summary(lm(means ~ days))
      slope <- line$coefficients[2, ]
      c(against, half, slope[1] * 200, qt(1 - 0.025 / 2, m - 2) * slope[2] * 200)
    }`);
    expect(moved.map(({ cylinder }) => cylinder)).toEqual([4]);
    const { value, high } = moved[0]!.against;
    const ours = [value, high - value, together!.value, together!.high - together!.value];
    ours.forEach((one, at) => {
      expect(Math.abs(one / theirs[at]! - 1)).toBeLessThan(1e-9);
    });
  });
});
