import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { movedBand } from './BandPicker.tsx';
import { valueAt } from './scale.ts';
import { within, zoomedAt } from './zoom.ts';

describe('dragging the band', () => {
  const full = [3100, 7300] as const;

  it('moves one end in steps of 50 rev/min', () => {
    expect(movedBand([5000, 7200], 0, 4630, full)).toEqual([4650, 7200]);
    expect(movedBand([5000, 7200], 1, 6999, full)).toEqual([5000, 7000]);
  });

  it('never turns over, never leaves the speeds that were run', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(0 as const, 1 as const),
        fc.integer({ min: 0, max: 20_000 }),
        (end, to) => {
          const [low, high] = movedBand([5000, 7200], end, to, full);
          expect(low).toBeGreaterThanOrEqual(full[0]);
          expect(high).toBeLessThanOrEqual(full[1]);
          expect(high - low).toBeGreaterThanOrEqual(200);
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });
});

describe('zoom', () => {
  const full = [1000, 9000] as const;

  it('keeps the value under the pointer where it was', () => {
    const [low, high] = zoomedAt(full, 3000, 0.5, full)!;
    expect((3000 - low) / (high - low)).toBeCloseTo((3000 - 1000) / 8000, 9);
    expect(high - low).toBeCloseTo(4000, 9);
  });

  it('stays inside the whole, and forgets itself when it shows the whole', () => {
    expect(within([-500, 1500], full)).toEqual([1000, 3000]);
    expect(within([0, 20_000], full)).toBeNull();
    const [low, high] = within([5000, 5001], full)!;
    expect(high - low).toBeCloseTo(320, 9);
  });
});

describe('reading a curve', () => {
  it('goes straight between its points and says nothing outside', () => {
    expect(valueAt([1, 2, 4], [10, 20, 40], 3)).toBe(30);
    expect(valueAt([1, 2, 4], [10, 20, 40], 4)).toBe(40);
    expect(valueAt([1, 2, 4], [10, 20, 40], 4.01)).toBeNull();
    expect(valueAt([1, 2, 4], [10, null, 40], 3)).toBeNull();
    expect(valueAt([], [], 3)).toBeNull();
  });
});
