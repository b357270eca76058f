import type { WeightResidual } from '../../src/trade/calibration/index.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { quantityColumn, type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { sideRoom, XAxis, YAxis } from './Axes.tsx';
import { Label } from './Label.tsx';
import { outside, plain, withUnit } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { extentOf, linear, type Plot, padded } from './scale.ts';

export interface ResidualChartProps {
  readonly width: number;
  readonly height: number;
  readonly units: UnitSystem;
  /** In the order they were read. */
  readonly residuals: readonly WeightResidual[];
  /** 95 % half-width of a torque read through the line, at a torque [N·m]. */
  readonly halfNm: (torqueNm: number) => number;
}

const PLACES = 60;

/** How far each reading stands off the line, going up and going down, in the band within which a torque is known. */
export function ResidualChart(props: ResidualChartProps) {
  const { width, height, units, residuals, halfNm } = props;
  const { palette, small, label, stroke, dot } = useChartStyle();
  const torque = outside('torque', units);
  const shown = (value: number) => torque.of(value);
  const most = Math.max(...residuals.map(({ appliedNm }) => appliedNm));
  const places = Array.from({ length: PLACES + 1 }, (_, at) => (at * most) / PLACES);
  const halves = places.map((at) => shown(halfNm(at)));
  const offs = residuals.map(({ residualNm }) => shown(residualNm));
  const range = padded(
    extentOf(
      offs,
      halves,
      halves.map((half) => -half),
    ) ?? [-1, 1],
    0.08,
  );
  const foot = small * 3.6;
  const top = small * 2.4;
  const left = sideRoom(range, height, small);
  const plot: Plot = {
    left,
    top,
    width: Math.max(10, width - left - 16),
    height: Math.max(10, height - top - foot),
  };
  const x = linear([0, shown(most)], [plot.left, plot.left + plot.width]);
  const y = linear(range, [plot.top + plot.height, plot.top]);
  const ways = (['up', 'down'] as const).map((way) => ({
    way,
    points: residuals
      .filter(({ direction }) => direction === way)
      .map(({ appliedNm, residualNm }) => ({ x: x(shown(appliedNm)), y: y(shown(residualNm)) })),
  }));
  const size = dot * 1.15;
  return (
    <Picture width={width} height={height} label={summaryOf(residuals, units)}>
      <path
        d={bandPath(
          places.map((at) => x(shown(at))),
          halves.map((half) => y(-half)),
          halves.map((half) => y(half)),
        )}
        fill={palette.band}
      />
      <XAxis plot={plot} scale={x} every={84} label={`torque of the weights, ${torque.symbol}`} />
      <YAxis plot={plot} scale={y} unit={torque.symbol} />
      <line
        x1={plot.left}
        x2={plot.left + plot.width}
        y1={y(0)}
        y2={y(0)}
        stroke={palette.muted}
        strokeWidth={1}
      />
      {ways.map(({ way, points }) => (
        <g key={way}>
          <path
            d={linePath(
              points.map((point) => point.x),
              points.map((point) => point.y),
            )}
            fill="none"
            stroke={palette.ink}
            strokeWidth={stroke}
            strokeDasharray={way === 'up' ? undefined : '5 4'}
          />
          {points.map((point, at) => (
            <path
              // biome-ignore lint/suspicious/noArrayIndexKey: readings keep their order
              key={at}
              d={arrow(point, size, way)}
              fill={way === 'up' ? palette.ink : palette.paper}
              stroke={palette.ink}
              strokeWidth={1.2}
            />
          ))}
        </g>
      ))}
      <Legend x={plot.left + 4} y={small * 1.1} size={size} />
      <Label
        x={plot.left + plot.width}
        y={small * 1.1}
        anchor="end"
        size={label}
        colour={palette.muted}
      >
        shaded: known within, 95 %
      </Label>
    </Picture>
  );
}

function Legend({ x, y, size }: { readonly x: number; readonly y: number; readonly size: number }) {
  const { palette, label } = useChartStyle();
  return (
    <g>
      <path d={arrow({ x: x + size, y }, size, 'up')} fill={palette.ink} stroke={palette.ink} />
      <Label x={x + 3 * size} y={y} size={label}>
        weights on
      </Label>
      <path
        d={arrow({ x: x + 3 * size + label * 6.6, y }, size, 'down')}
        fill={palette.paper}
        stroke={palette.ink}
        strokeWidth={1.2}
      />
      <Label x={x + 5 * size + label * 6.6} y={y} size={label}>
        weights off
      </Label>
    </g>
  );
}

/** A triangle that points the way the weights went. */
function arrow(at: { x: number; y: number }, size: number, way: 'up' | 'down'): string {
  const sign = way === 'up' ? -1 : 1;
  const round = (value: number) => Math.round(value * 100) / 100;
  return [
    `M${round(at.x)} ${round(at.y + sign * size)}`,
    `L${round(at.x + size)} ${round(at.y - sign * size * 0.8)}`,
    `L${round(at.x - size)} ${round(at.y - sign * size * 0.8)}Z`,
  ].join('');
}

function summaryOf(residuals: readonly WeightResidual[], units: UnitSystem): string {
  const torque = outside('torque', units);
  const worst = residuals.reduce((far, one) =>
    Math.abs(one.residualNm) > Math.abs(far.residualNm) ? one : far,
  );
  return `How far ${residuals.length} readings stand off the line; the farthest is ${withUnit(plain(torque.of(worst.residualNm), 2), torque.symbol)} at ${withUnit(plain(torque.of(worst.appliedNm), 0), torque.symbol)} going ${worst.direction}.`;
}

export function residualTable(residuals: readonly WeightResidual[], units: UnitSystem): TableModel {
  const torque = (title: string, of: (one: WeightResidual) => number) =>
    quantityColumn(title, 'torque', units, of, { decimals: 2 });
  return tableFrom(residuals, [
    torque('Weights make', ({ appliedNm }) => appliedNm),
    wordsColumn('Going', ({ direction }) => direction),
    torque('Reading', ({ readingNm }) => readingNm),
    torque('Off the line', ({ residualNm }) => residualNm),
    torque('Corrected', ({ correctedNm }) => correctedNm),
    torque('Known within ±', ({ expandedNm }) => expandedNm),
  ]);
}
