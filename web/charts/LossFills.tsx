import { useChartStyle } from '../theme/chart-style.ts';
import { lossFill } from '../theme/palette.ts';
import { contourPath, LEVELS, type LossGrid } from './loss-grid.ts';
import type { Scale } from './scale.ts';

/** What lies beyond each level of loss, filled the deeper the more is given up. */
export function LossFills({
  grid,
  x,
  y,
}: {
  readonly grid: LossGrid;
  readonly x: Scale;
  readonly y: Scale;
}) {
  const { palette } = useChartStyle();
  return LEVELS.map((level, at) => (
    <path
      key={level}
      data-level={level}
      d={contourPath(grid, level, x, y)}
      fill={lossFill((at + 1) / LEVELS.length, palette)}
      stroke={palette.loss}
      strokeWidth={0.75}
      strokeOpacity={0.7}
    />
  ));
}
