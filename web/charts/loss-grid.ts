import { contours } from 'd3-contour';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  settingUnit,
  speedColumn,
  speedsIn,
  type TableModel,
  tableFrom,
} from '../table/model.ts';
import { round } from './Label.tsx';
import { setting, settingDecimals } from './numbers.ts';
import type { Point } from './Surface.tsx';
import { extentOf, type Scale, valueAt } from './scale.ts';

export type LossGrid = NonNullable<LadderAnswer['map']>;

/** Losses that get a line [%]. The first is about what a careful shop can see. */
export const LEVELS = [0.5, 1, 2, 4, 8, 16] as const;

/** Region that loses at least `level`, as a path; contour places are grid places, half a cell in. */
export function contourPath(map: LossGrid, level: number, x: Scale, y: Scale): string {
  const columns = map.speedRpm.length;
  const rows = map.setting.length;
  const shape = contours().size([columns, rows]).contour(map.lossPercent.flat(), level);
  const place = (list: readonly number[], at: number) => {
    const bounded = Math.min(Math.max(at - 0.5, 0), list.length - 1);
    const low = Math.min(Math.floor(bounded), list.length - 2);
    return list[low]! + (list[low + 1]! - list[low]!) * (bounded - low);
  };
  return shape.coordinates
    .flatMap((polygon) =>
      polygon.map((ring) => {
        const points = ring.map(
          ([column, row]) =>
            `${round(x(place(map.speedRpm, column!)))} ${round(y(place(map.setting, row!)))}`,
        );
        return `M${points.join('L')}Z`;
      }),
    )
    .join('');
}

/** The setting, going away from the best of this speed, where the loss reaches the level; null if it never does. */
export function crossingOf(
  map: LossGrid,
  speedRpm: number,
  level: number,
  side: 1 | -1,
): number | null {
  const best = valueAt(map.speedRpm, map.bestSetting, speedRpm);
  if (best === null) return null;
  const rows = map.setting.map((value, row) => ({
    value,
    loss: valueAt(map.speedRpm, map.lossPercent[row]!, speedRpm) ?? Number.NaN,
  }));
  const outward = rows.filter(({ value }) => (value - best) * side >= 0);
  if (side === -1) outward.reverse();
  let before = { value: best, loss: 0 };
  for (const row of outward) {
    if (row.loss >= level) {
      const share = row.loss === before.loss ? 1 : (level - before.loss) / (row.loss - before.loss);
      return before.value + (row.value - before.value) * Math.min(Math.max(share, 0), 1);
    }
    before = row;
  }
  return null;
}

export function lossAt(map: LossGrid, { x: speedRpm, y: at }: Point): number | null {
  if (at === null) return null;
  const column = map.lossPercent.map((row) => valueAt(map.speedRpm, row, speedRpm));
  return valueAt(map.setting, column, at);
}

/** The same numbers as a table: the best of each speed, and what each rung that was run loses there. */
export function lossTable(
  map: LossGrid,
  rungs: readonly number[],
  unit: string,
  everyRpm = 250,
): TableModel {
  const settings = [...new Set(rungs)].sort((a, b) => a - b);
  const at = (list: readonly (number | null)[], speed: number) =>
    valueAt(map.speedRpm, list, speed);
  const decimals = settingDecimals(unit);
  return tableFrom(speedsIn(extentOf(map.speedRpm), everyRpm), [
    speedColumn,
    numberColumn('best', settingUnit(unit), (speed) => at(map.bestSetting, speed), { decimals }),
    rangeColumn(
      'best, 95 %',
      settingUnit(unit),
      (speed) => ({ low: at(map.bestLow, speed), high: at(map.bestHigh, speed) }),
      { decimals },
    ),
    ...settings.map(
      (rung): ColumnOf<number> =>
        numberColumn(`lost at ${setting(rung, unit)}`, '%', (x) => lossAt(map, { x, y: rung }), {
          decimals: 1,
        }),
    ),
  ]);
}
