import { describe, expect, it } from 'vitest';
import type { Curve, Decision } from '../../api/types.gen.ts';
import { decisionNotes, lambdaIn } from './details.ts';

const withLambda = (lambda: readonly (number | null)[] | null) =>
  ({ bySpeed: { speedRpm: [4000, 5000, 6000, 7000], lambda } }) as unknown as Curve;

describe('what the ladder says of its pulls', () => {
  it('means lambda over the band alone, and over what was recorded there', () => {
    expect(lambdaIn(withLambda([0.8, 0.86, 0.88, 0.99]), [5000, 6000])).toBeCloseTo(0.87, 12);
    expect(lambdaIn(withLambda([0.8, null, 0.88, 0.99]), [5000, 6000])).toBeCloseTo(0.88, 12);
    expect(lambdaIn(withLambda([0.8, null, null, 0.99]), [5000, 6000])).toBeNull();
    expect(lambdaIn(withLambda(null), [5000, 6000])).toBeNull();
  });

  it('shows the decisions of its own ladder, the newest first', () => {
    const decision = (id: string, ladderId: string, decidedAt: string) =>
      ({
        id,
        ladderId,
        decidedAt,
        use: 'bursts',
        setting: 26,
        who: 'a',
        why: '',
        advice: null,
      }) as Decision;
    const notes = decisionNotes(
      [
        decision('old', 'l1', '2026-05-14T10:00:00Z'),
        decision('other', 'l2', '2026-05-15T10:00:00Z'),
        decision('new', 'l1', '2026-05-16T10:00:00Z'),
      ],
      'l1',
    );
    expect(notes.map((note) => note.id)).toEqual(['new', 'old']);
    expect(notes[0]!.advice).toBeNull();
  });
});
