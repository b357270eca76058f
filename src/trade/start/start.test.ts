import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blend, FUELS, type Fuel, fuelNamed } from '../fuel/index.ts';
import {
  BEST_LEAD_DEG,
  type Chamber,
  type StartInput,
  startingMixture,
  startingSpark,
} from './index.ts';

const CHAMBERS = Object.keys(BEST_LEAD_DEG) as Chamber[];
const engine: StartInput = {
  aspiration: 'natural',
  fuel: fuelNamed('gasoline 93'),
  compressionRatio: 10,
  chamber: 'two-valve wedge',
  boreM: 0.1,
};

/** Top of the window, or 0 where there is none: never more than any window. */
function highDeg(input: StartInput): number {
  const answer = startingSpark(input);
  return answer.state === 'window' ? answer.window.highDeg : 0;
}

describe('the first spark', () => {
  it('of a wedge at 10:1 on 93 stands at 24 to 30°, below the 32 to 38 it will want', () => {
    // common practice, no source: what the window is built from is named at each constant.
    const answer = startingSpark(engine);
    expect(answer.state === 'window' && answer.window).toEqual({ lowDeg: 24, highDeg: 30 });
    expect(answer.state === 'window' && answer.caution).toMatch(/not a promise/);
  });

  it('always stands below the best lead of its chamber, with a reason and a source for each step', () => {
    for (const chamber of CHAMBERS)
      for (const fuel of FUELS)
        for (const compressionRatio of [8, 10, 11, 12, 13.5])
          for (const boreM of [0.08, 0.1, 0.118]) {
            const answer = startingSpark({ ...engine, chamber, fuel, compressionRatio, boreM });
            if (answer.state === 'missing') throw new Error('nothing is missing');
            expect(answer.reasons.length).toBeGreaterThan(0);
            for (const { sentence, source } of answer.reasons) {
              expect(sentence).toMatch(/\.$/);
              expect(source.length).toBeGreaterThan(5);
              expect(`${sentence} ${source}`).not.toMatch(/NaN|undefined/);
            }
            if (answer.state !== 'window') continue;
            expect(answer.window.highDeg).toBeLessThan(BEST_LEAD_DEG[chamber].range[0]);
            expect(answer.window.lowDeg).toBeLessThan(answer.window.highDeg);
            expect(answer.window.lowDeg).toBeGreaterThan(0);
          }
  });

  it('never rises with ratio or bore, nor as octane falls (property)', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...CHAMBERS),
        number(7, 14),
        number(0.06, 0.13),
        number(0, 3),
        number(0, 0.02),
        number(80, 100),
        number(0, 10),
        (chamber, ratio, boreM, more, wider, research, worse) => {
          const fuelOf = (octane: number): Fuel => ({
            ...fuelNamed('petrol 95'),
            octane: { research: octane },
          });
          const at = (change: StartInput) =>
            highDeg({
              ...engine,
              chamber,
              boreM,
              compressionRatio: ratio,
              fuel: fuelOf(research),
              ...change,
            });
          expect(at({ compressionRatio: ratio + more })).toBeLessThanOrEqual(at({}));
          expect(at({ boreM: boreM + wider })).toBeLessThanOrEqual(at({}));
          expect(at({ fuel: fuelOf(research - worse) })).toBeLessThanOrEqual(at({}));
        },
      ),
      { seed: 31, numRuns: 400 },
    );
  });

  it('takes gasoline of unknown grade for the poorest, and says so', () => {
    const answer = startingSpark({ ...engine, fuel: fuelNamed('gasoline') });
    expect(highDeg({ ...engine, fuel: fuelNamed('gasoline') })).toBe(24);
    expect(answer.state === 'window' && answer.reasons.map((one) => one.sentence).join()).toMatch(
      /taken for 91 RON/,
    );
  });

  it('gives none for boost, nitrous, nitromethane, a ratio far beyond the fuel, or a fuel it does not know', () => {
    const mix = blend('mix', [
      [fuelNamed('methanol'), 0.95],
      [fuelNamed('nitromethane'), 0.05],
    ]);
    const strange = { ...fuelNamed('methanol'), name: 'something' };
    const cases: readonly [StartInput, RegExp][] = [
      [{ aspiration: 'boosted' }, /Boost decides/],
      [{ aspiration: 'nitrous' }, /Nitrous speeds/],
      [{ fuel: mix }, /Nitromethane knocks/],
      [{ compressionRatio: 13 }, /no lead is safe to name/],
      [{ fuel: strange }, /Nothing cautious is known/],
      [{ fuel: fuelNamed('n-heptane') }, /does not suit this engine/],
    ];
    for (const [change, sentence] of cases) {
      const answer = startingSpark({ ...engine, ...change });
      expect(answer.state).toBe('none');
      expect(
        answer.state === 'none' && answer.reasons.map((one) => one.sentence).join(' '),
      ).toMatch(sentence);
    }
    // Boost rules it out whatever else is unknown.
    expect(startingSpark({ aspiration: 'boosted' }).state).toBe('none');
  });

  it('lists what is missing, that which decides most first, and refuses what cannot be', () => {
    expect(startingSpark({ chamber: 'two-valve wedge' })).toEqual({
      state: 'missing',
      missing: ['aspiration', 'fuel', 'compressionRatio', 'boreM'],
    });
    expect(() => startingSpark({ ...engine, compressionRatio: 1 })).toThrow(/compression ratio: 1/);
    expect(() => startingSpark({ ...engine, boreM: Number.NaN })).toThrow(/invalid bore/);
  });
});

