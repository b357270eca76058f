/** Whether power moved over the test days of one build. */
import { tQuantile } from '../../numerics/index.ts';
import { straightLine } from '../../trade/index.ts';

/** Mean power of one day over the speeds that all days share. */
export interface DayPower {
  /** ISO day. */
  readonly date: string;
  readonly meanPowerW: number;
}
export type DriftWord = 'falls' | 'rises' | 'cannot be told from chance' | 'not known yet';

/** Change from the first day to the last [%] with its 95 % interval; null where nothing can be said. */
export interface Drift {
  readonly changePercent: {
    readonly value: number;
    readonly low: number;
    readonly high: number;
  } | null;
  readonly word: DriftWord;
  readonly fromDate: string | null;
  readonly toDate: string | null;
  readonly days: number;
  readonly sentence: string;
}

const LEAST_DAYS = 3;
const DAY_MS = 86_400_000;

/**
 * The trend of ln(power) over the dates as a straight line by ordinary least squares, its interval by Student's t: all
 * that makes days differ (air, cell, how they were warmed up) is in the scatter about the line, whatever it is. With
 * fewer than three dated days nothing of that is known, and nothing is said.
 *
 * @source  the line: NIST StRD Norris (trade/calibration); interval of a slope b ± t(0.975, n−2) s_b: NIST/SEMATECH
 *          e-Handbook 4.1.4.1, from memory
 * @validity  days that differ independently; one that is out of line moves the whole of a short record
 */
export function driftOf(days: readonly DayPower[]): Drift {
  const known = days
    .filter(({ date, meanPowerW }) => Number.isFinite(Date.parse(date)) && meanPowerW > 0)
    .sort((a, b) => a.date.localeCompare(b.date));
  const [fromDate, toDate] = [known[0]?.date ?? null, known.at(-1)?.date ?? null];
  const base = { fromDate, toDate, days: known.length };
  const different = new Set(known.map(({ date }) => date)).size;
  if (known.length < LEAST_DAYS || different < 2) {
    return {
      ...base,
      changePercent: null,
      word: 'not known yet',
      sentence:
        different < 2 && known.length >= LEAST_DAYS
          ? 'All of these days have one date; what moves over time needs another.'
          : `Whether power moved over time is not known yet: ${LEAST_DAYS} test days at one setting would begin to tell.`,
    };
  }
  const first = Date.parse(fromDate!);
  const line = straightLine(
    known.map(({ date, meanPowerW }) => ({
      x: (Date.parse(date) - first) / DAY_MS,
      y: Math.log(meanPowerW),
    })),
  );
  const span = (Date.parse(toDate!) - first) / DAY_MS;
  const half = tQuantile(0.975, line.degreesOfFreedom) * line.slopeSe;
  const part = (slope: number) => 100 * Math.expm1(slope * span);
  const changePercent = {
    value: part(line.slope),
    low: part(line.slope - half),
    high: part(line.slope + half),
  };
  const word: DriftWord =
    changePercent.high < 0
      ? 'falls'
      : changePercent.low > 0
        ? 'rises'
        : 'cannot be told from chance';
  return { ...base, changePercent, word, sentence: sentenceOf(word, changePercent, known.length) };
}

function sentenceOf(
  word: DriftWord,
  { value, low, high }: NonNullable<Drift['changePercent']>,
  days: number,
): string {
  const text = (percent: number) => Math.abs(percent).toFixed(1);
  if (word === 'falls' || word === 'rises') {
    const ends = [low, high].map(text).sort((a, b) => Number(a) - Number(b));
    const moved = word === 'falls' ? 'fell' : 'rose';
    return `Over ${days} days mean power ${moved} by ${text(value)} % (${ends[0]} to ${ends[1]} %). A calibration of the cell within that time would move it as well.`;
  }
  const sign = (percent: number) => `${percent < 0 ? '−' : '+'}${text(percent)}`;
  return `Over ${days} days a change of mean power cannot be told from chance: ${sign(low)} to ${sign(high)} %.`;
}
