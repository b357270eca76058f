/** One question over the whole shop: words, days and peaks, in any order. */
import { sql } from 'kysely';
import { findUnit, readNumber, toInside, type UnitSystem } from '../../units/index.ts';
import type { Connections } from '../store.ts';
import { KIND, rowsOf } from './rowNumbers.ts';
import { FOUND_KINDS, type FoundKind } from './words.ts';

export interface Found {
  readonly kind: FoundKind;
  readonly label: string;
  /** What it stands under. */
  readonly trail: string;
  /** Address in the workbook. */
  readonly page: string;
  readonly date: string | null;
  /** Of a pull, where they are known. */
  readonly peakPowerW: number | null;
  readonly peakTorqueNm: number | null;
}

/** What was asked for beside words, as it was understood. */
export interface PeakRange {
  readonly of: 'power' | 'torque';
  /** [W] or [N·m]; null: no end. */
  readonly low: number | null;
  readonly high: number | null;
}
export interface Finding {
  readonly found: readonly Found[];
  /** All that fit, also those that are not told. */
  readonly total: number;
  readonly peaks: PeakRange | null;
  /** ISO days, the later one left open where null. */
  readonly days: readonly [string | null, string | null] | null;
  /** Pulls whose peaks nobody has computed yet; null where no peak was asked for. */
  readonly peaksNotKnown: number | null;
}

export const MOST_QUERY_LETTERS = 200;
const MOST_WORDS = 12;

const RANGE =
  /\b(power|torque)\s+(?:(over|above|under|below)\s+([\d.,]+)|([\d.,]+)\s*(?:-|–|to|\.\.)\s*([\d.,]+))(?:\s*(hp|kw|ps|w|lb-?ft|ft-?lb|n·?m)\b)?/iu;
const DAYS = /(\d{4}(?:-\d\d(?:-\d\d)?)?)\s*\.\.\s*(\d{4}(?:-\d\d(?:-\d\d)?)?)?/u;

/** A question taken apart: what is left over after peaks and days is words. */
export function understood(text: string, units: UnitSystem) {
  let rest = text.slice(0, MOST_QUERY_LETTERS);
  const peak = RANGE.exec(rest);
  const peaks = peak === null ? null : peakRange(peak, units);
  if (peak !== null && peaks !== null) rest = rest.replace(peak[0], ' ');
  const between = DAYS.exec(rest);
  const days: Finding['days'] = between === null ? null : [between[1]!, between[2] ?? null];
  if (between !== null) rest = rest.replace(between[0], ' ');
  const words = rest
    // What no word of the index can hold: it would ask for nothing, or be read as a sign of the engine.
    .replace(/\0/g, ' ')
    .split(/\s+/u)
    .filter((word) => /[\p{L}\p{N}]/u.test(word))
    .slice(0, MOST_WORDS);
  return { peaks, days, words };
}

function peakRange(match: RegExpExecArray, system: UnitSystem): PeakRange | null {
  const [, name, bound, one, from, to, said] = match;
  const of = name!.toLowerCase() as PeakRange['of'];
  const usual = of === 'power' ? { us: 'hp', metric: 'kW' } : { us: 'lb-ft', metric: 'N·m' };
  const unit = findUnit(said ?? usual[system], of);
  const number = (text: string | undefined) =>
    text === undefined ? undefined : readNumber(text.replace(/[.,]+$/, ''));
  if (unit === undefined) return null;
  const inside = (text: string | undefined): number | null => {
    const value = number(text);
    return value === undefined ? null : toInside(value, unit);
  };
  if (bound !== undefined) {
    const value = inside(one);
    if (value === null) return null;
    return /over|above/i.test(bound)
      ? { of, low: value, high: null }
      : { of, low: null, high: value };
  }
  const ends = [inside(from), inside(to)];
  if (ends[0] === null || ends[1] === null) return null;
  return { of, low: Math.min(...(ends as number[])), high: Math.max(...(ends as number[])) };
}

