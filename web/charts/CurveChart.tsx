import { Fragment, useId } from 'react';
import type { Reached } from '../../src/pull/reached.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { type ChartStyle, useChartStyle } from '../theme/chart-style.ts';
import { type Palette, rungColour } from '../theme/palette.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { sentenceAt, summaryOf } from './curve-words.ts';
import { Label, round } from './Label.tsx';
import { type Outside, outside, threeFigures } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { Surface } from './Surface.tsx';
import { useSay } from './say.ts';
import { extentOf, linear, type Plot, padded, type Scale, type Span, valueAt } from './scale.ts';
import { dodge, textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

/** One pull as curves; lists share the places of `speedRpm`. */
export interface CurveSeries {
  readonly id: string;
  /** Short: it stands at the end of the line (`28°`, `pull 4`). */
  readonly label: string;
  /** Colours the line along the ramp; null draws it in ink with a dash of its own. */
  readonly setting: number | null;
  /** A colour that does not follow from a setting, such as that of a side. */
  readonly colour?: (palette: Palette) => string;
  /** Left out, or in the background. */
  readonly faint?: boolean;
  readonly speedRpm: readonly number[];
  readonly torqueNm: readonly number[];
  readonly lowNm: readonly number[];
  readonly highNm: readonly number[];
  readonly powerW: readonly number[];
  /** Places to mark on the torque line, such as blips. */
  readonly marks?: readonly {
    readonly fromRpm: number;
    readonly toRpm: number;
    readonly word: string;
  }[];
}

export interface CurveChartProps {
  readonly width: number;
  readonly height: number;
  readonly series: readonly CurveSeries[];
  readonly units: UnitSystem;
  /** Stretch the ladder is judged over, washed behind the lines. */
  readonly band?: Span | null;
  readonly cursorRpm: number | null;
  readonly onCursor?: (speedRpm: number | null) => void;
  readonly zoom?: Zoom;
  /** Curves that are still being drawn, by id; axes and places of names are those of the whole picture from the start. */
  readonly drawing?: Readonly<Record<string, Reached>>;
}

/** rad/s per rev/min. */
const RAD_PER_S = Math.PI / 30;
/** Of a line on a screen [px]; dashes are meant for it. */
const USUAL_STROKE = 1.75;
const DASHES = ['', '7 3', '2 3', '9 3 2 3', '4 2', '12 4'] as const;

/** Torque above power, one axis of speed: every pull with its band, named where its line ends. */
export function CurveChart(props: CurveChartProps) {
  const { width, height, series, units, band = null, cursorRpm, onCursor, zoom } = props;
  const { drawing = {} } = props;
  const style = useChartStyle();
  const { palette, small, label } = style;
  const say = useSay();
  const full = extentOf(...series.map((one) => one.speedRpm)) ?? [0, 1];
  const torque = outside('torque', units);
  const power = outside('power', units);
  const gutter =
    16 + Math.max(0, ...series.map((one) => textWidth(`${one.label}  88.8`, label, true)));
  const domain = zoom?.domain ?? full;
  const ranges = {
    torque: rangeOf(series, (one) => one.torqueNm, torque, domain),
    power: rangeOf(series, (one) => one.powerW, power, domain),
  };
  const left = Math.max(
    ...[ranges.torque, ranges.power].map((range) => sideRoom(range, height / 2, small)),
  );
  const wide = Math.max(10, width - left - gutter);
  const foot = small * 3.6;
  const each = Math.max(10, (height - foot - small * 4.4) / 2);
  const upper: Plot = { left, top: small * 2, width: wide, height: each };
  const lower: Plot = { left, top: small * 4.4 + each, width: wide, height: each };
  const whole: Plot = { left, top: upper.top, width: wide, height: lower.top + each - upper.top };
  const x = linear(domain, [left, left + wide]);

  // The speed at the cursor stands in the line of the title, and keeps clear of it.
  const beyondTitle =
    8 +
    textWidth(`${say.words.torque}, ${torque.symbol}`, small) +
    textWidth(say.rpm(cursorRpm), label, true) / 2;

  return (
    <Picture width={width} height={height} label={summaryOf(say, series, torque, power)}>
      {band !== null && (
        <rect
          x={clampTo(x(band[0]), whole)}
          width={Math.max(0, clampTo(x(band[1]), whole) - clampTo(x(band[0]), whole))}
          y={whole.top}
          height={whole.height}
          fill={palette.band}
        />
      )}
      <XAxis plot={whole} scale={x} every={84} label={say.words.speedAxis} />
      <Panel
        {...{ series, x, style, cursorRpm, drawing }}
        plot={upper}
        unit={torque}
        kind="torque"
        range={ranges.torque}
      />
      <Panel
        {...{ series, x, style, cursorRpm, drawing }}
        plot={lower}
        unit={power}
        kind="power"
        range={ranges.power}
      />
      {cursorRpm !== null && inside(x(cursorRpm), whole) && (
        <g data-screen-only="">
          <line
            x1={x(cursorRpm)}
            x2={x(cursorRpm)}
            y1={whole.top}
            y2={whole.top + whole.height}
            stroke={palette.ink}
          />
          <Label
            x={Math.max(x(cursorRpm), beyondTitle)}
            y={upper.top - small * 1.1}
            anchor="middle"
            bold
            rim={palette.paper}
          >
            {say.rpm(cursorRpm)}
          </Label>
        </g>
      )}
      {onCursor !== undefined && (
        <Surface
          plot={whole}
          x={x}
          cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label={say.words.speed}
          step={50}
          sentence={(point) => sentenceAt(say, series, torque, power, point.x)}
          full={full}
          {...(zoom === undefined ? {} : { zoom })}
        />
      )}
    </Picture>
  );
}

/** What a panel spans up and down: every line where it is in view, and a little air. */
function rangeOf(
  series: readonly CurveSeries[],
  valuesOf: (one: CurveSeries) => readonly number[],
  unit: Outside,
  [from, to]: Span,
): Span {
  const seen = series.flatMap((one) =>
    valuesOf(one).filter((_, at) => one.speedRpm[at]! >= from && one.speedRpm[at]! <= to),
  );
  const extent = extentOf(seen);
  return padded(extent === null ? [0, 1] : [unit.of(extent[0]), unit.of(extent[1])], 0.06, 1);
}

interface PanelProps {
  readonly series: readonly CurveSeries[];
  readonly plot: Plot;
  readonly x: Scale;
  readonly unit: Outside;
  readonly kind: 'torque' | 'power';
  readonly range: Span;
  readonly style: ChartStyle;
  readonly cursorRpm: number | null;
  readonly drawing: Readonly<Record<string, Reached>>;
}

function Panel({ series, plot, x, unit, kind, style, cursorRpm, range, drawing }: PanelProps) {
  const { palette, small, label, stroke, dot } = style;
  const say = useSay();
  const clip = useId().replace(/\W/g, '');
  const to = x.domain()[1]!;
  const lines = series.map((whole) => {
    const reached = drawing[whole.id];
    const one = reached === undefined ? whole : partOf(whole, reached);
    const value = (nm: number, at: number) =>
      unit.of(kind === 'torque' ? nm : nm * one.speedRpm[at]! * RAD_PER_S);
    const middle = (kind === 'torque' ? one.torqueNm : one.powerW).map((at) => unit.of(at));
    return { one, reached, middle, low: one.lowNm.map(value), high: one.highNm.map(value) };
  });
  const y = linear(range, [plot.top + plot.height, plot.top]);
  const rungs = extentOf(series.map((one) => one.setting)) ?? [0, 0];
  const colourOf = (one: CurveSeries) =>
    one.faint
      ? palette.chanceLine
      : one.colour !== undefined
        ? one.colour(palette)
        : one.setting === null
          ? palette.ink
          : rungColour(one.setting, rungs, palette);
  // A picture of 3840 pixels has its thin lines and dashes as much larger as its letters.
  const grown = stroke / USUAL_STROKE;
  const dashOf = (dash: string) => dash.replace(/\d+/g, (px) => String(round(Number(px) * grown)));
  let plainCount = 0;
  const dashes = series.map((one) =>
    one.setting === null && one.colour === undefined
      ? dashOf(DASHES[plainCount++ % DASHES.length]!)
      : '',
  );
  const ends = series.map(({ speedRpm, torqueNm, powerW }) => {
    const at = lastBefore(speedRpm, to);
    if (at === null) return plot.top + plot.height;
    return y(unit.of((kind === 'torque' ? torqueNm : powerW)[at]!));
  });
  // A curve among others that has no name takes no room beside the picture.
  const named = lines.flatMap(({ one }, at) => (one.label === '' && lines.length > 1 ? [] : [at]));
  const wished = named.map((at) => ends[at]!);
  const dodged = dodge(wished, label * 1.25, plot.top, plot.top + plot.height);
  const places = new Map(named.map((at, order) => [at, dodged[order]!]));
  return (
    <g data-panel={kind}>
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top - 4} width={plot.width} height={plot.height + 8} />
      </clipPath>
      <YAxis plot={plot} scale={y} every={40} />
      <Label x={0} y={plot.top - small * 1.1} size={small} colour={palette.muted}>
        {`${say.words[kind]}, ${unit.symbol}`}
      </Label>
      <g clipPath={`url(#${clip})`}>
        {lines.map(({ one, low, high }) =>
          one.faint ? null : (
            <path
              key={one.id}
              d={bandPath(
                one.speedRpm.map((at) => x(at)),
                low.map((at) => y(at)),
                high.map((at) => y(at)),
              )}
              fill={colourOf(one)}
              fillOpacity={0.14}
            />
          ),
        )}
        {lines.map(({ one, middle }, index) => (
          <path
            key={one.id}
            data-pull={one.id}
            d={linePath(
              one.speedRpm.map((at) => x(at)),
              middle.map((at) => y(at)),
            )}
            fill="none"
            stroke={colourOf(one)}
            strokeWidth={one.faint ? round(grown) : stroke}
            strokeDasharray={dashes[index] || undefined}
            strokeLinejoin="round"
          />
        ))}
        {kind === 'torque' &&
          lines.flatMap(({ one, middle }) =>
            (one.marks ?? []).map((mark) => {
              const at = (mark.fromRpm + mark.toRpm) / 2;
              const value = valueAt(one.speedRpm, middle, at);
              if (value === null) return null;
              const above = y(value) - dot * 1.5 - label * 1.3 > plot.top;
              return (
                <Fragment key={`${one.id}${mark.fromRpm}`}>
                  <circle
                    cx={x(at)}
                    cy={y(value)}
                    r={dot * 1.5}
                    fill="none"
                    stroke={palette.look}
                    strokeWidth={1.5}
                  />
                  <Label
                    x={Math.max(x(at), plot.left + textWidth(mark.word, small) / 2)}
                    y={y(value) + (above ? -1 : 1) * (dot * 1.5 + label * 0.7)}
                    anchor="middle"
                    size={small}
                    colour={palette.look}
                    rim={palette.paper}
                  >
                    {mark.word}
                  </Label>
                </Fragment>
              );
            }),
          )}
      </g>
      {lines.map(({ one, reached }, index) => {
        const standsAt = cursorRpm ?? reached?.atRpm ?? null;
        const { speedRpm, torqueNm, powerW } = series[index]!;
        const inside =
          standsAt === null
            ? null
            : valueAt(speedRpm, kind === 'torque' ? torqueNm : powerW, standsAt);
        const reading = inside === null ? null : unit.of(inside);
        const place = places.get(index);
        if (place === undefined) return null;
        // A lone curve in its own time: its figures run above the picture already.
        const isNamed = one.label !== '' || reached === undefined;
        const end = plot.left + plot.width;
        return (
          <g key={one.id}>
            {reached === undefined && (
              <path
                d={`M${end + 1} ${round(Math.min(Math.max(ends[index]!, plot.top), plot.top + plot.height))}L${end + 7} ${round(place)}`}
                fill="none"
                stroke={colourOf(one)}
                strokeWidth={1.25}
              />
            )}
            {isNamed && (
              <Label
                x={end + 11}
                y={place}
                colour={one.faint ? palette.muted : palette.ink}
                bold={!one.faint}
              >
                {reading === null ? (
                  one.label
                ) : (
                  <>
                    <tspan fontWeight={400} fill={palette.muted}>
                      {one.label}
                    </tspan>
                    <tspan dx={label * 0.5}>
                      {say.plain(reading, threeFigures(reached === undefined ? reading : range[1]))}
                    </tspan>
                  </>
                )}
              </Label>
            )}
            {reading !== null && standsAt !== null && (
              <circle
                {...(reached === undefined ? { 'data-screen-only': '' } : { 'data-tip': one.id })}
                cx={x(standsAt)}
                cy={y(reading)}
                r={reached === undefined ? 3 : dot * 0.7}
                fill={colourOf(one)}
              />
            )}
          </g>
        );
      })}
    </g>
  );
}

