import { said } from '../../src/chartWords.ts';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import { useChartStyle } from '../theme/chart-style.ts';
import { Label } from './Label.tsx';
import { settingDecimals } from './numbers.ts';
import { useSay } from './say.ts';
import type { Plot, Scale } from './scale.ts';
import { type Box, besideLine, overlap, textWidth } from './text.ts';

/** The interval of the best as a bar under the curve, its estimate a tick; an open end fades into an arrow. */
export function BestBar({
  best,
  unit,
  x,
  plot,
  y,
}: {
  best: LadderAnswer['best'];
  unit: string;
  x: Scale;
  plot: Plot;
  y: number;
}) {
  const { palette, small } = useChartStyle();
  const { words, estimate, interval } = useSay();
  const right = plot.left + plot.width;
  if (best.low === null && best.high === null) {
    return (
      <Label
        x={plot.left + plot.width / 2}
        y={y - small * 0.6}
        size={small}
        colour={palette.muted}
        anchor="middle"
      >
        {words.response.bestUnknown}
      </Label>
    );
  }
  const low = clamp(best.low === null ? plot.left : x(best.low), plot.left, right);
  const high = clamp(best.high === null ? right : x(best.high), plot.left, right);
  const range = interval(best.low, best.high, settingDecimals(unit));
  const text =
    best.value === null || best.high === null || best.low === null
      ? said(words.response.bestOpen, { range })
      : said(words.response.best, { value: estimate(best.value, unit), range });
  const half = textWidth(text, small) / 2;
  const middle = clamp((low + high) / 2, plot.left + half, right - half);
  return (
    <g>
      <Label x={middle} y={y - small * 1.05} size={small} anchor="middle" rim={palette.paper}>
        {text}
      </Label>
      <rect
        x={low}
        y={y}
        width={Math.max(2, high - low)}
        height={5}
        fill={palette.ink}
        fillOpacity={0.28}
      />
      {best.high === null && (
        <path d={`M${right - 1} ${y - 3}l7 5.5l-7 5.5Z`} fill={palette.ink} fillOpacity={0.5} />
      )}
      {best.low === null && (
        <path d={`M${plot.left + 1} ${y - 3}l-7 5.5l7 5.5Z`} fill={palette.ink} fillOpacity={0.5} />
      )}
      {best.value !== null && best.value >= x.domain()[0]! && best.value <= x.domain()[1]! && (
        <line
          x1={x(best.value)}
          x2={x(best.value)}
          y1={y - 3}
          y2={y + 8}
          stroke={palette.ink}
          strokeWidth={2}
        />
      )}
    </g>
  );
}

/** The knee hangs on the curve: a short upright with its name below, where the paper is usually free. */
export function KneeMark({
  knee,
  unit,
  x,
  y,
  plot,
  limitX,
}: {
  knee: number;
  unit: string;
  x: Scale;
  /** Height of the curve at the knee [px]. */
  y: number;
  plot: Plot;
  /** Where the line of the limit stands [px]; the name keeps clear of it. */
  limitX: number | null;
}) {
  const { palette, small } = useChartStyle();
  const { words, estimate } = useSay();
  const text = said(words.response.knee, { value: estimate(knee, unit) });
  const half = textWidth(text, small) / 2;
  const middle = besideLine(x(knee), half, limitX, plot.left, plot.left + plot.width);
  const foot = Math.min(y + small * 3.4, plot.top + plot.height - small * 1.4);
  if (foot - y < small) return null;
  return (
    <g data-knee="">
      <line
        x1={x(knee)}
        x2={x(knee)}
        y1={y - 5}
        y2={foot}
        stroke={palette.ink}
        strokeWidth={1.25}
      />
      <Label
        x={middle}
        y={foot + small * 0.75}
        size={small}
        colour={palette.muted}
        anchor="middle"
        rim={palette.paper}
      >
        {text}
      </Label>
    </g>
  );
}

export function LimitZone({
  limit,
  unit,
  x,
  plot,
  safeDirection,
  hatch,
  taken,
}: {
  limit: number;
  unit: string;
  x: Scale;
  plot: Plot;
  safeDirection: 'lower' | 'higher';
  hatch: string;
  /** Where dots and their whiskers stand; the name keeps clear of them. */
  taken: readonly Box[];
}) {
  const { palette, label } = useChartStyle();
  const { words, estimate } = useSay();
  const right = plot.left + plot.width;
  const at = clamp(x(limit), plot.left, right);
  const [from, to] = safeDirection === 'lower' ? [at, right] : [plot.left, at];
  const text = said(words.response.limit, { value: estimate(limit, unit) });
  const wide = textWidth(text, label, true);
  const box = (left: number, middle: number): Box => ({
    left,
    right: left + wide,
    top: middle - label * 0.7,
    bottom: middle + label * 0.7,
  });
  const [top, bottom] = [plot.top + label * 0.9, plot.top + plot.height - label * 0.9];
  const places = [
    box(at + 7, top),
    box(at - 7 - wide, top),
    box(at + 7, bottom),
    box(at - 7 - wide, bottom),
  ].filter((place) => place.left >= plot.left && place.right <= right);
  const place =
    places.find((one) => taken.every((other) => !overlap(one, other))) ??
    places[0] ??
    box(at - 7 - wide, top);
  return (
    <g data-limit="">
      <rect
        x={from}
        y={plot.top}
        width={Math.max(0, to - from)}
        height={plot.height}
        fill={`url(#${hatch})`}
      />
      <line
        x1={at}
        x2={at}
        y1={plot.top}
        y2={plot.top + plot.height}
        stroke={palette.stop}
        strokeWidth={1.75}
      />
      <Label
        x={place.left}
        y={(place.top + place.bottom) / 2}
        bold
        colour={palette.stop}
        anchor="start"
        rim={palette.paper}
      >
        {text}
      </Label>
    </g>
  );
}

const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);
