import { useChartStyle } from '../theme/chart-style.ts';
import { lossFill } from '../theme/palette.ts';
import { Label } from './Label.tsx';
import type { LossMapProps } from './LossMap.tsx';
import { crossingOf, LEVELS, type LossGrid } from './loss-grid.ts';
import { percent, setting } from './numbers.ts';
import { bandPath, linePath } from './path.ts';
import type { Plot, Scale } from './scale.ts';
import { textWidth } from './text.ts';

/** The figure on each line, written where the line crosses one upright, above and below the best. */
export function LevelLabels({
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

export function LeftLabel({
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
export function LimitEdge({
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
      <LimitLabel at={bound(edge.at(-1)!)} {...{ plot, safeDirection }} />
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

/** Names the edge at its right end, on the side that is not to be run. */
function LimitLabel({
  at,
  plot,
  safeDirection,
}: {
  at: number;
  plot: Plot;
  safeDirection: LossMapProps['safeDirection'];
}) {
  const { palette, label } = useChartStyle();
  const y = at + (safeDirection === 'lower' ? -label : label);
  if (y < plot.top + label * 0.6 || y > plot.top + plot.height - label * 0.6) return null;
  return (
    <Label
      x={plot.left + plot.width - 6}
      y={y}
      anchor="end"
      bold
      colour={palette.stop}
      rim={palette.paper}
    >
      limit
    </Label>
  );
}
