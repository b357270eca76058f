import { Fragment, useId } from 'react';
import type { StepAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { XAxis } from './Axes.tsx';
import { BandHandles } from './BandPicker.tsx';
import { Row, RowHead } from './GainRow.tsx';
import { readingOf, summaryOf } from './gain-words.ts';
import { Label } from './Label.tsx';
import { rpm } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Span, ticksFor } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

export interface GainChartProps {
  readonly width: number;
  readonly height: number;
  readonly steps: readonly StepAnswer[];
  /** Unit of the setting. */
  readonly unit: string;
  /** Smallest and largest setting of the ladder, for the ramp. */
  readonly settings: Span;
  readonly band: Span;
  /** Speeds the band may reach; with `onBand` its ends can be dragged. */
  readonly full: Span;
  readonly onBand?: (band: Span) => void;
  readonly cursorRpm: number | null;
  readonly onCursor?: (speedRpm: number | null) => void;
  readonly zoom?: Zoom;
}

/** What each step gained, by engine speed: one row a step, all on one scale, grey where chance could do it. */
export function GainChart(props: GainChartProps) {
  const { width, height, steps, unit, settings, band, full, onBand, cursorRpm, onCursor, zoom } =
    props;
  const { palette, small, label, stroke } = useChartStyle();
  const clip = useId().replace(/\W/g, '');
  const head = label * 2;
  const foot = small * 4.1 + 8;
  const plot: Plot = {
    left: small * 3.4,
    top: 0,
    width: Math.max(10, width - small * 3.4 - 14),
    height: Math.max(10, height - foot),
  };
  const rowHeight = plot.height / Math.max(1, steps.length);
  const x = linear(zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const range = gainRange(steps, band);
  const cursorPx =
    cursorRpm === null || cursorRpm < x.domain()[0]! || cursorRpm > x.domain()[1]!
      ? null
      : x(cursorRpm);
  const bandPx = band.map((at) => Math.min(Math.max(x(at), plot.left), plot.left + plot.width)) as [
    number,
    number,
  ];

  return (
    <Picture width={width} height={height} label={summaryOf(steps, unit)}>
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
      {steps.map((step, at) => {
        const row: Plot = {
          ...plot,
          top: at * rowHeight + head,
          height: Math.max(8, rowHeight - head - label * 0.6),
        };
        return (
          <Fragment key={`${step.from}-${step.to}`}>
            {at > 0 && (
              <line
                x1={0}
                x2={width}
                y1={at * rowHeight}
                y2={at * rowHeight}
                stroke={palette.line}
              />
            )}
            <Row
              {...{ step, row, x, range, clip, stroke, bandPx, cursorPx }}
              ticks={ticksFor(x, 62)}
            />
            <RowHead
              {...{ step, unit, settings, width, cursorRpm }}
              y={at * rowHeight + label * 1.1}
            />
          </Fragment>
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
          plot={plot}
          x={x}
          cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label="Engine speed"
          step={50}
          sentence={(point) =>
            `${rpm(point.x)}. ${steps.map((step) => readingOf(step, unit, point.x)).join('. ')}`
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

/** One scale for all rows: holds every line, and what chance could do where it counts; wide ends may run out. */
function gainRange(steps: readonly StepAnswer[], [from, to]: Span): Span {
  const lines = steps.flatMap(({ bySpeed }) => {
    const chance = bySpeed.chancePercent.filter(
      (_, at) => bySpeed.speedRpm[at]! >= from && bySpeed.speedRpm[at]! <= to,
    );
    return [bySpeed.gainPercent, chance, chance.map((value) => -value)];
  });
  const [low, high] = extentOf(...lines, [-1, 1])!;
  const room = (high - low) * 0.12;
  return [low - room, high + room];
}
