import type { TwoAnswer } from '../../src/ladder/two/types.ts';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
} from '../table/model.ts';
import { estimate, plain, setting } from './numbers.ts';

/** Loss at a place of the picture, from the nearest of its cells; null outside it. */
export function planeLossAt(
  map: TwoAnswer['map'],
  leadDeg: number,
  lambda: number | null,
): { readonly value: number; readonly half: number; readonly known: boolean } | null {
  if (lambda === null) return null;
  const [j, i] = [nearest(map.leadDeg, leadDeg), nearest(map.lambda, lambda)];
  const value = map.lossPercent[i]?.[j];
  if (value === undefined) return null;
  return { value, half: map.halfPercent[i]![j]!, known: map.known[i]![j]! };
}

function nearest(list: readonly number[], value: number): number {
  return list.reduce(
    (best, one, at) => (Math.abs(one - value) < Math.abs(list[best]! - value) ? at : best),
    0,
  );
}

/** The picture's numbers: a row a mixture, a column a lead, every second line of the picture. */
export function planeTable({ map, ridge }: TwoAnswer): TableModel {
  const columns = map.leadDeg.flatMap((lead, j) => (j % 4 === 0 ? [{ lead, j }] : []));
  const rows = map.lambda.flatMap((lambda, i) => (i % 2 === 0 ? [{ lambda, i }] : []));
  const look = { decimals: 1 };
  return tableFrom(rows, [
    numberColumn('lambda', '', ({ lambda }) => lambda, { decimals: 3 }),
    numberColumn('best lead', '°', ({ i }) => ridge.leadDeg[i], look),
    rangeColumn(
      'best lead, 95 %',
      '°',
      ({ i }) => ({ low: ridge.lowDeg[i]!, high: ridge.highDeg[i]! }),
      look,
    ),
    ...columns.flatMap(({ lead, j }): ColumnOf<(typeof rows)[number]>[] => {
      const name = `given up at ${setting(lead, 'deg')}`;
      const known = (i: number, of: readonly (readonly number[])[]) =>
        map.known[i]![j]! ? of[i]![j]! : null;
      return [
        numberColumn(name, '%', ({ i }) => known(i, map.lossPercent), look),
        numberColumn(`${name}, known within ±`, '%', ({ i }) => known(i, map.halfPercent), look),
      ];
    }),
  ]);
}

/** The picture in a sentence, for those who hear the page. */
export function placeInWords(
  { bestLeadDeg, bestLambda, next, dots }: TwoAnswer,
  left: { readonly name: string; readonly leadDeg: number; readonly lambda: number } | null,
): string {
  const best =
    bestLeadDeg.value === null || bestLambda.value === null
      ? 'The best is not known yet'
      : `Best near ${estimate(bestLeadDeg.value, 'deg')} at lambda ${plain(bestLambda.value, 3)}`;
  const then =
    next.at === null
      ? 'no further pull'
      : `next ${setting(next.at.leadDeg, 'deg')} at lambda ${plain(next.at.lambda, 3)}`;
  const kept =
    left === null
      ? 'no setting to leave yet'
      : `left for ${left.name}: ${setting(left.leadDeg, 'deg')} at lambda ${plain(left.lambda, 3)}`;
  return `Mean power given up by lead and lambda, from ${dots.length} pulls. ${best}; ${then}; ${kept}.`;
}
