import type { LadderInput } from '../../src/ladder/types.ts';
import { evaluateSpline, splineSd } from '../../src/numerics/spline.ts';
import type { Peak } from '../../src/pull/types.ts';
import type { PullDetail } from '../../web/ladder/props.ts';

/** What the pulls table shows beside a simulated day: peaks read off the splines, the rest as such days have it. */
export function detailsOf(input: LadderInput): ReadonlyMap<string, PullDetail> {
  return new Map(
    input.pulls.map((pull, at): [string, PullDetail] => {
      const torque = pull.torque === null ? null : peakOf(pull.torque, () => 1, 'N·m');
      const power =
        pull.torque === null ? null : peakOf(pull.torque, (rpm) => (rpm * Math.PI) / 30, 'W');
      return [
        pull.id,
        {
          name: `pull ${at + 1}`,
          peakTorque: torque,
          peakPower: power,
          lambda: pull.torque === null ? null : 0.87,
          airFactor: pull.torque === null ? null : 1.031 + at * 0.001,
          marks:
            at === 3
              ? [
                  {
                    kind: 'blip',
                    severity: 'note',
                    sentence: 'Blip at 5150 rpm, 14 N·m, left out of the fit.',
                    fromRpm: 5100,
                    toRpm: 5200,
                  },
                ]
              : at === 5
                ? [
                    {
                      kind: 'temperature',
                      severity: 'look again',
                      sentence: 'Oil started 9 °C hotter than the day’s other pulls.',
                    },
                  ]
                : [],
        },
      ];
    }),
  );
}

function peakOf(
  torque: NonNullable<LadderInput['pulls'][number]['torque']>,
  weight: (rpm: number) => number,
  unit: string,
): Peak {
  let best = { value: Number.NEGATIVE_INFINITY, rpm: torque.low };
  for (let rpm = torque.low; rpm <= torque.high; rpm += 10) {
    const value = evaluateSpline(torque, rpm) * weight(rpm);
    if (value > best.value) best = { value, rpm };
  }
  const half = 1.96 * splineSd(torque, best.rpm) * weight(best.rpm);
  return {
    value: best.value,
    low: best.value - half,
    high: best.value + half,
    unit,
    speedRpm: best.rpm,
  };
}
