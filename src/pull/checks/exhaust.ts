import { median } from '../../numerics/index.ts';
import { channelsOf, finiteIn } from '../channels.ts';
import type { Check } from './context.ts';

/** A cylinder this far from the median of the others [K]. Common practice, no source. */
const EXHAUST_APART_K = 60;

/**
 * One cylinder's exhaust temperature away from the others, in the last half of the pull where sensors have
 * caught up.
 */
export const exhaustCheck: Check = ({ recording, span }) => {
  const channels = channelsOf(recording, 'exhaustTemperature');
  if (channels.length < 3) return [];
  const half = { ...span, firstRow: Math.floor((span.firstRow + span.lastRow) / 2) };
  const levels = channels
    .map((channel) => ({ channel, values: finiteIn(channel, half) }))
    .filter(({ values }) => values.length >= 5)
    .map(({ channel, values }) => ({ channel, level: median(values) }));
  if (levels.length < 3) return [];
  return levels.flatMap(({ channel, level }) => {
    const others = median(
      levels.filter((other) => other.channel !== channel).map((other) => other.level),
    );
    const apart = level - others;
    if (Math.abs(apart) <= EXHAUST_APART_K) return [];
    const name =
      channel.cylinder === undefined ? `"${channel.header}"` : `cylinder ${channel.cylinder}`;
    return [
      {
        kind: 'exhaust temperature',
        severity: 'look again',
        sentence: `Exhaust of ${name} stands ${Math.abs(apart).toFixed(0)} °C ${apart > 0 ? 'above' : 'below'} the others: ${apart > 0 ? 'lean, late, or burning on' : 'rich, misfiring, or a dead sensor'}.`,
      } as const,
    ];
  });
};
