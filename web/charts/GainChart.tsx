import { Fragment, useId } from 'react';
import type { StepAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { rungColour } from '../theme/palette.ts';
import { XAxis } from './Axes.tsx';
import { BandHandles } from './BandPicker.tsx';
import { stretches } from './gain-segments.ts';
import { Label, round } from './Label.tsx';
import { interval, plain, rpm, setting, signed, signedPercent } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { bandPath, linePath } from './path.ts';
import { Surface } from './Surface.tsx';
import { extentOf, linear, type Plot, type Span, ticksFor, valueAt } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

export interface GainChartProps {
  readonly width: number;
  readonly height: number;
  readonly steps: readonly StepAnswer[];
  /** Unit of the setting. */
  readonly unit: string;
  /** Smallest and largest setting of the ladder, for the ramp. */
  readonly settings: Span;
  readonly band: Span;
  /** Speeds the band may reach; with `onBand` its ends can be dragged. */
  readonly full: Span;
  readonly onBand?: (band: Span) => void;
  readonly cursorRpm: number | null;
  readonly onCursor?: (speedRpm: number | null) => void;
  readonly zoom?: Zoom;
}

/** What each step gained, by engine speed: one row a step, all on one scale, grey where chance could do it. */
export function GainChart(props: GainChartProps) {
  const { width, height, steps, unit, settings, band, full, onBand, cursorRpm, onCursor, zoom } =
    props;
  const { palette, small, label, stroke } = useChartStyle();
  const clip = useId().replace(/\W/g, '');
  const head = label * 2;
  const foot = small * 4.1 + 8;
  const plot: Plot = {
    left: small * 3.4,
    top: 0,
    width: Math.max(10, width - small * 3.4 - 14),
    height: Math.max(10, height - foot),
  };
  const rowHeight = plot.height / Math.max(1, steps.length);
  const x = linear(zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const range = gainRange(steps, band);
  const cursorPx =
    cursorRpm === null || cursorRpm < x.domain()[0]! || cursorRpm > x.domain()[1]!
      ? null
      : x(cursorRpm);
  const bandPx = band.map((at) => Math.min(Math.max(x(at), plot.left), plot.left + plot.width)) as [
    number,
    number,
  ];

  return (
    <Picture width={width} height={height} label={summaryOf(steps, unit)}>
      <clipPath id={clip}>
        <rect x={plot.left} y={0} width={plot.width} height={height} />
      </clipPath>
      <XAxis
        plot={plot}
        scale={x}
        grid={false}
        drop={7 + small * 0.35}
        label="engine speed, rpm"
        avoid={[...band.map((at) => x(at)), ...(cursorPx === null ? [] : [cursorPx])]}
      />
      {steps.map((step, at) => {
        const row: Plot = {
          ...plot,
          top: at * rowHeight + head,
          height: Math.max(8, rowHeight - head - label * 0.6),
        };
        return (
          <Fragment key={`${step.from}-${step.to}`}>
            {at > 0 && (
              <line
                x1={0}
                x2={width}
                y1={at * rowHeight}
                y2={at * rowHeight}
                stroke={palette.line}
              />
            )}
            <Row
              {...{ step, row, x, range, clip, stroke, bandPx, cursorPx }}
              ticks={ticksFor(x, 62)}
            />
            <RowHead
              {...{ step, unit, settings, width, cursorRpm }}
              y={at * rowHeight + label * 1.1}
            />
          </Fragment>
        );
      })}
      {cursorPx !== null && (
        <g data-screen-only="">
          <Label
            x={cursorPx}
            y={plot.height + 7 + small * 1.6}
            size={small}
            bold
            anchor="middle"
            rim={palette.paper}
          >
            {rpm(cursorRpm)}
          </Label>
        </g>
      )}
      {onCursor !== undefined && (
        <Surface
          plot={plot}
          x={x}
          cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label="Engine speed"
          step={50}
          sentence={(point) =>
            `${rpm(point.x)}. ${steps.map((step) => readingOf(step, unit, point.x)).join('. ')}`
          }
          full={full}
          {...(zoom === undefined ? {} : { zoom })}
        />
      )}
      <BandHandles
        {...{ plot, scale: x, full, band }}
        {...(onBand === undefined ? {} : { onBand })}
      />
    </Picture>
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

function Row({
  step,
  row,
  x,
  range,
  clip,
  stroke,
  bandPx,
  cursorPx,
  ticks,
}: {
  step: StepAnswer;
  row: Plot;
  x: (speed: number) => number;
  range: Span;
  clip: string;
  stroke: number;
  bandPx: Span;
  cursorPx: number | null;
  ticks: readonly number[];
}) {
  const { palette, small } = useChartStyle();
  const y = linear(range, [row.top + row.height, row.top]);
  const speeds = step.bySpeed.speedRpm;
  const xs = speeds.map((speed) => x(speed));
  const inRow = (value: number) =>
    Math.min(Math.max(y(value), row.top - 3), row.top + row.height + 3);
  const colours = { gain: palette.gain, loss: palette.loss, chance: palette.chanceLine } as const;
  const ends = scaleTicks(y, row, small * 1.25);
  return (
    <g>
      {ticks.map((tick) => (
        <line
          key={tick}
          x1={x(tick)}
          x2={x(tick)}
          y1={row.top}
          y2={row.top + row.height}
          stroke={palette.grid}
        />
      ))}
      {bandPx.map((at) => (
        <line
          key={at}
          x1={at}
          x2={at}
          y1={row.top}
          y2={row.top + row.height}
          stroke={palette.ink}
          strokeOpacity={0.35}
        />
      ))}
      <g clipPath={`url(#${clip})`}>
        <path
          d={bandPath(
            xs,
            step.bySpeed.chancePercent.map((value) => inRow(-value)),
            step.bySpeed.chancePercent.map((value) => inRow(value)),
          )}
          fill={palette.chance}
        />
        <line
          x1={row.left}
          x2={row.left + row.width}
          y1={y(0)}
          y2={y(0)}
          stroke={palette.chanceLine}
          strokeWidth={0.75}
        />
        {stretches(step.bySpeed).map((stretch) => (
          <g key={stretch.x[0]} data-telling={stretch.telling}>
            {stretch.telling !== 'chance' && (
              <path
                d={bandPath(stretch.x.map(x), stretch.low.map(inRow), stretch.high.map(inRow))}
                fill={colours[stretch.telling]}
                fillOpacity={0.2}
              />
            )}
            <path
              d={linePath(stretch.x.map(x), stretch.gain.map(inRow))}
              fill="none"
              stroke={colours[stretch.telling]}
              strokeWidth={stroke * 1.1}
              strokeLinejoin="round"
            />
          </g>
        ))}
      </g>
      {cursorPx !== null && (
        <line
          data-screen-only=""
          x1={cursorPx}
          x2={cursorPx}
          y1={row.top}
          y2={row.top + row.height}
          stroke={palette.ink}
        />
      )}
      <Label x={row.left - 8} y={y(0)} size={small} colour={palette.muted} anchor="end">
        0
      </Label>
      {ends.map((tick) => (
        <Label
          key={tick}
          x={row.left - 8}
          y={y(tick)}
          size={small}
          colour={palette.muted}
          anchor="end"
        >
          {signed(tick, Math.abs(tick) < 1 ? 1 : 0)}
        </Label>
      ))}
    </g>
  );
}

/** The largest round figure up and down that still has a place beside the row, clear of the zero. */
function scaleTicks(y: (value: number) => number, row: Plot, clear: number): readonly number[] {
  const fits = (tick: number) =>
    Math.abs(y(tick) - y(0)) >= clear &&
    y(tick) >= row.top + clear * 0.3 &&
    y(tick) <= row.top + row.height + 2;
  const largest = (sign: 1 | -1) =>
    [50, 20, 10, 5, 2, 1, 0.5, 0.2].map((size) => sign * size).find(fits);
  return [largest(1), largest(-1)].filter((tick) => tick !== undefined);
}

/** Above each line: which step, and what it gained over the band, or at the cursor. */
function RowHead({
  step,
  unit,
  settings,
  width,
  y,
  cursorRpm,
}: {
  step: StepAnswer;
  unit: string;
  settings: Span;
  width: number;
  y: number;
  cursorRpm: number | null;
}) {
  const { palette, label, small, dot } = useChartStyle();
  const from = setting(step.from, unit);
  const to = setting(step.to, unit);
  const at = dot + 1;
  const afterFrom = at + dot + 7 + textWidth(from, label, true);
  const toAt = afterFrom + textWidth('to', label) + 12 + dot;
  const afterTo = toAt + dot + 7 + textWidth(to, label, true);
  const reading = cursorRpm === null ? null : readingAt(step, cursorRpm);
  const figure =
    reading === null
      ? `${signedPercent(step.gainPercent)} (${interval(step.lowPercent, step.highPercent)})`
      : `${signedPercent(reading.gain)} (${interval(reading.low, reading.high)})`;
  const word = reading === null ? step.word : reading.told ? '' : 'chance could do it';
  const wordWidth = word === '' ? 0 : textWidth(word, label) + 12;
  const free = width - afterTo - wordWidth - textWidth(figure, label, true) - 30;
  return (
    <g>
      <circle cx={at} cy={y} r={dot} fill={rungColour(step.from, settings, palette)} />
      <Label x={at + dot + 5} y={y} bold>
        {from}
      </Label>
      <Label x={afterFrom + 4} y={y} colour={palette.muted}>
        to
      </Label>
      <circle cx={round(toAt)} cy={y} r={dot} fill={rungColour(step.to, settings, palette)} />
      <Label x={toAt + dot + 5} y={y} bold>
        {to}
      </Label>
      {step.besides !== null && free > 60 && (
        <Label x={afterTo + 10} y={y} size={small} colour={palette.look}>
          {cut(`also: ${step.besides}`, free - 10, small)}
        </Label>
      )}
      <Label x={width - 14 - wordWidth} y={y} bold anchor="end">
        {figure}
      </Label>
      {word !== '' && (
        <Label
          x={width - 14}
          y={y}
          anchor="end"
          colour={wordColour(step.word, reading !== null, palette)}
        >
          {word}
        </Label>
      )}
    </g>
  );
}

function wordColour(
  word: StepAnswer['word'],
  reading: boolean,
  palette: { muted: string; gain: string; loss: string },
): string {
  if (reading || word === 'cannot be told from chance') return palette.muted;
  return word === 'loss' ? palette.loss : palette.gain;
}

function cut(text: string, room: number, px: number): string {
  if (textWidth(text, px) <= room) return text;
  let kept = text;
  while (kept.length > 1 && textWidth(`${kept}…`, px) > room) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}

function readingAt(step: StepAnswer, speedRpm: number) {
  const { speedRpm: speeds, gainPercent, lowPercent, highPercent, toldFromChance } = step.bySpeed;
  const gain = valueAt(speeds, gainPercent, speedRpm);
  const low = valueAt(speeds, lowPercent, speedRpm);
  const high = valueAt(speeds, highPercent, speedRpm);
  if (gain === null || low === null || high === null) return null;
  let nearest = 0;
  speeds.forEach((speed, at) => {
    if (Math.abs(speed - speedRpm) < Math.abs(speeds[nearest]! - speedRpm)) nearest = at;
  });
  return { gain, low, high, told: toldFromChance[nearest] === true };
}

function readingOf(step: StepAnswer, unit: string, speedRpm: number): string {
  const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
  const reading = readingAt(step, speedRpm);
  if (reading === null) return `${name}: not run at this speed`;
  const band = `${signedPercent(reading.gain)}, ${interval(reading.low, reading.high)}`;
  return `${name}: ${band}${reading.told ? '' : ', cannot be told from chance'}`;
}

function summaryOf(steps: readonly StepAnswer[], unit: string): string {
  const parts = steps.map(
    (step) =>
      `${setting(step.from, unit)} to ${setting(step.to, unit)}: ${signedPercent(step.gainPercent)}, ${step.word}`,
  );
  return `What each step gained. ${parts.join('. ')}.`;
}

/** The same numbers as a table, one line about every `everyRpm`. */
export function gainTable(steps: readonly StepAnswer[], unit: string, everyRpm = 250) {
  const columns = ['engine speed, rpm'];
  for (const step of steps) {
    const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
    columns.push(`${name}, %`, 'from – to, %', 'told from chance');
  }
  const all = extentOf(...steps.map((step) => step.bySpeed.speedRpm));
  const rows: string[][] = [
    [
      'over the band',
      ...steps.flatMap((step) => [
        signed(step.gainPercent),
        interval(step.lowPercent, step.highPercent),
        step.word,
      ]),
    ],
  ];
  if (all !== null) {
    for (let speed = Math.ceil(all[0] / everyRpm) * everyRpm; speed <= all[1]; speed += everyRpm) {
      rows.push([
        plain(speed, 0),
        ...steps.flatMap((step) => {
          const reading = readingAt(step, speed);
          if (reading === null) return ['–', '–', '–'];
          return [
            signed(reading.gain),
            interval(reading.low, reading.high),
            reading.told ? 'yes' : 'no',
          ];
        }),
      ]);
    }
  }
  return { columns, rows };
}
