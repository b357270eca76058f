import { describe, expect, it } from 'vitest';
import { eventBody, intervalBody, readingBody } from './forms.ts';
import { cylindersOf, textOfCylinders, withDates } from './words.ts';

describe('readings by cylinder as they are typed', () => {
  it('are read with any sign between them, and a dash for one that was not read', () => {
    for (const text of ['4, 5, –, 6', '4 5 - 6', '4;5;?;6', '4%, 5%, -, 6%'])
      expect(cylindersOf(text, 'percent', 'us'), text).toEqual([0.04, 0.05, null, 0.06]);
    expect(cylindersOf('  ', 'percent', 'us')).toBeNull();
    expect(() => cylindersOf('4, five', 'percent', 'us')).toThrow(/“five” is no reading/);
    // 1 psi = 6894.757 Pa (NIST SP 811, B.8).
    expect(cylindersOf('150', 'gaugePressure', 'us')![0]).toBeCloseTo(1_034_213.6, 0);
    expect(cylindersOf('10.5', 'gaugePressure', 'metric')![0]).toBeCloseTo(1_050_000, 6);
    const typed = '150, –, 148.5';
    const read = cylindersOf(typed, 'gaugePressure', 'us');
    expect(textOfCylinders(read, 'gaugePressure', 'us')).toBe(typed);
  });

  it('go to the record in its units, and only what was filled in', () => {
    expect(readingBody({ readOn: '2026-06-01', hours: 2, leak: '', leakError: 1 }, 'us')).toEqual({
      readOn: '2026-06-01',
      hoursS: 7200,
      leakDown: null,
      leakDownError: 0.01,
    });
    expect(intervalBody({ hours: 10, minutes: null, refreshAfterPulls: 60 })).toEqual({
      refreshAfterS: 36_000,
      refreshAfterThrottleS: null,
      refreshAfterPulls: 60,
    });
    expect(eventBody({ what: 'rings' })).toEqual({ what: 'rings' });
    expect(withDates('since 2026-06-01 (2026-06-02)')).toBe('since 1 June 2026 (2 June 2026)');
  });
});
