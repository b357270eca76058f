import type { TwoAnswer } from '../../src/ladder/two/types.ts';
import { estimate, interval, plain, setting } from './numbers.ts';
import type { TableModel } from './TableView.tsx';

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
  return {
    columns: [
      'lambda',
      'best lead',
      'best lead, from – to, °',
      ...columns.map(({ lead }) => `given up at ${setting(lead, 'deg')}, %`),
    ],
    rows: map.lambda.flatMap((lambda, i) =>
      i % 2 === 0
        ? [
            [
              plain(lambda, 3),
              estimate(ridge.leadDeg[i], 'deg'),
              interval(ridge.lowDeg[i]!, ridge.highDeg[i]!),
              ...columns.map(({ j }) =>
                map.known[i]![j]!
                  ? `${plain(map.lossPercent[i]![j])} ± ${plain(map.halfPercent[i]![j])}`
                  : 'not known',
              ),
            ],
          ]
        : [],
    ),
  };
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
