import { said } from '../../src/chartWords.ts';
import type { Difference, DifferenceIn } from '../../src/compare/difference.ts';
import type { Change, GainWord, PairAnswer } from '../../src/compare/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  speedsIn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { type Outside, outside, withUnit } from './numbers.ts';
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
export function differenceTable(
  rows: readonly DifferenceRow[],
  unit: Outside,
  everyRpm = 250,
): TableModel {
  const span = extentOf(...rows.map(({ difference }) => difference.speedRpm));
  const speeds = speedsIn(span, everyRpm);
  return tableFrom<number | null>(
    // The gain over the band is in percent, and stands only among its like.
    unit.symbol === '%' ? [null, ...speeds] : speeds,
    [
      wordsColumn('where', (speed) => (speed === null ? 'over the band' : 'at a speed')),
      numberColumn('engine speed', 'rpm', (speed) => speed, { decimals: 0 }),
      ...rows.flatMap((row): ColumnOf<number | null>[] => {
        const { letter, against, gain, word } = row;
        const name = `${letter} less ${against}`;
        const at = (speed: number | null) =>
          speed === null ? { ...gain, word } : differenceAt(row, unit, speed);
        const told = (reading: ReturnType<typeof at>) =>
          reading === null ? null : 'word' in reading ? reading.word : reading.told ? 'yes' : 'no';
        return [
          numberColumn(name, unit.symbol, (speed) => at(speed)?.value, {
            decimals: 1,
            signed: true,
          }),
          rangeColumn(`${name}, 95 %`, unit.symbol, at, { decimals: 1 }),
          wordsColumn(`${name}: told from chance`, (speed) => told(at(speed))),
        ];
      }),
    ],
  );
}
