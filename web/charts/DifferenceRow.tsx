import { useId } from 'react';
import { said } from '../../src/chartWords.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { differenceColour, type Palette } from '../theme/palette.ts';
import { YAxis } from './Axes.tsx';
import { crossingInWords, type DifferenceRow, differenceAt } from './difference-words.ts';
import { stretches } from './gain-segments.ts';
import { Label, round } from './Label.tsx';
import { type Outside, withUnit } from './numbers.ts';
import { bandPath, linePath } from './path.ts';
import { useSay } from './say.ts';
import { linear, type Plot, type Scale, type Span, ticksFor } from './scale.ts';
import { OTHER_LETTERS, textWidth } from './text.ts';

interface PlotProps {
  readonly row: DifferenceRow;
  readonly unit: Outside;
  readonly plot: Plot;
  readonly x: Scale;
  readonly range: Span;
  readonly clip: string;
  /** Ends of the band [px]. */
  readonly ends: Span;
  readonly cursorPx: number | null;
}

/** One difference over speed: what chance could do in grey, the line and its band along the ramp where it can be told. */
export function DifferencePlot({ row, unit, plot, x, range, clip, ends, cursorPx }: PlotProps) {
  const { palette, small, stroke } = useChartStyle();
  const { words, signed } = useSay();
  const ramp = useId().replace(/\W/g, '');
  const { left, top, width, height } = plot;
  const foot = top + height;
  const y = linear(range, [foot, top]);
  const inPlot = (value: number) => Math.min(Math.max(y(unit.of(value)), top - 3), foot + 3);
  const { difference } = row;
  const xs = difference.speedRpm.map((speed) => x(speed));
  const paint = { gain: `url(#${ramp})`, loss: `url(#${ramp})`, chance: palette.chanceLine };
  return (
    <g>
      <Ramp id={ramp} {...{ y, plot, palette }} />
      {ticksFor(x, 84).map((tick) => (
        <line key={tick} x1={x(tick)} x2={x(tick)} y1={top} y2={foot} stroke={palette.grid} />
      ))}
      <rect
        x={ends[0]}
        width={Math.max(0, ends[1] - ends[0])}
        y={top}
        height={height}
        fill={palette.band}
      />
      <YAxis
        plot={plot}
        scale={y}
        every={44}
        format={(tick) => signed(tick, Number.isInteger(tick) ? 0 : 1)}
      />
      <g clipPath={`url(#${clip})`}>
        <path
          d={bandPath(
            xs,
            difference.chance.map((value) => inPlot(-value)),
            difference.chance.map((value) => inPlot(value)),
          )}
          fill={palette.chance}
          fillOpacity={0.8}
        />
        <line x1={left} x2={left + width} y1={y(0)} y2={y(0)} stroke={palette.ink} />
        {stretches(difference).map((stretch) => (
          <g key={stretch.x[0]} data-telling={stretch.telling}>
            {stretch.telling !== 'chance' && (
              <path
                d={bandPath(stretch.x.map(x), stretch.low.map(inPlot), stretch.high.map(inPlot))}
                fill={paint[stretch.telling]}
                fillOpacity={0.24}
              />
            )}
            <path
              d={linePath(stretch.x.map(x), stretch.value.map(inPlot))}
              fill="none"
              stroke={paint[stretch.telling]}
              strokeWidth={stroke * 1.35}
              strokeLinejoin="round"
            />
          </g>
        ))}
        {row.crossings.map((crossing) => (
          <Crossing key={crossing.speedRpm} {...{ crossing, x, plot, zero: y(0) }} />
        ))}
      </g>
      <Label
        x={left + 7}
        y={top + small * 0.95}
        size={small}
        colour={palette.gain}
        bold
        rim={palette.paper}
      >
        {said(words.difference.ahead, { name: row.letter })}
      </Label>
      <Label
        x={left + 7}
        y={foot - small * 0.95}
        size={small}
        colour={palette.loss}
        bold
        rim={palette.paper}
      >
        {said(words.difference.ahead, { name: row.against })}
      </Label>
      {cursorPx !== null && (
        <line
          data-screen-only=""
          x1={cursorPx}
          x2={cursorPx}
          y1={top}
          y2={foot}
          stroke={palette.ink}
        />
      )}
    </g>
  );
}

