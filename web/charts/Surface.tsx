import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { said } from '../../src/chartWords.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { useSay } from './say.ts';
import type { Plot, Scale, Span } from './scale.ts';
import { type Zoom, zoomedAt } from './zoom.ts';

export interface Point {
  readonly x: number;
  /** Null in pictures whose cursor only runs along the foot. */
  readonly y: number | null;
}

interface SurfaceProps {
  readonly plot: Plot;
  readonly x: Scale;
  readonly y?: Scale;
  readonly cursor: Point | null;
  readonly onCursor: (cursor: Point | null) => void;
  /** What the cursor runs along, for those who hear the page: `Engine speed`. */
  readonly label: string;
  /** All that the picture says at a place, as a sentence. */
  readonly sentence: (at: Point) => string;
  /** Keyboard steps along x and y. */
  readonly step: number;
  readonly stepY?: number;
  readonly zoom?: Zoom;
  readonly full?: Span;
}

/** The part of a picture that answers to mouse, finger and keys: moves the cursor, zooms by dragging or the wheel. */
export function Surface(props: SurfaceProps) {
  const { plot, x, y, cursor, onCursor, label, sentence, step, stepY = 1, zoom, full } = props;
  const { palette } = useChartStyle();
  const { words } = useSay();
  const rect = useRef<SVGRectElement>(null);
  const [drag, setDrag] = useState<Span | null>(null);
  const [low, high] = x.domain() as [number, number];

  const placeOf = (event: { clientX: number; clientY: number }): Point => {
    const box = rect.current!.getBoundingClientRect();
    const share = (event.clientX - box.left) / Math.max(1, box.width);
    const down = (event.clientY - box.top) / Math.max(1, box.height);
    return {
      x: clamp(x.invert(plot.left + share * plot.width), low, high),
      y: y === undefined ? null : clampTo(y.invert(plot.top + down * plot.height), y.domain()),
    };
  };

  // React listens to the wheel passively, so it could not keep the page from scrolling under a zoom.
  useEffect(() => {
    const element = rect.current;
    if (element === null || zoom === undefined || full === undefined) return;
    const turn = (event: WheelEvent) => {
      const meant = event.ctrlKey || event.metaKey || document.activeElement === element;
      if (!meant) return;
      event.preventDefault();
      zoom.set(zoomedAt(zoom.domain, placeOf(event).x, Math.exp(event.deltaY * 0.002), full));
    };
    element.addEventListener('wheel', turn, { passive: false });
    return () => element.removeEventListener('wheel', turn);
  });

  const press = (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const now = cursor ?? { x: (low + high) / 2, y: y === undefined ? null : middleOf(y.domain()) };
    const stride = step * (event.shiftKey ? 10 : 1);
    const along = (to: number) =>
      onCursor({ x: clamp(Math.round(to / step) * step, low, high), y: now.y });
    const across = (by: number) => {
      if (y !== undefined && now.y !== null) {
        onCursor({ x: now.x, y: clampTo(Math.round((now.y + by) / stepY) * stepY, y.domain()) });
      } else along(now.x + Math.sign(by) * stride);
    };
    const zoomBy = (factor: number) => {
      if (zoom !== undefined && full !== undefined)
        zoom.set(zoomedAt(zoom.domain, now.x, factor, full));
    };
    switch (event.key) {
      case 'ArrowLeft':
        along(now.x - stride);
        break;
      case 'ArrowRight':
        along(now.x + stride);
        break;
      case 'ArrowUp':
        across(stepY);
        break;
      case 'ArrowDown':
        across(-stepY);
        break;
      case 'PageUp':
        along(now.x + step * 10);
        break;
      case 'PageDown':
        along(now.x - step * 10);
        break;
      case 'Home':
        along(low);
        break;
      case 'End':
        along(high);
        break;
      case '+':
      case '=':
        zoomBy(0.7);
        break;
      case '-':
        zoomBy(1 / 0.7);
        break;
      case '0':
        zoom?.set(null);
        break;
      case 'Escape':
        onCursor(null);
        zoom?.set(null);
        break;
      default:
        return;
    }
    event.preventDefault();
  };

  const down = (event: PointerEvent<SVGRectElement>) => {
    onCursor(placeOf(event));
    if (zoom === undefined || event.pointerType === 'touch' || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const at = placeOf(event).x;
    setDrag([at, at]);
  };
  const move = (event: PointerEvent<SVGRectElement>) => {
    const at = placeOf(event);
    onCursor(at);
    if (drag !== null) setDrag([drag[0], at.x]);
  };
  const up = () => {
    if (drag === null) return;
    setDrag(null);
    if (Math.abs(x(drag[0]) - x(drag[1])) > 10) {
      zoom?.set([Math.min(...drag), Math.max(...drag)]);
    }
  };

  const at = cursor ?? { x: (low + high) / 2, y: y === undefined ? null : middleOf(y.domain()) };
  return (
    <g data-screen-only="">
      {drag !== null && Math.abs(x(drag[0]) - x(drag[1])) > 4 && (
        <rect
          x={Math.min(x(drag[0]), x(drag[1]))}
          width={Math.abs(x(drag[0]) - x(drag[1]))}
          y={plot.top}
          height={plot.height}
          fill={palette.ink}
          fillOpacity={0.08}
        />
      )}
      <rect
        ref={rect}
        className="pb-surface"
        x={plot.left}
        y={plot.top}
        width={Math.max(0, plot.width)}
        height={Math.max(0, plot.height)}
        fill="transparent"
        role="slider"
        tabIndex={0}
        aria-label={said(words.keys, { what: label })}
        aria-valuemin={Math.round(low * 100) / 100}
        aria-valuemax={Math.round(high * 100) / 100}
        aria-valuenow={Math.round(at.x * 100) / 100}
        aria-valuetext={sentence(at)}
        onKeyDown={press}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={() => setDrag(null)}
        onPointerLeave={(event) => {
          if (event.pointerType !== 'touch' && document.activeElement !== rect.current)
            onCursor(null);
        }}
        onBlur={() => onCursor(null)}
        onDoubleClick={() => zoom?.set(null)}
      />
    </g>
  );
}

const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);
const clampTo = (value: number, domain: readonly number[]) =>
  clamp(value, Math.min(...domain), Math.max(...domain));
const middleOf = (domain: readonly number[]) => (domain[0]! + domain[1]!) / 2;
