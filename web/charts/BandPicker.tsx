import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { useChartStyle } from '../theme/chart-style.ts';
import { XAxis } from './Axes.tsx';
import { Label } from './Label.tsx';
import { plain, rpm } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { linear, type Plot, type Scale, type Span } from './scale.ts';

/** Speeds a band is chosen in, and the least length it may have [rev/min]. */
const STEP_RPM = 50;
const LEAST_RPM = 200;

/** The band after one of its ends was moved: in whole steps, inside the speeds there are, never turned over. */
export function movedBand(band: Span, end: 0 | 1, toRpm: number, full: Span): Span {
  const at = Math.round(toRpm / STEP_RPM) * STEP_RPM;
  const bounded = Math.min(Math.max(at, full[0]), full[1]);
  return end === 0
    ? [Math.max(full[0], Math.min(bounded, band[1] - LEAST_RPM)), band[1]]
    : [band[0], Math.min(full[1], Math.max(bounded, band[0] + LEAST_RPM))];
}

interface HandlesProps {
  readonly plot: Plot;
  readonly scale: Scale;
  /** Speeds the band may reach. */
  readonly full: Span;
  readonly band: Span;
  readonly onBand?: (band: Span) => void;
}

/** A heavy line along the foot of a speed axis with a grip at each end. Without `onBand` it only shows the band. */
export function BandHandles({ plot, scale, full, band, onBand }: HandlesProps) {
  const { palette, small } = useChartStyle();
  const [low, high] = scale.domain() as [number, number];
  const y = plot.top + plot.height + 7;
  const shown = band.map((at) => scale(Math.min(Math.max(at, low), high))) as [number, number];
  return (
    <g>
      <line x1={shown[0]} x2={shown[1]} y1={y} y2={y} stroke={palette.ink} strokeWidth={2.5} />
      {([0, 1] as const).map((end) => {
        const inView = band[end] >= low && band[end] <= high;
        if (!inView) return null;
        return (
          <g key={end}>
            <Label
              x={shown[end]}
              y={y + small * 1.6}
              size={small}
              bold
              anchor="middle"
              rim={palette.paper}
            >
              {plain(band[end], 0)}
            </Label>
            {onBand === undefined ? (
              <line
                x1={shown[end]}
                x2={shown[end]}
                y1={y - 5}
                y2={y + 5}
                stroke={palette.ink}
                strokeWidth={2}
              />
            ) : (
              <Grip end={end} x={shown[end]} y={y} {...{ plot, scale, full, band, onBand }} />
            )}
          </g>
        );
      })}
    </g>
  );
}

function Grip({
  end,
  x,
  y,
  scale,
  full,
  band,
  onBand,
}: HandlesProps & {
  readonly end: 0 | 1;
  readonly x: number;
  readonly y: number;
  readonly onBand: (band: Span) => void;
}) {
  const { palette } = useChartStyle();
  const grip = useRef<SVGGElement>(null);
  const speedAt = (event: PointerEvent) => {
    const svg = grip.current!.ownerSVGElement!;
    const box = svg.getBoundingClientRect();
    const wide = svg.viewBox.baseVal?.width || box.width;
    return scale.invert(((event.clientX - box.left) / box.width) * wide);
  };
  const press = (event: KeyboardEvent) => {
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -5, PageUp: 5 }[
      event.key
    ];
    const ends = { Home: full[0], End: full[1] }[event.key];
    if (by === undefined && ends === undefined) return;
    event.preventDefault();
    const to = ends ?? band[end] + by! * STEP_RPM * (event.shiftKey ? 5 : 1);
    onBand(movedBand(band, end, to, full));
  };
  return (
    <g
      ref={grip}
      className="pb-grip"
      data-screen-only=""
      role="slider"
      tabIndex={0}
      aria-label={end === 0 ? 'Band from' : 'Band up to'}
      aria-valuemin={full[0]}
      aria-valuemax={full[1]}
      aria-valuenow={band[end]}
      aria-valuetext={rpm(band[end])}
      onKeyDown={press}
      onPointerDown={(event) => {
        event.preventDefault();
        event.currentTarget.focus();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
        const next = movedBand(band, end, speedAt(event), full);
        if (next[end] !== band[end]) onBand(next);
      }}
    >
      <line
        x1={x}
        x2={x}
        y1={y - 14}
        y2={y}
        stroke={palette.ink}
        strokeWidth={1}
        strokeOpacity={0.35}
      />
      <rect x={x - 22} y={y - 22} width={44} height={44} fill="transparent" />
      <rect
        className="pb-grip-face"
        x={x - 4.5}
        y={y - 8}
        width={9}
        height={16}
        rx={4.5}
        fill={palette.paper}
        stroke={palette.ink}
        strokeWidth={1.75}
      />
    </g>
  );
}

interface BandPickerProps {
  readonly width: number;
  readonly height?: number;
  /** Speeds that were run. */
  readonly full: Span;
  readonly band: Span;
  readonly onBand: (band: Span) => void;
}

/** The band alone, on an axis of its own, for places without a chart. */
export function BandPicker({ width, height = 56, full, band, onBand }: BandPickerProps) {
  const { palette, small } = useChartStyle();
  const plot: Plot = {
    left: 24,
    top: 4,
    width: Math.max(1, width - 48),
    height: height - small * 3 - 4,
  };
  const scale = linear(full, [plot.left, plot.left + plot.width]);
  return (
    <Picture width={width} height={height} label="Band of speeds">
      <line
        x1={plot.left}
        x2={plot.left + plot.width}
        y1={plot.top + plot.height + 7}
        y2={plot.top + plot.height + 7}
        stroke={palette.line}
      />
      <XAxis plot={plot} scale={scale} drop={7} grid={false} avoid={band.map((at) => scale(at))} />
      <BandHandles {...{ plot, scale, full, band, onBand }} />
    </Picture>
  );
}
