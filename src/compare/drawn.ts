import { InputError } from '../errors.ts';
import { evaluateSpline } from '../numerics/spline.ts';
import { DRAWS, prepareCurves } from './curves.ts';
import type { CompareInput, ComparePull } from './types.ts';

/** Points of a drawn curve; enough for a vehicle's run to differ by less than a thousandth of a second. */
const POINTS = 61;

/**
 * One group's mean curve over all speeds that its own pulls cover, and how far it may be off, draw by draw. Draws of
 * groups that were made together belong together: what is common to all (a day that they share, one calibration) is
 * the same in a draw of each, so it leaves their differences by itself.
 */
export interface DrawnCurve {
  readonly name: string;
  /** Evenly spaced. */
  readonly speedRpm: readonly number[];
  readonly torqueNm: Float64Array;
  /** log of true over shown torque at each speed; one equally likely draw each. */
  readonly logOff: readonly Float64Array[];
}

export interface DrawnCurves {
  readonly curves: readonly DrawnCurve[];
  /** Speeds that all groups cover. */
  readonly commonRpm: readonly [number, number];
}

/**
 * The groups' curves as they stand in uses and vehicles. One group is enough. Beyond the speeds that all groups share,
 * a curve is off by what it is off at the nearest shared speed.
 * @throws InputError  a group without a pull that counts, or no speeds in common
 */
export function drawnCurves(input: CompareInput): DrawnCurves {
  const counted = input.groups.map(({ name, pulls }) => {
    const own = pulls.filter((pull) => pull.excludedBecause === null);
    if (own.length === 0) throw new InputError(`${name} has no pull that counts.`);
    return own;
  });
  const ranges = counted.map(rangeOf);
  const low = Math.max(...ranges.map(([from]) => from));
  const high = Math.min(...ranges.map(([, to]) => to));
  if (!(high > low)) throw new InputError('The pulls have no speeds in common.');
  const wanted = [Math.max(low, input.bandRpm[0]), Math.min(high, input.bandRpm[1])] as const;
  // A band that the pulls do not cover says nothing about their level; all their speeds do.
  const band = wanted[1] > wanted[0] ? wanted : ([low, high] as const);
  const joint = prepareCurves(input, counted, [low, high]).over(band);
  return {
    commonRpm: [low, high],
    curves: counted.map((pulls, g) => {
      const [from, to] = ranges[g]!;
      const { middle, shape, shift } = joint.groups[g]!;
      const meanLog = (speed: number) =>
        pulls.reduce((sum, { torque }) => {
          const value = evaluateSpline(torque, Math.min(Math.max(speed, from), to));
          return sum + Math.log(Math.max(value, 1e-6));
        }, 0) / pulls.length;
      // Shapes are means over the pulls up to a level: one place tells it.
      const place = middle.length >> 1;
      const level = middle[place]! - meanLog(joint.speedRpm[place]!);
      const speedRpm = evenly(from, to, POINTS);
      const at = speedRpm.map((speed) => placeOn(joint.speedRpm, speed));
      return {
        name: input.groups[g]!.name,
        speedRpm,
        torqueNm: Float64Array.from(speedRpm, (speed) => Math.exp(level + meanLog(speed))),
        logOff: Array.from({ length: DRAWS }, (_, i) => {
          const off = (m: number) => shape.draws[i * middle.length + m]! + shift[i]! - middle[m]!;
          return Float64Array.from(at, ({ i: m, part }) => off(m) + part * (off(m + 1) - off(m)));
        }),
      };
    }),
  };
}

function rangeOf(pulls: readonly ComparePull[]): readonly [number, number] {
  return [
    Math.max(...pulls.map(({ torque }) => torque.low)),
    Math.min(...pulls.map(({ torque }) => torque.high)),
  ];
}

export const evenly = (from: number, to: number, points: number): number[] =>
  Array.from({ length: points }, (_, i) =>
    i === points - 1 ? to : from + ((to - from) * i) / (points - 1),
  );

/** Where a speed stands on an evenly spaced grid, held at its ends. */
export function placeOn(
  grid: readonly number[],
  speed: number,
): { readonly i: number; readonly part: number } {
  const step = grid[1]! - grid[0]!;
  const at = Math.min(Math.max((speed - grid[0]!) / step, 0), grid.length - 1);
  const i = Math.min(grid.length - 2, Math.floor(at));
  return { i, part: at - i };
}

/** Two-sided 95 % of a normal law. */
const HALF_WIDTHS = 1.96;

/**
 * Each curve's own 95 % band [N·m], for the eye: what moves all curves alike (a day that they share) is left out, as in
 * a comparison's picture. A curve alone keeps all of it.
 */
export function drawnBands(
  curves: readonly DrawnCurve[],
): readonly { readonly lowNm: readonly number[]; readonly highNm: readonly number[] }[] {
  const together = (a: DrawnCurve, b: DrawnCurve, speed: number) => {
    const [p, q] = [placeOn(a.speedRpm, speed), placeOn(b.speedRpm, speed)];
    const off = (draw: Float64Array, { i, part }: ReturnType<typeof placeOn>) =>
      draw[i]! + part * (draw[i + 1]! - draw[i]!);
    const sum = a.logOff.reduce((all, draw, d) => all + off(draw, p) * off(b.logOff[d]!, q), 0);
    return sum / a.logOff.length;
  };
  return curves.map((curve) => {
    const half = curve.speedRpm.map((speed) => {
      const shared =
        curves.length < 2 ? 0 : Math.min(...curves.map((other) => together(curve, other, speed)));
      return (
        HALF_WIDTHS * Math.sqrt(Math.max(0, together(curve, curve, speed) - Math.max(0, shared)))
      );
    });
    return {
      lowNm: half.map((width, m) => curve.torqueNm[m]! * Math.exp(-width)),
      highNm: half.map((width, m) => curve.torqueNm[m]! * Math.exp(width)),
    };
  });
}

/** Speed of peak power, on the mean of the curves [rev/min]: what the chosen uses are laid over. */
export function peakPowerRpm({ curves }: DrawnCurves): number {
  const peaks = curves.map(({ speedRpm, torqueNm }) => {
    let top = 0;
    for (let m = 1; m < speedRpm.length; m++)
      if (torqueNm[m]! * speedRpm[m]! > torqueNm[top]! * speedRpm[top]!) top = m;
    return speedRpm[top]!;
  });
  return peaks.reduce((sum, peak) => sum + peak, 0) / peaks.length;
}