/** Each word at the beginning of one, one of them of the thing itself. Quoted, so that no sign in it means anything. */
function matchOf(words: readonly string[]): string {
  const quoted = words.map((word) => `"${word.replaceAll('"', '""')}" *`);
  return `(own : (${quoted.join(' OR ')})) AND ${quoted.join(' AND ')}`;
}

export function makeAsk(at: Connections) {
  return async (
    text: string,
    { units, limit }: { readonly units: UnitSystem; readonly limit: number },
  ): Promise<Finding> => {
    const { peaks, days, words } = understood(text, units);
    const told = { peaks, days, peaksNotKnown: peaks === null ? null : await notKnown(at) };
    if (words.length === 0 && peaks === null && days === null)
      return { found: [], total: 0, ...told };
    const hits = hitsOf(words, peaks);
    const { rows: counts } = await sql<{ place: number; n: number }>`
      SELECT row / ${whole(KIND)} AS place, count(*) AS n FROM (${hits})
      WHERE ${sql.join(
        FOUND_KINDS.map((kind) => between(kind, days)),
        sql` OR `,
      )} GROUP BY 1 ORDER BY 1`.execute(at.reading);
    // Of each kind the newest few, so that a thousand pulls do not hide the engine that they are of.
    const few = Math.max(3, Math.ceil(limit / 4));
    const found = new Map<string, Found>();
    for (const { place } of counts) {
      const kind = FOUND_KINDS[place]!;
      const { rows } = await sql<Record<string, string | number | null>>`
        SELECT label, trail, page, on_date, power_w, torque_nm
        FROM (${hits} AND ${between(kind, days)} ORDER BY row DESC LIMIT ${kind === 'pull' ? limit : few}) AS hit
          JOIN search_row AS thing ON thing.row = hit.row
          LEFT JOIN pull_peak ON pull_id = thing.source
        ORDER BY hit.row DESC`.execute(at.reading);
      for (const row of rows) {
        // The same part stands in many builds.
        const key = `${kind} ${row.page} ${row.label}`;
        if (!found.has(key) && found.size < limit) found.set(key, foundOf(kind, row));
      }
    }
    return {
      found: [...found.values()],
      total: counts.reduce((sum, { n }) => sum + n, 0),
      ...told,
    };
  };
}

/** Numbers of the rows that fit, by an index for each way of asking; a condition can be put after it. */
function hitsOf(words: readonly string[], peaks: PeakRange | null) {
  const match = sql`search_words MATCH ${matchOf(words)}`;
  if (peaks === null && words.length === 0) return sql`SELECT row FROM search_row WHERE 1`;
  if (peaks === null) return sql`SELECT rowid AS row FROM search_words WHERE ${match}`;
  const { of, low, high } = peaks;
  const column = sql.ref(of === 'power' ? 'power_w' : 'torque_nm');
  const within = sql`SELECT row FROM pull_peak JOIN search_row ON source = pull_id
    WHERE ${column} BETWEEN ${low ?? 0} AND ${high ?? Number.MAX_VALUE}`;
  if (words.length === 0) return within;
  return sql`${within} AND row IN (SELECT rowid FROM search_words WHERE ${match})`;
}

/** Written out, because a bound number would come to the index as a real one, which it does not take for a bound. */
const whole = (number: number) => sql.raw(String(number));

function between(kind: FoundKind, days: Finding['days']) {
  const [first, last] = rowsOf(kind, days ?? undefined);
  return sql`row BETWEEN ${whole(first)} AND ${whole(last)}`;
}

function foundOf(kind: FoundKind, row: Record<string, string | number | null>): Found {
  const page = row.page as string;
  return {
    kind,
    label: row.label as string,
    // A part with a serial has a page of its own, whichever build it stands in.
    trail: page.startsWith('/parts') ? '' : (row.trail as string),
    page,
    date: row.on_date === '' ? null : (row.on_date as string),
    peakPowerW: row.power_w as number | null,
    peakTorqueNm: row.torque_nm as number | null,
  };
}

async function notKnown(at: Connections): Promise<number> {
  const { rows } = await sql<{ n: number }>`SELECT
    (SELECT count(*) FROM pull) - (SELECT count(*) FROM pull_peak) AS n`.execute(at.reading);
  return rows[0]!.n;
}
