import { describe, expect, it } from 'vitest';
import type { Mark } from '../../pull/index.ts';
import type { FinalCurve, HandedDay } from '../../report/index.ts';
import { cautionsOf } from './cautions.ts';

const PAST: Mark = { kind: 'correction factor', severity: 'look again', sentence: 'Factor past.' };
const humid = (percent: number): Mark => ({
  kind: 'air',
  severity: 'note',
  sentence: `Inlet air at ${percent} °C is outside the 15 to 35 °C that SAE J1349 is written for.`,
});

interface Said {
  readonly factors?: readonly number[];
  readonly marks?: readonly (readonly Mark[])[];
  readonly calibratedOn?: string | null;
  readonly remarks?: readonly string[];
  readonly date?: string | null;
}

/** Two pulls in the curve and one beside it that is past everything. */
function told({ factors = [1, 1], marks = [], calibratedOn = '2026-01-01', ...rest }: Said) {
  const curve = (correctionFactor: number, own: readonly Mark[]) => ({
    standard: 'SAE J1349',
    correctionFactor,
    marks: own,
  });
  const day = {
    date: rest.date === undefined ? '2026-05-17' : rest.date,
    cell: { name: 'Cell 1', calibratedOn, remarks: rest.remarks ?? [] },
    pulls: [
      { id: 'a', curve: curve(factors[0]!, marks[0] ?? []) },
      { id: 'b', curve: curve(factors[1]!, marks[1] ?? []) },
      { id: 'left out', curve: curve(1.2, [PAST, humid(50)]) },
    ],
    ladders: [{ answer: { warnings: ['Limit not watched.'] } }],
  } as unknown as HandedDay;
  const final = {
    pullIds: ['a', 'b'],
    peakPowerW: { value: 216_400 },
    peakTorqueNm: { value: 324.6 },
  } as unknown as FinalCurve;
  return { with: cautionsOf([day], final), without: cautionsOf([day], null) };
}

describe('what an owner has to be careful about', () => {
  it('is nothing of a pull that is not in the curve', () => {
    expect(told({}).with).toEqual(['Limit not watched.']);
  });

  it('has the observed peaks beside a factor that its standard does not allow', () => {
    // 216.4 kW and 324.6 N·m over the mean factor 1.082, by hand.
    const { with: all, without } = told({ factors: [1.081, 1.083], marks: [[PAST], [PAST]] });
    expect(all[0]).toBe(
      'The correction factor of the curve, 1.081 to 1.083, is outside the 0.93 to 1.07 that SAE J1349 allows; observed, the peaks are 200.0 kW and 300.0 N·m.',
    );
    expect(all).toHaveLength(2);
    expect(without).toEqual(['Limit not watched.']);
    // Corrected by the logger: nothing was multiplied here, so nothing can be told of what was observed.
    expect(told({ marks: [[PAST], []] }).with[0]).toBe('Factor past.');
  });

  it('says once what several pulls say of slightly other air, and no mere note on torque', () => {
    const note: Mark = { kind: 'zero', severity: 'note', sentence: 'That zero was taken off.' };
    expect(told({ marks: [[humid(38), note], [humid(39)]] }).with).toEqual([
      humid(38).sentence,
      'Limit not watched.',
    ]);
  });

  it('says that a peak may lie beyond the speeds swept', () => {
    const edge: Mark = {
      kind: 'coverage',
      severity: 'note',
      sentence: 'Power may be highest at the upper end of the sweep (6420 rev/min).',
    };
    expect(told({ marks: [[edge], []] }).with[0]).toBe(edge.sentence);
  });

  it('says that no calibration holds, unless the cell has said why', () => {
    expect(told({ calibratedOn: null }).with[0]).toMatch(/no torque calibration of Cell 1/);
    expect(told({ calibratedOn: null, date: null, remarks: ['No date.'] }).with).toEqual([
      'No date.',
      'Limit not watched.',
    ]);
  });
});
