import { useId } from 'react';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
} from '../table/model.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import type { Palette } from '../theme/palette.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label } from './Label.tsx';
import { plain, withUnit } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Span, valueAt } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

/** One line over a common foot, in the figures that are shown. */
export interface ChartLine {
  readonly id: string;
  readonly label: string;
  readonly colour: (palette: Palette) => string;
  readonly dash?: string;
  /** Ascending. */
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
  readonly low?: readonly number[];
  readonly high?: readonly number[];
  /** Lines of one name stand once in the legend. */
  readonly legend?: boolean;
}

/** Bars along the foot, such as how time is shared out; heights are parts of the highest. */
export interface ChartBars {
  readonly label: string;
  readonly bars: readonly { readonly from: number; readonly to: number; readonly part: number }[];
  readonly reading: (at: number) => string;
}

/** A place on the foot worth marking, with a word. */
export interface ChartMark {
  readonly at: number;
  readonly label: string;
}

export interface AxisWords {
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
}

export interface LinesChartProps {
  readonly width: number;
  readonly height: number;
  /** What the picture says, in sentences. */
  readonly says: string;
  readonly lines: readonly ChartLine[];
  readonly bars?: ChartBars;
  readonly marks?: readonly ChartMark[];
  readonly x: AxisWords & { readonly step: number };
  readonly y: AxisWords;
  /** A line through zero, and zero always in view. */
  readonly zero?: boolean;
  readonly cursor: number | null;
  readonly onCursor?: (at: number | null) => void;
  readonly zoom?: Zoom;
}

/** Part of the height that the tallest bar takes. */
const BARS = 0.3;

/** Lines over one foot with their bands, and where wanted bars under them and marks through them. */
export function LinesChart(props: LinesChartProps) {
  const { width, height, says, lines, bars, marks = [], x: foot, y: side, zero, cursor } = props;
  const { palette, small, label, stroke } = useChartStyle();
  const clip = useId().replace(/\W/g, '');
  const full = fullOf(lines, bars);
  const range = rangeOf(lines, props.zoom?.domain ?? full, zero === true);
  const items = legendOf(props);
  const placed = placeLegend(items, width - 8, small);
  const head = placed.rows * label * 1.55 + label * 0.6;
  const tail = small * 3.6 + 6;
  const left = Math.max(sideRoom(range, height - head - tail, small), small * 2.4) + 6;
  const plot: Plot = {
    left,
    top: head + small * 2,
    width: Math.max(10, width - left - 14),
    height: Math.max(10, height - head - tail - small * 2),
  };
  const base = plot.top + plot.height;
  const x = linear(props.zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const y = linear(range, [base, plot.top]);
  const cursorPx = cursor === null ? null : x(cursor);
  return (
    <Picture width={width} height={height} label={says}>
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top - 2} width={plot.width} height={plot.height + 4} />
      </clipPath>
      {items.map((item, at) => (
        <g
          key={item.id}
          transform={`translate(${placed.at[at]!.x} ${placed.at[at]!.row * label * 1.55 + label * 0.8})`}
        >
          {item.swatch === 'line' ? (
            <line
              x1={0}
              x2={16}
              y1={0}
              y2={0}
              stroke={item.colour(palette)}
              strokeWidth={stroke * 1.5}
              {...(item.dash === undefined ? {} : { strokeDasharray: item.dash })}
            />
          ) : (
            <rect
              x={0}
              y={-4}
              width={16}
              height={8}
              fill={palette.chance}
              stroke={palette.chanceLine}
            />
          )}
          <Label x={21} y={0} size={small}>
            {item.text}
          </Label>
        </g>
      ))}
      <XAxis
        plot={plot}
        scale={x}
        label={foot.unit === '' ? foot.label : `${foot.label}, ${foot.unit}`}
      />
      <YAxis plot={plot} scale={y} unit={side.unit} />
      <g clipPath={`url(#${clip})`}>
        {bars?.bars.map((bar) => (
          <rect
            key={bar.from}
            x={x(bar.from)}
            width={Math.max(0.5, x(bar.to) - x(bar.from) - 0.5)}
            y={base - bar.part * BARS * plot.height}
            height={bar.part * BARS * plot.height}
            fill={palette.chance}
            stroke={palette.chanceLine}
            strokeWidth={0.5}
          />
        ))}
        {zero === true && (
          <line
            x1={plot.left}
            x2={plot.left + plot.width}
            y1={y(0)}
            y2={y(0)}
            stroke={palette.ink}
          />
        )}
        {lines.map((one) => {
          const xs = one.x.map((at) => x(at));
          const colour = one.colour(palette);
          return (
            <g key={one.id}>
              {one.low !== undefined && one.high !== undefined && (
                <path
                  d={bandPath(
                    xs,
                    one.low.map((value) => y(value)),
                    one.high.map((value) => y(value)),
                  )}
                  fill={colour}
                  fillOpacity={0.16}
                />
              )}
              <path
                d={linePath(
                  xs,
                  one.y.map((value) => (value === null ? null : y(value))),
                )}
                fill="none"
                stroke={colour}
                strokeWidth={stroke}
                strokeLinejoin="round"
                {...(one.dash === undefined ? {} : { strokeDasharray: one.dash })}
              />
            </g>
          );
        })}
        {marks.map((mark) => (
          <line
            key={mark.label}
            x1={x(mark.at)}
            x2={x(mark.at)}
            y1={plot.top}
            y2={base}
            stroke={palette.ink}
            strokeDasharray="4 3"
          />
        ))}
        {cursorPx !== null && (
          <line
            data-screen-only=""
            x1={cursorPx}
            x2={cursorPx}
            y1={plot.top}
            y2={base}
            stroke={palette.ink}
          />
        )}
      </g>
      {marks.map((mark) => {
        const half = textWidth(mark.label, small, true) / 2;
        const at = Math.min(
          Math.max(x(mark.at), plot.left + half + 4),
          plot.left + plot.width - half,
        );
        return (
          <Label
            key={mark.label}
            x={at}
            y={plot.top + small * 0.7}
            size={small}
            bold
            anchor="middle"
            rim={palette.paper}
          >
            {mark.label}
          </Label>
        );
      })}
      {props.onCursor !== undefined && (
        <Surface
          plot={plot}
          x={x}
          cursor={cursor === null ? null : { x: cursor, y: null }}
          onCursor={(point) => props.onCursor!(point === null ? null : point.x)}
          label={foot.label}
          step={foot.step}
          full={full}
          sentence={(point) => [read(foot, point.x), ...readings(props, point.x)].join('. ')}
          {...(props.zoom === undefined ? {} : { zoom: props.zoom })}
        />
      )}
    </Picture>
  );
}

