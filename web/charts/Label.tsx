import type { ReactNode } from 'react';
import { useChartStyle } from '../theme/chart-style.ts';

interface LabelProps {
  readonly x: number;
  readonly y: number;
  readonly size?: number;
  readonly colour?: string;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  /** A rim in the colour of the ground, so that the text stays readable over lines. */
  readonly rim?: string;
  readonly children: ReactNode;
}

/** Text inside a picture; y is the middle of the line of letters. Every property is an attribute, for export. */
export function Label({
  x,
  y,
  size,
  colour,
  anchor = 'start',
  bold = false,
  rim,
  children,
}: LabelProps) {
  const style = useChartStyle();
  const px = size ?? style.label;
  return (
    <text
      x={round(x)}
      y={round(y + px * 0.36)}
      fontSize={px}
      fontWeight={bold ? 600 : 400}
      fill={colour ?? style.palette.ink}
      textAnchor={anchor}
      fontFamily={style.fontFamily}
      {...(rim === undefined
        ? {}
        : { stroke: rim, strokeWidth: 4, strokeLinejoin: 'round', paintOrder: 'stroke' })}
    >
      {children}
    </text>
  );
}

/** Two decimals are a fortieth of a millimetre: enough, and files stay small. */
export const round = (value: number): number => Math.round(value * 100) / 100;
