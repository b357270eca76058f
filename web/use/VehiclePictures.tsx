import { SegmentedControl } from '@mantine/core';
import { useMemo, useState } from 'react';
import { behindAt, forceByGear, type VehicleAnswer } from '../../src/compare/index.ts';
import { resistanceAt, totalN } from '../../src/compare/vehicle/forces.ts';
import { traceOf } from '../../src/compare/vehicle/marks.ts';
import type { Banded } from '../../src/pull/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import type { ChartLine } from '../charts/LinesChart.tsx';
import { outside, plain } from '../charts/numbers.ts';
import { sideColour } from '../compare/SideMark.tsx';
import { letterOf } from '../compare/words.ts';
import type { Palette } from '../theme/palette.ts';
import { LinesPicture } from './LinesPicture.tsx';
import type { UseViewProps } from './props.ts';
import { Slide } from './Slide.tsx';
import styles from './use.module.css';
import { goalName } from './words.ts';

type Props = UseViewProps & { readonly vehicle: VehicleAnswer };

/** Force by gear against road speed, the run against time, and time against the final drive. */
export function VehiclePictures(props: Props) {
  const { vehicle, sides } = props;
  const scenario = `${sides.map(({ name }, at) => `${letterOf(at)}: ${name}`).join(', ')}; ${vehicle.vehicle.name}, final drive ${plain(vehicle.vehicle.finalDrive, 2)}`;
  return (
    <div className={styles.three}>
      <div>
        <Force {...props} scenario={scenario} />
      </div>
      <div>
        <RunPicture {...props} scenario={scenario} />
      </div>
      <div>
        <Gearing {...props} scenario={scenario} />
      </div>
    </div>
  );
}

type PictureProps = Props & { readonly scenario: string };

function Force({ vehicle, units, scenario }: PictureProps) {
  const road = outside('roadSpeed', units);
  const force = outside('force', units);
  const lines = useMemo(() => forceLines(vehicle, units), [vehicle, units]);
  const x = { label: 'road speed', unit: road.symbol, decimals: 0, step: 5 };
  const y = { label: 'force', unit: force.symbol, decimals: 0 };
  return (
    <LinesPicture
      title="Tractive force by gear"
      subtitle="At full throttle, driveline losses taken off."
      scenario={scenario}
      every={3}
      says="Tractive force in each gear by road speed, with what stands against the vehicle."
      {...{ lines, x, y }}
    />
  );
}

function RunPicture({ vehicle, units, scenario }: PictureProps) {
  const [shown, setShown] = useState<'speed' | 'distance' | 'difference'>('speed');
  const road = outside('roadSpeed', units);
  const length = outside('distance', units);
  const isDifference = shown === 'difference' && vehicle.builds.length > 1;
  const lines = useMemo(
    () =>
      isDifference
        ? differenceLines(vehicle, outside('distance', units).of)
        : runLines(vehicle, shown === 'distance' ? 'distance' : 'speed', units),
    [vehicle, shown, isDifference, units],
  );
  const x = isDifference
    ? { label: 'distance', unit: length.symbol, decimals: 0, step: 20 }
    : { label: 'time', unit: 's', decimals: 1, step: 0.5 };
  const y = isDifference
    ? { label: 'time', unit: 's', decimals: 2 }
    : shown === 'distance'
      ? { label: 'distance', unit: length.symbol, decimals: 0 }
      : { label: 'road speed', unit: road.symbol, decimals: 1 };
  return (
    <LinesPicture
      title="From a standstill"
      subtitle={
        isDifference ? 'Time behind A; below zero is quicker.' : 'Over a kilometre, shifts and all.'
      }
      scenario={scenario}
      every={8}
      says={`The run of ${vehicle.builds.length} builds: ${y.label} by ${x.label}.`}
      {...{ lines, x, y }}
      {...(isDifference ? { zero: true } : {})}
      tools={
        <SegmentedControl
          size="xs"
          aria-label="Shown against time"
          data={[
            { value: 'speed', label: 'speed' },
            { value: 'distance', label: 'distance' },
            ...(vehicle.builds.length > 1 ? [{ value: 'difference', label: 'difference' }] : []),
          ]}
          value={isDifference ? 'difference' : shown === 'difference' ? 'speed' : shown}
          onChange={(value) => setShown(value as typeof shown)}
        />
      }
    />
  );
}

