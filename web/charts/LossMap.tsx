import { contours } from 'd3-contour';
import { useId } from 'react';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { lossFill, rungColour } from '../theme/palette.ts';
import { Hatch, XAxis, YAxis } from './Axes.tsx';
import { Label, round } from './Label.tsx';
import { estimate, interval, percent, plain, rpm, setting } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { type Point, Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Scale, type Span, valueAt } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

type LossGrid = NonNullable<LadderAnswer['map']>;

/** Losses that get a line [%]. The first is about what a careful shop can see. */
const LEVELS = [0.5, 1, 2, 4, 8, 16] as const;

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
  const plot: Plot = {
    left: small * 3.3,
    top: small * 2,
    width: Math.max(10, width - small * 3.3 - 12),
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
        {LEVELS.map((level, at) => (
          <path
            key={level}
            data-level={level}
            d={contourPath(map, level, x, y)}
            fill={lossFill((at + 1) / LEVELS.length, palette)}
            stroke={palette.loss}
            strokeWidth={0.75}
            strokeOpacity={0.7}
          />
        ))}
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
      <YAxis plot={plot} scale={y} grid={false} every={56} format={(tick) => setting(tick, unit)} />
      {cursor === null && (
        <Label x={0} y={plot.top - small * 1.1} size={small} colour={palette.muted}>
          {axis}
        </Label>
      )}
      <XAxis plot={plot} scale={x} grid={false} label="engine speed, rpm" />
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

/** Region that loses at least `level`, as a path; contour places are grid places, half a cell in. */
function contourPath(map: LossGrid, level: number, x: Scale, y: Scale): string {
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

/** The figure on each line, written where the line crosses one upright, above and below the best. */
function LevelLabels({
  map,
  x,
  y,
  plot,
  limit,
  keepOff,
}: {
  map: LossGrid;
  x: Scale;
  y: Scale;
  plot: Plot;
  limit: number | null;
  /** The setting whose line no figure may stand on. */
  keepOff: number | null;
}) {
  const { palette, small } = useChartStyle();
  const uprights = [
    { speed: x.invert(plot.left + plot.width * 0.2), side: 1 },
    { speed: x.invert(plot.left + plot.width * 0.8), side: -1 },
  ] as const;
  const taken: [number, number][] = [];
  return (
    <g>
      {uprights.flatMap(({ speed, side }) =>
        LEVELS.map((level) => {
          const crossing = crossingOf(map, speed, level, side);
          if (crossing === null || (limit !== null && crossing > limit)) return null;
          const [px, py] = [x(speed), y(crossing)];
          const free = taken.every(
            ([tx, ty]) => Math.abs(tx - px) > 40 || Math.abs(ty - py) > small * 1.3,
          );
          const onLine = keepOff !== null && Math.abs(y(keepOff) - py) < small * 0.9;
          const inside = py > plot.top + small * 0.8 && py < plot.top + plot.height - small * 0.8;
          if (!free || !inside || onLine) return null;
          taken.push([px, py]);
          return (
            <Label
              key={`${level}${side}`}
              x={px}
              y={py}
              size={small}
              anchor="middle"
              rim={lossFill(LEVELS.indexOf(level) / LEVELS.length, palette)}
            >
              {percent(level, level < 1 ? 1 : 0)}
            </Label>
          );
        }),
      )}
    </g>
  );
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

function LeftLabel({
  left,
  unit,
  x,
  y,
  plot,
}: {
  left: NonNullable<LossMapProps['left']>;
  unit: string;
  x: Scale;
  y: Scale;
  plot: Plot;
}) {
  const { palette, label } = useChartStyle();
  const text = `${setting(left.value, unit)} ${left.name}`;
  const wide = textWidth(text, label, true);
  const from = Math.max(x(left.speedsRpm[0]), plot.left);
  const at = Math.min(from + 8, plot.left + plot.width - wide - 6);
  const below = y(left.value) + label * 2 < plot.top + plot.height;
  return (
    <Label x={at} y={y(left.value) + (below ? label : -label)} bold rim={palette.paper}>
      {text}
    </Label>
  );
}

/** Beyond the limit: hatched, its edge by speed where that is known; the careful edge dashed. */
function LimitEdge({
  props,
  x,
  y,
  plot,
  hatch,
}: {
  props: LossMapProps;
  x: Scale;
  y: Scale;
  plot: Plot;
  hatch: string;
}) {
  const { palette } = useChartStyle();
  const { limitBySpeed, limit, safeDirection, map } = props;
  const far = safeDirection === 'lower' ? plot.top : plot.top + plot.height;
  const bound = (value: number) => Math.min(Math.max(y(value), plot.top), plot.top + plot.height);
  const speeds =
    limitBySpeed?.speedRpm ?? (limit === null ? null : [map.speedRpm[0]!, map.speedRpm.at(-1)!]);
  if (speeds === null) return null;
  const edge = limitBySpeed?.value ?? speeds.map(() => limit!);
  const xs = speeds.map((speed) => x(speed));
  return (
    <g data-limit="">
      <path
        d={bandPath(
          xs,
          edge.map(bound),
          edge.map(() => far),
        )}
        fill={`url(#${hatch})`}
      />
      <path
        d={linePath(xs, edge.map(bound))}
        fill="none"
        stroke={palette.stop}
        strokeWidth={1.75}
      />
      {limitBySpeed !== null && (
        <path
          d={linePath(xs, limitBySpeed.low.map(bound))}
          fill="none"
          stroke={palette.stop}
          strokeDasharray="2 3"
        />
      )}
    </g>
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

function lossAt(map: LossGrid, { x: speedRpm, y: at }: Point): number | null {
  if (at === null) return null;
  const column = map.lossPercent.map((row) => valueAt(map.speedRpm, row, speedRpm));
  return valueAt(map.setting, column, at);
}

function readingText(map: LossGrid, unit: string, point: Point): string {
  const at = (list: readonly (number | null)[]) => valueAt(map.speedRpm, list, point.x);
  const best = `best ${estimate(at(map.bestSetting), unit)}, ${interval(at(map.bestLow), at(map.bestHigh))}`;
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

/** The same numbers as a table: the best of each speed, and what each rung that was run loses there. */
export function lossTable(map: LossGrid, rungs: readonly number[], unit: string, everyRpm = 250) {
  const settings = [...new Set(rungs)].sort((a, b) => a - b);
  const columns = [
    'engine speed, rpm',
    'best',
    'best, from – to',
    ...settings.map((rung) => `lost at ${setting(rung, unit)}, %`),
  ];
  const rows: string[][] = [];
  const [low, high] = extentOf(map.speedRpm) ?? [0, -1];
  for (let speed = Math.ceil(low / everyRpm) * everyRpm; speed <= high; speed += everyRpm) {
    const at = (list: readonly (number | null)[]) => valueAt(map.speedRpm, list, speed);
    rows.push([
      plain(speed, 0),
      estimate(at(map.bestSetting), unit),
      interval(at(map.bestLow), at(map.bestHigh)),
      ...settings.map((rung) => plain(lossAt(map, { x: speed, y: rung }))),
    ]);
  }
  return { columns, rows };
}
