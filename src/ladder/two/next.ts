import { quantileOf } from '../quantiles.ts';
import { percentText } from '../words.ts';
import { type Cleared, isCleared, mayRun } from './clean.ts';
import { ridgeLead, type SurfaceDraws, surfaceLoss } from './surface.ts';
import type { Place, TwoMove } from './types.ts';
import { placeText } from './words.ts';

/*
 * The next pull. Every place of a net of rungs that may be run (clean.ts) is judged by what it is expected to bring to
 * the setting left in the engine:
 *
 *   reach      E max(0, best power of what would then be cleared − best power of what is cleared), over the surfaces
 *   knowledge  how much less the surfaces would lose by standing off their unknown best: for each of the two bests b with
 *              curvature k, k·cov(b, f)²/(var f + σ²), f the power at that place. It is what the variance of a Gaussian
 *              b shrinks by when f is measured with the cell's own repeatability σ.
 *
 * The largest sum wins; what brings less than a part of the gain worth having is not worth a pull.
 */

export interface TwoStanding {
  readonly draws: SurfaceDraws;
  readonly cleared: Cleared;
  readonly rungs: readonly [leadDeg: number, lambda: number];
  readonly worth: number;
  readonly made: readonly Place[];
  readonly last: Place | null;
  readonly stray: Place | null;
}

/** Part of the gain worth having below which another pull is not worth making. */
const STOP_PART = 0.12;
/** Fewest places before the surface can be told at all. */
export const LEAST_PLACES = 6;

/** The net of places one rung apart around all that was run. */
export function net(made: readonly Place[], rungs: readonly [number, number]): readonly Place[] {
  if (made.length === 0) return [];
  const from = {
    leadDeg: Math.min(...made.map(({ leadDeg }) => leadDeg)),
    lambda: Math.min(...made.map(({ lambda }) => lambda)),
  };
  const to = {
    leadDeg: Math.max(...made.map(({ leadDeg }) => leadDeg)),
    lambda: Math.max(...made.map(({ lambda }) => lambda)),
  };
  const steps = (low: number, high: number, rung: number) =>
    Array.from({ length: Math.round((high - low) / rung) + 3 }, (_, i) => low + (i - 1) * rung);
  return steps(from.leadDeg, to.leadDeg, rungs[0]).flatMap((leadDeg) =>
    steps(from.lambda, to.lambda, rungs[1]).map((lambda) => ({
      leadDeg: Number(leadDeg.toFixed(3)),
      lambda: Number(lambda.toFixed(4)),
    })),
  );
}

/** What to do next with both settings. */
export function nextTwo(standing: TwoStanding): TwoMove & { readonly headline: string } {
  const { cleared, made, stray, last, rungs, worth } = standing;
  if (made.length === 0)
    return {
      action: 'pull',
      at: null,
      worthPercent: null,
      why: 'No pull counts yet: start at a careful lead and a rich mixture.',
      headline: 'No pulls yet. Start careful and rich.',
    };
  if (cleared.clean.length === 0) {
    const [lead, lambda] = [
      Math.min(...made.map(({ leadDeg }) => leadDeg)),
      Math.min(...made.map((place) => place.lambda)),
    ];
    const at =
      cleared.limits.length === 0
        ? { leadDeg: lead, lambda }
        : { leadDeg: lead - rungs[0], lambda: lambda - rungs[1] };
    return {
      action: cleared.limits.length === 0 ? 'repeat' : 'back',
      at,
      worthPercent: null,
      why:
        cleared.limits.length === 0
          ? `No pull is known to have run clean: repeat ${placeText(at)} and watch it.`
          : `No pull ran clean: go back to ${placeText(at)} or less and richer, and find what does.`,
      headline:
        cleared.limits.length === 0
          ? `Repeat ${placeText(at)} and watch it.`
          : `Go back to ${placeText(at)}.`,
    };
  }
  if (last !== null && !isCleared(cleared, last) && cleared.limits.length > 0) {
    const at = bestCleared(standing);
    return {
      action: 'back',
      at,
      worthPercent: null,
      why: `The last pull, ${placeText(last)}, stands past what ran clean: go back to ${placeText(at)}.`,
      headline: `Go back to ${placeText(at)}.`,
    };
  }
  if (stray !== null)
    return {
      action: 'repeat',
      at: stray,
      worthPercent: null,
      why: `The pull at ${placeText(stray)} does not agree with the others; a second one tells which to believe.`,
      headline: `The pulls disagree. Repeat ${placeText(stray)}.`,
    };
  const judged = judge(standing);
  const best = judged[0];
  if (best === undefined)
    return {
      action: 'stop',
      at: null,
      worthPercent: null,
      why: 'Every place within one rung of what ran clean is barred by a limit.',
      headline: 'Stop here. A limit is in the way.',
    };
  const places = new Set(made.map(({ leadDeg, lambda }) => `${leadDeg} ${lambda}`)).size;
  const sum = best.reach + best.knowledge;
  if (places >= LEAST_PLACES && sum < STOP_PART * worth)
    return {
      action: 'stop',
      at: null,
      worthPercent: 100 * sum,
      why: `The best next pull, ${placeText(best.at)}, would bring about ${percentText(100 * sum)} to what is left in the engine: not worth making.`,
      headline: 'Stop here. Another pull no longer pays.',
    };
  const repeat = made.some(
    (one) =>
      Math.abs(one.leadDeg - best.at.leadDeg) < rungs[0] / 4 &&
      Math.abs(one.lambda - best.at.lambda) < rungs[1] / 4,
  );
  const reason =
    best.reach > best.knowledge
      ? `it goes one rung past what ran clean and may let ${percentText(100 * best.reach)} more be left in it`
      : `it tells most of where the best lies, worth about ${percentText(100 * best.knowledge)}`;
  return {
    action: repeat ? 'repeat' : 'pull',
    at: best.at,
    worthPercent: 100 * sum,
    why: `${placeText(best.at)}: of all that may be run next ${reason}.`,
    headline: `${repeat ? 'Repeat' : 'Try'} ${placeText(best.at)}.`,
  };
}

