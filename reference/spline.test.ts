import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebR } from 'webr';
import {
  defaultPriors,
  evaluateSpline,
  fitPenalisedSpline,
  leastSquares,
  splineSd,
  valueFunctional,
} from '../src/numerics/index.ts';
import { HUMPED, simulatedSweep } from '../src/numerics/simulated.fixture.ts';

/** R itself, compiled to WebAssembly (webr, R 4.6): splines, stats. The same data go to both sides. */
const r = new WebR();
const sweep = simulatedSweep(
  HUMPED,
  11,
  { whiteSd: 5, wanderSd: 3, memory: 0.1 },
  { interval: 0.1 },
);
const weight = sweep.y.map(() => 1);

beforeAll(async () => {
  await r.init();
  await r.objs.globalEnv.bind('x', sweep.x);
  await r.objs.globalEnv.bind('y', sweep.y);
  await r.objs.globalEnv.bind('time', sweep.time);
});
afterAll(() => r.close());

const numbers = (code: string): Promise<number[]> => r.evalRRaw(code, 'number[]');

/** One smoothness and one noise in place of the priors' grid. */
const fixed = (smoothness: number, share: number, memory: number) => ({
  smoothness: [smoothness],
  share: [share],
  shareWeight: [1],
  memory: [memory],
  memoryWeight: [1],
});

