import { numberColumn, type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import type { Palette } from '../theme/palette.ts';
import { sideRoom, YAxis } from './Axes.tsx';
import { Label, round } from './Label.tsx';
import { signed, signedPercent } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, padded } from './scale.ts';

/** A pull of a part test that counts. */
export interface PartDot {
  readonly side: 'a' | 'b';
  /** `pull 5`. */
  readonly name: string;
  /** Mean power against the mean of A [%]. */
  readonly percent: number;
}

/** The day's drift as two lines, one a side: percent at the first and at the last pull made. */
export type PartLines = Readonly<Record<'a' | 'b', readonly [number, number]>>;

interface PartChartProps {
  readonly width: number;
  readonly height: number;
  /** In the order made. */
  readonly dots: readonly PartDot[];
  /** What the plan still asks for, in its order. */
  readonly planned: readonly ('a' | 'b')[];
  /** Null: not known yet. */
  readonly lines: PartLines | null;
  readonly colourOf: (side: 'a' | 'b', palette: Palette) => string;
  /** Place of a pull, from 0. */
  readonly cursor: number | null;
  readonly onCursor?: (place: number | null) => void;
}

/** Every pull in the order made by its mean power, the drift of the day as a pair of lines, and what is still to come. */
export function PartChart(props: PartChartProps) {
  const { width, height, dots, planned, lines, colourOf, cursor, onCursor } = props;
  const { palette, small, label, stroke, dot } = useChartStyle();
  const range = padded(
    extentOf(
      dots.map(({ percent }) => percent),
      lines === null ? [] : [...lines.a, ...lines.b],
      [0],
    )!,
    0.15,
    1,
  );
  const left = sideRoom(range, height, small, (tick) => signed(tick));
  const plot: Plot = {
    left,
    top: label * 2,
    width: Math.max(10, width - left - 12),
    height: Math.max(10, height - label * 2 - small * 4),
  };
  const count = Math.max(2, dots.length + planned.length);
  const x = linear([-0.6, count - 0.4], [plot.left, plot.left + plot.width]);
  const y = linear(range, [plot.top + plot.height, plot.top]);
  const foot = plot.top + plot.height;
  const now = cursor === null ? null : Math.max(0, Math.min(dots.length - 1, Math.round(cursor)));
  const reading = now === null ? undefined : dots[now];
  return (
    <Picture width={width} height={height} label={summaryOf(dots, planned)}>
      <YAxis plot={plot} scale={y} every={44} format={(tick) => signed(tick)} />
      <Label x={0} y={label * 0.6} size={small} colour={palette.muted}>
        mean power against the mean of A, %
      </Label>
      {reading !== undefined && (
        <g data-screen-only="">
          <Label x={width - 12} y={label * 0.6} anchor="end" bold>
            {`${reading.name}, ${reading.side.toUpperCase()}: ${signedPercent(reading.percent, 2)}`}
          </Label>
          <line x1={x(now!)} x2={x(now!)} y1={plot.top} y2={foot} stroke={palette.ink} />
        </g>
      )}
      {planned.length > 0 && (
        <rect
          x={x(dots.length - 0.5)}
          width={Math.max(0, plot.left + plot.width - x(dots.length - 0.5))}
          y={plot.top}
          height={plot.height}
          fill={palette.band}
        />
      )}
      {lines !== null &&
        (['a', 'b'] as const).map((side) => (
          <line
            key={side}
            x1={x(0)}
            x2={x(dots.length - 1)}
            y1={round(y(lines[side][0]))}
            y2={round(y(lines[side][1]))}
            stroke={colourOf(side, palette)}
            strokeWidth={stroke * 0.8}
            strokeDasharray="6 4"
          />
        ))}
      {dots.map(({ side, percent }, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a pull is its place in the order made
        <g key={at} data-side={side}>
          <circle
            cx={round(x(at))}
            cy={round(y(percent))}
            r={dot * 1.2}
            fill={colourOf(side, palette)}
          />
          <Label x={x(at)} y={foot + small * 1.3} size={small} bold anchor="middle">
            {side.toUpperCase()}
          </Label>
        </g>
      ))}
      {planned.map((side, at) => (
        <Label
          // biome-ignore lint/suspicious/noArrayIndexKey: a planned pull is its place in the order
          key={at}
          x={x(dots.length + at)}
          y={foot + small * 1.3}
          size={small}
          colour={palette.muted}
          anchor="middle"
        >
          {side.toUpperCase()}
        </Label>
      ))}
      <Label
        x={plot.left + plot.width}
        y={foot + small * 2.9}
        size={small}
        colour={palette.muted}
        anchor="end"
      >
        {planned.length > 0 ? 'order made; still to come on the wash' : 'order made'}
      </Label>
      {onCursor !== undefined && dots.length > 0 && (
        <Surface
          plot={plot}
          x={x}
          cursor={cursor === null ? null : { x: cursor, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label="Pull"
          step={1}
          sentence={(point) => {
            const one = dots[Math.max(0, Math.min(dots.length - 1, Math.round(point.x)))]!;
            return `${one.name}, ${one.side.toUpperCase()}: ${signedPercent(one.percent, 2)}`;
          }}
        />
      )}
    </Picture>
  );
}

function summaryOf(dots: readonly PartDot[], planned: readonly ('a' | 'b')[]): string {
  const said = dots.map(
    ({ side, percent }) => `${side.toUpperCase()} ${signedPercent(percent, 1)}`,
  );
  const next = planned[0] === undefined ? '' : ` Next: ${planned[0].toUpperCase()}.`;
  return `Pulls in the order made, against the mean of A. ${said.join(', ')}.${next}`;
}

/** The same numbers as a table. */
export const partTable = (dots: readonly PartDot[]): TableModel =>
  tableFrom(dots, [
    wordsColumn('pull', ({ name }) => name),
    wordsColumn('side', ({ side }) => side.toUpperCase()),
    numberColumn('mean power against the mean of A', '%', ({ percent }) => percent, {
      decimals: 2,
      signed: true,
    }),
  ]);
