import type { StepAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { Row, RowHead } from './GainRow.tsx';
import { readingOf, summaryOf } from './gain-words.ts';
import { SpeedRows, type SpeedRowsProps } from './SpeedRows.tsx';
import { useSay } from './say.ts';
import { extentOf, type Span, ticksFor } from './scale.ts';

export interface GainChartProps extends SpeedRowsProps {
  readonly steps: readonly StepAnswer[];
  /** Unit of the setting. */
  readonly unit: string;
  /** Smallest and largest setting of the ladder, for the ramp. */
  readonly settings: Span;
}

/** What each step gained, by engine speed: one row a step, all on one scale, grey where chance could do it. */
export function GainChart({ steps, unit, settings, ...props }: GainChartProps) {
  const { stroke } = useChartStyle();
  const say = useSay();
  const range = gainRange(steps, props.band);
  return (
    <SpeedRows
      {...props}
      label={summaryOf(steps, unit, say)}
      keys={steps.map((step) => `${step.from}-${step.to}`)}
      left={3.4}
      sentence={(speed) => steps.map((step) => readingOf(step, unit, speed, say)).join('. ')}
      row={(at, { plot, headY, x, clip, bandPx, cursorPx, right }) => (
        <>
          <Row
            step={steps[at]!}
            row={plot}
            {...{ x, range, clip, stroke, bandPx, cursorPx }}
            ticks={ticksFor(x, 62)}
          />
          <RowHead
            step={steps[at]!}
            {...{ unit, settings, right }}
            cursorRpm={props.cursorRpm}
            y={headY}
          />
        </>
      )}
    />
  );
}

/** One scale for all rows: holds every line, and what chance could do where it counts; wide ends may run out. */
function gainRange(steps: readonly StepAnswer[], [from, to]: Span): Span {
  const lines = steps.flatMap(({ bySpeed }) => {
    const chance = bySpeed.chancePercent.filter(
      (_, at) => bySpeed.speedRpm[at]! >= from && bySpeed.speedRpm[at]! <= to,
    );
    return [bySpeed.gainPercent, chance, chance.map((value) => -value)];
  });
  const [low, high] = extentOf(...lines, [-1, 1])!;
  const room = (high - low) * 0.12;
  return [low - room, high + room];
}
