/** Gives each picture of a page for the owner its cursor: the charts of the screens, over the figures in the page. */
import { useState } from 'react';
import { createRoot } from 'react-dom/client';
import type { ChartWords } from '../../src/chartWords.ts';
import type { FigureWanted } from '../../src/figures.ts';
import { useSize } from '../charts/useSize.ts';
import { ChartStyleContext, chartStyle } from '../theme/chart-style.ts';
import { FigurePicture } from './picture.tsx';

function Live({ figure, height }: { readonly figure: FigureWanted; readonly height: number }) {
  const [cursor, setCursor] = useState<number | null>(null);
  const [ref, box] = useSize<HTMLDivElement>();
  return (
    <div ref={ref} style={{ height }}>
      {box !== null && (
        <FigurePicture
          figure={figure}
          width={box.width}
          height={height}
          cursor={cursor}
          onCursor={setCursor}
        />
      )}
    </div>
  );
}

const { words, figures } = JSON.parse(
  document.getElementById('figures')?.textContent ?? '{"figures":[]}',
) as { readonly words: ChartWords; readonly figures: readonly FigureWanted[] };
// Always as on paper: a picture is sent on, shown and printed.
const style = chartStyle('light');
for (const element of document.querySelectorAll<HTMLElement>('figure[data-figure]')) {
  const drawn = figures[Number(element.dataset.figure)];
  const drawing = element.querySelector('.drawing');
  if (drawn === undefined || drawing === null) continue;
  createRoot(drawing).render(
    <ChartStyleContext.Provider value={style}>
      <Live figure={{ ...drawn, words }} height={Number(element.dataset.height)} />
    </ChartStyleContext.Provider>,
  );
}
