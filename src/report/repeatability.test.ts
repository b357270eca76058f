import { describe, expect, it } from 'vitest';
import { planPercent, repeatabilityFrom } from './repeatability.ts';

const learned = (square: number, freedom: number) =>
  repeatabilityFrom({ squares: [{ square, freedom }], pulls: freedom + 1, cell: 'the cell' });

describe('how far pulls of one setting differ', () => {
  it('is what is usual before any pull was repeated (the prior’s own quantiles)', () => {
    const { percent, from } = repeatabilityFrom({ squares: [], pulls: 0, cell: 'the cell' });
    expect(from).toBe('prior');
    expect(percent.value).toBeCloseTo(0.4, 2);
    // 95 % between exp(ln 0.4 ± 1.96 sd): the prior states 0.15 to 1.0 %, not quite even about its median.
    expect(percent.low).toBeCloseTo(0.155, 2);
    expect(percent.high).toBeCloseTo(1.033, 1);
  });

  it('becomes the root of the mean square with many repeats (law of large numbers)', () => {
    const { percent } = learned(2000 * 0.003 ** 2, 2000);
    expect(percent.value).toBeCloseTo(0.3, 2);
    // Chi-square with 2000 degrees: sd of the estimate is 1/√4000 of it.
    expect((percent.high - percent.low) / percent.value).toBeCloseTo(
      (2 * 1.96) / Math.sqrt(4000),
      1,
    );
  });

  it('lies between the two with a few repeats, and a stated figure stands as it is', () => {
    const { percent, sentence } = learned(2 * 0.002 ** 2, 2);
    expect(percent.value).toBeGreaterThan(0.2);
    expect(percent.value).toBeLessThan(0.4);
    expect(sentence).toMatch(/3 repeated pulls/);
    expect(planPercent(repeatabilityFrom({ statedPercent: 0.35 }))).toBe(0.35);
  });
});
