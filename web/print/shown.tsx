/** The result as a picture of an exact size: headline, figures, curve and mark, to be read on a thumbnail. */
import type { ReactNode } from 'react';
import type { ShownWanted } from '../../src/figures.ts';
import type { Reached } from '../../src/pull/reached.ts';
import { fittedTo } from '../../src/signs.ts';
import { OTHER_LETTERS, textWidth } from '../charts/text.ts';
import {
  type ChartStyle,
  ChartStyleContext,
  chartStyle,
  useChartStyle,
} from '../theme/chart-style.ts';
import { FigurePicture } from './picture.tsx';

interface ShownProps {
  readonly shown: ShownWanted;
  readonly size: { readonly width: number; readonly height: number };
}

export function ShownPicture({ shown, size }: ShownProps) {
  const place = placeOf(size);
  const { headlines } = shown;
  return (
    <Sheet {...{ shown, size }} says={headlines.map((one) => one.join(' ')).join('; ')}>
      {headlines.map(([figureText, of], at) => {
        const wide = place.full / headlines.length - 20 * place.u;
        return (
          <g key={figureText} transform={headAt(place, at, headlines.length)}>
            <Words {...fitted(figureText, wide, 92 * place.u)} bold />
            <Words {...fitted(of, wide, 30 * place.u)} y={46 * place.u} quiet />
          </g>
        );
      })}
    </Sheet>
  );
}

interface SheetProps extends ShownProps {
  /** What it says, for those who do not see it. */
  readonly says: string;
  /** Between title and chart, each at `headAt`. */
  readonly children: ReactNode;
  readonly drawing?: Readonly<Record<string, Reached>>;
}

/** All of the picture but the large figures: title, mark, chart, who made it. */
export function Sheet({ shown, size, says, children, drawing }: SheetProps) {
  const { title, scenario, figure, by, mark } = shown;
  const { width, height } = size;
  const { u, edge, full } = placeOf(size);
  const style = large(u);
  const heading = fitted(title, mark === null ? full : full - 280 * u, 62 * u);
  const top = edge + 330 * u;
  const chart = { width: full, height: height - top - edge - 34 * u };
  const under = fitted(`${by}${by === '' ? '' : ', '}${scenario}`, full, 27 * u);
  return (
    <ChartStyleContext value={style}>
      <svg
        xmlns="http://www.w3.org/2000/svg"
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
      >
        <title>{`${title}. ${says}`}</title>
        <rect width={width} height={height} fill={style.palette.paper} />
        <Words x={edge} y={edge + 56 * u} {...heading} bold />
        {mark !== null && (
          <image
            href={mark}
            x={width - edge - 250 * u}
            y={edge - 8 * u}
            width={250 * u}
            height={96 * u}
            preserveAspectRatio="xMaxYMid meet"
          />
        )}
        {children}
        <g transform={`translate(${edge} ${top})`}>
          <FigurePicture
            figure={figure}
            {...chart}
            {...(drawing === undefined ? {} : { drawing })}
          />
        </g>
        <Words x={edge} y={height - edge + 22 * u} {...under} quiet />
      </svg>
    </ChartStyleContext>
  );
}

interface Place {
  /** One unit is a pixel of the smallest of the sizes. */
  readonly u: number;
  readonly edge: number;
  /** Width between the edges. */
  readonly full: number;
}

export function placeOf({ width, height }: ShownProps['size']): Place {
  const u = Math.min(width, height) / 1080;
  const edge = 56 * u;
  return { u, edge, full: width - 2 * edge };
}

/** Where the foot of the n-th large figure stands. */
export const headAt = ({ u, edge, full }: Place, at: number, count: number): string =>
  `translate(${edge + (at * full) / count} ${edge + 190 * u})`;

interface WordsProps {
  readonly text: string;
  readonly size: number;
  /** Where the text begins; a list: where each letter stands. */
  readonly x?: number | string;
  readonly y?: number;
  /** Places are those of the middle. */
  readonly middle?: boolean;
  readonly bold?: boolean;
  readonly quiet?: boolean;
}

export function Words(props: WordsProps) {
  const { text, size, x, y, middle = false, bold = false, quiet = false } = props;
  const { palette, fontFamily } = useChartStyle();
  return (
    <text
      {...(x === undefined ? {} : { x })}
      {...(y === undefined ? {} : { y })}
      fontSize={size}
      {...(middle ? { textAnchor: 'middle' } : {})}
      {...(bold ? { fontWeight: 600 } : {})}
      fontFamily={fontFamily}
      fill={palette.ink}
      {...(quiet ? { fillOpacity: 0.75 } : {})}
    >
      {text}
    </text>
  );
}

/** Smaller where it would run over; shortened where that would be too small to read. */
export function fitted(text: string, width: number, size: number): { text: string; size: number } {
  const wide = OTHER_LETTERS * textWidth(text, size, true);
  if (wide <= width) return { text, size };
  const least = size * 0.6;
  const smaller = (size * width) / wide;
  if (smaller > least) return { text, size: smaller };
  const fits = (one: string) => OTHER_LETTERS * textWidth(one, least, true) <= width;
  return { text: fittedTo(text, fits), size: least };
}

function large(u: number): ChartStyle {
  const style = chartStyle('light');
  const by = 2.4 * u;
  return {
    ...style,
    fontFamily: '"Inter Variable", Inter, sans-serif',
    small: style.small * by,
    label: style.label * by,
    strong: style.strong * by,
    stroke: style.stroke * by * 1.2,
    dot: style.dot * by,
  };
}
