import type { LadderPull } from '../../src/ladder/types.ts';
import { evaluateSpline, splineSd } from '../../src/numerics/spline.ts';
import type { CurveSeries } from '../charts/CurveChart.tsx';

const POINTS = 121;
/** Two-sided 95 % of a normal. */
const Z = 1.959964;
const RAD_PER_S = Math.PI / 30;

/** Curves of the ladder's pulls, read off their splines; the band leaves out what is common to the cell and the day. */
export function seriesOf(
  pulls: readonly LadderPull[],
  nameOf: (pull: LadderPull) => string,
): readonly CurveSeries[] {
  return pulls.flatMap((pull) => {
    const { torque } = pull;
    if (torque === null) return [];
    const speedRpm = Array.from(
      { length: POINTS },
      (_, at) => torque.low + ((torque.high - torque.low) * at) / (POINTS - 1),
    );
    const torqueNm = speedRpm.map((rpm) => evaluateSpline(torque, rpm));
    const half = speedRpm.map((rpm) => Z * splineSd(torque, rpm));
    return [
      {
        id: pull.id,
        label: nameOf(pull),
        setting: pull.setting,
        speedRpm,
        torqueNm,
        lowNm: torqueNm.map((nm, at) => nm - half[at]!),
        highNm: torqueNm.map((nm, at) => nm + half[at]!),
        powerW: torqueNm.map((nm, at) => nm * speedRpm[at]! * RAD_PER_S),
      },
    ];
  });
}
