/** A replay as numbered pictures: how many, at which moments, what they are called and what is said beside them. */
import { said } from './chartWords.ts';
import type { ReplayWanted } from './figures.ts';

/** So long the finished picture stands at the end [s]. */
export const STILL_S = 2;

export interface Frames {
  readonly count: number;
  /** From this one on every picture is the finished one. */
  readonly firstStill: number;
  /** Moment of the n-th, from 0 [s]. */
  timeS(frame: number): number;
}

/** @param perSecond  pictures a second, over 0 */
export function framesOf(
  { durationS }: Pick<ReplayWanted, 'durationS'>,
  perSecond: number,
): Frames {
  // The last moment of the sweep falls on a picture where rounding alone would put it just after one.
  const firstStill = Math.ceil(durationS * perSecond - 1e-6);
  return {
    count: firstStill + Math.max(1, Math.round(STILL_S * perSecond)),
    firstStill,
    timeS: (frame) => (frame >= firstStill ? durationS : frame / perSecond),
  };
}

/** `frame-0001.png`, counted from 1, as film editors count; as many noughts as the longest number needs. */
export const frameName = (frame: number, count: number): string =>
  `frame-${String(frame + 1).padStart(Math.max(4, String(count).length), '0')}.png`;

export const README = 'README.txt';

/** What stands beside the pictures, for whoever makes a film of them. */
export function readmeOf(
  { shown, told, durationS, words }: ReplayWanted,
  { width, height }: { readonly width: number; readonly height: number },
  perSecond: number,
): string {
  const { count } = framesOf({ durationS }, perSecond);
  const seconds = (value: number) =>
    shown.figure.words.decimalComma ? value.toFixed(2).replace('.', ',') : value.toFixed(2);
  const about = said(words.readme, {
    first: frameName(0, count),
    last: frameName(count - 1, count),
    count: String(count),
    perSecond: String(perSecond),
    size: `${width} × ${height}`,
    length: seconds(count / perSecond),
    sweep: seconds(durationS),
    still: String(STILL_S),
  });
  return `${[shown.title, shown.scenario, shown.by].filter((one) => one !== '').join('\n')}\n\n${about}\n\n${told.join('\n')}\n`;
}
