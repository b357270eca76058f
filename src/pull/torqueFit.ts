import { InputError, NonPhysicalError } from '../errors.ts';
import { defaultPriors, fitRobustSpline, median, type RobustFit } from '../numerics/index.ts';
import type { Points } from './points.ts';

/**
 * Wander of a brake's torque is forgotten in a third of a second, give or take (water, control, load cell):
 * our own figure, no source; the fit learns its own from each pull.
 */
const TYPICAL_WANDER_S = 0.35;
/** The same for the rows of a table of speeds, in rows. */
const TYPICAL_WANDER_ROWS = 1;
/**
 * Roughness of torque curves: sd of the third derivative, speed in half spans, torque as part of its level. A
 * plain curve has 0.4, one with tuning humps 6, a sharp hump 20; the prior leans to the rough, since a hump
 * that is smoothed away is a bias and a little more noise is in the band. Our own figure from such curves, no
 * source.
 */
const ROUGHNESS = { median: 10, logSd: 1.2 };
/**
 * Once blips are out, readings are averaged over so long before the fit. Sample noise is correlated over some
 * hundredths of a second in a way of its own; averaged over it is white beside the wander, as the fit takes
 * it. No engine shows anything shorter.
 */
const BLOCK_S = 0.08;
const LEAST_BLOCKS = 60;
const KNOT_RPM = 150;
/** No engine that is put on a brake turns faster; a column in other units would. */
const HIGHEST_RPM = 40_000;
/** What lasts longer than this is no blip, nor what is as wide as an engine's own humps can be. */
const LONGEST_BLIP_S = 0.5;
const WIDEST_BLIP_RPM = 120;
/**
 * A blip smaller than this part of the pull's torque is not worth a word, however quiet the cell: left in, it
 * moves the curve by less than the air's own uncertainty. Our own figure, no source.
 */
const LEAST_BLIP_SHARE = 0.005;

/**
 * Torque against speed through the points of a pull, in the air of its column.
 * @throws InputError        a speed that hardly moves
 * @throws NonPhysicalError  speeds that no engine turns
 */
export function fitTorque(points: Points): RobustFit {
  const { speedRpm, torqueNm, timeS, intervalS, track } = points;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const rpm of speedRpm) {
    if (rpm < low) low = rpm;
    if (rpm > high) high = rpm;
  }
  if (!(low > 0 && high <= HIGHEST_RPM)) {
    throw new NonPhysicalError('The speeds of this pull cannot be those of any engine.', {
      found: `${low.toFixed(0)} to ${high.toFixed(0)} rev/min`,
      expected: `0 to ${HIGHEST_RPM} rev/min`,
    });
  }
  if (!(high - low > 50)) {
    throw new InputError(
      'The speed of this pull hardly moves, so there is no curve against speed.',
      {
        found: `${low.toFixed(0)} to ${high.toFixed(0)} rev/min`,
        expected: 'a sweep, or steps of speed',
      },
    );
  }
  const segments = Math.min(
    Math.max(8, Math.min(40, Math.round((high - low) / KNOT_RPM))),
    Math.max(3, Math.floor(speedRpm.length / 3)),
  );
  const typical = track === null ? TYPICAL_WANDER_ROWS : TYPICAL_WANDER_S;
  const mostAveraged = Math.max(1, Math.floor(speedRpm.length / LEAST_BLOCKS));
  const block =
    track === null ? 1 : Math.min(mostAveraged, Math.max(1, Math.round(BLOCK_S / intervalS)));
  const priors = {
    ...defaultPriors(typical, block * intervalS),
    roughness: { level: median(torqueNm), ...ROUGHNESS },
  };
  const rate = (high - low) / Math.max(1e-9, timeS[timeS.length - 1]! - timeS[0]!);
  const longestS = Math.min(LONGEST_BLIP_S, WIDEST_BLIP_RPM / rate);
  const longestBlip = track === null ? 1 : Math.max(1, Math.round(longestS / intervalS));
  const series = { time: timeS, x: speedRpm, y: torqueNm };
  // Third derivative, not second: its free part is a parabola, near to what a torque curve is. On simulated
  // sweeps the error is a tenth to a third smaller, and the band holds where the second's falls short.
  return fitRobustSpline({ low, high, segments }, series, 3, priors, {
    longest: longestBlip,
    least: LEAST_BLIP_SHARE * median(torqueNm),
    block,
  });
}

/**
 * Scale of what the readings stand off the curve, and how much one of them says of the next; blips left out.
 */
export function residualFigures({ residual, weight }: RobustFit) {
  let [own, ownCount, next, nextCount] = [0, 0, 0, 0];
  for (let i = 0; i < residual.length; i++) {
    if (!(weight[i]! > 0)) continue;
    own += residual[i]! ** 2;
    ownCount++;
    if (i + 1 < residual.length && weight[i + 1]! > 0) {
      next += residual[i]! * residual[i + 1]!;
      nextCount++;
    }
  }
  const variance = own / Math.max(1, ownCount);
  return {
    residualSdNm: Math.sqrt(variance),
    residualCorrelation: variance > 0 && nextCount > 0 ? next / nextCount / variance : 0,
  };
}