describe('the first mixture', () => {
  const windowOf = (input: StartInput) => {
    const answer = startingMixture(input);
    if (answer.state !== 'window') throw new Error(`no window: ${answer.state}`);
    return answer.window;
  };

  it('stands at the rich side of gasoline’s best power', () => {
    // reference: NACA TR 189 found most power at fuel to air 0.07 to 0.08, that is 12.5 to 14.3 of air; ours ends richer
    // than the middle of it. Best power at lambda 0.86 to 0.90 from memory.
    const window = windowOf(engine);
    expect(window.highLambda).toBeLessThan(0.88);
    expect(window.highAfr).toBeLessThan((12.5 + 14.3) / 2);
    expect(window.highAfr).toBeCloseTo(0.87 * 14.7, 2);
    expect(window.lowAfr).toBeLessThan(window.highAfr);
  });

  it('of a blend stands between its parts, in its own air to fuel', () => {
    const window = windowOf({ ...engine, fuel: fuelNamed('E85') });
    expect(window.lowLambda).toBeGreaterThan(0.78);
    expect(window.lowLambda).toBeLessThan(0.82);
    expect(window.highAfr / window.highLambda).toBeCloseTo(9.8, 1);
  });

  it('is the same of a fuel blended with itself (identity)', () => {
    const methanol = fuelNamed('methanol');
    const self = blend('self', [
      [methanol, 0.4],
      [methanol, 0.6],
    ]);
    expect(windowOf({ ...engine, fuel: self }).highAfr).toBeCloseTo(
      windowOf({ ...engine, fuel: methanol }).highAfr,
      9,
    );
  });

  it('is richer above the ratio the fuel is begun with, and needs none to be given', () => {
    const high = windowOf({ ...engine, compressionRatio: 11 });
    expect(high.highLambda).toBeCloseTo(windowOf(engine).highLambda - 0.02, 9);
    expect(windowOf({ aspiration: 'natural', fuel: fuelNamed('methanol') }).highLambda).toBe(0.8);
  });

  it('gives none for boost, nitrous and nitromethane; lists what is missing', () => {
    expect(startingMixture({ ...engine, aspiration: 'boosted' }).state).toBe('none');
    expect(startingMixture({ ...engine, aspiration: 'nitrous' }).state).toBe('none');
    expect(startingMixture({ ...engine, fuel: fuelNamed('nitromethane') }).state).toBe('none');
    expect(startingMixture({})).toEqual({ state: 'missing', missing: ['aspiration', 'fuel'] });
    expect(() => startingMixture({ ...engine, compressionRatio: 0.5 })).toThrow(/ratio: 0.5/);
  });
});
