import type { BandReading } from './band.ts';
import { type LimitFinding, tooHot } from './limit.ts';
import type { Move } from './next.ts';
import type { Rung } from './steps.ts';
import type { LadderInput, LadderPull } from './types.ts';
import { settingText } from './words.ts';

/** What the person should know beside the answer, one sentence each. */
export function warningsOf(
  { kind, bandRpm, pulls, exhaustLimitK, remarks = [] }: LadderInput,
  reading: BandReading,
  limit: LimitFinding,
  strays: readonly LadderPull[],
  rungs: readonly Rung[],
  move: Move,
): string[] {
  const warnings: string[] = [];
  const say = (setting: number) => settingText(setting, kind);
  if (!limit.watched && reading.counted.length > 0) {
    warnings.push(
      'Limit not watched: no ear, plug, sensor or knock channel is noted, so the highest rung run stands in for the highest clean one.',
    );
  }
  if (limit.disagreement !== null) warnings.push(limit.disagreement);
  const hot = kind.name === 'lead' ? pulls.filter((pull) => tooHot(pull, exhaustLimitK)) : [];
  if (hot.length > 0) {
    warnings.push(
      `Exhaust hotter than its limit at ${hot.map((pull) => say(pull.setting)).join(', ')}: less lead makes it hotter still, a richer mixture cooler.`,
    );
  }
  for (const pull of strays) {
    warnings.push(
      `Pulls disagree: the one at ${say(pull.setting)} is off by more than this cell repeats and counts for little.`,
    );
  }
  for (const { pull, because } of reading.leftOut) {
    // One whose setting is not known has none to be called by.
    const one = Number.isFinite(pull.setting) ? `The pull at ${say(pull.setting)}` : 'A pull';
    warnings.push(`${one} is left out: ${because}.`);
  }
  if (reading.bandRpm === null && reading.counted.length > 0) {
    warnings.push(
      `Judged by ${reading.of} alone, for not every pull has a curve; nothing can be said speed by speed.`,
    );
  } else if (
    reading.bandRpm !== null &&
    reading.counted.length > 0 &&
    (reading.bandRpm[0] > bandRpm[0] + 1 || reading.bandRpm[1] < bandRpm[1] - 1)
  ) {
    warnings.push(
      `Judged from ${Math.round(reading.bandRpm[0])} to ${Math.round(reading.bandRpm[1])} rpm, the part of the band that every pull covers.`,
    );
  }
  const repeated = rungs.some((rung) => rung.pulls.length > 1);
  if (rungs.length >= 3 && !repeated && climbsOnly(reading) && move.action !== 'repeat') {
    warnings.push(
      `No rung was repeated on a ladder that only climbs, so drift over the day cannot be told from the ${kind.word}; repeating ${say(rungs[1]!.pulls[0]!.pull.setting)} now would tell.`,
    );
  }
  return [...warnings, ...remarks];
}

/** Does the setting go one way only, in the order the pulls were made? */
function climbsOnly({ counted }: BandReading): boolean {
  const inOrder = [...counted].sort((a, b) => a.pull.order - b.pull.order).map((one) => one.u);
  const steps = inOrder.slice(1).map((u, i) => u - inOrder[i]!);
  return steps.every((step) => step > 0) || steps.every((step) => step < 0);
}
