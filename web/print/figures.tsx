/** Pictures of a report as the text of SVG files, drawn without a browser. */
import { renderToStaticMarkup } from 'react-dom/server';
import type { DrawFigure, DrawReplay, DrawShown } from '../../src/figures.ts';
import { steady } from '../../src/signs.ts';
import { standaloneSvg } from '../charts/standalone.ts';
import { type ChartStyle, ChartStyleContext, chartStyle } from '../theme/chart-style.ts';
import { FigurePicture } from './picture.tsx';
import { ReplayPicture } from './replay.tsx';
import { ShownPicture } from './shown.tsx';

/** Draws one; on paper of its own with its caption where that is asked. */
export const drawFigure: DrawFigure = (
  figure,
  { width, height, scheme = 'light', withCaption = false, larger = 1 },
) => {
  const style = styleFor(scheme, larger);
  // Control signs would end the file for whoever reads it as XML.
  const markup = steady(
    renderToStaticMarkup(
      <ChartStyleContext.Provider value={style}>
        <FigurePicture figure={figure} width={width} height={height} />
      </ChartStyleContext.Provider>,
    ),
  );
  if (!withCaption) return markup;
  const inner = markup.replace(/^<svg[^>]*>/, '').replace(/<\/svg>$/, '');
  const { title, scenario } = figure;
  return standaloneSvg(inner, width, height, { title, scenario }, style, null);
};

export const drawShown: DrawShown = (shown, size) =>
  steady(renderToStaticMarkup(<ShownPicture {...{ shown, size }} />));

export const drawReplay: DrawReplay = (replay, size, timeS) =>
  steady(renderToStaticMarkup(<ReplayPicture {...{ replay, size, timeS }} />));

function styleFor(scheme: 'light' | 'dark', larger: number): ChartStyle {
  const style = chartStyle(scheme);
  return {
    ...style,
    // As the page sets it: Typst knows no fallback inside a picture.
    fontFamily: 'Inter, "Inter Variable", sans-serif',
    small: style.small * larger,
    label: style.label * larger,
    strong: style.strong * larger,
    stroke: style.stroke * larger,
    dot: style.dot * larger,
  };
}
