import { channelsOf } from '../channels.ts';
import type { Check } from './context.ts';

/** How far short of an end of the band a pull may stop: what lag and settling take off its ends. */
const SLACK_RPM = 75;

/** Whether the pull covers the band that was asked for; a throttle that closed before the end is named. */
export const coverageCheck: Check = ({ options, curve, recording, span, points }) => {
  if (options.bandRpm === undefined) return [];
  const [from, to] = options.bandRpm;
  const { low, high } = curve.spline;
  const shortBelow = low > from + SLACK_RPM;
  const shortAbove = high < to - SLACK_RPM;
  if (!shortBelow && !shortAbove) return [];
  const missing = [
    shortBelow ? `${from.toFixed(0)} to ${low.toFixed(0)}` : null,
    shortAbove ? `${high.toFixed(0)} to ${to.toFixed(0)}` : null,
  ].filter((part) => part !== null);
  const [throttle] = channelsOf(recording, 'throttle');
  const next = throttle?.values[span.lastRow + 1];
  const last = throttle?.values[span.lastRow];
  const closed =
    shortAbove && next !== undefined && last !== undefined && next < 0.85 * last
      ? ` The throttle closed at ${points.speedRpm[points.speedRpm.length - 1]!.toFixed(0)} rev/min, before the end.`
      : '';
  return [
    {
      kind: 'coverage',
      severity: 'look again',
      sentence: `The pull misses ${missing.join(' and ')} rev/min of the band from ${from.toFixed(0)} to ${to.toFixed(0)}.${closed}`,
    },
  ];
};
