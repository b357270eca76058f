import { useChartStyle } from '../theme/chart-style.ts';
import { Label, round } from './Label.tsx';
import { plain } from './numbers.ts';
import { useSay } from './say.ts';
import { decimalsOf, linear, type Plot, type Scale, type Span, ticksFor } from './scale.ts';
import { textWidth } from './text.ts';

interface AxisProps {
  readonly plot: Plot;
  readonly scale: Scale;
  /** About how many pixels between ticks. */
  readonly every?: number;
  readonly format?: (value: number) => string;
  readonly grid?: boolean;
  /** Ticks whose labels would run into something else that stands on the axis [px]. */
  readonly avoid?: readonly number[];
}

/** Figures along the foot of a picture, with thin lines up through it. */
export function XAxis({
  plot,
  scale,
  every = 62,
  format,
  grid = true,
  avoid = [],
  label,
  drop = 0,
}: AxisProps & {
  readonly label?: string;
  /** Room between the foot of the plot and the figures. */
  readonly drop?: number;
}) {
  const { palette, small } = useChartStyle();
  const say = useSay();
  const ticks = ticksFor(scale, every * (small / 11.5));
  const decimals = decimalsOf(ticks);
  const foot = plot.top + plot.height;
  return (
    <g>
      {ticks.map((tick) => {
        const x = round(scale(tick));
        const text = format?.(tick) ?? say.plain(tick, decimals);
        const right = plot.left + plot.width + 11 - textWidth(text, small) / 2;
        const near = avoid.some((at) => Math.abs(at - x) < small * 3.1);
        return (
          <g key={tick}>
            {grid && (
              <line x1={x} x2={x} y1={plot.top} y2={foot} stroke={palette.grid} strokeWidth={1} />
            )}
            {!near && (
              <Label
                x={Math.min(x, right)}
                y={foot + drop + small * 1.25}
                size={small}
                colour={palette.muted}
                anchor="middle"
              >
                {text}
              </Label>
            )}
          </g>
        );
      })}
      {label !== undefined && (
        <Label
          x={plot.left + plot.width}
          y={foot + drop + small * 2.75}
          size={small}
          colour={palette.muted}
          anchor="end"
        >
          {label}
        </Label>
      )}
    </g>
  );
}

/**
 * Room that the figures along the left side need [px], whatever their decimals: judged by ticks at least as close as
 * those that are drawn, for an axis of at most `length` pixels.
 */
export function sideRoom(
  domain: Span,
  length: number,
  small: number,
  format?: (value: number) => string,
): number {
  const ticks = ticksFor(linear(domain, [length, 0]), 30);
  const decimals = decimalsOf(ticks);
  const texts = ticks.map((tick) => format?.(tick) ?? plain(tick, decimals));
  return 10 + Math.max(0, ...texts.map((text) => textWidth(text, small)));
}

/** Figures along the left side, the unit once above them. */
export function YAxis({
  plot,
  scale,
  every = 52,
  format,
  grid = true,
  unit,
}: AxisProps & { readonly unit?: string }) {
  const { palette, small } = useChartStyle();
  const say = useSay();
  const ticks = ticksFor(scale, every * (small / 11.5));
  const decimals = decimalsOf(ticks);
  return (
    <g>
      {ticks.map((tick) => {
        const y = round(scale(tick));
        return (
          <g key={tick}>
            {grid && (
              <line
                x1={plot.left}
                x2={plot.left + plot.width}
                y1={y}
                y2={y}
                stroke={palette.grid}
                strokeWidth={1}
              />
            )}
            <Label x={plot.left - 8} y={y} size={small} colour={palette.muted} anchor="end">
              {format?.(tick) ?? say.plain(tick, decimals)}
            </Label>
          </g>
        );
      })}
      {unit !== undefined && (
        <Label
          x={plot.left - 8}
          y={Math.min(...ticks.map((tick) => scale(tick)), plot.top + plot.height) - small * 1.7}
          size={small}
          colour={palette.muted}
          anchor="end"
        >
          {unit}
        </Label>
      )}
    </g>
  );
}

/** Slanting thin lines over what is out of bounds. */
export function Hatch({ id }: { readonly id: string }) {
  const { palette } = useChartStyle();
  return (
    <pattern
      id={id}
      width="7"
      height="7"
      patternUnits="userSpaceOnUse"
      patternTransform="rotate(45)"
    >
      <line
        x1="0"
        y1="0"
        x2="0"
        y2="7"
        stroke={palette.stop}
        strokeWidth="1.1"
        strokeOpacity="0.55"
      />
    </pattern>
  );
}
