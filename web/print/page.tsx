/** Gives each picture of a page for the owner its cursor, the charts of the screens over its figures, and folds its parts. */
import { useState, useSyncExternalStore } from 'react';
import { createRoot } from 'react-dom/client';
import type { ChartWords } from '../../src/chartWords.ts';
import type { FigureWanted } from '../../src/figures.ts';
import { useSize } from '../charts/useSize.ts';
import { ChartStyleContext, chartStyle } from '../theme/chart-style.ts';
import { foldParts } from './parts.ts';
import { FigurePicture } from './picture.tsx';

function Live({ figure, height }: { readonly figure: FigureWanted; readonly height: number }) {
  const [cursor, setCursor] = useState<number | null>(null);
  const [ref, box] = useSize<HTMLDivElement>();
  return (
    <div ref={ref} style={{ height }}>
      {box !== null && box.width > 0 && (
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
const dark = matchMedia('(prefers-color-scheme: dark)');
const onPaper = matchMedia('print');

/** As the page around it; as on paper where it is printed. */
function useScheme(): 'light' | 'dark' {
  return useSyncExternalStore(
    (changed) => {
      dark.addEventListener('change', changed);
      onPaper.addEventListener('change', changed);
      return () => {
        dark.removeEventListener('change', changed);
        onPaper.removeEventListener('change', changed);
      };
    },
    () => (dark.matches && !onPaper.matches ? 'dark' : 'light'),
  );
}

function Drawing({ figure, height }: { readonly figure: FigureWanted; readonly height: number }) {
  const scheme = useScheme();
  return (
    <ChartStyleContext.Provider value={chartStyle(scheme)}>
      <Live figure={figure} height={height} />
    </ChartStyleContext.Provider>
  );
}

for (const element of document.querySelectorAll<HTMLElement>('figure[data-figure]')) {
  const drawn = figures[Number(element.dataset.figure)];
  const drawing = element.querySelector<HTMLElement>('.drawing');
  if (drawn === undefined || drawing === null) continue;
  drawing.dataset.live = '';
  createRoot(drawing).render(
    <Drawing figure={{ ...drawn, words }} height={Number(element.dataset.height)} />,
  );
}

foldParts();
