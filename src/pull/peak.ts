import {
  basisAt,
  drawCurves,
  evaluateSpline,
  gaussianTable,
  quantile,
  type SplineFit,
  splineSd,
} from '../numerics/index.ts';
import { RAD_PER_S_PER_RPM } from '../trade/index.ts';
import type { Mark, Peak } from './types.ts';

/** Draws from the posterior; the ends of an interval from so many are steady to a few per cent of its width. */
const DRAWS = 500;
const PLACES = 400;
/** A maximum within this part of the range from an end stands at the end. */
const EDGE_SHARE = 0.01;
/** With this chance of standing there a peak is said to. */
const EDGE_CHANCE = 0.25;

/**
 * Highest torque [N·m] and power [W] of a curve with 95 % intervals from the joint posterior of the maximum:
 * of each drawn curve the highest point, wherever it stands, times what is common to the pull. A maximum of
 * an uncertain curve is higher than the uncertain maximum of the mean curve, and pointwise bands do not know
 * it. Where the maximum may well stand at an end of the sweep, the peak says so.
 * @param commonRelSd relative sd of repeatability and calibration together
 */
export function peaksOf(spline: SplineFit, commonRelSd: number): { torque: Peak; power: Peak } {
  const curves = drawCurves(spline, DRAWS);
  const common = gaussianTable(DRAWS, 1, 0xca1).map(([z]) => 1 + commonRelSd * z!);
  const step = (spline.high - spline.low) / PLACES;
  const places = Array.from({ length: PLACES + 1 }, (_, i) => {
    const rpm = spline.low + i * step;
    return { rpm, torqueNm: evaluateSpline(spline, rpm), sdNm: splineSd(spline, rpm) };
  });
  const torque = peakOf(spline, places, curves, common, () => 1, 'N·m');
  const power = peakOf(spline, places, curves, common, (rpm) => rpm * RAD_PER_S_PER_RPM, 'W');
  return { torque, power };
}

interface Place {
  readonly rpm: number;
  readonly torqueNm: number;
  readonly sdNm: number;
}

function peakOf(
  spline: SplineFit,
  places: readonly Place[],
  curves: readonly Float64Array[],
  common: readonly number[],
  scale: (speedRpm: number) => number,
  unit: string,
): Peak {
  const means = places.map(({ rpm, torqueNm }) => torqueNm * scale(rpm));
  const sds = places.map(({ rpm, sdNm }) => sdNm * scale(rpm));
  let best = 0;
  means.forEach((value, i) => {
    if (value > means[best]!) best = i;
  });
  const [value, speedRpm] = refined(places, means, best);
  // Only places that could be the highest: the rest cannot be by five sds.
  const floor = Math.max(...means.map((mean, i) => mean - 5 * sds[i]!));
  const could = places
    .filter((_, i) => means[i]! + 5 * sds[i]! >= floor)
    .filter((_, i, kept) => kept.length < 60 || i % Math.ceil(kept.length / 60) === 0);
  // Flat, because every draw looks at every place.
  const firsts = new Int32Array(could.length);
  const fours = new Float64Array(4 * could.length);
  const four = [0, 0, 0, 0];
  could.forEach(({ rpm }, at) => {
    firsts[at] = basisAt(spline, rpm, four);
    const factor = scale(rpm);
    for (let k = 0; k < 4; k++) fours[4 * at + k] = four[k]! * factor;
  });
  const margin = EDGE_SHARE * (spline.high - spline.low);
  let [atLow, atHigh] = [0, 0];
  const highest = curves.map((coefficients, draw) => {
    let top = Number.NEGATIVE_INFINITY;
    let topAt = -1;
    for (let at = 0; at < firsts.length; at++) {
      const first = firsts[at]!;
      const height =
        fours[4 * at]! * coefficients[first]! +
        fours[4 * at + 1]! * coefficients[first + 1]! +
        fours[4 * at + 2]! * coefficients[first + 2]! +
        fours[4 * at + 3]! * coefficients[first + 3]!;
      if (height > top) {
        top = height;
        topAt = at;
      }
    }
    const topRpm = could[topAt]?.rpm ?? 0;
    if (topRpm <= spline.low + margin) atLow++;
    if (topRpm >= spline.high - margin) atHigh++;
    return top * common[draw]!;
  });
  const [low, high] = [quantile(highest, 0.025), quantile(highest, 0.975)];
  const edge = atHigh >= atLow ? 'high' : 'low';
  return {
    value,
    low: Math.min(low, value),
    high: Math.max(high, value),
    unit,
    speedRpm,
    ...(Math.max(atLow, atHigh) >= EDGE_CHANCE * curves.length ? { atEdge: edge } : {}),
  };
}

/** Vertex of the parabola through the highest place and its neighbours. */
function refined(places: readonly Place[], values: number[], best: number): [number, number] {
  const [before, top, after] = [values[best - 1], values[best]!, values[best + 1]];
  const at = places[best]!.rpm;
  if (before === undefined || after === undefined) return [top, at];
  const bend = before - 2 * top + after;
  if (!(bend < 0)) return [top, at];
  const shift = (0.5 * (before - after)) / bend;
  return [top - 0.25 * (before - after) * shift, at + shift * (places[1]!.rpm - places[0]!.rpm)];
}

/** What a peak at an end of the sweep means, in words. */
export function edgeMarks({ torque, power }: { torque: Peak; power: Peak }): Mark[] {
  return (
    [
      ['Torque', torque],
      ['Power', power],
    ] as const
  ).flatMap(([name, { atEdge, speedRpm }]): Mark[] =>
    atEdge === undefined
      ? []
      : [
          {
            kind: 'coverage',
            severity: 'note',
            sentence: `${name} may be highest at the ${atEdge === 'high' ? 'upper' : 'lower'} end of the sweep (${speedRpm.toFixed(0)} rev/min): the peak given is that of the speeds swept, and the engine's own may lie beyond.`,
          },
        ],
  );
}
