import { describe, expect, it } from 'vitest';
import { simulateDay } from './cell.ts';
import { DIALECTS, type Dialect, runFileBytes, toText } from './logger.ts';

const day = simulateDay({ seed: 9, limit: {}, rateHz: 20, exhaustChannels: 4 });

const textOf = (dialect: Dialect) => {
  const bytes = runFileBytes(day.pulls[2]!, dialect);
  return Buffer.from(bytes).toString(dialect.encoding);
};

describe('what a logger writes', () => {
  it.each(Object.values(DIALECTS))('is one line a row, every field filled ($name)', (dialect) => {
    const lines = textOf(dialect).replace('\ufeff', '').split(dialect.lineEnd);
    expect(lines.at(-1)).toBe('');
    const heads = dialect.preamble.length + (dialect.unitStands === 'row' ? 2 : 1);
    const body = lines.slice(heads, -1 - dialect.footer.length);
    expect(body).toHaveLength(day.pulls[2]!.samples.rows);
    for (const line of body) {
      const fields = line.split(dialect.delimiter);
      expect(fields).toHaveLength(19);
      expect(fields.every((field) => /^-?[\d.,:]+$/.test(field))).toBe(true);
    }
  });

  it('gives torque back within its last digit, metric and US', () => {
    const torqueNm = day.pulls[2]!.samples.values.get('torque')!;
    const read = (dialect: Dialect) =>
      textOf(dialect)
        .split(dialect.lineEnd)
        .slice(dialect.unitStands === 'row' ? 2 : 1, -1)
        .map((line) => Number(line.split(dialect.delimiter)[2]!.replace(',', '.')));
    // 1 lb-ft = 1.3558179483314004 N·m, exact from the pound-force and the foot.
    for (const [i, lbFt] of read(DIALECTS['comma us']).entries()) {
      expect(Math.abs(lbFt * 1.3558179483314003 - torqueNm[i]!)).toBeLessThan(0.0068);
    }
    for (const [i, nm] of read(DIALECTS['semicolon comma']).entries()) {
      expect(Math.abs(nm - torqueNm[i]!)).toBeLessThan(0.0050001);
    }
  });

  it('comes with a session and a truth that fit it, the same each time', () => {
    const once = toText(day, DIALECTS['comma metric']);
    const again = toText(
      simulateDay({ seed: 9, limit: {}, rateHz: 20, exhaustChannels: 4 }),
      DIALECTS['comma metric'],
    );
    expect(again).toEqual(once);
    const session = JSON.parse(once.session);
    expect(session.pulls.map((pull: { file: string }) => pull.file)).toEqual(
      once.files.map((file) => file.name),
    );
    const truth = JSON.parse(once.truth);
    const best = Object.entries<number>(truth.powerLossPercentByLead).reduce((a, b) =>
      b[1] < a[1] ? b : a,
    );
    expect(Math.abs(Number(best[0]) - truth.bestLeadOverBand)).toBeLessThanOrEqual(0.6);
    expect(truth.limitLead).toBeCloseTo(day.truth.limitLeadDeg!, 2);
  });
});
