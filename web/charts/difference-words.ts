import { said } from '../../src/chartWords.ts';
import type { Difference, DifferenceIn } from '../../src/compare/difference.ts';
import type { Change, GainWord, PairAnswer } from '../../src/compare/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { interval, type Outside, outside, plain, signed, withUnit } from './numbers.ts';
import type { Say } from './say.ts';
import { extentOf, valueAt } from './scale.ts';

/** One side held against the first. */
export interface DifferenceRow {
  /** Letter of the later side, and of the one it is held against. */
  readonly letter: string;
  readonly against: string;
  /** In inside units; see `differenceIn`. */
  readonly difference: Difference;
  readonly crossings: PairAnswer['crossings'];
  /** Gain of mean power over the band [%]. */
  readonly gain: Change;
  readonly word: GainWord;
}

const PERCENT: Outside = { symbol: '%', decimals: 1, of: (value) => value };

/** How a difference becomes figures: percent as it is, torque and power in the shop's units. */
export const differenceUnit = (shown: DifferenceIn, units: UnitSystem): Outside =>
  shown === 'percent' ? PERCENT : { ...outside(shown, units), decimals: 1 };

export interface DifferenceReading {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly told: boolean;
}

/** What a row says at one speed, in the unit shown; null where it was not run. */
export function differenceAt(
  { difference }: DifferenceRow,
  unit: Outside,
  speedRpm: number,
): DifferenceReading | null {
  const at = (list: readonly number[]) => valueAt(difference.speedRpm, list, speedRpm);
  const [value, low, high] = [at(difference.value), at(difference.low), at(difference.high)];
  if (value === null || low === null || high === null) return null;
  let nearest = 0;
  difference.speedRpm.forEach((one, m) => {
    if (Math.abs(one - speedRpm) < Math.abs(difference.speedRpm[nearest]! - speedRpm)) nearest = m;
  });
  return {
    value: unit.of(value),
    low: unit.of(low),
    high: unit.of(high),
    told: difference.toldFromChance[nearest] === true,
  };
}

const nameOf = ({ letter, against }: DifferenceRow, { words }: Say): string =>
  said(words.difference.less, { one: letter, other: against });

/** `B less A: +2.4 %, 0.3 to 4.5`, for those who hear the picture. */
export function differenceSentence(
  row: DifferenceRow,
  unit: Outside,
  speedRpm: number,
  say: Say,
): string {
  const name = nameOf(row, say);
  const reading = differenceAt(row, unit, speedRpm);
  if (reading === null) return said(say.words.difference.notRun, { name });
  const { value, low, high, told } = reading;
  const chance = told ? '' : `, ${say.words.gains['cannot be told from chance']}`;
  return `${name}: ${withUnit(say.signed(value), unit.symbol)}, ${say.interval(low, high)}${chance}`;
}

export function differenceSummary(rows: readonly DifferenceRow[], say: Say): string {
  const { difference, gains } = say.words;
  const parts = rows.map((row) => {
    const cross = row.crossings.map(({ speedRpm }) =>
      said(difference.crossingAt, { speed: say.rpm(speedRpm) }),
    );
    const gain = said(difference.overBand, { percent: say.signedPercent(row.gain.value) });
    return `${nameOf(row, say)}: ${gain}, ${gains[row.word]}${cross.join('')}`;
  });
  return said(difference.summary, { all: parts.join('. ') });
}

/** `5 100 (4 500 to 5 650)`. */
export const crossingInWords = (
  { speedRpm, lowRpm, highRpm }: PairAnswer['crossings'][number],
  { speed, words }: Say,
): string =>
  `${speed(speedRpm)} (${said(words.range, { low: speed(lowRpm), high: speed(highRpm) })})`;

/** The same numbers as a table, one line about every `everyRpm`. */
export function differenceTable(rows: readonly DifferenceRow[], unit: Outside, everyRpm = 250) {
  const columns = ['engine speed, rpm'];
  for (const { letter, against } of rows)
    columns.push(
      `${letter} less ${against}, ${unit.symbol}`,
      `${letter} less ${against}: from – to, ${unit.symbol}`,
      `${letter} and ${against}: told from chance`,
    );
  const body: string[][] = [
    [
      'mean power over the band, %',
      ...rows.flatMap(({ gain, word }) => [
        signed(gain.value),
        interval(gain.low, gain.high),
        word,
      ]),
    ],
  ];
  const all = extentOf(...rows.map(({ difference }) => difference.speedRpm));
  if (all !== null)
    for (let at = Math.ceil(all[0] / everyRpm) * everyRpm; at <= all[1]; at += everyRpm)
      body.push([
        plain(at, 0),
        ...rows.flatMap((row) => {
          const reading = differenceAt(row, unit, at);
          return reading === null
            ? ['–', '–', '–']
            : [
                signed(reading.value),
                interval(reading.low, reading.high),
                reading.told ? 'yes' : 'no',
              ];
        }),
      ]);
  return { columns, rows: body };
}
