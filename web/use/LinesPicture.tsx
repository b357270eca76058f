import { type ReactNode, useState } from 'react';
import { ChartFrame } from '../charts/ChartFrame.tsx';
import { LinesChart, type LinesChartProps, linesTable } from '../charts/LinesChart.tsx';
import styles from './use.module.css';

interface LinesPictureProps
  extends Omit<LinesChartProps, 'width' | 'height' | 'cursor' | 'onCursor'> {
  readonly title: string;
  readonly subtitle: string;
  readonly scenario: string;
  /** Every how many places of a line its table shows one; left out: as the table does. */
  readonly every?: number;
  readonly tools?: ReactNode;
}

/** Lines over one axis in a frame of their own, with their table and a cursor. */
export function LinesPicture(props: LinesPictureProps) {
  const { title, subtitle, scenario, every, tools, ...chart } = props;
  const [cursor, setCursor] = useState<number | null>(null);
  const { lines, x, y, zoom } = chart;
  return (
    <ChartFrame
      {...{ title, subtitle, scenario, tools }}
      table={() => linesTable(lines, x, y, every)}
      {...(zoom === undefined ? {} : { zoom })}
      className={styles.canvas!}
    >
      {(box) => <LinesChart {...box} {...chart} cursor={cursor} onCursor={setCursor} />}
    </ChartFrame>
  );
}
