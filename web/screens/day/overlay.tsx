import { useState } from 'react';
import type { AirStandard, BandRpm } from '../../api/types.gen.ts';
import {
  BandPicker,
  ChartFrame,
  CurveChart,
  curveTable,
  useSize,
  useZoom,
} from '../../charts/index.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { airInWords } from './air-words.ts';
import styles from './overlay.module.css';
import { labelOf, type PullWithCurve, seriesOf, speedsOf } from './series.ts';

interface OverlayProps {
  readonly all: readonly PullWithCurve[];
  readonly scenario: string;
  readonly standard: AirStandard;
  readonly band: BandRpm | null;
  readonly onBand: (band: BandRpm) => void;
}

/** The day's curves over one another, and under them the band of speeds that counts. */
export function Overlay({ all, scenario, standard, band, onBand }: OverlayProps) {
  const { units } = usePreferences();
  const [cursorRpm, setCursorRpm] = useState<number | null>(null);
  const pulls = all.map((one) => one.pull);
  const series = all.flatMap((one) => seriesOf(one, labelOf(one.pull, pulls)) ?? []);
  const speeds = speedsOf(all);
  const full = speeds ?? ([0, 1] as const);
  const zoom = useZoom(full);
  if (speeds === null) return null;
  return (
    <div className="panel">
      <ChartFrame
        title="Curves of the day"
        subtitle={`${airInWords(
          all.flatMap((one) => one.curve ?? []),
          standard,
        )} The band of each line is where its curve lies with 95 % confidence.`}
        scenario={scenario}
        table={() => curveTable(series, units)}
        zoom={zoom}
        className={styles.chart ?? ''}
      >
        {(size) => (
          <CurveChart
            {...size}
            series={series}
            units={units}
            band={band}
            cursorRpm={cursorRpm}
            onCursor={setCursorRpm}
            zoom={zoom}
          />
        )}
      </ChartFrame>
      {band !== null && <BandLine full={full} band={band} onBand={onBand} />}
    </div>
  );
}

interface BandLineProps {
  readonly full: readonly [number, number];
  readonly band: BandRpm;
  readonly onBand: (band: BandRpm) => void;
}

function BandLine({ full, band, onBand }: BandLineProps) {
  const [line, box] = useSize<HTMLDivElement>();
  return (
    <div ref={line} className={styles.band}>
      <p className="quiet">
        Judged from {speed(band[0])} to {speed(band[1])} rpm. Drag an end to change it.
      </p>
      {box !== null && box.width > 60 && (
        <BandPicker width={box.width} full={full} band={band} onBand={onBand} />
      )}
    </div>
  );
}

/** `7 200`: thousands set off by a thin space. */
export function speed(rpm: number): string {
  return String(Math.round(rpm)).replace(/(\d)(?=(\d{3})+$)/g, '$1\u202f');
}
