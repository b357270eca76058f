import { median } from '../numerics/index.ts';
import { channelsOf, finiteIn, orNull } from './channels.ts';
import type { Points } from './points.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import type { Curve, PullAir } from './types.ts';

/** Oil and water at the start of the pull: medians over its first tenth. */
export function conditionsOf(
  recording: Recording,
  span: PullSpan,
  air: PullAir,
  { track }: Points,
): Curve['conditions'] {
  const { firstRow, lastRow } = span;
  const start = { ...span, lastRow: firstRow + Math.max(5, Math.floor((lastRow - firstRow) / 10)) };
  const atStart = (channel: Channel | undefined): number | null => {
    if (channel === undefined) return null;
    const values = finiteIn(channel, start);
    return values.length === 0 ? null : median(values);
  };
  const middle = track === null ? null : (track.fromS + track.toS) / 2;
  return {
    airTemperatureK: orNull(air.temperatureK),
    pressureAbsPa: orNull(air.pressureAbsPa),
    humidity: orNull(air.humidity),
    oilTemperatureK: atStart(channelsOf(recording, 'oilTemperature')[0]),
    waterTemperatureK: atStart(channelsOf(recording, 'waterTemperature')[0]),
    sweepRateRpmPerS:
      track === null || middle === null
        ? null
        : median(
            Array.from({ length: 21 }, (_, i) =>
              track.rateRpmPerS(track.fromS + ((track.toS - track.fromS) * i) / 20),
            ),
          ),
  };
}
