import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '../src/numerics/index.ts';

/** NIST StRD certified linear regressions; provenance in reference/nist/README.md. */
const folder = join(import.meta.dirname, 'nist');
const table = (name: string) =>
  readFileSync(join(folder, name), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

const certified = table('certified.csv');

/** Rows of the design: the columns as the file has them, or powers of its only column up to `degree`. */
function designOf(name: string, degree: number, constant: boolean) {
  const rows = table(`${name}.csv`).map((fields) => fields.map(Number));
  const y = rows.map((row) => row[0]!);
  const x = rows.map(([, ...columns]) => {
    const powers =
      degree > 1 ? Array.from({ length: degree }, (_, p) => columns[0]! ** (p + 1)) : columns;
    return constant ? [1, ...powers] : powers;
  });
  return { x, y };
}

/**
 * Digits that agree with the certified ones. NIST's own scale is this log relative error; doubles and QR reach about 7
 * on Filip, whose columns nearly depend on each other (its condition is near 1e15 before scaling).
 */
const CASES: readonly (readonly [
  name: string,
  degree: number,
  constant: boolean,
  digits: number,
])[] = [
  ['norris', 1, true, 12],
  ['pontius', 2, true, 11],
  ['noint1', 1, false, 13],
  ['noint2', 1, false, 13],
  ['longley', 1, true, 10],
  ['filip', 10, true, 6],
  ['wampler1', 5, true, 9],
  ['wampler2', 5, true, 12],
  ['wampler3', 5, true, 9],
  ['wampler4', 5, true, 8],
  ['wampler5', 5, true, 6],
];

describe('certified regressions through our least squares (NIST StRD)', () => {
  it.each(CASES)('%s', (name, degree, constant, digits) => {
    const { x, y } = designOf(name, degree, constant);
    const fit = leastSquares(x, y);
    const wanted = certified.filter(([dataset]) => dataset === name);
    expect(fit.coefficients.length).toBe(wanted.length);
    const agreement = wanted.map(([, , value], i) => {
      const relative = Math.abs(fit.coefficients[i]! / Number(value) - 1);
      return relative === 0 ? 16 : -Math.log10(relative);
    });
    expect(Math.min(...agreement)).toBeGreaterThan(digits);
    const residualSd = Number(wanted[0]![3]);
    if (residualSd > 0) expect(fit.residualSd / residualSd).toBeCloseTo(1, Math.min(digits, 10));
  });
});
