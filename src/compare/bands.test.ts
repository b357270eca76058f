import { describe, expect, it } from 'vitest';
import { pullsOf } from './compared.fixture.ts';
import { compareGroups, differenceIn } from './index.ts';

const compared = (dayOfB: string) =>
  compareGroups({
    groups: [
      { name: 'A', pulls: pullsOf(() => 500, [0, 2, 4], 1) },
      {
        name: 'B',
        pulls: pullsOf((speed) => 500 + (speed - 5000) / 100, [1, 3, 5], 2).map((pull) => ({
          ...pull,
          day: dayOfB,
        })),
      },
    ],
    bandRpm: [4000, 7000],
    reference: [],
    repeatabilityPercent: null,
    calibrationRelSd: {},
    worthPercent: 0.75,
  });
const halfLog = ({ lowNm, highNm }: { lowNm: readonly number[]; highNm: readonly number[] }) =>
  lowNm.map((low, m) => Math.log(highNm[m]! / low) / 2);

describe('bands of the groups’ curves', () => {
  it('add up in squares to the band of the difference, at every speed alike (identity)', () => {
    const { groups, pairs } = compared('one day');
    const [a, b] = groups.map((group) => halfLog(group.curve));
    const ratios = pairs[0]!.bySpeed.chancePercent.map(
      (chance, m) => Math.log1p(chance / 100) / Math.hypot(a![m]!, b![m]!),
    );
    // One multiplier of a simultaneous band over 1.96, the same at all speeds.
    for (const ratio of ratios) expect(ratio).toBeCloseTo(ratios[0]!, 6);
    expect(ratios[0]).toBeGreaterThan(1);
    expect(ratios[0]).toBeLessThan(2.2);
  });

  it('leave out the offset of a day that both share, and carry that of days of their own', () => {
    const middle = (answer: ReturnType<typeof compared>) => halfLog(answer.groups[0]!.curve)[30]!;
    const { groups } = compared('one day');
    const own = Math.log(groups[0]!.meanTorqueNm.high / groups[0]!.meanTorqueNm.low) / 2;
    expect(middle(compared('one day'))).toBeLessThan(0.6 * own);
    expect(middle(compared('another day'))).toBeGreaterThan(1.5 * middle(compared('one day')));
  });
});

describe('a difference by speed', () => {
  it('is the same in percent, torque and power (identity)', () => {
    const { bySpeed } = compared('one day').pairs[0]!;
    const torque = differenceIn(bySpeed, 'torque');
    const power = differenceIn(bySpeed, 'power');
    bySpeed.speedRpm.forEach((speed, m) => {
      expect(torque.value[m]).toBeCloseTo(bySpeed.torqueBNm[m]! - bySpeed.torqueANm[m]!, 8);
      expect(power.value[m]).toBeCloseTo((torque.value[m]! * speed * Math.PI) / 30, 6);
      expect(torque.low[m]! > 0 || torque.high[m]! < 0).toBe(bySpeed.toldFromChance[m]);
    });
    expect(differenceIn(bySpeed, 'percent').value).toEqual(bySpeed.gainPercent);
  });
});
