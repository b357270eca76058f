import { useId } from 'react';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { rungColour } from '../theme/palette.ts';
import { Hatch, sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label } from './Label.tsx';
import { LossFills } from './LossFills.tsx';
import { type LossGrid, lossAt } from './loss-grid.ts';
import { LeftLabel, LevelLabels, LimitEdge } from './loss-marks.tsx';
import { estimate, interval, percent, rpm, setting, settingDecimals } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { type Point, Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Scale, type Span, valueAt } from './scale.ts';
import type { Zoom } from './zoom.ts';

export interface LossMapProps {
  readonly width: number;
  readonly height: number;
  readonly map: LossGrid;
  readonly limitBySpeed: LadderAnswer['limitBySpeed'];
  readonly limit: number | null;
  readonly rungs: readonly number[];
  readonly unit: string;
  readonly axis: string;
  readonly safeDirection: 'lower' | 'higher';
  /** The setting left for the chosen use, over the speeds it visits. */
  readonly left: { readonly name: string; readonly value: number; readonly speedsRpm: Span } | null;
  readonly band: Span;
  readonly cursor: Point | null;
  readonly onCursor?: (cursor: Point | null) => void;
  readonly zoom?: Zoom;
}

/** Loss from the best setting of each speed, by speed and setting: paper where nothing is lost. */
export function LossMap(props: LossMapProps) {
  const { width, height, map, rungs, unit, axis, left, band, cursor, onCursor, zoom } = props;
  const { palette, small, label, stroke, dot } = useChartStyle();
  const id = useId().replace(/\W/g, '');
  const full = extentOf(map.speedRpm) ?? [0, 1];
  const settings = extentOf(map.setting) ?? [0, 1];
  const format = (tick: number) => setting(tick, unit, 3);
  const side = sideRoom(settings, height, small, format);
  const plot: Plot = {
    left: side,
    top: small * 2,
    width: Math.max(10, width - side - 12),
    height: Math.max(10, height - small * 5.6),
  };
  const x = linear(zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const y = linear(settings, [plot.top + plot.height, plot.top]);
  const xs = map.speedRpm.map((speed) => x(speed));
  const best = map.bestSetting.map((value) => (inSpan(value, settings) ? y(value) : null));
  const clampY = (value: number | null, otherwise: number) =>
    value === null ? otherwise : Math.min(Math.max(y(value), plot.top), plot.top + plot.height);

  return (
    <Picture width={width} height={height} label={summaryOf(props)}>
      <defs>
        <Hatch id={`${id}h`} />
        <clipPath id={`${id}c`}>
          <rect x={plot.left} y={plot.top} width={plot.width} height={plot.height} />
        </clipPath>
      </defs>
      <g clipPath={`url(#${id}c)`}>
        <LossFills grid={map} x={x} y={y} />
        <path
          d={bandPath(
            xs,
            map.bestLow.map((value) => clampY(value, plot.top + plot.height)),
            map.bestHigh.map((value) => clampY(value, plot.top)),
          )}
          fill={palette.ink}
          fillOpacity={0.07}
        />
        <LimitEdge {...{ props, x, y, plot }} hatch={`${id}h`} />
        {band.map((speed) => (
          <line
            key={speed}
            x1={x(speed)}
            x2={x(speed)}
            y1={plot.top}
            y2={plot.top + plot.height}
            stroke={palette.ink}
            strokeOpacity={0.35}
          />
        ))}
        <path
          d={linePath(xs, best)}
          fill="none"
          stroke={palette.ink}
          strokeWidth={stroke}
          strokeDasharray="5 4"
        />
        {left !== null && (
          <line
            data-left={left.name}
            x1={x(left.speedsRpm[0])}
            x2={x(left.speedsRpm[1])}
            y1={y(left.value)}
            y2={y(left.value)}
            stroke={palette.ink}
            strokeWidth={stroke * 1.6}
          />
        )}
        <LevelLabels {...{ map, x, y, plot, limit: props.limit }} keepOff={left?.value ?? null} />
        {left !== null && <LeftLabel {...{ left, unit, x, y, plot }} />}
      </g>
      <rect
        x={plot.left}
        y={plot.top}
        width={plot.width}
        height={plot.height}
        fill="none"
        stroke={palette.line}
      />
      <YAxis plot={plot} scale={y} grid={false} every={56} format={format} />
      {cursor === null && (
        <Label x={0} y={plot.top - small * 1.1} size={small} colour={palette.muted}>
          {axis}
        </Label>
      )}
      <XAxis plot={plot} scale={x} grid={false} label="engine speed, rpm" />
      <Label
        x={plot.left}
        y={plot.top + plot.height + small * 2.75}
        size={small}
        colour={palette.muted}
      >
        lines: % of torque lost
      </Label>
      {[...new Set(rungs)].map((rung) => (
        <circle
          key={rung}
          cx={plot.left}
          cy={y(rung)}
          r={dot * 0.8}
          fill={rungColour(rung, extentOf(rungs)!, palette)}
          stroke={palette.paper}
        />
      ))}
      {cursor !== null && <Cross {...{ cursor, map, unit, x, y, plot, label }} />}
      {onCursor !== undefined && (
        <Surface
          plot={plot}
          x={x}
          y={y}
          cursor={cursor}
          onCursor={onCursor}
          label="Engine speed and setting"
          step={50}
          stepY={0.5}
          sentence={(point) => readingText(map, unit, point)}
          full={full}
          {...(zoom === undefined ? {} : { zoom })}
        />
      )}
    </Picture>
  );
}

function Cross({
  cursor,
  map,
  unit,
  x,
  y,
  plot,
  label,
}: {
  cursor: Point;
  map: LossGrid;
  unit: string;
  x: Scale;
  y: Scale;
  plot: Plot;
  label: number;
}) {
  const { palette } = useChartStyle();
  const right = plot.left + plot.width;
  if (cursor.x < x.domain()[0]! || cursor.x > x.domain()[1]!) return null;
  const best = valueAt(map.speedRpm, map.bestSetting, cursor.x);
  const text =
    cursor.y === null
      ? `${rpm(cursor.x)}: best ${estimate(best, unit)}`
      : `${estimate(cursor.y, unit)} at ${rpm(cursor.x)}: ${percent(lossAt(map, cursor))} lost, best ${estimate(best, unit)}`;
  return (
    <g data-screen-only="">
      <line
        x1={x(cursor.x)}
        x2={x(cursor.x)}
        y1={plot.top}
        y2={plot.top + plot.height}
        stroke={palette.ink}
      />
      {cursor.y !== null && (
        <line
          x1={plot.left}
          x2={right}
          y1={y(cursor.y)}
          y2={y(cursor.y)}
          stroke={palette.ink}
          strokeOpacity={0.5}
        />
      )}
      <Label x={right} y={plot.top - label} bold anchor="end" rim={palette.paper}>
        {text}
      </Label>
    </g>
  );
}

function readingText(map: LossGrid, unit: string, point: Point): string {
  const at = (list: readonly (number | null)[]) => valueAt(map.speedRpm, list, point.x);
  const best = `best ${estimate(at(map.bestSetting), unit)}, ${interval(at(map.bestLow), at(map.bestHigh), settingDecimals(unit))}`;
  if (point.y === null) return `${rpm(point.x)}: ${best}`;
  return `${rpm(point.x)}, ${estimate(point.y, unit)}: ${percent(lossAt(map, point))} lost; ${best}`;
}

function summaryOf({ map, unit, left, axis }: LossMapProps): string {
  const middle = map.speedRpm.length >> 1;
  const places = [0, middle, map.speedRpm.length - 1].map(
    (at) => `${setting(map.bestSetting[at], unit)} at ${rpm(map.speedRpm[at])}`,
  );
  const line =
    left === null
      ? 'No setting to leave yet'
      : `Left for ${left.name}: ${setting(left.value, unit)}`;
  return `Loss from the best by engine speed and ${axis}. Best ${places.join(', ')}. ${line}.`;
}

const inSpan = (value: number, [low, high]: Span) => value >= low && value <= high;
