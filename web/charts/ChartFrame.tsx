import { Menu } from '@mantine/core';
import { type ReactNode, useId, useState } from 'react';
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import type { TableModel } from '../table/model.ts';
import { TableView } from '../table/TableView.tsx';
import { useTaking } from '../table/TakeTable.tsx';
import {
  type ChartStyle,
  ChartStyleContext,
  chartStyle,
  useChartStyle,
} from '../theme/chart-style.ts';
import { BackIcon, PictureIcon, SaveIcon, TableIcon } from '../theme/icons.tsx';
import styles from './charts.module.css';
import { savePng, saveSvg } from './save.ts';
import type { Caption } from './standalone.ts';
import { type Box, useSize } from './useSize.ts';
import type { Zoom } from './zoom.ts';

export interface ChartFrameProps {
  readonly title: string;
  readonly subtitle?: ReactNode;
  /** Engine, build, day and band, for the title of a saved picture. */
  readonly scenario: string;
  /** The same numbers; asked for only when shown. */
  readonly table: () => TableModel;
  readonly zoom?: Zoom;
  /** A choice of what is drawn, before the buttons that every picture has. */
  readonly tools?: ReactNode;
  /** Gives the body its height; the picture fills it. */
  readonly className?: string;
  readonly children: (box: Box) => ReactNode;
}

/** What surrounds every picture: title, the table of its numbers, saving it, undoing a zoom. */
export function ChartFrame(props: ChartFrameProps) {
  const { title, subtitle, scenario, table, zoom, tools, className, children } = props;
  const [body, box] = useSize<HTMLDivElement>();
  const [asTable, setAsTable] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const style = useChartStyle();
  const name = useId();
  const caption: Caption = { title, scenario };
  const taking = useTaking({ title, table, scenario });
  const save = (how: typeof savePng) => {
    if (box === null) return;
    setProblem(null);
    const paper = onPaper(children(box), chartStyle('light', style.size));
    how(paper.svg, caption, paper.style)
      .catch((error: unknown) => setProblem(error instanceof Error ? error.message : String(error)))
      .finally(paper.remove);
  };
  return (
    <section className={styles.frame} aria-labelledby={name}>
      <header className={styles.head}>
        <div>
          <h2 id={name} className={styles.title}>
            {title}
          </h2>
          {subtitle !== undefined && <p className={styles.subtitle}>{subtitle}</p>}
        </div>
        <div className={`${styles.tools} offPaper`}>
          {tools}
          {zoom?.zoomed === true && (
            <button
              type="button"
              className={styles.tool}
              aria-label={`${title}: show the whole`}
              title="Show the whole"
              onClick={() => zoom.set(null)}
            >
              <BackIcon />
            </button>
          )}
          <button
            type="button"
            className={styles.tool}
            aria-pressed={asTable}
            aria-label={asTable ? `${title}: show the picture` : `${title}: show as a table`}
            title={asTable ? 'Show the picture' : 'Show as a table'}
            onClick={() => setAsTable(!asTable)}
          >
            {asTable ? <PictureIcon /> : <TableIcon />}
          </button>
          <Menu position="bottom-end">
            <Menu.Target>
              <button
                type="button"
                className={styles.tool}
                aria-label={`${title}: ${asTable ? 'take the table' : 'save the picture'}`}
                title={asTable ? 'Take the table' : 'Save the picture'}
              >
                <SaveIcon />
              </button>
            </Menu.Target>
            <Menu.Dropdown>
              {!asTable && (
                <>
                  <Menu.Item onClick={() => save(savePng)}>Save as PNG</Menu.Item>
                  <Menu.Item onClick={() => save(saveSvg)}>Save as SVG</Menu.Item>
                </>
              )}
              {taking.items}
            </Menu.Dropdown>
          </Menu>
        </div>
      </header>
      {problem !== null && <p role="alert">{`The picture was not saved: ${problem}`}</p>}
      {taking.problem !== null && <p role="alert">{taking.problem}</p>}
      <div ref={body} className={`${styles.body} ${className ?? ''}`}>
        {asTable ? (
          <TableView caption={title} {...table()} />
        ) : (
          box !== null && box.width > 40 && box.height > 40 && children(box)
        )}
      </div>
    </section>
  );
}

/** The picture drawn once more as it goes on paper, whatever the theme of the screen; out of sight until removed. */
function onPaper(picture: ReactNode, style: ChartStyle) {
  const place = document.createElement('div');
  const root = createRoot(place);
  flushSync(() => root.render(<ChartStyleContext value={style}>{picture}</ChartStyleContext>));
  return { svg: place.querySelector('svg')!, style, remove: () => root.unmount() };
}
