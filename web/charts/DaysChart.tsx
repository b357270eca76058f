import type { UnitSystem } from '../../src/units/types.ts';
import {
  numberColumn,
  quantityColumn,
  quantityRangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label, round } from './Label.tsx';
import { outside, plain, withUnit } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { extentOf, linear, type Plot, padded } from './scale.ts';

/** Mean power of one test day, with its 95 % interval. */
export interface DayPoint {
  readonly label: string;
  /** ISO day; null: it is in the table alone. */
  readonly date: string | null;
  readonly build: string;
  readonly pulls: number;
  readonly powerW: { readonly value: number; readonly low: number; readonly high: number };
  readonly peakPowerW: { readonly value: number; readonly low: number; readonly high: number };
}
export interface DaysChartProps {
  readonly width: number;
  readonly height: number;
  readonly units: UnitSystem;
  readonly days: readonly DayPoint[];
}

const DAY_MS = 86_400_000;
export const dayOf = (date: string) => Date.parse(date) / DAY_MS;
/** A day since 1970 as it stands under a chart: `3 Jun 26`. */
export const shortDate = (day: number) =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: '2-digit' }).format(
    new Date(Math.round(day) * DAY_MS),
  );

/** Mean power by the day it was made on, each with its band; builds by turns filled and open. */
export function DaysChart({ width, height, units, days }: DaysChartProps) {
  const { palette, small, dot } = useChartStyle();
  const power = outside('power', units);
  const dated = days.flatMap((one) =>
    one.date === null ? [] : [{ ...one, day: dayOf(one.date) }],
  );
  const ends = dated.flatMap(({ powerW }) => [power.of(powerW.low), power.of(powerW.high)]);
  const range = padded(extentOf(ends) ?? [0, 1], 0.12);
  // So wide at the least that no day is written twice.
  const span = padded(extentOf(dated.map(({ day }) => day)) ?? [0, 1], 0.06, 14);
  const left = sideRoom(range, height, small);
  const top = small * 2.6;
  const plot: Plot = {
    left,
    top,
    width: Math.max(10, width - left - 16),
    height: Math.max(10, height - top - small * 2.4),
  };
  const x = linear(span, [plot.left, plot.left + plot.width]);
  const y = linear(range, [plot.top + plot.height, plot.top]);
  const builds = [...new Set(days.map(({ build }) => build))];
  return (
    <Picture width={width} height={height} label={summaryOf(days, units)}>
      <XAxis plot={plot} scale={x} every={110} format={shortDate} />
      <YAxis plot={plot} scale={y} unit={power.symbol} />
      {dated.map(({ day, label, build, powerW }) => (
        <g key={`${label} ${day}`}>
          <line
            x1={round(x(day))}
            x2={round(x(day))}
            y1={round(y(power.of(powerW.low)))}
            y2={round(y(power.of(powerW.high)))}
            stroke={palette.muted}
            strokeWidth={1.6}
          />
          <circle
            cx={round(x(day))}
            cy={round(y(power.of(powerW.value)))}
            r={dot * 1.3}
            fill={builds.indexOf(build) % 2 === 0 ? palette.ink : palette.paper}
            stroke={palette.ink}
            strokeWidth={1.4}
          />
        </g>
      ))}
      {builds.flatMap((build) => {
        const first = dated.find((one) => one.build === build);
        return first === undefined || builds.length < 2
          ? []
          : [
              <Label
                key={build}
                x={Math.min(x(first.day), plot.left + plot.width - small * build.length * 0.6)}
                y={small * 1.1}
                size={small}
                colour={palette.muted}
              >
                {build}
              </Label>,
            ];
      })}
    </Picture>
  );
}

function summaryOf(days: readonly DayPoint[], units: UnitSystem): string {
  const power = outside('power', units);
  const values = days.map(({ powerW }) => powerW.value);
  const text = (value: number) => withUnit(plain(power.of(value), 0), power.symbol);
  return `Mean power of ${days.length} test days, from ${text(Math.min(...values))} to ${text(Math.max(...values))}.`;
}

export function daysTable(days: readonly DayPoint[], units: UnitSystem): TableModel {
  const band = (title: string, of: (day: DayPoint) => DayPoint['powerW']) => [
    quantityColumn<DayPoint>(title, 'power', units, (day) => of(day).value),
    quantityRangeColumn<DayPoint>(`${title}, 95 %`, 'power', units, of),
  ];
  return tableFrom(days, [
    wordsColumn('Test day', ({ label }) => label),
    wordsColumn('Build', ({ build }) => build),
    numberColumn('Pulls', '', ({ pulls }) => pulls, { decimals: 0 }),
    ...band('Mean power', ({ powerW }) => powerW),
    ...band('Peak power', ({ peakPowerW }) => peakPowerW),
  ]);
}
