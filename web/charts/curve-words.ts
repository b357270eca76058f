import { said } from '../../src/chartWords.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import {
  type ColumnOf,
  quantityColumn,
  quantityRangeColumn,
  speedColumn,
  speedsIn,
  type TableModel,
  tableFrom,
} from '../table/model.ts';
import type { CurveSeries } from './CurveChart.tsx';
import { type Outside, threeFigures, withUnit } from './numbers.ts';
import type { Say } from './say.ts';
import { extentOf, valueAt } from './scale.ts';

export function sentenceAt(
  say: Say,
  series: readonly CurveSeries[],
  torque: Outside,
  power: Outside,
  at: number,
): string {
  const figure = (value: number, { symbol }: Outside) =>
    withUnit(say.plain(value, threeFigures(value)), symbol);
  const parts = series.map((one) => {
    const nm = valueAt(one.speedRpm, one.torqueNm, at);
    const watt = valueAt(one.speedRpm, one.powerW, at);
    if (nm === null || watt === null) return said(say.words.curves.notHere, { name: one.label });
    return `${one.label}: ${figure(torque.of(nm), torque)}, ${figure(power.of(watt), power)}`;
  });
  return `${say.rpm(at)}. ${parts.join('. ')}`;
}

export function summaryOf(
  say: Say,
  series: readonly CurveSeries[],
  torque: Outside,
  power: Outside,
): string {
  const { curves } = say.words;
  const most = (values: readonly number[], unit: Outside) => {
    const value = extentOf(values)?.[1] ?? null;
    return withUnit(say.plain(value === null ? null : unit.of(value), 0), unit.symbol);
  };
  const parts = series.map((one) =>
    said(curves.most, {
      name: one.label,
      torque: most(one.torqueNm, torque),
      power: most(one.powerW, power),
    }),
  );
  return said(curves.summary, { all: parts.join('. ') });
}

/** The same numbers as a table, one line about every `everyRpm`. */
export function curveTable(
  series: readonly CurveSeries[],
  units: UnitSystem,
  everyRpm = 250,
): TableModel {
  const span = extentOf(...series.map((one) => one.speedRpm));
  return tableFrom(speedsIn(span, everyRpm), [
    speedColumn,
    ...series.flatMap((one): ColumnOf<number>[] => {
      const at = (list: readonly number[], speed: number) => valueAt(one.speedRpm, list, speed);
      return [
        quantityColumn(`${one.label}: torque`, 'torque', units, (speed) => at(one.torqueNm, speed)),
        quantityRangeColumn(`${one.label}: torque, 95 %`, 'torque', units, (speed) => {
          const [low, high] = [at(one.lowNm, speed), at(one.highNm, speed)];
          return low === null || high === null ? null : { low, high };
        }),
        quantityColumn(`${one.label}: power`, 'power', units, (speed) => at(one.powerW, speed)),
      ];
    }),
  ]);
}
