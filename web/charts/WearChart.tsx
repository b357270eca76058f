import { displayUnit } from '../../src/units/display.ts';
import { fromInside } from '../../src/units/quantity.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import type { WearTold } from '../api/types.gen.ts';
import {
  numberColumn,
  quantityColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { dayOf, shortDate } from './DaysChart.tsx';
import { Label, round } from './Label.tsx';
import { Picture } from './Picture.tsx';
import { extentOf, linear, type Plot, padded } from './scale.ts';

export interface WearChartProps {
  readonly width: number;
  readonly height: number;
  readonly units: UnitSystem;
  readonly of: WearTold;
  /** What the picture says. */
  readonly says: string;
}

export const WEAR_KINDS = {
  leakDown: { kind: 'percent', decimals: { us: 1, metric: 1 } },
  crankingPressure: { kind: 'gaugePressure', decimals: { us: 0, metric: 2 } },
} as const;

/** Each cylinder by the date it was read on: a line from the last refresh on, those that moved in ink. */
export function WearChart({ width, height, units, of, says }: WearChartProps) {
  const { palette, small, dot, stroke } = useChartStyle();
  const unit = displayUnit(WEAR_KINDS[of.measure].kind, units);
  const outside = (value: number) => fromInside(value, unit);
  const { readings, answer } = of;
  const range = padded(
    extentOf(
      readings.flatMap(({ values }) => values.map((one) => (one === null ? null : outside(one)))),
    ) ?? [0, 1],
    0.1,
  );
  const floor: readonly [number, number] = [Math.max(0, range[0]), range[1]];
  // So wide at the least that no day is written twice.
  const span = padded(extentOf(readings.map(({ date }) => dayOf(date))) ?? [0, 1], 0.05, 14);
  const left = sideRoom(floor, height, small);
  const top = small * 1.6;
  const plot: Plot = {
    left,
    top,
    width: Math.max(10, width - left - small * 2.4),
    height: Math.max(10, height - top - small * 2.4),
  };
  const x = linear(span, [plot.left, plot.left + plot.width]);
  const y = linear(floor, [plot.top + plot.height, plot.top]);
  const moved = new Set(answer.moved.map(({ cylinder }) => cylinder));
  const cylinders = Math.max(0, ...readings.map(({ values }) => values.length));
  const places = Array.from({ length: cylinders }, (_, at) => ({
    cylinder: at + 1,
    points: readings.flatMap(({ date, values, counts }) => {
      const value = values[at] ?? null;
      return value === null ? [] : [{ x: x(dayOf(date)), y: y(outside(value)), counts }];
    }),
  }));
  const since = readings.filter(({ counts }) => counts)[0];
  const before = readings.filter(({ counts }) => !counts).at(-1);
  const between =
    since === undefined || before === undefined
      ? null
      : (x(dayOf(since.date)) + x(dayOf(before.date))) / 2;
  return (
    <Picture width={width} height={height} label={says}>
      <XAxis plot={plot} scale={x} every={110} format={shortDate} />
      <YAxis plot={plot} scale={y} unit={unit.symbol} />
      {between !== null && (
        <>
          <line
            x1={round(between)}
            x2={round(between)}
            y1={plot.top}
            y2={plot.top + plot.height}
            stroke={palette.muted}
            strokeDasharray="4 3"
          />
          <Label x={between} y={small * 0.8} size={small} colour={palette.muted} anchor="middle">
            refresh
          </Label>
        </>
      )}
      {[...places]
        .sort((a, b) => Number(moved.has(a.cylinder)) - Number(moved.has(b.cylinder)))
        .map(({ cylinder, points }) => {
          const isMoved = moved.has(cylinder);
          const colour = isMoved ? palette.ink : palette.chanceLine;
          const line = points.filter(({ counts }) => counts);
          const last = points.at(-1);
          return (
            <g key={cylinder}>
              <polyline
                points={line.map((one) => `${round(one.x)},${round(one.y)}`).join(' ')}
                fill="none"
                stroke={colour}
                strokeWidth={isMoved ? stroke * 1.2 : stroke * 0.6}
              />
              {points.map((one) => (
                <circle
                  key={`${one.x} ${one.y}`}
                  cx={round(one.x)}
                  cy={round(one.y)}
                  r={isMoved ? dot * 1.2 : dot * 0.9}
                  fill={one.counts ? colour : palette.paper}
                  stroke={colour}
                />
              ))}
              {last !== undefined && (isMoved || cylinder === answer.newest?.worstCylinder) && (
                <Label
                  x={last.x + small * 0.7}
                  y={last.y}
                  size={small}
                  bold={isMoved}
                  rim={palette.paper}
                >
                  {String(cylinder)}
                </Label>
              )}
            </g>
          );
        })}
    </Picture>
  );
}

/** A row a reading, a column a cylinder. @param nameOf  where a reading came from */
export function wearTable(
  { measure, readings }: WearTold,
  units: UnitSystem,
  nameOf: (reading: WearTold['readings'][number]) => string,
): TableModel {
  const { kind, decimals } = WEAR_KINDS[measure];
  const look = { decimals: decimals[units] };
  const cylinders = Math.max(0, ...readings.map(({ values }) => values.length));
  return tableFrom(readings, [
    wordsColumn('Read on', ({ date }) => date),
    wordsColumn('From', nameOf),
    numberColumn(
      'Cylinders read',
      '',
      ({ values }) => values.filter((one) => one !== null).length,
      {
        decimals: 0,
      },
    ),
    ...Array.from({ length: cylinders }, (_, at) =>
      quantityColumn<WearTold['readings'][number]>(
        `Cylinder ${at + 1}`,
        kind,
        units,
        ({ values }) => values[at] ?? null,
        look,
      ),
    ),
    quantityColumn('Gauge, ±', kind, units, ({ error }) => error, look),
  ]);
}