/** The two-sided ramp, laid along the height of the plot: pale at zero, full at the largest difference in view. */
function Ramp({
  id,
  y,
  plot,
  palette,
}: {
  readonly id: string;
  readonly y: Scale;
  readonly plot: Plot;
  readonly palette: Palette;
}) {
  const { top, height } = plot;
  const zero = Math.min(1, Math.max(0, (y(0) - top) / height));
  const reach = Math.max(zero, 1 - zero);
  const stops = [0, zero / 2, zero, zero, (1 + zero) / 2, 1];
  return (
    <linearGradient
      id={id}
      gradientUnits="userSpaceOnUse"
      x1={0}
      x2={0}
      y1={round(top)}
      y2={round(top + height)}
    >
      {stops.map((offset, at) => (
        <stop
          // biome-ignore lint/suspicious/noArrayIndexKey: the stops never move
          key={at}
          offset={round(offset)}
          stopColor={differenceColour((zero - offset) / reach, at < 3, palette)}
        />
      ))}
    </linearGradient>
  );
}

/** Where the curves cross: a ring on the zero line, and its interval as a bar with ends. */
function Crossing({
  crossing,
  x,
  plot,
  zero,
}: {
  readonly crossing: DifferenceRow['crossings'][number];
  readonly x: Scale;
  readonly plot: Plot;
  readonly zero: number;
}) {
  const { palette, small, dot } = useChartStyle();
  const [from, at, to] = [x(crossing.lowRpm), x(crossing.speedRpm), x(crossing.highRpm)];
  const say = useSay();
  const words = said(say.words.difference.cross, { speed: crossingInWords(crossing, say) });
  const half = textWidth(words, small, true) / 2;
  const middle = Math.min(
    Math.max(at, plot.left + half + 6),
    Math.max(plot.left + half + 6, plot.left + plot.width - half - 6),
  );
  // Below the line when there is room, else above it.
  const below = zero + dot * 1.5 + small * 2.4 < plot.top + plot.height;
  const line = zero + (below ? 1 : -1) * (dot * 1.5 + small * 1.1);
  return (
    <g data-crossing="">
      <line x1={from} x2={to} y1={zero} y2={zero} stroke={palette.ink} strokeWidth={3} />
      {[from, to].map((end) => (
        <line
          key={end}
          x1={end}
          x2={end}
          y1={zero - dot}
          y2={zero + dot}
          stroke={palette.ink}
          strokeWidth={2}
        />
      ))}
      <circle
        cx={round(at)}
        cy={round(zero)}
        r={dot * 1.15}
        fill={palette.paper}
        stroke={palette.ink}
        strokeWidth={2}
      />
      <Label x={middle} y={line} size={small} bold anchor="middle" rim={palette.paper}>
        {words}
      </Label>
    </g>
  );
}

/** Above each row: who against whom, and the gain over the band, or the difference at the cursor. */
export function DifferenceHead({
  row,
  unit,
  right: end,
  y,
  cursorRpm,
}: {
  readonly row: DifferenceRow;
  readonly unit: Outside;
  /** Where its words end [px]. */
  readonly right: number;
  readonly y: number;
  readonly cursorRpm: number | null;
}) {
  const { palette, label } = useChartStyle();
  const { words, signed, signedPercent, interval } = useSay();
  const reading = cursorRpm === null ? null : differenceAt(row, unit, cursorRpm);
  const name = said(words.difference.less, { one: row.letter, other: row.against });
  const gain =
    reading === null ? signedPercent(row.gain.value) : withUnit(signed(reading.value), unit.symbol);
  const { low, high } = reading ?? row.gain;
  const whole = `${gain} (${interval(low, high)})`;
  const gained = row.word === 'cannot be told from chance' ? words.chance : words.gains[row.word];
  const [long, short] =
    reading === null
      ? [said(words.difference.ofMeanPower, { word: gained }), gained]
      : reading.told
        ? ['', '']
        : [words.chanceCould, words.chance];
  const room = end - OTHER_LETTERS * textWidth(name, label, true) - 10;
  const beside = (text: string) => (text === '' ? 0 : textWidth(text, label) + 10);
  // What fits beside the name, from the fullest to the shortest; the table holds the rest.
  const choices = [
    [whole, long],
    [whole, short],
    [gain, short],
  ] as const;
  const [figure, word] =
    choices.find(
      ([one, other]) => OTHER_LETTERS * textWidth(one, label, true) + beside(other) <= room,
    ) ?? choices[2];
  const wordWidth = beside(word);
  const told = reading === null ? row.word !== 'cannot be told from chance' : reading.told;
  const ahead = (reading ?? row.gain).value > 0;
  return (
    <g>
      <Label x={0} y={y} bold>
        {name}
      </Label>
      <Label x={end - wordWidth} y={y} bold anchor="end">
        {figure}
      </Label>
      {word !== '' && (
        <Label
          x={end}
          y={y}
          anchor="end"
          colour={!told ? palette.muted : ahead ? palette.gain : palette.loss}
        >
          {word}
        </Label>
      )}
    </g>
  );
}
