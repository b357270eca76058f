import { useState } from 'react';
import type { DisplayKind } from '../../../src/units/index.ts';
import type { Curve } from '../../api/types.gen.ts';
import { XAxis, YAxis } from '../../charts/Axes.tsx';
import { ChartFrame, valueAt } from '../../charts/index.ts';
import { Label } from '../../charts/Label.tsx';
import { outside, plain, rpm, withUnit } from '../../charts/numbers.ts';
import { Picture } from '../../charts/Picture.tsx';
import { linePath } from '../../charts/path.ts';
import { Surface } from '../../charts/Surface.tsx';
import { extentOf, linear, type Plot, padded } from '../../charts/scale.ts';
import { useFigures } from '../../shell/figures.tsx';
import {
  quantityColumn,
  speedColumn,
  speedsIn,
  type TableModel,
  tableFrom,
} from '../../table/model.ts';
import { useChartStyle } from '../../theme/chart-style.ts';
import styles from './pull.module.css';

interface Derived {
  readonly name: string;
  readonly kind: DisplayKind;
  readonly speedRpm: readonly number[];
  readonly values: readonly (number | null)[];
}

/** The curves that the channels of this pull allow. */
export function derivedOf(curve: Curve): readonly Derived[] {
  const { speedRpm, derived, bySpeed } = curve;
  const all: readonly [
    string,
    DisplayKind,
    readonly number[],
    readonly (number | null)[] | null,
  ][] = [
    ['BMEP', 'meanEffectivePressure', speedRpm, derived.bmepPa],
    ['BSFC', 'specificConsumption', speedRpm, derived.bsfcKgPerJ],
    ['Volumetric efficiency', 'percent', speedRpm, derived.volumetricEfficiency],
    ['Mean piston speed', 'pistonSpeed', speedRpm, derived.pistonSpeedMPerS],
    ['Lambda', 'lambda', bySpeed.speedRpm, bySpeed.lambda],
  ];
  return all.flatMap(([name, kind, speeds, values]) =>
    values === null || extentOf(values) === null ? [] : [{ name, kind, speedRpm: speeds, values }],
  );
}

/** Small pictures side by side, one axis of speed, one cursor through all of them. */
export function DerivedCurves({ curve, scenario }: { curve: Curve; scenario: string }) {
  const { units } = useFigures();
  const [cursorRpm, setCursorRpm] = useState<number | null>(null);
  const all = derivedOf(curve);
  if (all.length === 0) return null;

  const table = (): TableModel =>
    tableFrom(speedsIn(extentOf(curve.speedRpm), 250), [
      speedColumn,
      ...all.map((one) =>
        quantityColumn<number>(one.name, one.kind, units, (speed) =>
          valueAt(one.speedRpm, one.values, speed),
        ),
      ),
    ]);

  return (
    <div className="panel">
      <ChartFrame
        title="Derived curves"
        subtitle="From the curve and the channels recorded beside it."
        scenario={scenario}
        table={table}
        className={styles.derived ?? ''}
      >
        {({ width, height }) => (
          <Picture width={width} height={height} label={all.map((one) => one.name).join(', ')}>
            {placed(all.length, width, height).map((place, at) => (
              <Small
                key={all[at]!.name}
                one={all[at]!}
                full={extentOf(curve.speedRpm)!}
                {...place}
                cursorRpm={cursorRpm}
                onCursor={setCursorRpm}
              />
            ))}
          </Picture>
        )}
      </ChartFrame>
    </div>
  );
}

interface Place {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Least width in which a small picture can still be read [px]. */
const LEAST_PX = 190;

/** Side by side as long as there is room, otherwise in two lines. */
function placed(count: number, width: number, height: number): readonly Place[] {
  const lines = width / count >= LEAST_PX ? 1 : 2;
  const across = Math.ceil(count / lines);
  const size = { width: width / across, height: height / lines };
  return Array.from({ length: count }, (_, at) => ({
    ...size,
    left: (at % across) * size.width,
    top: Math.floor(at / across) * size.height,
  }));
}

interface SmallProps extends Place {
  readonly one: Derived;
  readonly full: readonly [number, number];
  readonly cursorRpm: number | null;
  readonly onCursor: (speedRpm: number | null) => void;
}

function Small({ one, full, left, top, width, height, cursorRpm, onCursor }: SmallProps) {
  const { units } = useFigures();
  const { palette, small, label, stroke } = useChartStyle();
  const { of, symbol, decimals } = outside(one.kind, units);
  const values = one.values.map((value) => (value === null ? null : of(value)));
  const plot: Plot = {
    left: left + small * 3.6,
    top: top + small * 3.6,
    width: Math.max(20, width - small * 5),
    height: Math.max(20, height - small * 6),
  };
  const x = linear(full, [plot.left, plot.left + plot.width]);
  const y = linear(padded(extentOf(values) ?? [0, 1], 0.08, 10 ** -decimals), [
    plot.top + plot.height,
    plot.top,
  ]);
  const reading = cursorRpm === null ? null : valueAt(one.speedRpm, values, cursorRpm);
  const sentence = (at: number) =>
    `${rpm(at)}: ${one.name.toLowerCase()} ${withUnit(plain(valueAt(one.speedRpm, values, at), decimals), symbol)}`;
  return (
    <g>
      <Label x={plot.left} y={top + small * 0.8} size={label} bold>
        {one.name}
      </Label>
      <Label x={plot.left} y={top + small * 2.3} size={small} colour={palette.muted}>
        {reading === null
          ? symbol
          : `${withUnit(plain(reading, decimals), symbol)} at ${plain(cursorRpm, 0)}`}
      </Label>
      <XAxis plot={plot} scale={x} every={54} />
      <YAxis plot={plot} scale={y} every={36} />
      <path
        d={linePath(
          one.speedRpm.map((at) => x(at)),
          values.map((value) => (value === null ? null : y(value))),
        )}
        fill="none"
        stroke={palette.ink}
        strokeWidth={stroke}
      />
      <Surface
        plot={plot}
        x={x}
        cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
        onCursor={(point) => onCursor(point === null ? null : point.x)}
        label={`Engine speed, ${one.name.toLowerCase()}`}
        step={50}
        sentence={(point) => sentence(point.x)}
      />
    </g>
  );
}
