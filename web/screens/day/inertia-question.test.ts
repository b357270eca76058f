import { describe, expect, it } from 'vitest';
import type { Curve } from '../../api/types.gen.ts';
import { asksForInertia } from './inertia-question.tsx';

const curve = (inertia: string, direction: string, ...kinds: string[]) => ({
  curve: {
    basis: { air: 'observed', inertia },
    span: { direction },
    marks: kinds.map((kind) => ({ kind })),
  } as unknown as Curve,
});

describe('the question for the inertia', () => {
  it('is asked where a sweep was put right with the cell’s figure, or with none', () => {
    expect(asksForInertia(null, [curve('in', 'rising', 'inertia')])).toBe(true);
    expect(asksForInertia(null, [curve('out', 'rising', 'basis')])).toBe(true);
    expect(asksForInertia(0.42, [curve('in', 'rising', 'inertia')])).toBe(false);
  });

  it('is not asked where nothing had to be put back', () => {
    const without = [curve('in', 'rising'), curve('out', 'held steps'), { curve: null }];
    expect(asksForInertia(null, without)).toBe(false);
    expect(asksForInertia(null, [])).toBe(false);
  });
});
