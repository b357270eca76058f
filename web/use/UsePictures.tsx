import { useMemo } from 'react';
import { drawnBands } from '../../src/compare/index.ts';
import { RAD_PER_S_PER_RPM } from '../../src/trade/power.ts';
import type { ChartBars, ChartLine } from '../charts/LinesChart.tsx';
import { outside, percent, rpm } from '../charts/numbers.ts';
import { useZoom } from '../charts/zoom.ts';
import compare from '../compare/compare.module.css';
import { sideColour } from '../compare/SideMark.tsx';
import { letterOf } from '../compare/words.ts';
import type { Palette } from '../theme/palette.ts';
import { LinesPicture } from './LinesPicture.tsx';
import type { UseViewProps } from './props.ts';
import { Slide } from './Slide.tsx';

const SHARE = { label: 'share of the time', unit: '%', decimals: 0 } as const;

/** Where in speed the use lives over the builds' power, and how the answer changes as it is dragged. */
export function UsePictures(props: UseViewProps) {
  const { curves, use, answer, units, standard, sides } = props;
  const power = outside('power', units);
  const air = standard === 'none' ? 'as observed' : standard;
  const scenario = `${sides.map(({ name }, at) => `${letterOf(at)}: ${name}`).join(', ')}; ${air}${use === null ? '' : `; ${use.name}`}`;
  const lines = useMemo(
    () => powerLines({ curves, sides }, outside('power', units).of),
    [curves, sides, units],
  );
  const bars = use === null ? undefined : barsOf(answer?.use ?? use);
  const x = { label: 'engine speed', unit: 'rpm', decimals: 0, step: 50 };
  const y = { label: 'power', unit: power.symbol, decimals: 0 };
  const full = [
    Math.min(...curves.curves.map(({ speedRpm }) => speedRpm[0]!), bars?.bars[0]?.from ?? 1e9),
    Math.max(...curves.curves.map(({ speedRpm }) => speedRpm.at(-1)!), bars?.bars.at(-1)?.to ?? 0),
  ] as const;
  const zoom = useZoom(full);
  return (
    <div className={compare.pictures}>
      <div className={compare.picture}>
        <LinesPicture
          title="Where the use lives"
          subtitle="Power at full throttle, and how the time is shared out."
          scenario={scenario}
          says={`Power of ${sides.length} builds by engine speed, with the time that the use spends at each.`}
          {...{ lines, x, y, zoom }}
          {...(bars === undefined ? {} : { bars })}
        />
      </div>
      <div className={compare.picture}>
        <Dragging {...props} scenario={scenario} />
      </div>
    </div>
  );
}

function Dragging(props: UseViewProps & { readonly scenario: string }) {
  const { answer, use, dragged, own, onDrag, scenario, sides } = props;
  const pairs = answer?.pairs.filter(({ sensitivity }) => sensitivity !== null) ?? [];
  const above = dragged.aboveRpm ?? own.aboveRpm;
  const share = dragged.shareAbove ?? own.shareAbove;
  if (use === null || answer === null || pairs.length === 0)
    return (
      <section>
        <h2>As the use is dragged</h2>
        <p className="quiet">
          {sides.length < 2
            ? 'Add a second build, and this shows how the answer changes with the use.'
            : 'All of this use stands on one side of that speed, so there is nothing to drag.'}
        </p>
      </section>
    );
  const lines: ChartLine[] = pairs.map((pair, at) => ({
    id: pair.b,
    label: `${letterOf(at + 1)} over A`,
    colour: (palette: Palette) => sideColour(at + 1, sides.length, palette),
    x: pair.sensitivity!.points.map(({ shareAbove }) => 100 * shareAbove),
    y: pair.sensitivity!.points.map(({ value }) => value),
    low: pair.sensitivity!.points.map(({ low }) => low),
    high: pair.sensitivity!.points.map(({ high }) => high),
  }));
  const x = { ...SHARE, label: `time above ${rpm(above)}`, step: 5 };
  const y = { label: 'gain', unit: '%', decimals: 1 };
  const speeds = [use.points[0]!.speedRpm, use.points.at(-1)!.speedRpm] as const;
  return (
    <>
      <LinesPicture
        title="As the use is dragged"
        subtitle="Gain of mean power by the share of time above one speed, all else in proportion."
        scenario={scenario}
        every={1}
        says={`Gain by the share of time above ${rpm(above)}; the use stands at ${percent(100 * share, 0)}.`}
        {...{ lines, x, y }}
        zero
        marks={[{ at: 100 * share, label: `here ${percent(100 * share, 0)}` }]}
      />
      <Slide
        label={`Time above ${rpm(above)}`}
        value={share}
        own={own.shareAbove}
        range={[0, 1]}
        step={0.01}
        text={(value) => percent(100 * value, 0)}
        onChange={(shareAbove) => onDrag({ ...dragged, shareAbove })}
        onReset={() => onDrag({ ...dragged, shareAbove: null })}
      />
      <Slide
        label="The speed itself"
        value={above}
        own={dragged.aboveRpm === null ? above : own.aboveRpm}
        range={speeds}
        step={50}
        text={rpm}
        onChange={(aboveRpm) => onDrag({ ...dragged, aboveRpm, shareAbove: null })}
        onReset={() => onDrag({ ...dragged, aboveRpm: null, shareAbove: null })}
      />
    </>
  );
}

const powerLines = (
  { curves, sides }: Pick<UseViewProps, 'curves' | 'sides'>,
  of: (watts: number) => number,
): readonly ChartLine[] => {
  const bands = drawnBands(curves.curves);
  const powers = (speeds: readonly number[], torques: ArrayLike<number>) =>
    speeds.map((speed, m) => of(torques[m]! * speed * RAD_PER_S_PER_RPM));
  return curves.curves.map((curve, at) => ({
    id: letterOf(at),
    label: sides.length === 1 ? curve.name : letterOf(at),
    colour: (palette: Palette) => sideColour(at, curves.curves.length, palette),
    x: curve.speedRpm,
    y: powers(curve.speedRpm, curve.torqueNm),
    low: powers(curve.speedRpm, bands[at]!.lowNm),
    high: powers(curve.speedRpm, bands[at]!.highNm),
  }));
};

/** Time by stretches of speed; of a finely cut use some points together. */
function barsOf({ points }: NonNullable<UseViewProps['use']>): ChartBars {
  const gaps = points.slice(1).map(({ speedRpm }, i) => speedRpm - points[i]!.speedRpm);
  // No finer than its own points, or there would be gaps between the bars.
  const own = gaps.sort((a, b) => a - b)[gaps.length >> 1] ?? 100;
  const width = Math.max(100, own, (points.at(-1)!.speedRpm - points[0]!.speedRpm) / 40);
  const stretch = 50 * Math.round(width / 50);
  const byPlace = new Map<number, number>();
  for (const { speedRpm, share } of points) {
    const place = Math.floor(speedRpm / stretch);
    byPlace.set(place, (byPlace.get(place) ?? 0) + share);
  }
  const most = Math.max(...byPlace.values());
  const bars = [...byPlace]
    .sort(([a], [b]) => a - b)
    .map(([place, share]) => ({
      from: place * stretch,
      to: (place + 1) * stretch,
      part: share / most,
    }));
  return {
    label: 'time of the use',
    bars,
    reading: (at) =>
      `${percent(100 * (byPlace.get(Math.floor(at / stretch)) ?? 0))} of the time about there`,
  };
}
