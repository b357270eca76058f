import { useId } from 'react';
import { useChartStyle } from '../theme/chart-style.ts';
import { rungColour } from '../theme/palette.ts';
import { Hatch, sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label, round } from './Label.tsx';
import type { Outside } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { BestBar, KneeMark, LimitZone } from './response-marks.tsx';
import { type ResponseChartProps, readingText, settingSpan, summaryOf } from './response-words.ts';
import { Surface } from './Surface.tsx';
import { useSay } from './say.ts';
import { extentOf, linear, type Plot, padded, type Scale, type Span, valueAt } from './scale.ts';
import { type Box, rowsFor, textWidth } from './text.ts';

/** Mean power in the band against the setting: every pull a dot, the band what those pulls leave possible. */
export function ResponseChart(props: ResponseChartProps) {
  const { width, height, answer, uses, unit, axis, safeDirection, power } = props;
  const { cursor, onCursor, zoom } = props;
  const style = useChartStyle();
  const { palette, small, label, stroke, dot } = style;
  const say = useSay();
  const { setting } = say;
  const id = useId().replace(/\W/g, '');
  const { response, dots, best, limit } = answer;
  const rungs = extentOf(dots.map((one) => one.setting)) ?? [0, 1];
  const full = settingSpan(answer, uses);
  const domain = zoom?.domain ?? full;
  const shown = (at: number) => at >= domain[0] && at <= domain[1];
  const seen = dots.filter((one) => shown(one.setting));
  const means = response.meanPowerW
    .filter((_, at) => shown(response.setting[at]!))
    .map((value) => power.of(value));
  const whiskers = seen.flatMap((one) => [
    power.of(one.meanPowerW.low),
    power.of(one.meanPowerW.high),
  ]);
  const range = padded(extentOf(means, whiskers) ?? [0, 1], 0.06, 0.5);

  const left = Math.max(sideRoom(range, height, small), 10 + textWidth(power.symbol, small));
  const x = linear(domain, [left, width - 12]);
  const flags = uses
    .filter((use) => shown(use.value))
    .map((use) => ({ ...use, text: `${setting(use.value, unit)} ${use.name}` }));
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
    knee.value !== null &&
    knee.low !== null &&
    knee.high !== null &&
    shown(knee.value) &&
    !past(knee.value);
  const kneeWatt = kneeKnown ? at(knee.value!) : null;
  const taken = seen.map((one): Box => {
    const [centre, middle] = [x(one.setting), y(power.of(one.meanPowerW.value))];
    return {
      left: centre - dot,
      right: centre + dot,
      top: Math.min(middle - dot, inside(one.meanPowerW.high)),
      bottom: Math.max(middle + dot, inside(one.meanPowerW.low)),
    };
  });
  const foot: Plot = { ...plot, height: plot.height + label * 2.4 };

  return (
    <Picture width={width} height={height} label={summaryOf(props, say)}>
      <defs>
        <Hatch id={`${id}h`} />
        <clipPath id={`${id}c`}>
          <rect x={plot.left} y={plot.top - 6} width={plot.width} height={plot.height + 6} />
        </clipPath>
      </defs>
      <YAxis plot={plot} scale={y} unit={power.symbol} />
      <XAxis
        plot={foot}
        scale={x}
        grid={false}
        every={58}
        label={axis}
        format={(tick) => setting(tick, unit, 3)}
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
        <LimitZone
          {...{ limit: limit.value, unit, x, plot, safeDirection, taken }}
          hatch={`${id}h`}
        />
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
          </g>
        );
      })}
      {flags.map((flag, index) => (
        <Label
          key={flag.name}
          x={(spans[index]![0] + spans[index]![1]) / 2}
          y={plot.top - flagRoom + rows[index]! * label * 1.5 + label * 0.6}
          anchor="middle"
          bold={flag.chosen}
          rim={palette.paper}
        >
          {flag.text}
        </Label>
      ))}
      {kneeWatt !== null && knee.value !== null && (
        <KneeMark
          knee={knee.value}
          y={y(power.of(kneeWatt))}
          {...{ unit, x, plot }}
          limitX={limit?.value == null ? null : x(limit.value)}
        />
      )}
      {seen.map((one) => (
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
          label={say.words.setting}
          step={0.25}
          sentence={(point) => readingText(props, point.x, say)}
          full={full}
          {...(zoom === undefined ? {} : { zoom })}
        />
      )}
    </Picture>
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
  const say = useSay();
  const watt = valueAt(answer.response.setting, answer.response.meanPowerW, cursor);
  if (watt === null) return null;
  const text = readingText({ answer, power, unit }, cursor, say);
  // Where it is wider than the picture, what is lost stands below.
  const lines = textWidth(text, label, true) <= plot.width ? [text] : text.split(/(?<=\)), /);
  const wide = Math.max(...lines.map((line) => textWidth(line, label, true)));
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
      {lines.map((line, at) => (
        <Label
          key={line}
          x={middle}
          y={plot.top + plot.height - label * (0.9 + 1.25 * (lines.length - 1 - at))}
          anchor="middle"
          bold
          rim={palette.paper}
        >
          {line}
        </Label>
      ))}
    </g>
  );
}

const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);
