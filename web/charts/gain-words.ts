import { said } from '../../src/chartWords.ts';
import type { StepAnswer } from '../../src/ladder/types.ts';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  speedsIn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { setting } from './numbers.ts';
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
export function gainTable(steps: readonly StepAnswer[], unit: string, everyRpm = 250): TableModel {
  const span = extentOf(...steps.map((step) => step.bySpeed.speedRpm));
  return tableFrom<number | null>(
    [null, ...speedsIn(span, everyRpm)],
    [
      wordsColumn('where', (speed) => (speed === null ? 'over the band' : 'at a speed')),
      numberColumn('engine speed', 'rpm', (speed) => speed, { decimals: 0 }),
      ...steps.flatMap((step): ColumnOf<number | null>[] => {
        const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
        const at = (speed: number | null) =>
          speed === null
            ? {
                gain: step.gainPercent,
                low: step.lowPercent,
                high: step.highPercent,
                word: step.word,
              }
            : readingAt(step, speed);
        const told = (reading: ReturnType<typeof at>) =>
          reading === null ? null : 'word' in reading ? reading.word : reading.told ? 'yes' : 'no';
        return [
          numberColumn(name, '%', (speed) => at(speed)?.gain, { decimals: 1, signed: true }),
          rangeColumn(`${name}, 95 %`, '%', at, { decimals: 1 }),
          wordsColumn(`${name}: told from chance`, (speed) => told(at(speed))),
        ];
      }),
    ],
  );
}
