import { describe, expect, it } from 'vitest';
import { Chance } from '../../demo/random.ts';
import { locateKnock } from './knock.ts';

/** Counts a sample in bins of speed: a background, and past a limit that rises with speed a rise in proportion. */
function counted(seed: number, limitAt: (rpm: number) => number, settings: readonly number[]) {
  const chance = new Chance(seed, 'knock');
  const speedRpm = Array.from({ length: 20 }, (_, i) => 3100 + 200 * i);
  const samples = 15;
  return settings.map((u) => ({
    u,
    speedRpm,
    level: speedRpm.map((rpm) => {
      const rate = 0.02 + 0.55 * Math.max(0, u - limitAt(rpm));
      return chance.poisson(rate * samples) / samples;
    }),
  }));
}

describe('the limit from a knock channel', () => {
  it('is found at each speed, and lowest where the use goes', () => {
    const limitAt = (rpm: number) => 31 + (rpm - 3000) / 1500;
    for (let seed = 1; seed <= 8; seed++) {
      const limit = locateKnock(counted(seed, limitAt, [28, 30, 32, 34, 36]), 2)!;
      for (const rpm of [3500, 5000, 6500]) {
        expect(Math.abs(limit.at(rpm).value - limitAt(rpm))).toBeLessThan(0.6);
        expect(limit.at(rpm).low).toBeLessThan(limitAt(rpm) + 0.1);
      }
      expect(Math.abs(limit.lowestOver([5000, 6500]) - limitAt(5000))).toBeLessThan(0.6);
      const draws = [...limit.drawsOver([5000, 6500])];
      expect(draws.filter((u) => u < limitAt(5000) - 1).length / draws.length).toBeLessThan(0.05);
    }
  });

  it('is not claimed from a background alone', () => {
    for (let seed = 1; seed <= 25; seed++) {
      expect(
        locateKnock(
          counted(seed, () => 60, [28, 30, 32, 34, 36]),
          2,
        ),
      ).toBeNull();
    }
  });

  it('is not claimed without counts or without speeds', () => {
    expect(locateKnock([], 2)).toBeNull();
    expect(locateKnock([{ u: 30, speedRpm: [], level: [] }], 2)).toBeNull();
    expect(locateKnock([{ u: 30, speedRpm: [3000, 4000, 5000], level: [0, 0, 0] }], 2)).toBeNull();
  });

  it('does not care in which unit the channel writes', () => {
    const pulls = counted(3, (rpm) => 31 + (rpm - 3000) / 1500, [28, 30, 32, 34, 36]);
    const volts = pulls.map((pull) => ({ ...pull, level: pull.level.map((v) => 0.037 * v) }));
    const [one, other] = [locateKnock(pulls, 2)!, locateKnock(volts, 2)!];
    expect(other.at(5000).value).toBeCloseTo(one.at(5000).value, 1);
  });
});