const read = ({ unit, decimals }: AxisWords, value: number | null): string =>
  withUnit(plain(value, decimals), unit);

function readings({ lines, bars, y }: LinesChartProps, at: number): string[] {
  return [
    ...lines.flatMap((one) => {
      const value = valueAt(one.x, one.y, at);
      return value === null ? [] : [`${one.label} ${read(y, value)}`];
    }),
    ...(bars === undefined ? [] : [bars.reading(at)]),
  ];
}

interface LegendItem {
  readonly id: string;
  readonly text: string;
  readonly swatch: 'line' | 'bar';
  readonly dash?: string;
  readonly colour: (palette: Palette) => string;
}

/** Each line's name, and its value where the cursor stands. */
function legendOf({ lines, bars, cursor, x, y }: LinesChartProps): LegendItem[] {
  const named = lines.filter(({ legend }) => legend !== false);
  const items: LegendItem[] = named.map((one) => {
    const own = lines.filter((other) => other.label === one.label);
    const values =
      cursor === null
        ? []
        : own
            .flatMap((other) => valueAt(other.x, other.y, cursor) ?? [])
            .map((value) => plain(value, y.decimals));
    return {
      id: one.id,
      text: values.length === 0 ? one.label : `${one.label} ${withUnit(values.join(', '), y.unit)}`,
      swatch: 'line',
      colour: one.colour,
      ...(one.dash === undefined ? {} : { dash: one.dash }),
    };
  });
  if (bars !== undefined)
    items.push({
      id: 'bars',
      text: cursor === null ? bars.label : bars.reading(cursor),
      swatch: 'bar',
      colour: (palette) => palette.chance,
    });
  if (cursor !== null)
    items.unshift({
      id: 'cursor',
      text: `at ${read(x, cursor)}`,
      swatch: 'line',
      colour: (palette) => palette.ink,
      dash: '1 0',
    });
  return items;
}

function placeLegend(items: readonly LegendItem[], width: number, size: number) {
  let [x, row] = [0, 0];
  const at = items.map(({ text }) => {
    const own = 21 + textWidth(text, size) + 18;
    if (x > 0 && x + own > width) [x, row] = [0, row + 1];
    const place = { x, row };
    x += own;
    return place;
  });
  return { at, rows: row + 1 };
}

function fullOf(lines: readonly ChartLine[], bars: ChartBars | undefined): Span {
  const found = extentOf(
    ...lines.map((one) => one.x),
    (bars?.bars ?? []).flatMap(({ from, to }) => [from, to]),
  );
  return found === null || found[0] === found[1] ? [0, 1] : found;
}

/** All lines in view; a band may run out by half of what the lines span. */
function rangeOf(lines: readonly ChartLine[], [from, to]: Span, zero: boolean): Span {
  const inView = (one: ChartLine, values: readonly (number | null)[]) =>
    values.filter((_, m) => one.x[m]! >= from - 1e-9 && one.x[m]! <= to + 1e-9);
  const own = extentOf(...lines.map((one) => inView(one, one.y)), zero ? [0] : []) ?? [0, 1];
  const room = Math.max(own[1] - own[0], 1e-6);
  const band = extentOf(
    ...lines.map((one) => inView(one, one.low ?? [])),
    ...lines.map((one) => inView(one, one.high ?? [])),
    own,
  )!;
  const [low, high] = [Math.max(band[0], own[0] - room / 2), Math.min(band[1], own[1] + room / 2)];
  const pad = Math.max(high - low, 1e-6) * 0.05;
  return [own[0] >= 0 && low - pad < 0 ? 0 : low - pad, high + pad];
}

/** The same numbers: a row a place of the line with most places. */
export function linesTable(
  lines: readonly ChartLine[],
  x: AxisWords,
  y: AxisWords,
  every = 4,
): TableModel {
  const longest = lines.reduce(
    (most, one) => (one.x.length > most.x.length ? one : most),
    lines[0]!,
  );
  const look = { decimals: y.decimals };
  return tableFrom(
    longest.x.filter((_, m) => m % every === 0),
    [
      numberColumn(x.label, x.unit, (at) => at, { decimals: x.decimals }),
      ...lines.flatMap((one): ColumnOf<number>[] => {
        const value = numberColumn<number>(
          one.label,
          y.unit,
          (at) => valueAt(one.x, one.y, at),
          look,
        );
        const { low, high } = one;
        if (low === undefined || high === undefined) return [value];
        const range = (at: number) => {
          const ends = { low: valueAt(one.x, low, at), high: valueAt(one.x, high, at) };
          return ends.low === null && ends.high === null ? null : ends;
        };
        return [value, rangeColumn(`${one.label}, 95 %`, y.unit, range, look)];
      }),
    ],
  );
}
