import { describe, expect, it } from 'vitest';
import { normals } from './simulated.fixture.ts';
import { wearOf } from './wear.ts';

const dayAt = (day: number) => new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);

/** Simulated truth: what each cylinder does, what a date does to all, what one reading scatters by, and rounding. */
function simulated(
  draw: () => number,
  of: {
    readonly days: readonly number[];
    readonly cylinders: number;
    readonly level: number;
    readonly dateSd: number;
    readonly readingSd: number;
    readonly step: number;
    /** Change of each cylinder over all days. */
    readonly change?: (cylinder: number) => number;
    readonly error?: number;
  },
) {
  const own = Array.from({ length: of.cylinders }, () => 0.15 * of.level * draw());
  return of.days.map((day) => {
    const shared = of.dateSd * draw();
    return {
      date: dayAt(day),
      error: of.error ?? null,
      values: own.map((own, at) => {
        const moved = ((of.change?.(at + 1) ?? 0) * day) / of.days.at(-1)!;
        const value = of.level + own + moved + shared + of.readingSd * draw();
        return Math.max(0, of.step * Math.round(value / of.step));
      }),
    };
  });
}
const LEAK = { level: 0.08, dateSd: 0.008, readingSd: 0.006, step: 0.01 };
const PRESSURE = { level: 1.2e6, dateSd: 25_000, readingSd: 12_000, step: 10_000 };
const EIGHT = { days: [0, 40, 90, 150, 210, 300], cylinders: 8 };

describe('leak-down and cranking pressure over time', () => {
  it('calls nothing that is something in at most 5 % of 2,000 histories, whatever their shape', () => {
    const draw = normals(411);
    const kinds = [
      { ...EIGHT, ...LEAK, step: 1e-5 },
      { ...EIGHT, ...PRESSURE },
      { ...LEAK, days: [0, 60, 200], cylinders: 4 },
      { ...PRESSURE, days: [0, 30, 31, 120], cylinders: 2, step: 1 },
      { ...LEAK, days: [0, 90, 100, 250, 400], cylinders: 1, step: 1e-5 },
    ];
    const counts: number[] = [];
    for (const [at, kind] of kinds.entries()) {
      let called = 0;
      for (let round = 0; round < 400; round += 1) {
        const measure = at % 2 === 0 ? 'leakDown' : 'crankingPressure';
        if (wearOf(simulated(draw, kind), measure).word === 'moved') called += 1;
      }
      // Two sd of a count of 400 at 5 % are 8.7: more than 28 would be more than 5 %.
      expect(called, `kind ${at}`).toBeLessThanOrEqual(28);
      counts.push(called);
    }
    // Where readings are hardly rounded and the scatter tells itself, it is near 5 %: a test that never speaks is none.
    for (const at of [0, 3, 4]) expect(counts[at], `kind ${at}`).toBeGreaterThanOrEqual(10);
  });

  it('finds one cylinder that leaks 5 % more over six dates, by its number, in at least 95 % of 300', () => {
    const draw = normals(412);
    let found = 0;
    let held = 0;
    for (let round = 0; round < 300; round += 1) {
      const change = (cylinder: number) => (cylinder === 5 ? 0.05 : 0);
      const { moved } = wearOf(simulated(draw, { ...EIGHT, ...LEAK, change }), 'leakDown');
      if (moved.length === 1 && moved[0]!.cylinder === 5) found += 1;
      const against = moved[0]?.against;
      if (against !== undefined && against.low <= 0.05 && against.high >= 0.05) held += 1;
    }
    expect(found).toBeGreaterThanOrEqual(285);
    expect(held).toBeGreaterThanOrEqual(285);
  });

  it('finds all of them falling together by 150 kPa over six dates in at least 80 % of 300', () => {
    const draw = normals(413);
    let found = 0;
    for (let round = 0; round < 300; round += 1) {
      const change = () => -150_000;
      const wear = wearOf(simulated(draw, { ...EIGHT, ...PRESSURE, change }), 'crankingPressure');
      if (wear.together!.moved && wear.together!.high < 0 && wear.moved.length === 0) found += 1;
    }
    expect(found).toBeGreaterThanOrEqual(240);
  });

  it('does not take a gauge for the engine where its ± says that it could be', () => {
    const steady = (error: number | null) =>
      [0, 50, 100, 150].map((day) => ({
        date: dayAt(day),
        error,
        values: [0.05, 0.06, 0.05, 0.07].map((value) => value + day * 1e-4),
      }));
    expect(wearOf(steady(null), 'leakDown')).toMatchObject({ word: 'moved', moved: [] });
    expect(wearOf(steady(0.02), 'leakDown').word).toBe('cannot be told from chance');
  });

  it('says what is not known, and tells the newest reading whatever it lacks', () => {
    const read = (day: number, values: readonly (number | null)[]) => ({
      date: dayAt(day),
      values,
      error: null,
    });
    expect(wearOf([], 'leakDown')).toMatchObject({ word: 'not known yet', newest: null });
    // Three readings on two dates; a third date with a cylinder missing.
    const few = [read(0, [1, 2]), read(0, [1, 2]), read(9, [1, 3]), read(20, [null, 4])];
    expect(wearOf(few, 'leakDown')).toMatchObject({
      word: 'not known yet',
      dates: 2,
      newest: { date: dayAt(20), worstCylinder: 2, worst: 4, spread: null },
    });
    // No scatter at all tells of no change.
    const same = [0, 10, 20, 30].map((day) => read(day, [5, 5, 6]));
    expect(wearOf(same, 'crankingPressure')).toMatchObject({
      word: 'cannot be told from chance',
      newest: { worstCylinder: 1, worst: 5, spread: 1 },
    });
  });
});
