import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { pullsOf } from './compared.fixture.ts';
import { prepareCompare } from './index.ts';
import { comparePeaks, type PeakSide, peakSideOf, type SidePeak } from './typedPeaks.ts';

const HP = 745.6998715822702;
const peak = (value: number, speedRpm: number | null, relSd: number | null = null): SidePeak => ({
  value,
  relSd,
  speedRpm,
  speedSdRpm: null,
});
const paper = (more: Partial<PeakSide> = {}): PeakSide => ({
  name: 'paper',
  peakPowerW: peak(400 * HP, 6000),
  peakTorqueNm: peak(540, 4500),
  standard: 'SAE J1349',
  curve: null,
  ...more,
});
const BAND = [4000, 6500] as const;

describe('sides known by their peaks', () => {
  it('compares two papers with what is usual between cells and days, and says so', () => {
    const answer = comparePeaks(
      paper({ name: 'old' }),
      paper({ peakPowerW: peak(408 * HP, 6400) }),
      BAND,
    );
    expect(answer.power!.percent.value).toBeCloseTo(2, 9);
    expect(answer.power!.from).toBe('usual');
    expect(answer.power!.word).toBe('cannot be told from chance');
    // √2 · √(1 % ² + 1.2 %²) · 1.96 on either side, by hand.
    expect(Math.log1p(answer.power!.percent.high / 100) - Math.log(1.02)).toBeCloseTo(0.0433, 3);
    expect(answer.power!.movedRpm!.low).toBeGreaterThan(0);
    expect(answer.most).toBeNull();
    expect(answer.warnings.join(' ')).toContain('does not say how far');
    expect(answer.finding).toContain('a bigger peak is not a better engine');
  });

  it('takes the uncertainty that papers state', () => {
    const stated = (value: number) => peak(value, 6000, 0.003);
    const answer = comparePeaks(
      paper({ peakPowerW: stated(400 * HP), peakTorqueNm: null }),
      paper({ peakPowerW: stated(408 * HP), peakTorqueNm: null }),
      BAND,
    );
    expect(answer.power!.from).toBe('stated');
    expect(answer.power!.word).toBe('more');
    expect(answer.torque).toBeNull();
    expect(answer.warnings).toEqual([]);
  });

  it('says against a measured curve what no curve with these peaks can do', () => {
    const truth = (speed: number) => 600 - 1.2e-5 * (speed - 4300) ** 2;
    const { groups } = prepareCompare({
      groups: [{ name: 'measured', pulls: pullsOf(truth, [0, 2], 1) }],
      reference: [],
      repeatabilityPercent: null,
      calibrationRelSd: { cell: 0.0025 },
      worthPercent: 0.75,
    }).over([4000, 6500]);
    const measured = peakSideOf(groups[0]!, 'SAE J1349');
    const answer = comparePeaks(measured, paper(), BAND);
    // At its torque peak the measured engine has 11 % more than the paper's peak, so near there it is ahead anyway.
    const [ahead] = answer.aheadAnyway;
    expect(answer.aheadAnyway).toHaveLength(1);
    expect(ahead!.side).toBe('a');
    expect(ahead!.fromRpm).toBeLessThan(4300);
    expect(ahead!.toRpm).toBeGreaterThan(4300);
    for (const { speedRpm: at, torqueBNm } of answer.points)
      expect(torqueBNm).toBeCloseTo(at === 4500 ? 540 : (400 * HP) / ((6000 * Math.PI) / 30), 6);
    // Mean of min(540 N·m, 400 hp / ω) · ω over the band against the truth's, by a fine sum.
    let [most, own] = [0, 0];
    for (let rpm = 4000; rpm <= 6500; rpm++) {
      const omega = (rpm * Math.PI) / 30;
      most += Math.min(540 * omega, 400 * HP);
      own += truth(rpm) * omega;
    }
    expect(answer.most!.side).toBe('b');
    const bound = 100 * (most / own - 1);
    expect(answer.most!.percent).toBeGreaterThan(bound);
    expect(answer.most!.percent).toBeLessThan(bound + 5);
    expect(answer.finding).toContain('whatever the curve of paper is like');
    const turned = comparePeaks(paper(), measured, BAND);
    expect(turned.most!.side).toBe('a');
    expect(turned.power!.percent.value).toBeCloseTo(
      100 * (100 / (100 + answer.power!.percent.value) - 1),
      9,
    );
  });

  it('refuses what no engine can have, and what has nothing in common', () => {
    const against = (side: Partial<PeakSide>) => () => comparePeaks(paper(), paper(side), BAND);
    expect(against({ peakPowerW: peak(600 * HP, 6000) })).toThrow('more than its peak torque');
    expect(against({ peakTorqueNm: peak(800, 4500) })).toThrow('more than its peak power');
    expect(against({ peakPowerW: peak(250 * HP, 3500) })).toThrow('swapped');
    expect(against({ standard: 'SAE 60F dry' })).toThrow('SAE 60F dry');
    expect(against({ peakPowerW: null, peakTorqueNm: null })).toThrow(InputError);
    expect(() =>
      comparePeaks(paper({ peakPowerW: null }), paper({ peakTorqueNm: null }), BAND),
    ).toThrow('nothing to compare');
  });
});
