import { describe, expect, it } from 'vitest';
import { FormatError } from '../errors.ts';
import { answerSheet, answerSheetAtOnce, parseSheet, readSheet } from './index.ts';

const V8 = {
  format: 'sheet/1',
  name: 'street small block',
  layout: { cylinders: 8 },
  sections: {
    intent: { values: { compressionRatio: 10 } },
    block: { values: { boreNominal: '4.030 ± 0.0005 in' } },
    crank: { values: { stroke: '3.480 in' } },
    pistons: { values: { dishVolume: '5 cc' } },
    deck: {
      values: {
        deckClearance: { each: [0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01, null], unit: 'in' },
        gasketThickness: '0.039 in',
        gasketBore: '4.100 in',
      },
    },
    heads: { values: { chamberVolume: { value: 64, unit: 'cc', plusMinus: 0.2 } } },
  },
};
const figure = (id: string, sheet: unknown = V8) =>
  answerSheet(parseSheet(sheet)).figures.find((one) => one.id === id)!;
const change = (path: string, value: unknown) => {
  const copy = structuredClone(V8) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  let at = copy;
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {};
    at = at[key] as Record<string, unknown>;
  }
  at[keys.at(-1)!] = value;
  return copy;
};

describe('a sheet and what follows from it', () => {
  it('has the displacement and ratio of the worked example', () => {
    // Worked example of the trade reference, computed by hand from the geometry: 355.12 in³ and 10.147:1.
    expect(figure('displacement').value! / 0.0254 ** 3).toBeCloseTo(355.12, 2);
    expect(figure('compressionRatio').value).toBeCloseTo(10.147, 3);
  });

  it('leaves the one cylinder unknown that was not measured', () => {
    const { each } = figure('compressionRatio');
    expect(each).toHaveLength(8);
    expect(each![7]).toBeNull();
    expect(each![0]).toBeCloseTo(10.147, 3);
  });

  it('carries tolerances on: the ratio falls as the chamber grows', () => {
    // dCR = −(CR − 1)/Vc dVc for the chamber and 2 Vs/(Vc B) dB for the bore (less its own part of the deck), in squares.
    const { plusMinus } = figure('compressionRatio');
    const chamber = (9.147 / 79.53) * 0.2;
    const bore = (2 * 9.147 * 0.0005) / 4.03;
    expect(plusMinus).toBeCloseTo(Math.hypot(chamber, bore), 3);
  });

  it('gives the same values at once, and only the tolerances later', () => {
    const sheet = parseSheet(V8);
    const [whole, atOnce] = [answerSheet(sheet), answerSheetAtOnce(sheet)];
    const bare = (answers: readonly object[]) =>
      answers.map((one) => ({ ...one, plusMinus: null }));
    expect(atOnce.figures).toEqual(bare(whole.figures));
    expect(atOnce.checks).toEqual(bare(whole.checks));
    expect(atOnce.measureNext).toEqual(whole.measureNext);
  });

  it('says what is missing, and asks first for what decides most', () => {
    const without = change('sections.deck.values.gasketThickness', null);
    const answer = answerSheet(parseSheet(without));
    expect(answer.figures.find((one) => one.id === 'compressionRatio')!.missing).toEqual([
      'deck.gasketThickness',
    ]);
    expect(answer.measureNext[0]!.path).toBe('deck.gasketThickness');
    expect(answer.checks.find((one) => one.id === 'quench')!.verdict).toBe('not known');
  });

  it('stops where the piston would meet the head', () => {
    const check = answerSheet(
      parseSheet(change('sections.deck.values.gasketThickness', '0.015 in')),
    ).checks.find((one) => one.id === 'quench')!;
    expect(check.verdict).toBe('stop');
    expect(check.remedy).toContain('gasket');
  });

  it('says which values cannot be true together instead of a number', () => {
    const { value, problem } = figure(
      'compressionRatio',
      change('sections.deck.values.deckClearance', { value: -0.4, unit: 'in' }),
    );
    expect(value).toBeNull();
    expect(problem).toContain('clearance volume');
  });
});

describe('a sheet written by hand', () => {
  it.each([
    [
      'a misspelled field',
      'sections.block.values.boreNominl',
      '4 in',
      'sections.block.values.boreNominl',
    ],
    [
      'a unit of something else',
      'sections.crank.values.stroke',
      '3.48 psi',
      'sections.crank.values.stroke',
    ],
    ['a number without unit', 'sections.crank.values.stroke', 88.4, 'sections.crank.values.stroke'],
    [
      'inches taken for metres',
      'sections.crank.values.stroke',
      '3.48 m',
      'sections.crank.values.stroke',
    ],
    [
      'too few cylinders',
      'sections.heads.values.chamberVolume',
      { each: [64], unit: 'cc' },
      'sections.heads.values.chamberVolume.each',
    ],
    ['no layout', 'layout', undefined, 'layout'],
    [
      'a day that is none',
      'sections.condition',
      { values: { assembled: '2026-02-30' } },
      'sections.condition.values.assembled',
    ],
  ])('is refused by the name of its field: %s', (_, path, value, named) => {
    const read = readSheet(change(path, value));
    expect('problems' in read && read.problems.map((problem) => problem.path)).toEqual([named]);
    expect(() => parseSheet(change(path, value))).toThrow(FormatError);
  });

  it('goes through JSON and back without loss', () => {
    const sheet = parseSheet(V8);
    expect(parseSheet(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
  });
});
