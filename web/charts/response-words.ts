import { said } from '../../src/chartWords.ts';
import type { LadderAnswer } from '../../src/ladder/types.ts';
import {
  numberColumn,
  rangeColumn,
  settingColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { type Outside, settingDecimals, threeFigures, withUnit } from './numbers.ts';
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
}): TableModel {
  const { response, dots } = answer;
  const pulls = dots.map((one) => ({ what: nameOf(one.id), at: one.setting, ...one.meanPowerW }));
  const domain = extentOf(response.setting);
  const ticks = domain === null ? [] : ticksFor(linear(domain, [0, 600]), 50);
  const decimals = decimalsOf(ticks);
  const curve = ticks.flatMap((tick) => {
    const [value, low, high] = [response.meanPowerW, response.lowW, response.highW].map((list) =>
      valueAt(response.setting, list, tick),
    );
    if (value == null || low == null || high == null) return [];
    return [{ what: 'curve', at: Number(tick.toFixed(decimals)), value, low, high }];
  });
  const look = { decimals: 1 };
  return tableFrom(
    [...pulls, ...curve],
    [
      wordsColumn('what', ({ what }) => what),
      settingColumn('setting', unit, ({ at }) => at),
      numberColumn('power', power.symbol, ({ value }) => power.of(value), look),
      rangeColumn(
        'power, 95 %',
        power.symbol,
        ({ low, high }) => ({ low: power.of(low), high: power.of(high) }),
        look,
      ),
    ],
  );
}
