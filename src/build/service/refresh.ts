/** Whether an engine is due for its refresh by what its shop states, and when it will be. */
import { calibrationDue } from '../../trade/index.ts';
import { type NoPace, type Reached, reachedOn, type UsedOn } from './pace.ts';

/** Null in each: the shop states none. Whichever comes first counts. */
export interface RefreshAfter {
  /** Running time [s]. */
  readonly runS: number | null;
  readonly pulls: number | null;
  /** Time at full throttle [s]. */
  readonly throttleS: number | null;
  readonly months: number | null;
}
export interface RefreshUse {
  readonly after: RefreshAfter;
  /** What it is counted from, in words (`the refresh`, `Build 2`) and the day, where that is known. */
  readonly since: { readonly what: string; readonly on: string | null };
  /** Run since then [s]; null: not known. */
  readonly ranS: number | null;
  /** Between readings of its hours, over the engine's whole record. */
  readonly ranOn: readonly UsedOn[];
  readonly pulls: number;
  readonly pullsOn: readonly UsedOn[];
  readonly throttleS: number;
  /** Pulls of which the time is not known: what was run at full throttle is then more. */
  readonly pullsOfUnknownTime: number;
  readonly throttleOn: readonly UsedOn[];
}
export type RefreshBy = 'hours' | 'pulls' | 'full throttle' | 'months';
export interface RefreshLine {
  readonly by: RefreshBy;
  /** [s], a number of pulls, or months. */
  readonly after: number;
  /** The same of what was used; null: not known. Of months, those begun count as parts. */
  readonly used: number | null;
  readonly isDue: boolean;
  /** When it falls due; null: not known, and why. */
  readonly on: string | null;
  readonly earliest: string | null;
  readonly latest: string | null;
  readonly why: NoPace | 'not read' | 'no day' | null;
}
export interface RefreshDue {
  readonly state: 'due' | 'not due' | 'not known';
  readonly since: RefreshUse['since'];
  readonly lines: readonly RefreshLine[];
  /** Of the line that comes first. */
  readonly on: string | null;
  readonly sentence: string;
}

const MONTH_DAYS = 365.25 / 12;
const DAY_MS = 86_400_000;

/** @param on  ISO day from which to look */
export function refreshDueOf(use: RefreshUse, on: string): RefreshDue {
  const { after, since } = use;
  const lines: RefreshLine[] = [];
  if (after.runS !== null) lines.push(usedUp('hours', after.runS, use.ranS, use.ranOn, on));
  if (after.pulls !== null) lines.push(usedUp('pulls', after.pulls, use.pulls, use.pullsOn, on));
  if (after.throttleS !== null)
    lines.push(usedUp('full throttle', after.throttleS, use.throttleS, use.throttleOn, on));
  if (after.months !== null) lines.push(byMonths(after.months, since.on, on));
  const due = lines.filter(({ isDue }) => isDue);
  const state =
    due.length > 0
      ? 'due'
      : lines.length > 0 && lines.some(({ used }) => used !== null)
        ? 'not due'
        : 'not known';
  const first = firstOf(lines);
  return {
    state,
    since,
    lines,
    on: state === 'not due' ? (first?.on ?? null) : null,
    sentence: sentenceOf(use, lines, due, first),
  };
}

const firstOf = (lines: readonly RefreshLine[]) =>
  lines
    .filter((line) => line.on !== null)
    .sort((a, b) => a.on!.localeCompare(b.on!))
    .at(0);

function usedUp(
  by: RefreshBy,
  after: number,
  used: number | null,
  usedOn: readonly UsedOn[],
  on: string,
): RefreshLine {
  const none = { on: null, earliest: null, latest: null };
  if (used === null) return { by, after, used, isDue: false, ...none, why: 'not read' };
  if (used >= after) return { by, after, used, isDue: true, ...none, why: null };
  const reached: Reached | { readonly none: NoPace } = reachedOn(usedOn, after - used, on);
  if ('none' in reached) return { by, after, used, isDue: false, ...none, why: reached.none };
  const { earliest, latest } = reached;
  return { by, after, used, isDue: false, on: reached.on, earliest, latest, why: null };
}

function byMonths(months: number, since: string | null, on: string): RefreshLine {
  const by = 'months';
  const none = { on: null, earliest: null, latest: null };
  if (since === null)
    return { by, after: months, used: null, isDue: false, ...none, why: 'no day' };
  const { dueIso, isDue } = calibrationDue(since, { months }, on);
  const used = Math.max(0, (Date.parse(on) - Date.parse(since)) / DAY_MS / MONTH_DAYS);
  return {
    by,
    after: months,
    used,
    isDue,
    on: dueIso,
    earliest: dueIso,
    latest: dueIso,
    why: null,
  };
}

function sentenceOf(
  { since, pulls, ranS, pullsOfUnknownTime, after }: RefreshUse,
  lines: readonly RefreshLine[],
  due: readonly RefreshLine[],
  first: RefreshLine | undefined,
): string {
  const from = `since ${since.what}${since.on === null ? '' : ` (${since.on})`}`;
  if (lines.length === 0) {
    const ran = ranS === null ? '' : ` and ${(ranS / 3600).toFixed(1)} hours`;
    return `Refresh: the shop states no interval; ${from} the record has ${pulls} ${pulls === 1 ? 'pull' : 'pulls'}${ran}.`;
  }
  const used = lines.map((line) => textOf(line)).join(', ');
  const unknown =
    after.throttleS !== null && pullsOfUnknownTime > 0
      ? ` Of ${pullsOfUnknownTime} ${pullsOfUnknownTime === 1 ? 'pull' : 'pulls'} the time at full throttle is not known, so it has run more.`
      : '';
  const head = `Refresh, whichever comes first, ${from}: ${used}.${unknown}`;
  if (due.length > 0)
    return `${head} It is due by its ${due.map(({ by }) => by).join(' and its ')}.`;
  if (first === undefined) return `${head} ${noDateSentence(lines)}`;
  if (first.by === 'months') return `${head} By its months it falls due on ${first.on}.`;
  const between =
    first.latest === null
      ? `${first.earliest} at the earliest, a latest day is not known`
      : `${first.earliest} to ${first.latest}`;
  return `${head} At the pace of its last days it falls due by its ${first.by} about ${first.on} (${between}).`;
}

function noDateSentence(lines: readonly RefreshLine[]): string {
  if (lines.some(({ why }) => why === 'has stood'))
    return 'When it falls due is not known: it has stood for longer than its pace can tell.';
  if (lines.some(({ why }) => why === 'too few days'))
    return 'When it falls due is not known: three days with a date would begin to tell its pace.';
  return 'When it falls due is not known: what it has run is not written down.';
}

function textOf({ by, after, used }: RefreshLine): string {
  const of = (value: (part: number) => string, unit: string) =>
    `${used === null ? 'not known' : value(used)} of ${value(after)} ${unit}`;
  switch (by) {
    case 'hours':
      return of((s) => (s / 3600).toFixed(1), 'hours');
    case 'full throttle':
      return of((s) => (s / 60).toFixed(1), 'minutes at full throttle');
    case 'pulls':
      return of(String, 'pulls');
    case 'months':
      return of((months) => months.toFixed(Number.isInteger(months) ? 0 : 1), 'months');
  }
}
