import { Button, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { type DifferenceIn, differenceIn } from '../../src/compare/difference.ts';
import type { CompareAnswer } from '../../src/compare/types.ts';
import { RAD_PER_S_PER_RPM } from '../../src/trade/power.ts';
import { ChartFrame } from '../charts/ChartFrame.tsx';
import { CurveChart, type CurveSeries } from '../charts/CurveChart.tsx';
import { curveTable } from '../charts/curve-words.ts';
import { DifferenceChart } from '../charts/DifferenceChart.tsx';
import { type DifferenceRow, differenceTable, differenceUnit } from '../charts/difference-words.ts';
import { outside } from '../charts/numbers.ts';
import type { Span } from '../charts/scale.ts';
import { useZoom } from '../charts/zoom.ts';
import type { Palette } from '../theme/palette.ts';
import styles from './compare.module.css';
import type { CompareViewProps } from './props.ts';
import { sideColour } from './SideMark.tsx';
import { bandInWords, letterOf } from './words.ts';

type PicturesProps = CompareViewProps & { readonly answer: CompareAnswer };

/** The curves of the sides, and what each has over the first, on one cursor of speed. */
export function Pictures(props: PicturesProps) {
  const { bandRpm, answer, units, standard, quickBands, onBand } = props;
  const [shown, setShown] = useState<DifferenceIn>('percent');
  const [cursorRpm, setCursorRpm] = useState<number | null>(null);
  const full = commonSpeeds(answer);
  const band: Span = [Math.max(bandRpm[0], full[0]), Math.min(bandRpm[1], full[1])];
  const zoom = useZoom(full);
  const series = seriesOf(answer);
  const rows = rowsOf(answer, shown);
  const unit = differenceUnit(shown, units);
  const air = standard === 'none' ? 'as observed' : standard;
  const scenario = `${answer.groups.map(({ name }, at) => `${letterOf(at)}: ${name}`).join(', ')}; ${air}, over ${bandInWords(band)}`;
  return (
    <div className={styles.pictures}>
      <div className={styles.picture}>
        <ChartFrame
          title="Torque and power of the sides"
          subtitle="Mean of each side’s pulls; its band leaves out what both share."
          scenario={scenario}
          table={() => curveTable(series, units)}
          zoom={zoom}
          className={styles.canvas!}
        >
          {(box) => (
            <CurveChart
              {...box}
              {...{ series, units, zoom, cursorRpm }}
              band={band}
              onCursor={setCursorRpm}
            />
          )}
        </ChartFrame>
      </div>
      <div className={styles.picture}>
        <ChartFrame
          title="The difference, by engine speed"
          subtitle="Inside the grey, chance could do it. Drag the ends of the band."
          scenario={scenario}
          table={() => differenceTable(rows, unit)}
          zoom={zoom}
          className={styles.canvas!}
          tools={
            <SegmentedControl
              size="xs"
              aria-label="Difference in"
              data={[
                { value: 'percent', label: '%' },
                { value: 'torque', label: outside('torque', units).symbol },
                { value: 'power', label: outside('power', units).symbol },
              ]}
              value={shown}
              onChange={(value) => setShown(value as DifferenceIn)}
            />
          }
        >
          {(box) => (
            <DifferenceChart
              {...box}
              {...{ rows, unit, full, zoom, cursorRpm }}
              band={band}
              onCursor={setCursorRpm}
              {...(onBand === undefined ? {} : { onBand })}
            />
          )}
        </ChartFrame>
        {onBand !== undefined && (
          <QuickBands
            bands={[{ name: 'whole sweep', band: full }, ...quickBands]}
            {...{ full, onBand }}
            band={band}
          />
        )}
      </div>
    </div>
  );
}

/** Bands by a word, as far as all sides were swept there. */
function QuickBands({
  bands,
  band,
  full,
  onBand,
}: {
  readonly bands: PicturesProps['quickBands'];
  readonly band: Span;
  readonly full: Span;
  readonly onBand: (band: Span) => void;
}) {
  const inside = bands.flatMap(({ name, band: [from, to] }) => {
    const cut: Span = [Math.max(from, full[0]), Math.min(to, full[1])];
    return cut[1] - cut[0] >= 0.5 * (to - from) ? [{ name, band: cut }] : [];
  });
  return (
    <fieldset className={`${styles.quick} offPaper`}>
      <legend>Band</legend>
      {inside.map(({ name, band: one }) => {
        const chosen = Math.abs(one[0] - band[0]) < 1 && Math.abs(one[1] - band[1]) < 1;
        return (
          <Button
            key={name}
            variant={chosen ? 'filled' : 'default'}
            size="compact-sm"
            aria-pressed={chosen}
            title={bandInWords(one)}
            onClick={() => onBand(one)}
          >
            {name}
          </Button>
        );
      })}
    </fieldset>
  );
}

/** Lowest and highest speed that every counted pull reaches. */
const commonSpeeds = ({ groups }: CompareAnswer): Span => {
  const { speedRpm } = groups[0]!.curve;
  return [speedRpm[0]!, speedRpm.at(-1)!];
};

const seriesOf = ({ groups }: CompareAnswer): CurveSeries[] =>
  groups.map(({ curve }, at) => ({
    id: letterOf(at),
    label: letterOf(at),
    setting: null,
    colour: (palette: Palette) => sideColour(at, groups.length, palette),
    ...curve,
    powerW: curve.torqueNm.map((nm, m) => nm * curve.speedRpm[m]! * RAD_PER_S_PER_RPM),
  }));

const rowsOf = ({ pairs }: CompareAnswer, shown: DifferenceIn): DifferenceRow[] =>
  pairs.map((pair, at) => ({
    letter: letterOf(at + 1),
    against: letterOf(0),
    difference: differenceIn(pair.bySpeed, shown),
    crossings: pair.crossings,
    gain: pair.gain,
    word: pair.word,
  }));
