import type { Check } from '../../src/build/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { shareOf, stretchOf } from './bar.ts';
import styles from './follows.module.css';
import { valueText } from './words.ts';

const WIDE = 240;
const MARGIN = 8;
const LINE = 11;

/** A check's window as a bar, the values in it as dots, the judged one larger with its ± drawn. */
export function WindowBar({ check }: { check: Check }) {
  const { units } = usePreferences();
  const { window, value } = check;
  const stretch = window === null ? null : stretchOf(window, value);
  if (window === null || stretch === null) return null;
  const x = (at: number) => MARGIN + shareOf(at, stretch) * (WIDE - 2 * MARGIN);
  const text = (at: number) => valueText(check, at, units);
  const { low, high, stopBelow, stopAbove } = window;
  const from = low === null ? 0 : x(low);
  const to = high === null ? WIDE : x(high);
  const half = check.plusMinus;
  const anchor = (at: number, side: 'end' | 'start') =>
    low !== null && high !== null ? side : at < 60 ? 'start' : at > WIDE - 60 ? 'end' : 'middle';
  const beyond = value !== null && (value < stretch[0] || value > stretch[1]);
  return (
    <svg
      className={styles.bar}
      viewBox={`0 0 ${WIDE} 34`}
      role="img"
      aria-label={`${value === null ? 'No value yet' : text(value)}; the window is ${windowWords(check, text)}`}
    >
      <line x1="0" x2={WIDE} y1={LINE} y2={LINE} className={styles.barLine} />
      <rect
        x={from}
        width={Math.max(1, to - from)}
        y={LINE - 4}
        height="8"
        className={styles.barWindow}
      />
      {[low, high].map(
        (at, i) =>
          at !== null && (
            <g key={i === 0 ? 'low' : 'high'}>
              <line x1={x(at)} x2={x(at)} y1={LINE - 6} y2={LINE + 6} className={styles.barEnd} />
              <text x={x(at)} y="31" textAnchor={anchor(x(at), i === 0 ? 'end' : 'start')}>
                {text(at)}
              </text>
            </g>
          ),
      )}
      {[stopBelow, stopAbove].map(
        (at, i) =>
          at !== null && (
            <path
              key={i === 0 ? 'below' : 'above'}
              d={`M${x(at)} ${LINE - 5}v10`}
              className={styles.barStop}
            />
          ),
      )}
      {check.each?.map(
        (one, i) =>
          one !== null && (
            // biome-ignore lint/suspicious/noArrayIndexKey: places have no other name
            <circle key={i} cx={x(one)} cy={LINE} r="2" className={styles.barOther} />
          ),
      )}
      {value !== null && half !== null && (
        <line
          x1={x(value - half)}
          x2={x(value + half)}
          y1={LINE}
          y2={LINE}
          className={styles.barBand}
        />
      )}
      {value !== null &&
        (beyond ? (
          <path
            d={value < stretch[0] ? `M2 ${LINE}l7 -5v10z` : `M${WIDE - 2} ${LINE}l-7 -5v10z`}
            className={styles.barValue}
          />
        ) : (
          <circle cx={x(value)} cy={LINE} r="4.5" className={styles.barValue} />
        ))}
    </svg>
  );
}

/** `from 0.9 mm to 1.5 mm, stop below 0.8 mm`. */
export function windowWords({ window }: Check, text: (at: number) => string): string {
  if (window === null) return 'not set';
  const { low, high, stopBelow, stopAbove } = window;
  const within =
    low !== null && high !== null
      ? `${text(low)} to ${text(high)}`
      : low !== null
        ? `${text(low)} or more`
        : high !== null
          ? `${text(high)} or less`
          : 'open';
  return [
    within,
    ...(stopBelow === null ? [] : [`stop below ${text(stopBelow)}`]),
    ...(stopAbove === null ? [] : [`stop above ${text(stopAbove)}`]),
  ].join(', ');
}
