import { begun } from '../begun.ts';
import { chanceText } from '../vehicle/sentences.ts';
import type { UsePair } from './answer.ts';
import type { Use } from './types.ts';

const percentOf = (value: number) => `${Math.abs(value).toFixed(1)} %`;
const partOf = (share: number) => `${Math.round(100 * share)} %`;
const rounded = (speed: number) => String(50 * Math.round(speed / 50));
const kilowatts = (watts: number) => `${(watts / 1000).toFixed(1)} kW`;
const signed = (value: number) => `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(1)}`;

/** Who is ahead under a use, and how the answer changes with it; kW and rev/min, turned at the edges. */
export function findingUnderUse(
  use: Use,
  pair: Omit<UsePair, 'finding'>,
  powerAW: number,
  powerBW: number,
): string {
  const { gainPercent: gain, sensitivity } = pair;
  const interval = `95 %: ${signed(gain.low)} to ${signed(gain.high)} %`;
  const ahead = gain.value >= 0;
  const said = {
    real: `more`,
    small: `more`,
    loss: `less`,
    'cannot be told from chance': '',
  }[pair.word];
  const out = [
    said === ''
      ? `For ${use.name}, ${pair.b} cannot be told from ${pair.a}: no difference larger than ${percentOf(Math.max(Math.abs(gain.low), Math.abs(gain.high)))} of mean power.`
      : `For ${use.name}, ${pair.b} has ${percentOf(gain.value)} ${said} mean power than ${pair.a}, ${kilowatts(powerBW)} against ${kilowatts(powerAW)} (${interval}; chance ${chanceText(ahead ? pair.chanceAhead : 1 - pair.chanceAhead)}).`,
  ];
  // Where nothing can be told, who leads whatever the share is no news.
  if (sensitivity !== null && (said !== '' || sensitivity.evenShare !== null))
    out.push(begun(dragged(pair, sensitivity)));
  return out.join(' ');
}

function dragged(
  pair: Omit<UsePair, 'finding'>,
  { aboveRpm, shareNow, evenShare, points }: NonNullable<UsePair['sensitivity']>,
): string {
  const above = `above ${rounded(aboveRpm)} rev/min`;
  const all = points.at(-1)!.value;
  const [more, less] = all > points[0]!.value ? [pair.b, pair.a] : [pair.a, pair.b];
  if (evenShare === null) {
    const leads = `${points.every(({ value }) => value >= 0) ? pair.b : pair.a} leads whatever part of the time is spent ${above} (${partOf(shareNow)} now)`;
    const untold = points.filter(({ low, high }) => low <= 0 && high >= 0);
    if (untold.length === 0) return `${leads}.`;
    const [first, last] = [untold[0]!.shareAbove, untold.at(-1)!.shareAbove];
    const where =
      first === 0
        ? `where less than ${partOf(last)} is`
        : last === 1
          ? `where more than ${partOf(first)} is`
          : `where ${partOf(first)} to ${partOf(last)} is`;
    return untold.length === points.length
      ? `Whatever part of the time is spent ${above}, the two cannot be told apart.`
      : `${leads}, though ${where} it cannot be told from chance.`;
  }
  return `${more} is the one where more than ${partOf(evenShare.value)} of the time (${partOf(evenShare.low)} to ${partOf(evenShare.high)}) is spent ${above}, ${less} where less is; this use spends ${partOf(shareNow)} there.`;
}

/** Many uses in one breath: which build is ahead for which. */
export function usesFinding(
  pairs: readonly { readonly use: string; readonly pair: Omit<UsePair, 'finding'> }[],
): string {
  const names = [...new Set(pairs.map(({ pair }) => `${pair.a}\n${pair.b}`))];
  return names
    .map((key) => {
      const [a, b] = key.split('\n') as [string, string];
      const own = pairs.filter(({ pair }) => pair.a === a && pair.b === b);
      const said = (words: readonly string[]) =>
        own
          .filter(({ pair }) => words.includes(pair.word))
          .map(({ use, pair }) => `${use} (${percentOf(pair.gainPercent.value)})`)
          .join(', ');
      const [gains, losses] = [said(['real', 'small']), said(['loss'])];
      const even = own
        .filter(({ pair }) => pair.word === 'cannot be told from chance')
        .map(({ use }) => use)
        .join(', ');
      const parts = [
        gains === '' ? '' : `${b} has more mean power for ${gains}`,
        losses === '' ? '' : `${a} ${gains === '' ? 'has more mean power ' : ''}for ${losses}`,
        even === '' ? '' : `they cannot be told apart for ${even}`,
      ].filter((part) => part !== '');
      return `Between ${a} and ${b}: ${parts.join('; ')}.`;
    })
    .join(' ');
}
