import { channelsOf } from './channels.ts';
import { leanestBank, meansBySpeed } from './derived.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import type { Curve } from './types.ts';

const KNOCK_BIN_RPM = 100;

/**
 * Means in bins of 100 rev/min. Lambda of the leanest bank; of several knock channels the worst in each bin.
 */
export function bySpeedOf(
  recording: Recording,
  span: PullSpan,
  speed: Channel,
  low: number,
  high: number,
): Curve['bySpeed'] {
  const first = Math.ceil(low / KNOCK_BIN_RPM);
  const last = Math.max(first, Math.floor(high / KNOCK_BIN_RPM));
  const places = Array.from({ length: last - first + 1 }, (_, i) => (first + i) * KNOCK_BIN_RPM);
  const means = (channel: Channel | undefined) =>
    channel === undefined ? null : meansBySpeed(channel, speed, span, places);
  const knocks = channelsOf(recording, 'knock').map((channel) => means(channel)!);
  const knock =
    knocks.length === 0
      ? null
      : places.map((_, i) =>
          knocks.reduce<number | null>((worst, { [i]: level }) => {
            if (level === null || level === undefined) return worst;
            return worst === null ? level : Math.max(worst, level);
          }, null),
        );
  return {
    speedRpm: places,
    lambda: means(leanestBank(recording)),
    knock,
    lead: means(channelsOf(recording, 'lead')[0]),
  };
}
