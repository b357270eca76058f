import { describe, expect, it } from 'vitest';
import { airInWords } from './air-words.ts';

const observed = { basis: { air: 'observed', inertia: 'out' }, standard: 'SAE J1349' } as const;
const unknown = { basis: { air: 'unknown', inertia: 'out' }, standard: 'SAE J1349' } as const;

describe('the air that curves are said to stand in', () => {
  it('names the standard where all could be corrected', () => {
    expect(airInWords([observed, observed], 'SAE J1349')).toBe('In the air of SAE J1349.');
    expect(airInWords([observed], 'none')).toBe('As observed, in the air of the day.');
  });

  it('claims no correction where the torque column is not known', () => {
    expect(airInWords([unknown, unknown], 'SAE J1349')).toMatch(/^As recorded, not corrected/);
    expect(airInWords([observed, unknown], 'ISO 1585')).toMatch(
      /^In the air of ISO 1585; 1 of them as recorded/,
    );
  });
});
