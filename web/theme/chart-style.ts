import { createContext, useContext } from 'react';
import { PALETTES, type Palette, type Scheme, type Size } from './palette.ts';

/** What a chart needs to know of the look. Sizes in CSS pixels. */
export interface ChartStyle {
  readonly palette: Palette;
  readonly size: Size;
  readonly fontFamily: string;
  /** Ticks and asides. */
  readonly small: number;
  /** Labels. */
  readonly label: number;
  /** What must be read first. */
  readonly strong: number;
  /** Thickness of a line that carries the message. */
  readonly stroke: number;
  readonly dot: number;
}

/** The style for a scheme and a size; pure, so that the report draws with the same. */
export function chartStyle(scheme: Scheme = 'light', size: Size = 'normal'): ChartStyle {
  const grow = size === 'wall' ? 1.375 : 1;
  return {
    palette: PALETTES[scheme],
    size,
    fontFamily: '"Inter Variable", Inter, system-ui, sans-serif',
    small: 11.5 * grow,
    label: 12.5 * grow,
    strong: 13.5 * grow,
    stroke: 1.75 * grow,
    dot: 4.5 * grow,
  };
}

export const ChartStyleContext = createContext<ChartStyle>(chartStyle());
export const useChartStyle = (): ChartStyle => useContext(ChartStyleContext);
