import { useCallback, useState } from 'react';
import type { Span } from './scale.ts';

export interface Zoom {
  /** The stretch shown now. */
  readonly domain: Span;
  readonly zoomed: boolean;
  readonly set: (domain: Span | null) => void;
}

/** Least share of the whole that a zoom may show. */
const LEAST = 0.04;

/** A stretch cut to the whole, never shorter than a twenty-fifth of it; null where it is the whole itself. */
export function within(wanted: Span, full: Span): Span | null {
  const whole = full[1] - full[0];
  const length = Math.min(whole, Math.max(wanted[1] - wanted[0], whole * LEAST));
  if (length >= whole * (1 - 1e-9)) return null;
  const middle = (wanted[0] + wanted[1]) / 2;
  const low = Math.min(Math.max(middle - length / 2, full[0]), full[1] - length);
  return [low, low + length];
}

/** The stretch after a turn of the wheel: `factor` below 1 comes closer, and the value under the pointer stays there. */
export function zoomedAt(domain: Span, at: number, factor: number, full: Span): Span | null {
  return within([at - (at - domain[0]) * factor, at + (domain[1] - at) * factor], full);
}

/** Zoom along one axis. When the whole changes, an earlier zoom is kept as far as it still fits. */
export function useZoom(full: Span): Zoom {
  const [wanted, setWanted] = useState<Span | null>(null);
  const domain = wanted === null ? null : within(wanted, full);
  const set = useCallback((next: Span | null) => setWanted(next), []);
  return { domain: domain ?? full, zoomed: domain !== null, set };
}
