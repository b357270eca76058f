import { DifferenceHead, DifferencePlot } from './DifferenceRow.tsx';
import { type DifferenceRow, differenceSentence, differenceSummary } from './difference-words.ts';
import type { Outside } from './numbers.ts';
import { SpeedRows, type SpeedRowsProps } from './SpeedRows.tsx';
import { useSay } from './say.ts';
import { extentOf, type Span } from './scale.ts';

export interface DifferenceChartProps extends SpeedRowsProps {
  /** Each later side against the first. */
  readonly rows: readonly DifferenceRow[];
  /** How inside differences become figures; see `differenceUnit`. */
  readonly unit: Outside;
}

/** What each side has over the first, by engine speed: a row a side on one scale, grey where chance could do it. */
export function DifferenceChart({ rows, unit, ...props }: DifferenceChartProps) {
  const say = useSay();
  const range = rangeOf(rows, unit, props.zoom?.domain ?? props.full, props.band);
  return (
    <SpeedRows
      {...props}
      label={differenceSummary(rows, say)}
      keys={rows.map(({ letter }) => letter)}
      left={3.6}
      sentence={(speed) => rows.map((row) => differenceSentence(row, unit, speed, say)).join('. ')}
      row={(at, { plot, headY, x, clip, bandPx, cursorPx, right }) => (
        <>
          <DifferencePlot
            row={rows[at]!}
            {...{ unit, plot, x, range, clip, cursorPx }}
            ends={bandPx}
          />
          <DifferenceHead
            row={rows[at]!}
            {...{ unit, right }}
            cursorRpm={props.cursorRpm}
            y={headY}
          />
        </>
      )}
    />
  );
}

/** Wide ends of a band may run out by this much of what the lines themselves span. */
const BAND_ROOM = 0.75;

/**
 * One scale for all rows: zero, every line in view, what chance could do where it counts, and as much of the bands as
 * leaves the lines readable.
 */
function rangeOf(rows: readonly DifferenceRow[], unit: Outside, view: Span, band: Span): Span {
  const all = (read: (row: DifferenceRow) => readonly number[], [from, to]: Span) =>
    rows.flatMap((row) => {
      const speeds = row.difference.speedRpm;
      return read(row)
        .filter((_, m) => speeds[m]! >= from && speeds[m]! <= to)
        .map(unit.of);
    });
  const chance = all(({ difference }) => difference.chance, band);
  const [low, high] = extentOf(
    [0],
    all(({ difference }) => difference.value, view),
    chance,
    chance.map((value) => -value),
  )!;
  const most = (high - low) * BAND_ROOM;
  const [bandLow, bandHigh] = extentOf(
    all(({ difference }) => difference.low, view),
    all(({ difference }) => difference.high, view),
    [low, high],
  )!;
  const [least, top] = [Math.max(bandLow, low - most), Math.min(bandHigh, high + most)];
  const room = Math.max(top - least, 1e-6) * 0.06;
  return [least - room, top + room];
}
