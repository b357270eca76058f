import { useId } from 'react';
import { useChartStyle } from '../theme/chart-style.ts';
import { XAxis } from './Axes.tsx';
import { BandHandles } from './BandPicker.tsx';
import { DifferenceHead, DifferencePlot } from './DifferenceRow.tsx';
import { type DifferenceRow, differenceSentence, differenceSummary } from './difference-words.ts';
import { Label } from './Label.tsx';
import { type Outside, rpm } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Span } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

export interface DifferenceChartProps {
  readonly width: number;
  readonly height: number;
  /** Each later side against the first. */
  readonly rows: readonly DifferenceRow[];
  /** How inside differences become figures; see `differenceUnit`. */
  readonly unit: Outside;
  readonly band: Span;
  /** Speeds the band may reach; with `onBand` its ends can be dragged. */
  readonly full: Span;
  readonly onBand?: (band: Span) => void;
  readonly cursorRpm: number | null;
  readonly onCursor?: (speedRpm: number | null) => void;
  readonly zoom?: Zoom;
}

/** What each side has over the first, by engine speed: a row a side on one scale, grey where chance could do it. */
export function DifferenceChart(props: DifferenceChartProps) {
  const { width, height, rows, unit, band, full, onBand, cursorRpm, onCursor, zoom } = props;
  const { palette, small, label } = useChartStyle();
  const clip = useId().replace(/\W/g, '');
  const head = label * 2.2;
  const foot = small * 4.1 + 8;
  const left = small * 3.6;
  const plot: Plot = {
    left,
    top: 0,
    // The figure of a band's end stands half beyond it.
    width: Math.max(10, width - left - small * 1.7),
    height: Math.max(10, height - foot),
  };
  const rowHeight = plot.height / Math.max(1, rows.length);
  const x = linear(zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const range = rangeOf(rows, unit, x.domain() as [number, number], band);
  const isSeen = (at: number) => at >= x.domain()[0]! && at <= x.domain()[1]!;
  const cursorPx = cursorRpm === null || !isSeen(cursorRpm) ? null : x(cursorRpm);

  return (
    <Picture width={width} height={height} label={differenceSummary(rows)}>
      <clipPath id={clip}>
        <rect x={plot.left} y={0} width={plot.width} height={height} />
      </clipPath>
      <XAxis
        plot={plot}
        scale={x}
        grid={false}
        drop={7 + small * 0.35}
        {...(cursorPx !== null && cursorPx > width - small * 17
          ? {}
          : { label: 'engine speed, rpm' })}
        avoid={band.map((at) => x(at))}
      />
      {rows.map((row, at) => {
        const place: Plot = {
          ...plot,
          top: at * rowHeight + head,
          height: Math.max(8, rowHeight - head - label * 0.4),
        };
        return (
          <g key={row.letter}>
            {at > 0 && (
              <line
                x1={0}
                x2={width}
                y1={at * rowHeight}
                y2={at * rowHeight}
                stroke={palette.line}
              />
            )}
            <DifferencePlot {...{ row, unit, x, range, clip, band, cursorPx }} plot={place} />
            <DifferenceHead
              {...{ row, unit, width, cursorRpm }}
              y={at * rowHeight + label * 1.05}
            />
          </g>
        );
      })}
      {cursorPx !== null && (
        <g data-screen-only="">
          <Label
            x={Math.min(
              Math.max(cursorPx, plot.left),
              width - textWidth('8888 rpm', small, true) / 2,
            )}
            y={plot.height + 7 + small * 3.1}
            size={small}
            bold
            anchor="middle"
          >
            {rpm(cursorRpm)}
          </Label>
        </g>
      )}
      {onCursor !== undefined && (
        <Surface
          plot={{ ...plot, top: head, height: Math.max(8, plot.height - head) }}
          x={x}
          cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label="Engine speed"
          step={50}
          sentence={(point) =>
            `${rpm(point.x)}. ${rows.map((row) => differenceSentence(row, unit, point.x)).join('. ')}`
          }
          full={full}
          {...(zoom === undefined ? {} : { zoom })}
        />
      )}
      <BandHandles
        {...{ plot, scale: x, full, band }}
        {...(onBand === undefined ? {} : { onBand })}
      />
    </Picture>
  );
}

/** Wide ends of a band may run out by this much of what the lines themselves span. */
const BAND_ROOM = 0.75;

/**
 * One scale for all rows: zero, every line in view, what chance could do where it counts, and as much of the bands as
 * leaves the lines readable.
 */
function rangeOf(rows: readonly DifferenceRow[], unit: Outside, view: Span, band: Span): Span {
  const all = (read: (row: DifferenceRow) => readonly number[], [from, to]: Span) =>
    rows.flatMap((row) => {
      const speeds = row.difference.speedRpm;
      return read(row)
        .filter((_, m) => speeds[m]! >= from && speeds[m]! <= to)
        .map(unit.of);
    });
  const chance = all(({ difference }) => difference.chance, band);
  const [low, high] = extentOf(
    [0],
    all(({ difference }) => difference.value, view),
    chance,
    chance.map((value) => -value),
  )!;
  const most = (high - low) * BAND_ROOM;
  const [bandLow, bandHigh] = extentOf(
    all(({ difference }) => difference.low, view),
    all(({ difference }) => difference.high, view),
    [low, high],
  )!;
  const [least, top] = [Math.max(bandLow, low - most), Math.min(bandHigh, high + most)];
  const room = Math.max(top - least, 1e-6) * 0.06;
  return [least - room, top + room];
}
