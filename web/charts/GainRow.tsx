import { said } from '../../src/chartWords.ts';
import type { StepAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { rungColour } from '../theme/palette.ts';
import { differenceOf, stretches } from './gain-segments.ts';
import { readingAt } from './gain-words.ts';
import { Label, round } from './Label.tsx';
import { bandPath, linePath } from './path.ts';
import { useSay } from './say.ts';
import { linear, type Plot, type Span } from './scale.ts';
import { textWidth } from './text.ts';

export function Row({
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
  const { signed } = useSay();
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
        {stretches(differenceOf(step.bySpeed)).map((stretch) => (
          <g key={stretch.x[0]} data-telling={stretch.telling}>
            {stretch.telling !== 'chance' && (
              <path
                d={bandPath(stretch.x.map(x), stretch.low.map(inRow), stretch.high.map(inRow))}
                fill={colours[stretch.telling]}
                fillOpacity={0.2}
              />
            )}
            <path
              d={linePath(stretch.x.map(x), stretch.value.map(inRow))}
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
export function RowHead({
  step,
  unit,
  settings,
  right,
  y,
  cursorRpm,
}: {
  step: StepAnswer;
  unit: string;
  settings: Span;
  /** Where its words end [px]. */
  right: number;
  y: number;
  cursorRpm: number | null;
}) {
  const { palette, label, small, dot } = useChartStyle();
  const { words, setting, signedPercent, interval } = useSay();
  const from = setting(step.from, unit);
  const to = setting(step.to, unit);
  const at = dot + 1;
  const afterFrom = at + dot + 7 + textWidth(from, label, true);
  const toAt = afterFrom + textWidth(words.gain.to, label) + 12 + dot;
  const afterTo = toAt + dot + 7 + textWidth(to, label, true);
  const reading = cursorRpm === null ? null : readingAt(step, cursorRpm);
  const [gain, low, high] =
    reading === null
      ? [step.gainPercent, step.lowPercent, step.highPercent]
      : [reading.gain, reading.low, reading.high];
  const isTold = reading === null ? step.word !== 'cannot be told from chance' : reading.told;
  const long = reading === null ? words.gains[step.word] : reading.told ? '' : words.chanceCould;
  const short = isTold ? long : words.chance;
  const whole = `${signedPercent(gain)} (${interval(low, high)})`;
  const wide = (figure: string, word: string) =>
    textWidth(figure, label, true) + (word === '' ? 0 : textWidth(word, label) + 12);
  const room = right - afterTo - 16;
  // What fits beside the step's name, from the fullest to the shortest; the table holds the rest.
  const choices = [
    [whole, long],
    [whole, short],
    [signedPercent(gain), short],
  ] as const;
  // What else changed between the two rungs must be seen: it keeps room before the figure does.
  const also = step.besides === null ? null : said(words.gain.also, { what: step.besides });
  const alsoRoom = also === null ? 0 : Math.min(textWidth(also, small), label * 9) + label * 2;
  const [figure, word] =
    choices.find(([one, other]) => wide(one, other) <= room - alsoRoom) ??
    choices[choices.length - 1]!;
  const wordWidth = word === '' ? 0 : textWidth(word, label) + 12;
  const free = room - wide(figure, word);
  return (
    <g>
      <circle cx={at} cy={y} r={dot} fill={rungColour(step.from, settings, palette)} />
      <Label x={at + dot + 5} y={y} bold>
        {from}
      </Label>
      <Label x={afterFrom + 4} y={y} colour={palette.muted}>
        {words.gain.to}
      </Label>
      <circle cx={round(toAt)} cy={y} r={dot} fill={rungColour(step.to, settings, palette)} />
      <Label x={toAt + dot + 5} y={y} bold>
        {to}
      </Label>
      {also !== null && (
        <g data-also="">
          <path
            d={`M${round(afterTo + 14)} ${round(y - small * 0.5)}l${round(small * 0.55)} ${round(small)}h${round(-small * 1.1)}Z`}
            fill="none"
            stroke={palette.look}
            strokeWidth={1.4}
            strokeLinejoin="round"
          />
          {free > label * 4 && (
            <Label x={afterTo + 14 + small} y={y} size={small} colour={palette.look}>
              {cut(also, free - small * 2, small)}
            </Label>
          )}
        </g>
      )}
      <Label x={right - wordWidth} y={y} bold anchor="end">
        {figure}
      </Label>
      {word !== '' && (
        <Label
          x={right}
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
