import { useEffect, useRef } from 'react';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { plain } from '../../charts/numbers.ts';
import { useChartStyle } from '../../theme/chart-style.ts';
import styles from './pull.module.css';

interface TracePlotProps {
  readonly name: string;
  /** Seconds or rows, ascending. */
  readonly places: readonly (number | null)[];
  readonly low: readonly (number | null)[];
  readonly high: readonly (number | null)[];
  readonly timed: boolean;
  /** Places between which it is drawn; null: all. */
  readonly range: readonly [number, number] | null;
  /** After a drag over a part, or a double click for all of it. */
  readonly onRange: (range: readonly [number, number] | null) => void;
}

/** Ticks as everywhere else on the page, without marks between thousands. */
const figures = (_: uPlot, ticks: number[]) => ticks.map(String);

/** A shorter drag is a click. */
const LEAST_DRAG_PX = 6;

/** All traces of a page share one cursor. */
const CURSOR_KEY = 'samples';

/** One channel drawn by uPlot as the band between the lowest and the highest sample of each place. */
export function TracePlot(props: TracePlotProps) {
  const { name, places, low, high, timed, range, onRange } = props;
  const host = useRef<HTMLDivElement>(null);
  const said = useRef(onRange);
  useEffect(() => {
    said.current = onRange;
  });
  const { palette, small, fontFamily } = useChartStyle();

  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const keep = places.flatMap((place, at) => (place === null ? [] : [at]));
    const pick = (list: readonly (number | null)[]) => keep.map((at) => list[at] ?? null);
    const font = `${small}px ${fontFamily}`;
    const axis = { stroke: palette.muted, font, grid: { stroke: palette.grid, width: 1 } };
    const height = () => Math.round(small * 10);
    const plot = new uPlot(
      {
        width: Math.max(120, element.clientWidth),
        height: height(),
        legend: { show: false },
        cursor: {
          sync: { key: CURSOR_KEY, setSeries: false, scales: ['x', null] },
          y: false,
          points: { show: false },
          // The page draws the part that was dragged over, for all traces and from finer samples.
          drag: { x: true, y: false, setScale: false },
          bind: {
            dblclick: () => () => {
              said.current(null);
              return null;
            },
          },
        },
        hooks: {
          setSelect: [
            (drawn) => {
              const { left, width } = drawn.select;
              if (width < LEAST_DRAG_PX) return;
              said.current([drawn.posToVal(left, 'x'), drawn.posToVal(left + width, 'x')]);
            },
          ],
        },
        scales: {
          x: { time: false, ...(range === null ? {} : { range: [range[0], range[1]] }) },
        },
        axes: [
          { ...axis, size: small * 2.4, values: figures },
          { ...axis, size: small * 5, space: small * 2, values: figures },
        ],
        series: [
          {},
          { stroke: palette.ink, width: 1, spanGaps: false },
          { stroke: palette.ink, width: 1, spanGaps: false },
        ],
        bands: [{ series: [2, 1], fill: palette.chance }],
      },
      [keep.map((at) => places[at]!), pick(low), pick(high)],
      element,
    );
    const observer = new ResizeObserver(() => {
      if (element.clientWidth > 0)
        plot.setSize({ width: Math.max(120, element.clientWidth), height: height() });
    });
    observer.observe(element);
    return () => {
      observer.disconnect();
      plot.destroy();
    };
  }, [places, low, high, range, palette, small, fontFamily]);

  return (
    <div
      ref={host}
      className={styles.plot}
      role="img"
      aria-label={inWords(name, low, high, timed)}
    />
  );
}

function inWords(
  name: string,
  low: readonly (number | null)[],
  high: readonly (number | null)[],
  timed: boolean,
): string {
  const known = (list: readonly (number | null)[]) =>
    list.filter((value): value is number => value !== null);
  const least = known(low).reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = known(high).reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (least > most) return `${name}: no samples`;
  return `${name} against ${timed ? 'time' : 'row'}: between ${plain(least, 2)} and ${plain(most, 2)}`;
}
