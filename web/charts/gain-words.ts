import { said } from '../../src/chartWords.ts';
import type { StepAnswer } from '../../src/ladder/types.ts';
import { interval, plain, setting, signed } from './numbers.ts';
import type { Say } from './say.ts';
import { extentOf, valueAt } from './scale.ts';

export function readingAt(step: StepAnswer, speedRpm: number) {
  const { speedRpm: speeds, gainPercent, lowPercent, highPercent, toldFromChance } = step.bySpeed;
  const gain = valueAt(speeds, gainPercent, speedRpm);
  const low = valueAt(speeds, lowPercent, speedRpm);
  const high = valueAt(speeds, highPercent, speedRpm);
  if (gain === null || low === null || high === null) return null;
  let nearest = 0;
  speeds.forEach((speed, at) => {
    if (Math.abs(speed - speedRpm) < Math.abs(speeds[nearest]! - speedRpm)) nearest = at;
  });
  return { gain, low, high, told: toldFromChance[nearest] === true };
}

const nameOf = (step: StepAnswer, unit: string, { words, setting }: Say): string =>
  said(words.gain.step, { from: setting(step.from, unit), to: setting(step.to, unit) });

export function readingOf(step: StepAnswer, unit: string, speedRpm: number, say: Say): string {
  const { words, signedPercent, interval } = say;
  const name = nameOf(step, unit, say);
  const reading = readingAt(step, speedRpm);
  if (reading === null) return said(words.gain.notRun, { step: name });
  const band = `${signedPercent(reading.gain)}, ${interval(reading.low, reading.high)}`;
  const also = step.besides === null ? '' : said(words.gain.alsoChanged, { what: step.besides });
  return `${name}: ${band}${reading.told ? '' : `, ${words.gains['cannot be told from chance']}`}${also}`;
}

export function summaryOf(steps: readonly StepAnswer[], unit: string, say: Say): string {
  const parts = steps.map(
    (step) =>
      `${nameOf(step, unit, say)}: ${say.signedPercent(step.gainPercent)}, ${say.words.gains[step.word]}`,
  );
  return said(say.words.gain.summary, { all: parts.join('. ') });
}

/** The same numbers as a table, one line about every `everyRpm`. */
export function gainTable(steps: readonly StepAnswer[], unit: string, everyRpm = 250) {
  const columns = ['engine speed, rpm'];
  for (const step of steps) {
    const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
    columns.push(`${name}, %`, 'from – to, %', 'told from chance');
  }
  const all = extentOf(...steps.map((step) => step.bySpeed.speedRpm));
  const rows: string[][] = [
    [
      'over the band',
      ...steps.flatMap((step) => [
        signed(step.gainPercent),
        interval(step.lowPercent, step.highPercent),
        step.word,
      ]),
    ],
  ];
  if (all !== null) {
    for (let speed = Math.ceil(all[0] / everyRpm) * everyRpm; speed <= all[1]; speed += everyRpm) {
      rows.push([
        plain(speed, 0),
        ...steps.flatMap((step) => {
          const reading = readingAt(step, speed);
          if (reading === null) return ['–', '–', '–'];
          return [
            signed(reading.gain),
            interval(reading.low, reading.high),
            reading.told ? 'yes' : 'no',
          ];
        }),
      ]);
    }
  }
  return { columns, rows };
}
