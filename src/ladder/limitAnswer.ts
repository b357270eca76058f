import type { LimitFinding, UseLimit } from './limit.ts';
import { quantileOf } from './quantiles.ts';
import type { LadderAnswer } from './types.ts';

/** The limit over the band, open where it was not located; null where nothing watched. */
export function limitAnswer(
  finding: LimitFinding,
  use: UseLimit,
  mirror: number,
): LadderAnswer['limit'] {
  if (!finding.watched) return null;
  const clean = finding.highestClean === null ? null : mirror * finding.highestClean;
  if (use.draws === null) {
    return mirror > 0
      ? { value: null, low: clean, high: null }
      : { value: null, low: null, high: clean };
  }
  const sorted = Float64Array.from(use.draws).sort();
  const finite = (p: number) => {
    const value = quantileOf(sorted, p);
    return Number.isFinite(value) ? mirror * value : null;
  };
  const [low, high] = [finite(0.025), finite(0.975)];
  const heard = finding.heardBetween;
  const highest = high ?? (heard === null ? null : mirror * heard[1]);
  return mirror > 0
    ? { value: finite(0.5), low, high: highest }
    : { value: finite(0.5), low: highest, high: low };
}

/** The limit at every full-throttle speed; null without a channel that saw it. */
export function limitBySpeed(
  { channel }: LimitFinding,
  speeds: readonly number[] | null,
  mirror: number,
): LadderAnswer['limitBySpeed'] {
  if (channel === null) return null;
  const speedRpm =
    speeds ??
    Array.from(
      { length: 25 },
      (_, i) => channel.fromRpm + ((channel.toRpm - channel.fromRpm) * i) / 24,
    );
  const at = speedRpm.map((speed) => channel.at(speed));
  return {
    speedRpm: [...speedRpm],
    value: at.map((one) => mirror * one.value),
    low: at.map((one) => mirror * one.low),
  };
}
