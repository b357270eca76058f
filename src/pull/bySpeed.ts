import { channelsOf } from './channels.ts';
import { leanestBank, meansBySpeed } from './derived.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import type { Curve } from './types.ts';

const KNOCK_BIN_RPM = 100;

/**
 * Means in bins of 100 rev/min. Lambda of the leanest bank; of several knock channels the worst in each bin, of several
 * exhausts the hottest.
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
  const knock = knocks.length === 0 ? null : highestOf(knocks, places.length);
  const exhaust = channelsOf(recording, 'exhaustTemperature').map((channel) => means(channel)!);
  return {
    speedRpm: places,
    exhaustTemperatureK: exhaust.length === 0 ? null : highestOf(exhaust, places.length),
    lambda: means(leanestBank(recording)),
    knock,
    lead: means(channelsOf(recording, 'lead')[0]),
  };
}

/** The highest of several channels in each bin; null where none holds anything. */
function highestOf(channels: readonly (readonly (number | null)[])[], bins: number) {
  return Array.from({ length: bins }, (_, i) =>
    channels.reduce<number | null>((worst, { [i]: value }) => {
      if (value === null || value === undefined) return worst;
      return worst === null ? value : Math.max(worst, value);
    }, null),
  );
}
