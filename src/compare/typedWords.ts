import type { PeakChange, PeaksAnswer } from './typedPeaks.ts';

const percentOf = (value: number) => `${Math.abs(value).toFixed(1)} %`;
const intervalOf = ({ low, high }: { low: number; high: number }) =>
  `${low.toFixed(1)} to ${high.toFixed(1)} %`.replaceAll('-', '−');
const rounded = (speed: number) => String(50 * Math.round(speed / 50));
const figure = (value: number, unit: PeakChange['unit']) =>
  unit === 'W' ? `${(value / 1000).toFixed(1)} kW` : `${value.toFixed(0)} N·m`;

function peakSentence(what: string, change: PeakChange, a: string, b: string): string {
  const { percent, word, unit, movedRpm } = change;
  const moved =
    movedRpm === null || (movedRpm.low <= 0 && movedRpm.high >= 0)
      ? ''
      : ` The peak has moved ${movedRpm.value > 0 ? 'up' : 'down'} by ${rounded(Math.abs(movedRpm.value))} rev/min.`;
  const both = `${figure(change.b, unit)} against ${figure(change.a, unit)}`;
  return word === 'cannot be told from chance'
    ? `${what} is ${both}: ${b} cannot be told from ${a} by it (95 %: ${intervalOf(percent)}).${moved}`
    : `${what} is ${both}: ${b} has ${percentOf(percent.value)} ${word} (95 %: ${intervalOf(percent)}).${moved}`;
}

/** What peaks alone say, and what they do not, as a paragraph for the owner. */
export function whatPeaksSay(
  answer: Omit<PeaksAnswer, 'finding'>,
  bandRpm: readonly [number, number],
): string {
  const { a, b, power, torque, most } = answer;
  const nameOf = (side: 'a' | 'b') => (side === 'a' ? a : b);
  const otherOf = (side: 'a' | 'b') => (side === 'a' ? b : a);
  const band = `from ${rounded(bandRpm[0])} to ${rounded(bandRpm[1])} rev/min`;
  return [
    ...(power === null ? [] : [peakSentence('Peak power', power, a, b)]),
    ...(torque === null ? [] : [peakSentence('Peak torque', torque, a, b)]),
    ...answer.points.map(
      ({ speedRpm, gainPercent, lowPercent, highPercent }) =>
        `At ${rounded(speedRpm)} rev/min ${b} stands ${percentOf(gainPercent)} ${gainPercent < 0 ? 'below' : 'above'} ${a} (95 %: ${intervalOf({ low: lowPercent, high: highPercent })}).`,
    ),
    ...answer.aheadAnyway.map(({ side, fromRpm, toRpm }) =>
      fromRpm === toRpm
        ? `At ${rounded(fromRpm)} rev/min ${nameOf(side)} is ahead whatever the curve of ${otherOf(side)} is like: its peaks allow no more.`
        : `From ${rounded(fromRpm)} to ${rounded(toRpm)} rev/min ${nameOf(side)} is ahead whatever the curve of ${otherOf(side)} is like: its peaks allow no more.`,
    ),
    ...(most === null
      ? []
      : [
          most.percent >= 0
            ? `In mean power ${band} ${nameOf(most.side)} can be at most ${percentOf(most.percent)} ahead.`
            : `In mean power ${band} ${nameOf(most.side)} is behind by ${percentOf(most.percent)} at least.`,
        ]),
    `How the two differ elsewhere is not known: ${a !== b && most !== null ? `of ${nameOf(most.side)} only its peaks are` : 'only peaks are'}, and a bigger peak is not a better engine.`,
  ].join(' ');
}
