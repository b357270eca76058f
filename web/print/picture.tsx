import { useMemo } from 'react';
import type { DrawOptions, FigureWanted } from '../../src/figures.ts';
import type { Reached } from '../../src/pull/reached.ts';
import { CurveChart } from '../charts/CurveChart.tsx';
import { DifferenceChart } from '../charts/DifferenceChart.tsx';
import { differenceUnit } from '../charts/difference-words.ts';
import { GainChart } from '../charts/GainChart.tsx';
import { outside } from '../charts/numbers.ts';
import { ResponseChart } from '../charts/ResponseChart.tsx';
import { SayContext, sayIn } from '../charts/say.ts';

interface PictureProps extends Pick<DrawOptions, 'width' | 'height'> {
  readonly figure: FigureWanted;
  readonly cursor?: number | null;
  readonly onCursor?: (place: number | null) => void;
  /** Curves that are still being drawn; see `CurveChart`. */
  readonly drawing?: Readonly<Record<string, Reached>>;
}

/** The chart of the screens that shows what a report asks for, in the words that came with it. */
export function FigurePicture(props: PictureProps) {
  const { words } = props.figure;
  const say = useMemo(() => sayIn(words), [words]);
  return (
    <SayContext value={say}>
      <Chart {...props} />
    </SayContext>
  );
}

function Chart({ figure, width, height, cursor = null, onCursor, drawing }: PictureProps) {
  const box = { width, height };
  const reading = onCursor === undefined ? {} : { onCursor };
  switch (figure.kind) {
    case 'curves':
      return (
        <CurveChart
          {...box}
          {...reading}
          series={figure.series}
          units={figure.units}
          band={figure.bandRpm}
          cursorRpm={cursor}
          {...(drawing === undefined ? {} : { drawing })}
        />
      );
    case 'response':
      return (
        <ResponseChart
          {...box}
          {...reading}
          answer={figure.answer}
          uses={figure.uses}
          unit={figure.settingUnit}
          axis={figure.axis}
          safeDirection={figure.safeDirection}
          power={outside('power', figure.units)}
          cursor={cursor}
        />
      );
    case 'gain':
      return (
        <GainChart
          {...box}
          {...reading}
          steps={figure.steps}
          unit={figure.settingUnit}
          settings={figure.settings}
          band={figure.bandRpm}
          full={figure.fullRpm}
          cursorRpm={cursor}
        />
      );
    case 'difference':
      return (
        <DifferenceChart
          {...box}
          {...reading}
          rows={[figure]}
          unit={differenceUnit('percent', figure.units)}
          band={figure.bandRpm}
          full={[figure.difference.speedRpm[0]!, figure.difference.speedRpm.at(-1)!]}
          cursorRpm={cursor}
        />
      );
  }
}
