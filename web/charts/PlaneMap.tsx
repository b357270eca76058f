import { useId } from 'react';
import type { TwoAnswer } from '../../src/ladder/two/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { lossFill } from '../theme/palette.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label } from './Label.tsx';
import { LossFills } from './LossFills.tsx';
import { LEVELS } from './loss-grid.ts';
import { estimate, percent, plain, setting } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { linePath } from './path.ts';
import { placeInWords, planeLossAt } from './plane-words.ts';
import { type Point, Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Scale } from './scale.ts';

export interface PlaneMapProps {
  readonly width: number;
  readonly height: number;
  readonly answer: TwoAnswer;
  /** What is left in the engine for the chosen use; null: not known. */
  readonly left: {
    readonly name: string;
    readonly leadDeg: number;
    readonly lambda: number;
  } | null;
  readonly cursor: Point | null;
  readonly onCursor?: (cursor: Point | null) => void;
}

/** What each lead and lambda gives up against the best of both: contours, the ridge, the pulls made and the next. */
export function PlaneMap({ width, height, answer, left, cursor, onCursor }: PlaneMapProps) {
  const { palette, small, label, stroke, dot } = useChartStyle();
  const id = useId().replace(/\W/g, '');
  const { map, ridge, dots, next } = answer;
  const leads = extentOf(map.leadDeg) ?? [0, 1];
  const lambdas = extentOf(map.lambda) ?? [0, 1];
  const side = sideRoom(lambdas, height, small, (tick) => plain(tick, 3));
  const plot: Plot = {
    left: side,
    top: small * 2,
    width: Math.max(10, width - side - 12),
    height: Math.max(10, height - small * 5.6),
  };
  const x = linear(leads, [plot.left, plot.left + plot.width]);
  const y = linear(lambdas, [plot.top + plot.height, plot.top]);
  const grid = {
    speedRpm: map.leadDeg,
    setting: map.lambda,
    lossPercent: map.lossPercent,
    bestSetting: [],
    bestLow: [],
    bestHigh: [],
  };
  const ridgeY = ridge.lambda.map((lambda) => y(lambda));
  const frame = { x: plot.left, y: plot.top, width: plot.width, height: plot.height };
  return (
    <Picture width={width} height={height} label={placeInWords(answer, left)}>
      <defs>
        <clipPath id={`${id}c`}>
          <rect {...frame} />
        </clipPath>
      </defs>
      <g clipPath={`url(#${id}c)`}>
        <LossFills {...{ grid, x, y }} />
        <Unknown map={map} x={x} y={y} />
        <Levels map={map} ridge={ridge} x={x} y={y} />
        <path
          d={`${linePath(ridge.lowDeg.map(x), ridgeY)}${linePath(
            [...ridge.highDeg].reverse().map(x),
            [...ridgeY].reverse(),
          ).replace('M', 'L')}Z`}
          fill={palette.ink}
          fillOpacity={0.08}
        />
        <path
          data-ridge=""
          d={linePath(ridge.leadDeg.map(x), ridgeY)}
          fill="none"
          stroke={palette.ink}
          strokeWidth={stroke}
          strokeDasharray="5 4"
        />
        {dots.map((one) => (
          <Dot key={one.id} {...one} x={x(one.leadDeg)} y={y(one.lambda)} r={dot} />
        ))}
        {next.at !== null && (
          <g data-next="">
            <circle
              cx={x(next.at.leadDeg)}
              cy={y(next.at.lambda)}
              r={dot * 2.1}
              fill="none"
              stroke={palette.gain}
              strokeWidth={stroke * 1.2}
            />
            <Label
              x={x(next.at.leadDeg)}
              y={y(next.at.lambda) - dot * 2.1 - small * 0.8}
              size={small}
              anchor="middle"
              bold
              rim={palette.paper}
            >
              {next.action === 'back' ? 'back to' : 'next'}
            </Label>
          </g>
        )}
        {left !== null && (
          <g data-left={left.name}>
            <path
              d={`M${x(left.leadDeg)} ${y(left.lambda) - dot * 1.5}l${dot * 1.5} ${dot * 1.5}l${-dot * 1.5} ${dot * 1.5}l${-dot * 1.5} ${-dot * 1.5}Z`}
              fill={palette.ink}
              stroke={palette.paper}
            />
            <Label
              x={x(left.leadDeg) + dot * 2.2}
              y={y(left.lambda) + dot * 2}
              size={small}
              rim={palette.paper}
            >
              {left.name}
            </Label>
          </g>
        )}
      </g>
      <rect {...frame} fill="none" stroke={palette.line} />
      <YAxis plot={plot} scale={y} grid={false} every={56} />
      {cursor === null && (
        <Label x={0} y={plot.top - small * 1.1} size={small} colour={palette.muted}>
          lambda, leaner upward
        </Label>
      )}
      <XAxis
        plot={plot}
        scale={x}
        grid={false}
        label="spark lead, degrees before top centre"
        format={(tick) => setting(tick, 'deg')}
      />
      <Label
        x={plot.left}
        y={plot.top + plot.height + small * 2.75}
        size={small}
        colour={palette.muted}
      >
        lines: % of mean power given up
      </Label>
      {cursor !== null && cursor.y !== null && (
        <g data-screen-only="">
          <path
            d={`M${x(cursor.x)} ${plot.top}V${plot.top + plot.height}M${plot.left} ${y(cursor.y)}H${plot.left + plot.width}`}
            stroke={palette.ink}
            strokeOpacity={0.6}
          />
          <Label
            x={plot.left + plot.width}
            y={plot.top - label}
            bold
            anchor="end"
            rim={palette.paper}
          >
            {readingText(answer, cursor)}
          </Label>
        </g>
      )}
      {onCursor !== undefined && (
        <Surface
          plot={plot}
          x={x}
          y={y}
          cursor={cursor}
          onCursor={onCursor}
          label="Spark lead and lambda"
          step={0.5}
          stepY={0.005}
          sentence={(point) => readingText(answer, point)}
          full={leads}
        />
      )}
    </Picture>
  );
}

