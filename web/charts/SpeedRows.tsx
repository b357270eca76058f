import { Fragment, type ReactNode, useId } from 'react';
import { useChartStyle } from '../theme/chart-style.ts';
import { XAxis } from './Axes.tsx';
import { BandHandles } from './BandPicker.tsx';
import { Label } from './Label.tsx';
import { Picture } from './Picture.tsx';
import { Surface } from './Surface.tsx';
import { useSay } from './say.ts';
import { linear, type Plot, type Scale, type Span } from './scale.ts';
import { textWidth } from './text.ts';
import type { Zoom } from './zoom.ts';

/** What a picture of gains by speed is given beside its rows. */
export interface SpeedRowsProps {
  readonly width: number;
  readonly height: number;
  readonly band: Span;
  /** Speeds the band may reach; with `onBand` its ends can be dragged. */
  readonly full: Span;
  readonly onBand?: (band: Span) => void;
  readonly cursorRpm: number | null;
  readonly onCursor?: (speedRpm: number | null) => void;
  readonly zoom?: Zoom;
}

/** The place of one row. */
export interface SpeedRow {
  readonly plot: Plot;
  /** Middle of the line of words above it [px]. */
  readonly headY: number;
  readonly x: Scale;
  /** Id of the clip that keeps to the width of the plot. */
  readonly clip: string;
  /** Ends of the band, kept inside the plot [px]. */
  readonly bandPx: Span;
  readonly cursorPx: number | null;
  /** Where the words above it end on the right [px]. */
  readonly right: number;
}

interface FrameProps extends SpeedRowsProps {
  readonly label: string;
  readonly keys: readonly string[];
  /** Room to the left of the plot, in small letters. */
  readonly left: number;
  /** All that the rows say at a speed. */
  readonly sentence: (speedRpm: number) => string;
  readonly row: (at: number, place: SpeedRow) => ReactNode;
}

/** Rows over one axis of speed, with its cursor and the ends of the band at the foot. */
export function SpeedRows(props: FrameProps) {
  const { width, height, band, full, onBand, cursorRpm, onCursor, zoom } = props;
  const { label: name, keys, sentence, row } = props;
  const { palette, small, label } = useChartStyle();
  const { rpm, words } = useSay();
  const clip = useId().replace(/\W/g, '');
  const head = label * 2.1;
  const left = small * props.left;
  // The figure of a band's end stands half beyond it.
  const right = width - small * 1.7;
  const plot: Plot = {
    left,
    top: 0,
    width: Math.max(10, right - left),
    height: Math.max(10, height - small * 4.1 - 8),
  };
  const each = plot.height / Math.max(1, keys.length);
  const x = linear(zoom?.domain ?? full, [plot.left, plot.left + plot.width]);
  const [from, to] = x.domain() as [number, number];
  const cursorPx = cursorRpm === null || cursorRpm < from || cursorRpm > to ? null : x(cursorRpm);
  const inside = (at: number) => Math.min(Math.max(x(at), plot.left), plot.left + plot.width);
  return (
    <Picture width={width} height={height} label={name}>
      <clipPath id={clip}>
        <rect x={plot.left} y={0} width={plot.width} height={height} />
      </clipPath>
      <XAxis
        plot={plot}
        scale={x}
        grid={false}
        drop={7 + small * 0.35}
        {...(cursorPx !== null && cursorPx > width - small * 17 ? {} : { label: words.speedAxis })}
        avoid={band.map((at) => x(at))}
      />
      {keys.map((key, at) => (
        <Fragment key={key}>
          {at > 0 && <line x1={0} x2={width} y1={at * each} y2={at * each} stroke={palette.line} />}
          {row(at, {
            plot: {
              ...plot,
              top: at * each + head,
              height: Math.max(8, each - head - label * 0.5),
            },
            headY: at * each + label * 1.1,
            x,
            clip,
            bandPx: [inside(band[0]), inside(band[1])],
            cursorPx,
            right,
          })}
        </Fragment>
      ))}
      {cursorPx !== null && (
        <g data-screen-only="">
          <Label
            x={Math.min(
              Math.max(cursorPx, plot.left),
              width - textWidth(`8888 ${words.rpm}`, small, true) / 2,
            )}
            y={plot.height + 7 + small * 3.1}
            size={small}
            bold
            anchor="middle"
          >
            {rpm(cursorRpm)}
          </Label>
        </g>
      )}
      {onCursor !== undefined && (
        <Surface
          plot={{ ...plot, top: head, height: Math.max(8, plot.height - head) }}
          x={x}
          cursor={cursorRpm === null ? null : { x: cursorRpm, y: null }}
          onCursor={(point) => onCursor(point === null ? null : point.x)}
          label={words.speed}
          step={50}
          sentence={(point) => `${rpm(point.x)}. ${sentence(point.x)}`}
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