/**
 * What of a curve lies between two speeds, cut off between its points where they fall there. It begins where the sweep
 * began, so that the dashes of its line stand still while it grows.
 */
function partOf(one: CurveSeries, { fromRpm, toRpm }: Reached): CurveSeries {
  const { speedRpm } = one;
  const from = Math.max(fromRpm, speedRpm[0] ?? fromRpm);
  const to = Math.min(toRpm, speedRpm.at(-1) ?? toRpm);
  const within = speedRpm.flatMap((at, i) => (at > from && at < to ? [i] : []));
  const isFalling = from > speedRpm[0]! && to === speedRpm.at(-1);
  const cut = (list: readonly number[]) => {
    if (to <= from) return [];
    const [first, last] = [valueAt(speedRpm, list, from)!, valueAt(speedRpm, list, to)!];
    const part = [first, ...within.map((i) => list[i]!), last];
    return isFalling ? part.reverse() : part;
  };
  return {
    ...one,
    speedRpm: cut(speedRpm),
    torqueNm: cut(one.torqueNm),
    lowNm: cut(one.lowNm),
    highNm: cut(one.highNm),
    powerW: cut(one.powerW),
  };
}

function lastBefore(speeds: readonly number[], rpmTo: number): number | null {
  for (let at = speeds.length - 1; at >= 0; at -= 1) if (speeds[at]! <= rpmTo + 1e-6) return at;
  return null;
}

const inside = (px: number, plot: Plot) =>
  px >= plot.left - 0.5 && px <= plot.left + plot.width + 0.5;
const clampTo = (px: number, plot: Plot) =>
  Math.min(Math.max(px, plot.left), plot.left + plot.width);