/** The figure on each line, once, on the early side of the ridge where the pulls tell it. */
function Levels({
  map,
  ridge,
  x,
  y,
}: Pick<TwoAnswer, 'map' | 'ridge'> & { readonly x: Scale; readonly y: Scale }) {
  const { palette, small } = useChartStyle();
  const i = Math.round(0.42 * (map.lambda.length - 1));
  const row = map.lossPercent[i]!;
  return (
    <g>
      {LEVELS.map((level, at) => {
        const j = row.findLastIndex(
          (loss, column) =>
            map.leadDeg[column]! < ridge.leadDeg[i]! && loss >= level && map.known[i]![column]!,
        );
        if (j < 0 || row[j + 1]! >= level) return null;
        const share = (row[j]! - level) / (row[j]! - row[j + 1]!);
        const lead = map.leadDeg[j]! + share * (map.leadDeg[j + 1]! - map.leadDeg[j]!);
        return (
          <Label
            key={level}
            x={x(lead)}
            y={y(map.lambda[i]!)}
            size={small}
            anchor="middle"
            rim={lossFill(at / LEVELS.length, palette)}
          >
            {percent(level, level < 1 ? 1 : 0)}
          </Label>
        );
      })}
    </g>
  );
}

/** What the pulls do not tell: a veil over each cell of the picture. */
function Unknown({ map, x, y }: { map: TwoAnswer['map']; x: Scale; y: Scale }) {
  const { palette } = useChartStyle();
  const halfX = (map.leadDeg[1]! - map.leadDeg[0]!) / 2;
  const halfY = (map.lambda[1]! - map.lambda[0]!) / 2;
  const cells = map.known.flatMap((row, i) =>
    row.flatMap((known, j) => {
      if (known) return [];
      const [lead, lambda] = [map.leadDeg[j]!, map.lambda[i]!];
      return [
        `M${x(lead - halfX).toFixed(1)} ${y(lambda - halfY).toFixed(1)}H${x(lead + halfX).toFixed(1)}V${y(lambda + halfY).toFixed(1)}H${x(lead - halfX).toFixed(1)}Z`,
      ];
    }),
  );
  return <path data-unknown={cells.length} d={cells.join('')} fill={palette.chance} />;
}

/** A pull: filled where it ran clean, open where nobody watched, crossed where it reached a limit. */
function Dot({
  state,
  x,
  y,
  r,
}: Pick<TwoAnswer['dots'][number], 'state'> & {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}) {
  const { palette } = useChartStyle();
  if (state === 'limit')
    return (
      <g data-dot={state}>
        <circle cx={x} cy={y} r={r * 1.5} fill={palette.paper} fillOpacity={0.8} />
        <path
          d={`M${x - r} ${y - r}L${x + r} ${y + r}M${x - r} ${y + r}L${x + r} ${y - r}`}
          stroke={palette.stop}
          strokeWidth={2.25}
        />
      </g>
    );
  return (
    <circle
      data-dot={state}
      cx={x}
      cy={y}
      r={r}
      fill={state === 'clean' ? palette.ink : palette.paper}
      stroke={state === 'left out' ? palette.chanceLine : palette.ink}
      strokeWidth={1.5}
      strokeDasharray={state === 'left out' ? '2 2' : 'none'}
    />
  );
}

function readingText(answer: TwoAnswer, { x, y }: Point): string {
  const loss = planeLossAt(answer.map, x, y);
  const place = `${estimate(x, 'deg')} at lambda ${plain(y, 3)}`;
  if (loss === null) return place;
  return loss.known
    ? `${place}: ${percent(loss.value)} given up, ± ${percent(loss.half)}`
    : `${place}: not known from these pulls`;
}
