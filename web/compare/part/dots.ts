import { type PartAnswer, partPointsOf } from '../../../src/compare/partAnswer.ts';
import type { CompareInput } from '../../../src/compare/types.ts';
import type { PartDot, PartLines } from '../../charts/PartChart.tsx';

/** What the picture of a part test draws. */
export interface PartPicture {
  readonly dots: readonly PartDot[];
  readonly lines: PartLines | null;
}

/**
 * The pulls of a part test as percent of A's mean, and the day's drift as the line of each side through them: the level
 * is the mean of what the gain and the drift leave over. No lines before there is a gain, or over several days.
 * @param input  both groups as the service brought them together, A first
 */
export function partPicture(
  input: CompareInput,
  answer: Pick<PartAnswer, 'gain' | 'driftPercent'>,
  nameOf: (side: 'a' | 'b', place: number) => string,
): PartPicture {
  const [a, b] = [input.groups[0]!.pulls, input.groups[1]!.pulls];
  const counted = [...a, ...b].filter(({ excludedBecause }) => excludedBecause === null);
  const bandRpm = [
    Math.max(input.bandRpm[0], ...counted.map(({ torque }) => torque.low)),
    Math.min(input.bandRpm[1], ...counted.map(({ torque }) => torque.high)),
  ] as const;
  const points = partPointsOf(a, b, bandRpm);
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const zero = mean(
    points.filter(({ group }) => group === 'a').map(({ logPowerPercent }) => logPowerPercent),
  );
  const percent = (log: number) => 100 * Math.expm1((log - zero) / 100);
  const dots = points.map(({ group, logPowerPercent }, place) => ({
    side: group,
    name: nameOf(group, place),
    percent: percent(logPowerPercent),
  }));
  const isOneDay = new Set(points.map(({ day }) => day)).size === 1;
  if (answer.gain === null || !isOneDay || points.length < 2) return { dots, lines: null };
  const gain = 100 * Math.log1p(answer.gain.value / 100);
  const drift = answer.driftPercent?.value ?? 0;
  const level = mean(
    points.map(
      ({ group, order, logPowerPercent }) =>
        logPowerPercent - (group === 'b' ? gain : 0) - drift * order,
    ),
  );
  const [first, last] = [points[0]!.order, points.at(-1)!.order];
  const line = (more: number): readonly [number, number] => [
    percent(level + more + drift * first),
    percent(level + more + drift * last),
  ];
  return { dots, lines: { a: line(0), b: line(gain) } };
}
