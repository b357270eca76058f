import { describe, expect, it } from 'vitest';
import { fitOf, pullsOf } from './compared.fixture.ts';
import { drawnAlone } from './drawn.fixture.ts';
import { compareGroups, drawnBands, drawnCurves, peakPowerRpm } from './index.ts';
import type { CompareGroup, CompareInput } from './types.ts';

const torque = (speed: number) => 480 - 1.6e-5 * (speed - 4600) ** 2;
const long = (group: CompareGroup, to: number): CompareGroup => ({
  ...group,
  pulls: group.pulls.map((pull, i) => ({ ...pull, torque: fitOf(torque, [2500, to], 900 + i) })),
});
const groups: readonly CompareGroup[] = [
  { name: 'A', pulls: pullsOf(torque, [0, 2, 4], 1) },
  { name: 'B', pulls: pullsOf((speed) => 1.01 * torque(speed), [1, 3, 5], 2) },
];
const input = (of: readonly CompareGroup[]): CompareInput => ({
  groups: of,
  bandRpm: [4000, 7000],
  reference: [],
  repeatabilityPercent: null,
  calibrationRelSd: {},
  worthPercent: 0.75,
});

describe('drawn curves', () => {
  it('are those of the comparison, and their difference has its band (identity)', () => {
    const { curves } = drawnCurves(input(groups));
    const { pairs, groups: measured } = compareGroups(input(groups));
    const { bySpeed } = pairs[0]!;
    curves[0]!.speedRpm.forEach((speed, m) => {
      expect(speed).toBeCloseTo(bySpeed.speedRpm[m]!, 6);
      expect(curves[0]!.torqueNm[m]! / bySpeed.torqueANm[m]!).toBeCloseTo(1, 6);
    });
    const [a, b] = drawnBands(curves);
    const half = (band: typeof a, m: number) => Math.log(band!.highNm[m]! / band!.lowNm[m]!) / 2;
    // As in the comparison's picture: the squares of the groups' bands add up to that of their difference.
    for (const m of [10, 30, 50]) {
      const own = Math.log(measured[0]!.curve.highNm[m]! / measured[0]!.curve.lowNm[m]!) / 2;
      expect(half(a, m)).toBeCloseTo(own, 6);
      expect(half(b, m)).toBeGreaterThan(0);
    }
  });

  it('reach as far as their own pulls, and beyond the shared speeds are off as at their end', () => {
    const { curves, commonRpm } = drawnCurves(input([groups[0]!, long(groups[1]!, 8200)]));
    expect(commonRpm[1]).toBeCloseTo(7500, 6);
    const [, b] = curves;
    expect(b!.speedRpm.at(-1)).toBeCloseTo(8200, 6);
    expect(b!.torqueNm.at(-1)! / torque(8200)).toBeCloseTo(1, 1);
    const last = b!.speedRpm.findLastIndex((speed) => speed <= 7500);
    for (const draw of b!.logOff.slice(0, 20)) expect(draw.at(-1)).toBeCloseTo(draw[last + 1]!, 9);
  });

  it('of one group alone keep all that is uncertain; of a typed table nothing', () => {
    const one = drawnCurves(input(groups.slice(0, 1))).curves;
    const two = drawnCurves(input(groups)).curves;
    const width = (of: typeof one) =>
      Math.log(drawnBands(of)[0]!.highNm[30]! / drawnBands(of)[0]!.lowNm[30]!);
    // A day's own offset stands in the band of a curve alone, and leaves that of two.
    expect(width(one)).toBeGreaterThan(2 * width(two));
    const table = drawnAlone('paper', one[0]!.speedRpm, one[0]!.torqueNm);
    expect(width([table])).toBe(0);
    expect(peakPowerRpm({ curves: [table], commonRpm: [2500, 7500] })).toBeGreaterThan(6000);
  });

  it('are refused where nothing is shared', () => {
    const far = {
      ...groups[1]!,
      pulls: groups[1]!.pulls.map((pull) => ({ ...pull, torque: fitOf(torque, [8000, 9000], 5) })),
    };
    expect(() => drawnCurves(input([groups[0]!, far]))).toThrow('no speeds in common');
  });
});
