import { useChartStyle } from '../theme/chart-style.ts';
import { type Palette, rungColour } from '../theme/palette.ts';
import styles from './compare.module.css';
import { letterOf } from './words.ts';

/** Where along the ramp the others begin: below it they would be too near to ink. */
const FROM = 0.35;

/** Colour of a side: the first in ink, what is held against it along the ramp. */
export function sideColour(side: number, count: number, palette: Palette): string {
  if (side === 0) return palette.ink;
  const share = count < 3 ? 0.5 : (side - 1) / (count - 2);
  return rungColour(FROM + (1 - FROM) * share, [0, 1], palette);
}

/** A side's letter under a piece of its line. */
export function SideMark({ side, count }: { readonly side: number; readonly count: number }) {
  const { palette } = useChartStyle();
  return (
    <span className={styles.mark}>
      <b>{letterOf(side)}</b>
      <svg viewBox="0 0 20 4" aria-hidden="true">
        <line
          x1="0"
          x2="20"
          y1="2"
          y2="2"
          stroke={sideColour(side, count, palette)}
          strokeWidth="4"
        />
      </svg>
    </span>
  );
}
