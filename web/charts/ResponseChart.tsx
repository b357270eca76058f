import { useId } from 'react';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { rungColour } from '../theme/palette.ts';
import { Hatch, XAxis, YAxis } from './Axes.tsx';
import { Label, round } from './Label.tsx';
import {
  estimate,
  interval,
  type Outside,
  percent,
  plain,
  setting,
  threeFigures,
  withUnit,
} from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { Surface } from './Surface.tsx';
import {
  decimalsOf,
  extentOf,
  linear,
  type Plot,
  padded,
  type Scale,
  type Span,
  ticksFor,
  valueAt,
} from './scale.ts';
import { rowsFor, textWidth } from './text.ts';

/** A use and the setting left for it. */
export interface UseFlag {
  readonly name: string;
  readonly value: number;
  /** The use the page speaks about. */
  readonly chosen: boolean;
}

export interface ResponseChartProps {
  readonly width: number;
  readonly height: number;
  readonly answer: Pick<LadderAnswer, 'response' | 'dots' | 'best' | 'knee' | 'limit'>;
  readonly uses: readonly UseFlag[];
  /** Unit of the setting, and what its axis is called. */
  readonly unit: string;
  readonly axis: string;
  readonly safeDirection: 'lower' | 'higher';
  readonly power: Outside;
  readonly cursor: number | null;
  readonly onCursor?: (setting: number | null) => void;
}