interface Judged {
  readonly at: Place;
  readonly reach: number;
  readonly knowledge: number;
}

/** All places that may be run, the one that brings most first. */
export function judge({ draws, cleared, rungs, made }: TwoStanding): Judged[] {
  const places = net(made, rungs);
  const open = places.filter((place) => mayRun(cleared, place, rungs));
  const losses = new Map(
    places.map((place) => [
      place,
      Float64Array.from({ length: draws.count }, (_, d) =>
        surfaceLoss(draws, d, place.leadDeg, place.lambda),
      ),
    ]),
  );
  const now = new Float64Array(draws.count).fill(Number.POSITIVE_INFINITY);
  for (const place of places) if (isCleared(cleared, place)) least(now, losses.get(place)!);
  for (const one of cleared.clean)
    for (let d = 0; d < draws.count; d++)
      now[d] = Math.min(now[d]!, surfaceLoss(draws, d, one.leadDeg, one.lambda));
  const noise = Float64Array.from(draws.repeatSd).sort();
  const square = quantileOf(noise, 0.5) ** 2;
  const bests = [
    [draws.bestLead, draws.leadCurvature],
    [draws.bestLambda, draws.lambdaCurvature],
  ] as const;
  return open
    .map((at) => {
      const power = losses.get(at)!;
      const wider = { ...cleared, clean: [...cleared.clean, at] };
      const then = Float64Array.from(now);
      for (const place of places)
        if (!isCleared(cleared, place) && isCleared(wider, place)) least(then, losses.get(place)!);
      let reach = 0;
      for (let d = 0; d < draws.count; d++) reach += (now[d]! - then[d]!) / draws.count;
      const knowledge = bests.reduce((sum, [best, curvature]) => {
        const { covariance, variance } = momentsOf(best, power);
        const k = curvature.reduce((total, value) => total + value, 0) / draws.count;
        return sum + (k * covariance ** 2) / (variance + square);
      }, 0);
      return { at, reach, knowledge };
    })
    .sort((a, b) => b.reach + b.knowledge - (a.reach + a.knowledge));
}

function least(into: Float64Array, other: Float64Array): void {
  for (let d = 0; d < into.length; d++) into[d] = Math.min(into[d]!, other[d]!);
}

function momentsOf(a: Float64Array, b: Float64Array) {
  const n = a.length;
  const mean = (x: Float64Array) => x.reduce((sum, value) => sum + value, 0) / n;
  const [ma, mb] = [mean(a), mean(b)];
  let [covariance, variance] = [0, 0];
  for (let i = 0; i < n; i++) {
    covariance += ((a[i]! - ma) * (b[i]! - mb)) / n;
    variance += (b[i]! - mb) ** 2 / n;
  }
  return { covariance, variance };
}

/** The cleared place that is expected to lose least. */
function bestCleared({ draws, cleared, rungs, made }: TwoStanding): Place {
  const places = [
    ...net(made, rungs).filter((place) => isCleared(cleared, place)),
    ...cleared.clean,
  ];
  const expected = (place: Place) => {
    let sum = 0;
    for (let d = 0; d < draws.count; d++) sum += surfaceLoss(draws, d, place.leadDeg, place.lambda);
    return sum;
  };
  return places.reduce((best, place) => (expected(place) < expected(best) ? place : best));
}

/** Best lead for a mixture over the draws, sorted. */
export const ridgeAt = (draws: SurfaceDraws, lambda: number): Float64Array =>
  Float64Array.from({ length: draws.count }, (_, d) => ridgeLead(draws, d, lambda)).sort();