describe('our spline and R on the same data', () => {
  it('has the B-splines of splines::splineDesign, and their derivatives', async () => {
    const grid = { low: 3000, high: 7400, segments: 11 };
    const places = [3000, 3111, 4400, 5000.5, 7399, 7400];
    await r.objs.globalEnv.bind('places', places);
    for (const derivative of [0, 1, 2] as const) {
      const theirs = await numbers(
        `as.vector(t(splines::splineDesign(seq(3000 - 3*400, 7400 + 3*400, by = 400), places, 4, rep(${derivative}, ${places.length}))))`,
      );
      const ours = places.flatMap((x) => Array.from(valueFunctional(grid, x, derivative)));
      ours.forEach((value, i) => {
        expect(value).toBeCloseTo(theirs[i]!, 12);
      });
    }
  });

  it('is the smoothing spline of smooth.spline when every point is a knot and the noise is white', async () => {
    // R minimises Σ(y−f)² + λ∫f″² with x scaled to [0, 1]; ours counts x in knot intervals, so λ_ours = λ_R·segments³.
    const theirs = await numbers('{f <- smooth.spline(x, y, df = 11, all.knots = TRUE); f$y}');
    const [lambda, dof] = (await numbers('c(f$lambda, f$df)')) as [number, number];
    const segments = sweep.x.length - 1;
    const grid = { low: sweep.x[0]!, high: sweep.x.at(-1)!, segments };
    const ours = fitPenalisedSpline(
      grid,
      { ...sweep, weight },
      2,
      fixed(lambda * segments ** 3, 0, 1),
    );
    sweep.x.forEach((x, i) => {
      // R rounds x to a millionth of its quartile range before it looks for ties; the ordinates are near 450.
      expect(evaluateSpline(ours.spline, x)).toBeCloseTo(theirs[i]!, 3);
    });
    expect(ours.effectiveDof).toBeCloseTo(dof, 3);
  });

  it('is the generalised least squares of the dense closed form when white noise and wander are given', async () => {
    const grid = { low: 3000, high: 7400, segments: 11 };
    const ours = fitPenalisedSpline(grid, { ...sweep, weight }, 3, fixed(40 * 1.8, 0.8, 0.25));
    const theirs = await numbers(`{
      B <- splines::splineDesign(seq(3000 - 1200, 7400 + 1200, by = 400), x, 4)
      D <- diff(diag(ncol(B)), differences = 3)
      R <- diag(length(x)) + 0.8 * exp(-abs(outer(time, time, "-")) / 0.25)
      A <- t(B) %*% solve(R, B) + 40 * t(D) %*% D
      a <- solve(A, t(B) %*% solve(R, y))
      s2 <- (t(y) %*% solve(R, y) - t(a) %*% (t(B) %*% solve(R, y)))[1] / (length(y) - 3)
      places <- seq(3100, 7300, by = 600)
      P <- splines::splineDesign(seq(3000 - 1200, 7400 + 1200, by = 400), places, 4)
      c(P %*% a, sqrt(s2 * diag(P %*% solve(A) %*% t(P))))
    }`);
    const places = Array.from({ length: 8 }, (_, i) => 3100 + 600 * i);
    places.forEach((x, i) => {
      expect(evaluateSpline(ours.spline, x)).toBeCloseTo(theirs[i]!, 5);
      expect(splineSd(ours.spline, x)).toBeCloseTo(theirs[i + 8]!, 6);
    });
  });

  it('prefers the smoothness and the wander that the dense restricted likelihood prefers', async () => {
    const grid = { low: 3000, high: 7400, segments: 11 };
    // Two hypotheses at a time: the mixture's weights must be the ratio of restricted likelihoods computed in R.
    const priors = { ...fixed(40 * 1.8, 0.8, 0.25), smoothness: [40 * 1.8, 400 * 1.8] };
    const both = fitPenalisedSpline(grid, { ...sweep, weight }, 3, priors);
    const [one, other] = priors.smoothness.map((s) =>
      fitPenalisedSpline(grid, { ...sweep, weight }, 3, fixed(s, 0.8, 0.25)),
    );
    const at = 4300;
    const share =
      (evaluateSpline(both.spline, at) - evaluateSpline(other!.spline, at)) /
      (evaluateSpline(one!.spline, at) - evaluateSpline(other!.spline, at));
    const [theirs] = await numbers(`{
      reml <- function(lambda) {
        A <- t(B) %*% solve(R, B) + lambda * t(D) %*% D
        b <- t(B) %*% solve(R, y)
        rss <- (t(y) %*% solve(R, y) - t(b) %*% solve(A, b))[1]
        -0.5 * ((length(y) - 3) * log(rss) + determinant(R)$modulus + determinant(A)$modulus - (ncol(B) - 3) * log(lambda))
      }
      1 / (1 + exp(reml(400) - reml(40)))
    }`);
    expect(share).toBeCloseTo(theirs!, 5);
  });

  it('agrees with lm on an ordinary regression', async () => {
    const ours = leastSquares(
      sweep.x.map((x) => [1, x, x * x]),
      sweep.y,
    );
    const theirs = await numbers(
      '{m <- summary(lm(y ~ x + I(x^2))); c(m$coefficients[, 1:2], m$sigma, m$r.squared)}',
    );
    [...ours.coefficients, ...ours.standardErrors, ours.residualSd, ours.rSquared].forEach(
      (value, i) => {
        expect(value / theirs[i]!).toBeCloseTo(1, 7);
      },
    );
  });

  it('comes nearer to the truth than smooth.spline, which takes the noise for white', async () => {
    const grid = { low: 3000, high: 7400, segments: 28 };
    const roughness = { level: 450, median: 4, logSd: 1.5 };
    const priors = { ...defaultPriors(0.25, 0.02), roughness };
    let [ours, theirs] = [0, 0];
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const { time, x, y } = simulatedSweep(HUMPED, seed, { whiteSd: 5, wanderSd: 3, memory: 0.1 });
      await r.objs.globalEnv.bind('x', x);
      await r.objs.globalEnv.bind('y', y);
      const smooth = await numbers('smooth.spline(x, y)$y');
      const series = { time, x, y, weight: y.map(() => 1) };
      const { spline } = fitPenalisedSpline(grid, series, 3, priors);
      x.forEach((at, i) => {
        ours += (evaluateSpline(spline, at) - HUMPED(at)) ** 2;
        theirs += (smooth[i]! - HUMPED(at)) ** 2;
      });
    }
    expect(ours).toBeLessThan(theirs);
  });
});