/** Force in every gear of every build, and what stands against the vehicle. */
function forceLines(vehicle: VehicleAnswer, units: UnitSystem): readonly ChartLine[] {
  const road = outside('roadSpeed', units);
  const force = outside('force', units);
  const gears = vehicle.builds.flatMap(({ drawn }, side) =>
    forceByGear(vehicle.vehicle, drawn.run.engine).map(
      (drives, gear): ChartLine => ({
        id: `${side} ${gear}`,
        label: vehicle.builds.length === 1 ? 'force by gear' : `${letterOf(side)}, by gear`,
        legend: gear === 0,
        colour: (palette: Palette) => sideColour(side, vehicle.builds.length, palette),
        x: drives.map(({ speedMPerS }) => road.of(speedMPerS)),
        y: drives.map(({ forceN }) => force.of(forceN)),
      }),
    ),
  );
  const fastest = Math.max(...gears.flatMap(({ x }) => x));
  const speeds = Array.from({ length: 40 }, (_, i) => (fastest * i) / 39);
  const against: ChartLine = {
    id: 'against',
    label: 'what stands against it',
    colour: (palette: Palette) => palette.muted,
    dash: '5 4',
    x: speeds,
    y: speeds.map((speed) => force.of(totalN(resistanceAt(vehicle.vehicle, speed / road.of(1))))),
  };
  return [...gears, against];
}

/** Speed or distance of every build's run by time. */
function runLines(
  vehicle: VehicleAnswer,
  shown: 'speed' | 'distance',
  units: UnitSystem,
): readonly ChartLine[] {
  const { of } = outside(shown === 'distance' ? 'distance' : 'roadSpeed', units);
  return vehicle.builds.map(({ name, drawn }, side) => {
    const trace = traceOf(drawn.run);
    return {
      id: letterOf(side),
      label: vehicle.builds.length === 1 ? name : letterOf(side),
      colour: (palette: Palette) => sideColour(side, vehicle.builds.length, palette),
      x: trace.map(({ timeS }) => timeS),
      y: trace.map(({ speedMPerS, distanceM }) =>
        of(shown === 'distance' ? distanceM : speedMPerS),
      ),
    };
  });
}

/** Time of each later build less that of the first, by distance. */
function differenceLines(vehicle: VehicleAnswer, of: (metres: number) => number): ChartLine[] {
  const [first, ...others] = vehicle.builds;
  const places = Array.from({ length: 81 }, (_, i) => (1000 * i) / 80);
  return others.map(({ drawn }, at) => {
    const behind = behindAt(first!.drawn, drawn, places);
    const upTo = behind.indexOf(null);
    const known = (upTo < 0 ? behind : behind.slice(0, upTo)) as readonly Banded[];
    return {
      id: letterOf(at + 1),
      label: `${letterOf(at + 1)} less A`,
      colour: (palette: Palette) => sideColour(at + 1, vehicle.builds.length, palette),
      x: places.slice(0, known.length).map(of),
      y: known.map(({ value }) => value),
      low: known.map(({ low }) => low),
      high: known.map(({ high }) => high),
    };
  });
}

function Gearing({ gearing, vehicle, dragged, own, onDrag, scenario, chosen }: PictureProps) {
  if (gearing === null || own.finalDrive === null)
    return (
      <section>
        <h2>Final drive</h2>
        <p className="quiet">{`Not every build reaches ${goalName(chosen.goal)} in this vehicle.`}</p>
      </section>
    );
  const now = dragged.finalDrive ?? own.finalDrive;
  const lines: ChartLine[] = gearing.builds.map((build, side) => {
    const places = build.places.filter(({ timeS }) => timeS !== null && timeS < 1.08 * build.timeS);
    return {
      id: letterOf(side),
      label: gearing.builds.length === 1 ? build.name : letterOf(side),
      colour: (palette: Palette) => sideColour(side, gearing.builds.length, palette),
      x: places.map(({ finalDrive }) => finalDrive),
      y: places.map(({ timeS }) => timeS),
    };
  });
  const places = lines.flatMap(({ x }) => x);
  const range = [
    Math.floor(100 * Math.min(...places, now)) / 100,
    Math.ceil(100 * Math.max(...places, now)) / 100,
  ] as const;
  const x = { label: 'final drive', unit: '', decimals: 2, step: 0.05 };
  const y = { label: goalName(chosen.goal), unit: 's', decimals: 2 };
  return (
    <>
      <LinesPicture
        title="The gearing that suits each"
        subtitle={`${goalName(chosen.goal)} by final drive, best shift speeds at each.`}
        scenario={scenario}
        every={1}
        says={`${goalName(chosen.goal)} by final drive. ${gearing.finding}`}
        {...{ lines, x, y }}
        marks={[{ at: now, label: plain(now, 2) }]}
      />
      <Slide
        label={`Final drive of ${vehicle.vehicle.name}`}
        value={now}
        own={own.finalDrive}
        range={range}
        step={0.01}
        text={(value) => plain(value, 2)}
        onChange={(finalDrive) => onDrag({ ...dragged, finalDrive })}
        onReset={() => onDrag({ ...dragged, finalDrive: null })}
      />
    </>
  );
}
