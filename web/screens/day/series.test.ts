import { describe, expect, it } from 'vitest';
import type { Curve, Mark, Pull, PullCurve } from '../../api/types.gen.ts';
import { remarksOf } from './remarks.tsx';
import { labelOf, seriesOf, speedsOf, withCurves } from './series.ts';

const pull = (order: number, leadDeg: number | null, excludedBecause: string | null = null) =>
  ({ id: `p${order}`, order, leadDeg, excludedBecause }) as Pull;

const look: Mark = { kind: 'basis', severity: 'look again', sentence: 'Nobody has said.' };
const curve = (low: number, high: number, marks: readonly Mark[] = []) =>
  ({
    speedRpm: [low, high],
    torqueNm: [100, 110],
    lowNm: [99, 109],
    highNm: [101, 111],
    powerW: [1, 2],
    marks,
  }) as unknown as Curve;
const told = (pullId: string, one: Curve | null): PullCurve => ({
  pullId,
  curve: one,
  whyNone: one === null ? 'Typed peaks have no curve.' : null,
});

describe('the curves of a day', () => {
  const pulls = [pull(1, 26), pull(0, 24), pull(2, 26, 'throttle'), pull(3, null)];

  it('stand in the order in which the pulls were made, each with its curve or the reason for none', () => {
    const all = withCurves(pulls, [told('p0', curve(3000, 7000)), told('p3', null)]);
    expect(all.map((one) => one.pull.id)).toEqual(['p0', 'p1', 'p2', 'p3']);
    expect(all[3]!.whyNone).toBe('Typed peaks have no curve.');
    expect(all[1]!.curve).toBeNull();
  });

  it('are named by their lead, and by their number where that would not tell them apart', () => {
    expect(pulls.map((one) => labelOf(one, pulls))).toEqual([
      '26°, pull 2',
      '24°',
      '26°, pull 3',
      'pull 4',
    ]);
  });

  it('draw what is left out faintly', () => {
    const one = { pull: pulls[2]!, curve: curve(1, 2), whyNone: null };
    expect(seriesOf(one, '26°')).toMatchObject({ faint: true, setting: 26 });
  });

  it('say how far they reach together', () => {
    const all = withCurves(pulls, [told('p0', curve(3000, 7000)), told('p1', curve(2800, 6900))]);
    expect(speedsOf(all)).toEqual([2800, 7000]);
    expect(speedsOf(withCurves(pulls, []))).toBeNull();
  });

  it('say once what several of them say in the same words', () => {
    const stop: Mark = { ...look, severity: 'stop', sentence: 'Stop.' };
    const all = withCurves(pulls, [
      told('p0', curve(1, 2, [look])),
      told('p1', curve(1, 2, [look, stop])),
    ]);
    expect(remarksOf(all).map(({ mark, of }) => [mark.sentence, of.map((one) => one.id)])).toEqual([
      ['Stop.', ['p1']],
      ['Nobody has said.', ['p0', 'p1']],
    ]);
  });
});
