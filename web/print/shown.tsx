/** The result as a picture of an exact size: headline, figures, curve and mark, to be read on a thumbnail. */
import { renderToStaticMarkup } from 'react-dom/server';
import type { DrawShown } from '../../src/figures.ts';
import { steady } from '../../src/signs.ts';
import { OTHER_LETTERS, textWidth } from '../charts/text.ts';
import { type ChartStyle, ChartStyleContext, chartStyle } from '../theme/chart-style.ts';
import { FigurePicture } from './picture.tsx';

export const drawShown: DrawShown = (shown, { width, height }) => {
  const { title, scenario, headlines, figure, by, mark } = shown;
  // One unit is a pixel of the smallest of the sizes.
  const u = Math.min(width, height) / 1080;
  const style = large(u);
  const { palette, fontFamily } = style;
  const edge = 56 * u;
  const full = width - 2 * edge;
  const beside = mark === null ? full : full - 280 * u;
  const heading = fitted(title, beside, 62 * u);
  const column = full / headlines.length;
  const top = edge + 330 * u;
  const chart = { width: full, height: height - top - edge - 34 * u };
  const words = { fontFamily, fill: palette.ink };
  const under = fitted(`${by}${by === '' ? '' : ', '}${scenario}`, full, 27 * u);
  const markup = renderToStaticMarkup(
    <svg
      xmlns="http://www.w3.org/2000/svg"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
    >
      <title>{`${title}. ${headlines.map((one) => one.join(' ')).join('; ')}`}</title>
      <rect width={width} height={height} fill={palette.paper} />
      <text x={edge} y={edge + 56 * u} fontSize={heading.size} fontWeight={600} {...words}>
        {heading.text}
      </text>
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
      {headlines.map(([figureText, of], at) => {
        const big = fitted(figureText, column - 20 * u, 92 * u);
        const small = fitted(of, column - 20 * u, 30 * u);
        return (
          <g key={figureText} transform={`translate(${edge + at * column} ${edge + 190 * u})`}>
            <text fontSize={big.size} fontWeight={600} {...words}>
              {big.text}
            </text>
            <text y={46 * u} fontSize={small.size} {...words} fillOpacity={0.75}>
              {small.text}
            </text>
          </g>
        );
      })}
      <g transform={`translate(${edge} ${top})`}>
        <ChartStyleContext.Provider value={style}>
          <FigurePicture figure={figure} {...chart} />
        </ChartStyleContext.Provider>
      </g>
      <text x={edge} y={height - edge + 22 * u} fontSize={under.size} {...words} fillOpacity={0.75}>
        {under.text}
      </text>
    </svg>,
  );
  return steady(markup);
};

/** Smaller where it would run over; shortened where that would be too small to read. */
function fitted(text: string, width: number, size: number): { text: string; size: number } {
  const wide = OTHER_LETTERS * textWidth(text, size, true);
  if (wide <= width) return { text, size };
  const least = size * 0.6;
  const smaller = Math.max(least, (size * width) / wide);
  let kept = text;
  while (kept.length > 1 && OTHER_LETTERS * textWidth(`${kept}…`, smaller, true) > width)
    kept = kept.slice(0, -1);
  return { text: smaller > least ? text : `${kept.trimEnd()}…`, size: smaller };
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
