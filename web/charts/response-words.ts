import { said } from '../../src/chartWords.ts';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import {
  type Outside,
  plain,
  setting,
  settingDecimals,
  threeFigures,
  withUnit,
} from './numbers.ts';
import type { Say } from './say.ts';
import { decimalsOf, extentOf, linear, padded, type Span, ticksFor, valueAt } from './scale.ts';
import type { Zoom } from './zoom.ts';

/** A use and the setting left for it. */
export interface UseFlag {
  readonly name: string;
  readonly value: number;
  /** The use the page speaks about. */
  readonly chosen: boolean;
}

export interface ResponseChartProps {
  readonly width: number;
  readonly height: number;
  readonly answer: Pick<LadderAnswer, 'response' | 'dots' | 'best' | 'knee' | 'limit'>;
  readonly uses: readonly UseFlag[];
  /** Unit of the setting, and what its axis is called. */
  readonly unit: string;
  readonly axis: string;
  readonly safeDirection: 'lower' | 'higher';
  readonly power: Outside;
  readonly cursor: number | null;
  readonly onCursor?: (setting: number | null) => void;
  /** Made by `useZoom(settingSpan(answer, uses))`. */
  readonly zoom?: Zoom;
}

/** Settings the whole picture shows: the curve, the pulls and what is left, with a little air. */
export function settingSpan(
  answer: Pick<LadderAnswer, 'response' | 'dots'>,
  uses: readonly UseFlag[],
): Span {
  const all = extentOf(
    answer.response.setting,
    answer.dots.map((one) => one.setting),
    uses.map((use) => use.value),
  );
  return padded(all ?? [0, 1], 0.025);
}

export function readingText(
  { answer, power, unit }: Pick<ResponseChartProps, 'answer' | 'power' | 'unit'>,
  at: number,
  { words, plain, percent, estimate }: Say,
): string {
  const { setting: places, meanPowerW, lowW, highW } = answer.response;
  const [mean, low, high] = [meanPowerW, lowW, highW].map((list) => valueAt(places, list, at));
  const here = estimate(at, unit);
  if (mean === null || mean === undefined) return said(words.response.unknownAt, { at: here });
  const top = Math.max(...meanPowerW);
  const decimals = threeFigures(power.of(mean));
  const figure = (watt: number) => plain(power.of(watt), decimals);
  return said(words.response.reading, {
    at: here,
    power: withUnit(figure(mean), power.symbol),
    range: said(words.range, { low: figure(low!), high: figure(high!) }),
    lost: percent((1 - mean / top) * 100),
  });
}

export function summaryOf({ answer, uses, unit, power }: ResponseChartProps, say: Say): string {
  const { plain, setting, estimate, interval } = say;
  const words = say.words.response;
  const pulls = answer.dots.map(
    (one) =>
      `${setting(one.setting, unit)} ${plain(power.of(one.meanPowerW.value), threeFigures(power.of(one.meanPowerW.value)))} ${power.symbol}`,
  );
  const settings = uses.map((use) =>
    said(words.leftFor, { value: setting(use.value, unit), use: use.name }),
  );
  const limit = answer.limit?.value;
  return said(words.summary, {
    best: interval(answer.best.low, answer.best.high, settingDecimals(unit)),
    left:
      settings.length === 0
        ? words.nothingLeft
        : said(words.left, { settings: settings.join(', ') }),
    limit: limit == null ? '' : said(words.limitSentence, { value: estimate(limit, unit) }),
    pulls: pulls.join('; '),
  });
}

/** The same numbers as a table: each pull, then the curve at whole ticks. */
export function responseTable({
  answer,
  unit,
  power,
  nameOf = (id) => `pull ${id}`,
}: Pick<ResponseChartProps, 'answer' | 'unit' | 'power'> & {
  /** What a pull is called. */
  readonly nameOf?: (id: string) => string;
}) {
  const { response, dots } = answer;
  const columns = ['what', 'setting', `power, ${power.symbol}`, `95 % from – to, ${power.symbol}`];
  const line = (what: string, at: number, value: number, low: number, high: number) => [
    what,
    setting(at, unit, 2),
    plain(power.of(value), 1),
    `${plain(power.of(low), 1)} to ${plain(power.of(high), 1)}`,
  ];
  const rows = dots.map((one) =>
    line(
      nameOf(one.id),
      one.setting,
      one.meanPowerW.value,
      one.meanPowerW.low,
      one.meanPowerW.high,
    ),
  );
  const domain = extentOf(response.setting);
  if (domain !== null) {
    const ticks = ticksFor(linear(domain, [0, 600]), 50);
    const decimals = decimalsOf(ticks);
    for (const tick of ticks) {
      const [mean, low, high] = [response.meanPowerW, response.lowW, response.highW].map((list) =>
        valueAt(response.setting, list, tick),
      );
      if (mean != null && low != null && high != null) {
        rows.push(line('curve', Number(tick.toFixed(decimals)), mean, low, high));
      }
    }
  }
  return { columns, rows };
}
