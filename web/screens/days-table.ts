import type { DaySummary } from '../api/types.gen.ts';
import { dayLabel } from '../shell/places.ts';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { decidedInWords } from './engine-words.ts';
import { nameOfLadder } from './ladder/ladder-words.ts';

/** Test days as a table that leaves. */
export const daysTable = (days: readonly DaySummary[]): TableModel =>
  tableFrom(days, [
    wordsColumn('Day', dayLabel),
    wordsColumn('Date', ({ date }) => date),
    wordsColumn('Engine', ({ engineName }) => engineName),
    wordsColumn('Build', ({ buildName }) => buildName),
    numberColumn('Pulls', '', ({ pullCount }) => pullCount, { decimals: 0 }),
    rangeColumn('Spark lead', '°', ({ lowLeadDeg: low, highLeadDeg: high }) => ({ low, high })),
    wordsColumn('Decided', ({ decisions }) => decidedInWords(decisions)),
    wordsColumn('Ladders', ({ ladders }) => ladders.map(nameOfLadder).join('; ')),
  ]);
