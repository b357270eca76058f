import type { RobustFit } from '../numerics/index.ts';
import type { Points } from './points.ts';
import type { Mark, TimedBlip } from './types.ts';

/** The blips of a fit with their times as the recording has them, in the air of the column. */
export function timedBlips({ blips }: RobustFit, { speedRpm, timeS, track }: Points): TimedBlip[] {
  const origin = track?.fromS ?? 0;
  return blips.map(({ from, to, size }) => ({
    fromS: origin + timeS[from]!,
    toS: origin + timeS[to]!,
    fromRpm: Math.min(speedRpm[from]!, speedRpm[to]!),
    toRpm: Math.max(speedRpm[from]!, speedRpm[to]!),
    sizeNm: size,
  }));
}

/** What is said of a blip; its size as shown. */
export function blipMark({ fromS, toS, fromRpm, toRpm, sizeNm }: TimedBlip): Mark {
  const where =
    toRpm - fromRpm < 10
      ? `at ${fromRpm.toFixed(0)} rev/min`
      : `from ${fromRpm.toFixed(0)} to ${toRpm.toFixed(0)} rev/min`;
  const size = Math.abs(sizeNm);
  return {
    kind: 'blip',
    severity: toS - fromS > 0.15 ? 'look again' : 'note',
    sentence: `Torque stood ${size.toFixed(size < 10 ? 1 : 0)} N·m ${sizeNm < 0 ? 'below' : 'above'} the curve ${where}; those readings were left out.`,
    fromRpm,
    toRpm,
    sizeNm,
  };
}
