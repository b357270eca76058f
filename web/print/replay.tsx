/** A pull drawn in its own time: the picture that is shown, its curve as far as the engine had come. */
import type { ReplayWanted } from '../../src/figures.ts';
import { durationOf, type Reached, reachedAt } from '../../src/pull/reached.ts';
import { outside, threeFigures, UNKNOWN } from '../charts/numbers.ts';
import { type Say, sayIn } from '../charts/say.ts';
import { valueAt } from '../charts/scale.ts';
import { fitted, headAt, placeOf, Sheet, ShownPicture, Words } from './shown.tsx';

interface ReplayProps {
  readonly replay: ReplayWanted;
  readonly size: { readonly width: number; readonly height: number };
  readonly timeS: number;
}

export function ReplayPicture({ replay, size, timeS }: ReplayProps) {
  const { shown, told } = replay;
  if (timeS >= replay.durationS) return <ShownPicture {...{ shown, size }} />;
  const place = placeOf(size);
  const readings = readingsAt(replay, timeS);
  // One size for all of them and for the whole of the replay: nothing moves but the figures.
  const wide = place.full / readings.length - 24 * place.u;
  const digits = Math.min(...readings.map(({ widest }) => fitted(widest, wide, 92 * place.u).size));
  const names = Math.min(...readings.map(({ name }) => fitted(name, wide, 30 * place.u).size));
  return (
    <Sheet
      {...{ shown, size }}
      says={readings.map(({ name, value }) => `${name} ${value}`).join('; ')}
      drawing={drawingAt(replay, timeS)}
    >
      {readings.map(({ name, value }, at) => (
        <g key={name} transform={headAt(place, at, readings.length)}>
          <Words text={value} size={digits} x={inStep(value, digits)} middle bold />
          <Words text={name} size={names} y={46 * place.u} quiet />
        </g>
      ))}
      {told.map((line, at) => (
        <Words
          key={line}
          {...fitted(line, place.full, 24 * place.u)}
          x={place.edge}
          y={place.edge + (276 + 32 * at) * place.u}
          quiet
        />
      ))}
    </Sheet>
  );
}

/** Each curve that is still being drawn; one whose own sweep is over stands whole. */
function drawingAt({ shown, paces, durationS }: ReplayWanted, timeS: number) {
  const [first] = shown.figure.series;
  const lead = first === undefined ? null : (paces[first.id] ?? null);
  const drawing: Record<string, Reached> = {};
  for (const { id } of shown.figure.series) {
    const pace = paces[id] ?? lead;
    if (pace !== null && timeS < Math.min(durationOf(pace), durationS))
      drawing[id] = reachedAt(pace, timeS);
  }
  return drawing;
}

interface RunningFigure {
  /** What it is, with its unit. */
  readonly name: string;
  readonly value: string;
  /** As wide as it ever gets. */
  readonly widest: string;
}

/** Where the engine of the first curve stands: time, speed, and what the curve says of torque and power there. */
export function readingsAt(replay: ReplayWanted, timeS: number): RunningFigure[] {
  const { shown, paces, words, durationS } = replay;
  const { figure } = shown;
  const say = sayIn(figure.words);
  const [first] = figure.series;
  const pace = first === undefined ? null : (paces[first.id] ?? null);
  const ownS = pace === null ? durationS : durationOf(pace);
  const runningS = Math.min(Math.max(timeS, 0), ownS);
  const speedRpm = pace === null ? null : reachedAt(pace, runningS).atRpm;
  const of = (kind: 'torque' | 'power') => {
    const unit = outside(kind, figure.units);
    const list = (kind === 'torque' ? first?.torqueNm : first?.powerW) ?? [];
    const most = unit.of(Math.max(0, ...list));
    const value = speedRpm === null ? null : valueAt(first?.speedRpm ?? [], list, speedRpm);
    const decimals = threeFigures(most);
    return {
      name: `${figure.words[kind]}, ${unit.symbol}`,
      value: say.plain(value === null ? null : unit.of(value), decimals),
      widest: widest(say, most, decimals),
    };
  };
  const fastest = Math.max(0, ...(pace?.speedRpm ?? []));
  return [
    { name: `${words.time}, s`, value: say.plain(runningS, 1), widest: widest(say, ownS, 1) },
    {
      name: `${words.speed}, ${figure.words.rpm}`,
      // To ten: the last figure of a running engine is never still.
      value: speedRpm === null ? UNKNOWN : say.plain(Math.round(speedRpm / 10) * 10, 0),
      widest: widest(say, fastest, 0),
    },
    of('torque'),
    of('power'),
  ];
}

const widest = ({ plain }: Say, most: number, decimals: number) =>
  plain(most, decimals).replace(/\d/g, '8');

/** The middle of each letter, every digit as wide: a one is narrow, and a running figure must not shake. */
function inStep(text: string, size: number): string {
  let x = 0;
  return [...text]
    .map((letter) => {
      const wide = size * (/\d/.test(letter) ? DIGIT_EM : MARK_EM);
      x += wide;
      return Math.round((x - wide / 2) * 100) / 100;
    })
    .join(' ');
}

/** Advance of a figure, and of point, comma or dash, in letters as heavy as these [em]. */
const DIGIT_EM = 0.655;
const MARK_EM = 0.34;