/** Mean power in the band against the setting: every pull a dot, the band what those pulls leave possible. */
export function ResponseChart(props: ResponseChartProps) {
  const { width, height, answer, uses, unit, axis, safeDirection, power, cursor, onCursor } = props;
  const style = useChartStyle();
  const { palette, small, label, stroke, dot } = style;
  const id = useId().replace(/\W/g, '');
  const { response, dots, best, limit } = answer;
  const rungs = extentOf(dots.map((one) => one.setting)) ?? [0, 1];
  const domain = extentOf(
    response.setting,
    rungs,
    uses.map((use) => use.value),
  ) ?? [0, 1];
  const means = response.meanPowerW.map((value) => power.of(value));
  const whiskers = dots.flatMap((one) => [
    power.of(one.meanPowerW.low),
    power.of(one.meanPowerW.high),
  ]);
  const range = padded(extentOf(means, whiskers) ?? [0, 1], 0.06, 0.5);

  const ticks = ticksFor(linear(range, [height * 0.6, 0]), 52);
  const widest = ticks.map((tick) => textWidth(plain(tick, decimalsOf(ticks)), small));
  const left = 10 + Math.max(...widest, textWidth(power.symbol, small));
  const x = linear(padded(domain, 0.025), [left, width - 12]);
  const flags = uses.map((use) => ({ ...use, text: `${setting(use.value, unit)} ${use.name}` }));
  const spans = flags.map((flag): Span => {
    const half = textWidth(flag.text, label, true) / 2;
    const middle = Math.min(Math.max(x(flag.value), left + half), width - 12 - half);
    return [middle - half, middle + half];
  });
  const rows = rowsFor(spans, 10);
  const flagRoom = flags.length === 0 ? 0 : (Math.max(...rows) + 1) * label * 1.5 + 4;
  const plot: Plot = {
    left,
    top: small * 2 + flagRoom,
    width: Math.max(10, width - left - 12),
    height: Math.max(10, height - small * 2 - flagRoom - small * 3.6 - label * 2.4),
  };
  const y = linear(range, [plot.top + plot.height, plot.top]);
  const xs = response.setting.map((at) => round(x(at)));
  const inside = (watt: number) => clamp(y(power.of(watt)), plot.top - 4, plot.top + plot.height);
  const at = (value: number) => valueAt(response.setting, response.meanPowerW, value);
  const { knee } = answer;
  const past = (value: number) =>
    limit?.value != null &&
    (safeDirection === 'lower' ? value >= limit.value : value <= limit.value);
  const kneeKnown =
    knee.value !== null && knee.low !== null && knee.high !== null && !past(knee.value);
  const kneeWatt = kneeKnown ? at(knee.value!) : null;
  const foot: Plot = { ...plot, height: plot.height + label * 2.4 };

  return (
    <Picture width={width} height={height} label={summaryOf(props)}>
      <defs>
        <Hatch id={`${id}h`} />
        <clipPath id={`${id}c`}>
          <rect
            x={plot.left - 8}
            y={plot.top - 6}
            width={plot.width + 16}
            height={plot.height + 6}
          />
        </clipPath>
      </defs>
      <YAxis plot={plot} scale={y} unit={power.symbol} />
      <XAxis
        plot={foot}
        scale={x}
        grid={false}
        every={58}
        label={axis}
        format={(tick) => setting(tick, unit)}
      />
      <line
        x1={plot.left}
        x2={plot.left + plot.width}
        y1={foot.top + foot.height}
        y2={foot.top + foot.height}
        stroke={palette.line}
      />
      <path
        d={bandPath(xs, response.lowW.map(inside), response.highW.map(inside))}
        fill={palette.ink}
        fillOpacity={0.1}
        clipPath={`url(#${id}c)`}
      />
      <path
        d={linePath(
          xs,
          response.meanPowerW.map((watt) => y(power.of(watt))),
        )}
        clipPath={`url(#${id}c)`}
        fill="none"
        stroke={palette.ink}
        strokeWidth={stroke}
      />
      {limit !== null && limit.value !== null && (
        <LimitZone {...{ limit: limit.value, unit, x, plot, safeDirection }} hatch={`${id}h`} />
      )}
      {flags.map((flag, index) => {
        const watt = at(flag.value);
        const top = plot.top - flagRoom + rows[index]! * label * 1.5;
        const foot = watt === null ? plot.top + plot.height : y(power.of(watt));
        return (
          <g key={flag.name} data-use={flag.name}>
            <line
              x1={x(flag.value)}
              x2={x(flag.value)}
              y1={top + label * 1.25}
              y2={foot}
              stroke={palette.ink}
              strokeWidth={flag.chosen ? 1.5 : 1}
              strokeDasharray="2 3"
            />
            <circle
              cx={x(flag.value)}
              cy={foot}
              r={dot * 1.6}
              fill="none"
              stroke={palette.ink}
              strokeWidth={flag.chosen ? 1.75 : 1}
            />
            <Label
              x={(spans[index]![0] + spans[index]![1]) / 2}
              y={top + label * 0.6}
              anchor="middle"
              bold={flag.chosen}
              rim={palette.paper}
            >
              {flag.text}
            </Label>
          </g>
        );
      })}
      {kneeWatt !== null && knee.value !== null && (
        <KneeMark knee={knee.value} y={y(power.of(kneeWatt))} {...{ unit, x, plot }} />
      )}
      {dots.map((one) => (
        <g key={one.id} data-pull={one.id}>
          <line
            x1={x(one.setting)}
            x2={x(one.setting)}
            y1={inside(one.meanPowerW.low)}
            y2={inside(one.meanPowerW.high)}
            stroke={rungColour(one.setting, rungs, palette)}
            strokeWidth={stroke * 1.25}
          />
          <circle
            cx={x(one.setting)}
            cy={y(power.of(one.meanPowerW.value))}
            r={dot}
            fill={rungColour(one.setting, rungs, palette)}
            stroke={palette.paper}
            strokeWidth={1}
          />
        </g>
      ))}
      <BestBar {...{ best, unit, x, plot }} y={plot.top + plot.height + label * 1.75} />
      {cursor !== null && <Reading {...{ answer, power, unit, cursor, x, y, plot }} />}
      {onCursor !== undefined && (
        <Surface
          plot={foot}
          x={x}
          cursor={cursor === null ? null : { x: cursor, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label="Setting"
          step={0.25}
          sentence={(point) => readingText(props, point.x)}
        />
      )}
    </Picture>
  );
}

/** The interval of the best as a bar under the curve, its estimate a tick; an open end fades into an arrow. */
function BestBar({
  best,
  unit,
  x,
  plot,
  y,
}: {
  best: LadderAnswer['best'];
  unit: string;
  x: Scale;
  plot: Plot;
  y: number;
}) {
  const { palette, small } = useChartStyle();
  const right = plot.left + plot.width;
  if (best.low === null && best.high === null) {
    return (
      <Label
        x={plot.left + plot.width / 2}
        y={y - small * 0.6}
        size={small}
        colour={palette.muted}
        anchor="middle"
      >
        the best is not known yet
      </Label>
    );
  }
  const low = clamp(best.low === null ? plot.left : x(best.low), plot.left, right);
  const high = clamp(best.high === null ? right : x(best.high), plot.left, right);
  const text =
    best.value === null || best.high === null || best.low === null
      ? `best: ${interval(best.low, best.high)}`
      : `best ${estimate(best.value, unit)}, ${interval(best.low, best.high)}`;
  const half = textWidth(text, small) / 2;
  const middle = clamp((low + high) / 2, plot.left + half, right - half);
  return (
    <g>
      <Label x={middle} y={y - small * 1.05} size={small} anchor="middle" rim={palette.paper}>
        {text}
      </Label>
      <rect
        x={low}
        y={y}
        width={Math.max(2, high - low)}
        height={5}
        fill={palette.ink}
        fillOpacity={0.28}
      />
      {best.high === null && (
        <path d={`M${right - 1} ${y - 3}l7 5.5l-7 5.5Z`} fill={palette.ink} fillOpacity={0.5} />
      )}
      {best.low === null && (
        <path d={`M${plot.left + 1} ${y - 3}l-7 5.5l7 5.5Z`} fill={palette.ink} fillOpacity={0.5} />
      )}
      {best.value !== null && best.value >= x.domain()[0]! && best.value <= x.domain()[1]! && (
        <line
          x1={x(best.value)}
          x2={x(best.value)}
          y1={y - 3}
          y2={y + 8}
          stroke={palette.ink}
          strokeWidth={2}
        />
      )}
    </g>
  );
}

/** The knee hangs on the curve: a short upright with its name below, where the paper is usually free. */
function KneeMark({
  knee,
  unit,
  x,
  y,
  plot,
}: {
  knee: number;
  unit: string;
  x: Scale;
  /** Height of the curve at the knee [px]. */
  y: number;
  plot: Plot;
}) {
  const { palette, small } = useChartStyle();
  const text = `knee ${estimate(knee, unit)}`;
  const half = textWidth(text, small) / 2;
  const middle = clamp(x(knee), plot.left + half, plot.left + plot.width - half);
  const foot = Math.min(y + small * 3.4, plot.top + plot.height - small * 1.4);
  if (foot - y < small) return null;
  return (
    <g data-knee="">
      <line
        x1={x(knee)}
        x2={x(knee)}
        y1={y - 5}
        y2={foot}
        stroke={palette.ink}
        strokeWidth={1.25}
      />
      <Label
        x={middle}
        y={foot + small * 0.75}
        size={small}
        colour={palette.muted}
        anchor="middle"
        rim={palette.paper}
      >
        {text}
      </Label>
    </g>
  );
}

function LimitZone({
  limit,
  unit,
  x,
  plot,
  safeDirection,
  hatch,
}: {
  limit: number;
  unit: string;
  x: Scale;
  plot: Plot;
  safeDirection: 'lower' | 'higher';
  hatch: string;
}) {
  const { palette, label } = useChartStyle();
  const right = plot.left + plot.width;
  const at = clamp(x(limit), plot.left, right);
  const [from, to] = safeDirection === 'lower' ? [at, right] : [plot.left, at];
  const text = `limit ${estimate(limit, unit)}`;
  const onRight = at + textWidth(text, label, true) + 8 < right;
  return (
    <g data-limit="">
      <rect
        x={from}
        y={plot.top}
        width={Math.max(0, to - from)}
        height={plot.height}
        fill={`url(#${hatch})`}
      />
      <line
        x1={at}
        x2={at}
        y1={plot.top}
        y2={plot.top + plot.height}
        stroke={palette.stop}
        strokeWidth={1.75}
      />
      <Label
        x={onRight ? at + 7 : at - 7}
        y={plot.top + plot.height - label}
        bold
        colour={palette.stop}
        anchor={onRight ? 'start' : 'end'}
        rim={palette.paper}
      >
        {text}
      </Label>
    </g>
  );
}

function Reading({
  answer,
  power,
  unit,
  cursor,
  x,
  y,
  plot,
}: {
  answer: ResponseChartProps['answer'];
  power: Outside;
  unit: string;
  cursor: number;
  x: Scale;
  y: Scale;
  plot: Plot;
}) {
  const { palette, label } = useChartStyle();
  const watt = valueAt(answer.response.setting, answer.response.meanPowerW, cursor);
  if (watt === null) return null;
  const text = readingText({ answer, power, unit }, cursor);
  const wide = textWidth(text, label, true);
  const middle = clamp(x(cursor), plot.left + wide / 2, plot.left + plot.width - wide / 2);
  return (
    <g data-screen-only="">
      <line
        x1={x(cursor)}
        x2={x(cursor)}
        y1={plot.top}
        y2={plot.top + plot.height}
        stroke={palette.ink}
      />
      <circle cx={x(cursor)} cy={y(power.of(watt))} r={3} fill={palette.ink} />
      <Label
        x={middle}
        y={plot.top + plot.height - label * 0.9}
        anchor="middle"
        bold
        rim={palette.paper}
      >
        {text}
      </Label>
    </g>
  );
}

function readingText(
  { answer, power, unit }: Pick<ResponseChartProps, 'answer' | 'power' | 'unit'>,
  at: number,
): string {
  const { setting: places, meanPowerW, lowW, highW } = answer.response;
  const [mean, low, high] = [meanPowerW, lowW, highW].map((list) => valueAt(places, list, at));
  if (mean === null || mean === undefined) return `${estimate(at, unit)}: nothing known here`;
  const top = Math.max(...meanPowerW);
  const given = (1 - mean / top) * 100;
  const decimals = threeFigures(power.of(mean));
  const band = `${plain(power.of(low!), decimals)} to ${plain(power.of(high!), decimals)}`;
  return `${estimate(at, unit)}: ${withUnit(plain(power.of(mean), decimals), power.symbol)} (${band}), ${percent(given)} below the top`;
}

function summaryOf({ answer, uses, unit, power }: ResponseChartProps): string {
  const pulls = answer.dots.map(
    (one) =>
      `${setting(one.setting, unit)} ${plain(power.of(one.meanPowerW.value), threeFigures(power.of(one.meanPowerW.value)))} ${power.symbol}`,
  );
  const left = uses.map((use) => `${setting(use.value, unit)} for ${use.name}`).join(', ');
  const limit = answer.limit?.value == null ? '' : ` Limit ${estimate(answer.limit.value, unit)}.`;
  return `Power against setting. Best ${interval(answer.best.low, answer.best.high)}. ${left === '' ? 'No setting to leave yet' : `Left: ${left}`}.${limit} Pulls: ${pulls.join('; ')}.`;
}

const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);

/** The same numbers as a table: each pull, then the curve at whole ticks. */
export function responseTable({
  answer,
  unit,
  power,
  nameOf = (id) => `pull ${id}`,
}: Pick<ResponseChartProps, 'answer' | 'unit' | 'power'> & {
  /** What a pull is called. */
  readonly nameOf?: (id: string) => string;
}) {
  const { response, dots } = answer;
  const columns = ['what', 'setting', `power, ${power.symbol}`, `95 % from – to, ${power.symbol}`];
  const line = (what: string, at: number, value: number, low: number, high: number) => [
    what,
    setting(at, unit, 2),
    plain(power.of(value), 1),
    `${plain(power.of(low), 1)} to ${plain(power.of(high), 1)}`,
  ];
  const rows = dots.map((one) =>
    line(
      nameOf(one.id),
      one.setting,
      one.meanPowerW.value,
      one.meanPowerW.low,
      one.meanPowerW.high,
    ),
  );
  const domain = extentOf(response.setting);
  if (domain !== null) {
    const ticks = ticksFor(linear(domain, [0, 600]), 50);
    const decimals = decimalsOf(ticks);
    for (const tick of ticks) {
      const [mean, low, high] = [response.meanPowerW, response.lowW, response.highW].map((list) =>
        valueAt(response.setting, list, tick),
      );
      if (mean != null && low != null && high != null) {
        rows.push(line('curve', Number(tick.toFixed(decimals)), mean, low, high));
      }
    }
  }
  return { columns, rows };
}
