import type { LadderAnswer, LadderInput, NextMove, SettingKind } from '../../src/ladder/types.ts';
import { estimate, interval, percent, plain, rpm, setting, speed } from '../charts/numbers.ts';

/** What the setting's axis is called. */
export function axisName(kind: SettingKind): string {
  if (kind.unit === 'deg') return `${kind.word}, degrees before top centre`;
  if (kind.name === 'lambda') return 'lambda (higher is leaner)';
  return kind.unit === '' ? kind.word : `${kind.word}, ${kind.unit}`;
}

/** Decimals of an estimate of this setting: one tenth of the step it is given out in. */
export const estimateDecimals = (kind: SettingKind): number =>
  Math.max(0, Math.ceil(-Math.log10(kind.defaultStep) - 1e-9)) + 1;

/** `Pull 30°`, `Stop here`: the next move in as few words as can be read from across the room. */
export function moveInWords(next: NextMove, unit: string): string {
  const at = setting(next.value, unit, 2);
  switch (next.action) {
    case 'pull':
      return next.value === null ? 'Pull on' : `Pull ${at}`;
    case 'repeat':
      return next.value === null ? 'Repeat a pull' : `Repeat ${at}`;
    case 'back':
      return next.value === null ? 'Go back' : `Back to ${at}`;
    case 'stop':
      return 'No. Stop.';
  }
}

/**
 * What the next pull may bring, or that nothing is to be had. The worth is that of the setting left in the engine, not
 * of the rung itself, which stands in the move's own sentence with another figure.
 */
export function worthInWords(next: NextMove): string {
  if (next.action === 'stop') {
    return next.worthPercent === null
      ? 'another pull would bring nothing worth having'
      : `another pull would raise the power left in it by about ${percent(next.worthPercent, 2)}`;
  }
  if (next.action === 'back') return 'past the limit nothing is worth having';
  if (next.worthPercent === null) {
    return next.action === 'repeat'
      ? 'it tells which pulls to believe'
      : 'what it brings cannot be said yet';
  }
  return next.action === 'pull'
    ? `may raise the power left in it by ${percent(next.worthPercent, next.worthPercent < 0.1 ? 2 : 1)}`
    : `worth ${percent(next.worthPercent, next.worthPercent < 0.1 ? 2 : 1)} of power to know`;
}

/** The best as a figure and what stands under it. */
export function bestInWords(
  best: LadderAnswer['best'],
  kind: SettingKind,
): readonly [string, string] {
  const decimals = estimateDecimals(kind);
  const span = interval(best.low, best.high, decimals);
  if (best.value !== null) return [estimate(best.value, kind.unit, decimals), span];
  if (best.low === null && best.high === null) return ['not known', 'the ladder does not say yet'];
  return best.high === null
    ? [`≥ ${estimate(best.low, kind.unit, decimals)}`, 'no upper end yet']
    : [`≤ ${estimate(best.high, kind.unit, decimals)}`, 'no lower end yet'];
}

/** How well the cell repeats, in a sentence that says where it comes from. */
export function repeatabilityInWords({ repeatability }: LadderAnswer): string {
  const { value, low, high, from } = repeatability;
  const figure = `${percent(value, 2)} of mean power, ${plain(low, 2)} to ${plain(high, 2)}`;
  const source = {
    stated: 'the shop states it',
    prior: 'nothing was repeated yet, so this is what is usual for a good cell',
    pulls: 'from how far the pulls stand off the curve',
    repeats: 'from settings that were pulled more than once',
  }[from];
  return `Two pulls at one setting differ with a standard deviation of ${figure}: ${source}.`;
}

/** `between 5 000 and 7 200 rpm`, or what typed peaks are judged by. */
export const bandInWords = ([low, high]: LadderInput['bandRpm']): string =>
  `between ${speed(low)} and ${rpm(high)}`;
