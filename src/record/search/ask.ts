/** One question over the whole shop: words, days and peaks, in any order. */
import { sql } from 'kysely';
import type { UnitSystem } from '../../units/index.ts';
import type { Connections } from '../store.ts';
import { type DayRange, type PeakRange, understood } from './question.ts';
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

export interface Finding {
  readonly found: readonly Found[];
  /** All that fit, also those that are not told. */
  readonly total: number;
  readonly peaks: PeakRange | null;
  /** ISO days, the later one left open where null. */
  readonly days: DayRange | null;
  /** Pulls whose peaks nobody has computed yet; null where no peak was asked for. */
  readonly peaksNotKnown: number | null;
}

/**
 * Each word at the beginning of one, one of them of the thing itself unless days were asked for. Quoted, so that no sign
 * in it means anything.
 */
function matchOf(words: readonly string[], anywhere: boolean): string {
  const quoted = words.map((word) => `"${word.replaceAll('"', '""')}" *`);
  const all = quoted.join(' AND ');
  return anywhere ? all : `(own : (${quoted.join(' OR ')})) AND ${all}`;
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
    // The index is asked once; a row's number tells its kind and day, so that the rest is done on numbers.
    // They come as one text: twenty thousand rows of one number each would take longer to hand over than to find.
    const { rows } = await sql<{ numbers: string }>`SELECT json_group_array(row) AS numbers
      FROM (${hitsOf(words, peaks, days)})`.execute(at.reading);
    const byKind = FOUND_KINDS.map((): number[] => []);
    for (const row of JSON.parse(rows[0]!.numbers) as number[])
      byKind[Math.floor(row / KIND)]?.push(row);
    const all = byKind.map((numbers, place) => within(numbers, FOUND_KINDS[place]!, days));
    // Of each kind the newest few, so that a thousand pulls do not hide the engine that they are of.
    const few = Math.max(3, Math.ceil(limit / 4));
    const chosen = all.flatMap((numbers, place) =>
      numbers.sort((a, b) => b - a).slice(0, FOUND_KINDS[place] === 'pull' ? limit : few),
    );
    const found = new Map<string, Found>();
    const things = await thingsAt(at, chosen);
    for (const number of chosen) {
      const row = things.get(number);
      // Taken out of the shop between the two questions.
      if (row === undefined) continue;
      const kind = FOUND_KINDS[Math.floor(number / KIND)]!;
      // The same part stands in many builds.
      const key = `${kind} ${row.page} ${row.label}`;
      if (!found.has(key) && found.size < limit) found.set(key, foundOf(kind, row));
    }
    return {
      found: [...found.values()],
      total: all.reduce((sum, numbers) => sum + numbers.length, 0),
      ...told,
    };
  };
}

/** Numbers of the rows that fit, by an index for each way of asking. */
function hitsOf(words: readonly string[], peaks: PeakRange | null, days: DayRange | null) {
  const match = sql`search_words MATCH ${matchOf(words, days !== null)}`;
  if (peaks === null && words.length === 0)
    return sql`SELECT row FROM search_row WHERE ${sql.join(
      FOUND_KINDS.map((kind) => {
        const [first, last] = rowsOf(kind, days ?? undefined);
        return sql`row BETWEEN ${whole(first)} AND ${whole(last)}`;
      }),
      sql` OR `,
    )}`;
  if (peaks === null) return sql`SELECT rowid AS row FROM search_words WHERE ${match}`;
  const { of, low, high } = peaks;
  const column = sql.ref(of === 'power' ? 'power_w' : 'torque_nm');
  const fitting = sql`SELECT row FROM pull_peak JOIN search_row ON source = pull_id
    WHERE ${column} BETWEEN ${low ?? 0} AND ${high ?? Number.MAX_VALUE}`;
  if (words.length === 0) return sql`${fitting}`;
  return sql<{
    row: number;
  }>`${fitting} AND row IN (SELECT rowid FROM search_words WHERE ${match})`;
}

/** Written out, because a bound number would come to the index as a real one, which it does not take for a bound. */
const whole = (number: number) => sql.raw(String(number));

function within(numbers: readonly number[], kind: FoundKind, days: DayRange | null): number[] {
  if (days === null) return [...numbers];
  const [first, last] = rowsOf(kind, days);
  return numbers.filter((row) => row >= first && row <= last);
}

async function thingsAt(at: Connections, numbers: readonly number[]) {
  const { rows } = await sql<Record<string, string | number | null>>`
    SELECT row, label, trail, page, on_date, power_w, torque_nm
    FROM search_row LEFT JOIN pull_peak ON pull_id = source
    WHERE row IN (${sql.raw(numbers.join(', '))})`.execute(at.reading);
  return new Map(rows.map((row) => [row.row as number, row]));
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
