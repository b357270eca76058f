import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, toInside } from '../../units/index.ts';
import {
  balanceGradeMmPerS,
  bobweight,
  bobweightChange,
  CRANK_LAYOUTS,
  gradeKept,
  matchSet,
  permissibleUnbalanceKgM,
  reciprocatingAmplitudeN,
  reciprocatingForceN,
  shakingForces,
  type ThrowParts,
  throwResidual,
  unbalanceForceN,
  unbalanceKgM,
} from './index.ts';

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);
const g = (grams: number) => grams / 1000;
const OZ_IN = inside(1, 'oz·in');
const G_MM = inside(1, 'g·mm');

/** Weights of the worked example of the trade reference (S38 to S40): pin and locks 145 g together. */
const PARTS: ThrowParts = {
  rodBigEndKg: g(425),
  rodBearingsKg: g(46),
  rodSmallEndKg: g(180),
  pistonKg: g(480),
  pinKg: g(143),
  locksKg: g(2),
  ringsKg: g(52),
  oilPerThrowKg: g(4),
};
const HALF = { rodsPerThrow: 2, reciprocatingShare: 0.5 };

describe('bobweight', () => {
  // Independent, by hand: 2(425 + 46) + 4 + (180 + 480 + 145 + 52) = 942 + 4 + 857.
  it('of a cross-plane V8 is 1803 g', () => {
    const { bobweightKg, rotatingKg, reciprocatingKg } = bobweight(PARTS, HALF);
    expect(bobweightKg).toBeCloseTo(g(1803), 12);
    expect(rotatingKg).toBeCloseTo(g(946), 12);
    expect(reciprocatingKg).toBeCloseTo(g(1714), 12);
  });

  it('with two points of overbalance is 34.3 g more (independent, by hand: 0.02 × 1714)', () => {
    const over = bobweight(PARTS, { rodsPerThrow: 2, reciprocatingShare: 0.52 });
    expect(over.bobweightKg).toBeCloseTo(g(1837.28), 10);
  });

  it('rises with every part, and a change is the sum of its parts (identity)', () => {
    const grams = fc.double({ min: 0.001, max: 1, noNaN: true });
    const parts = fc.record({
      rodBigEndKg: grams,
      rodBearingsKg: grams,
      rodSmallEndKg: grams,
      pistonKg: grams,
      pinKg: grams,
      locksKg: grams,
      ringsKg: grams,
      oilPerThrowKg: grams,
    });
    fc.assert(
      fc.property(
        parts,
        parts,
        fc.integer({ min: 1, max: 3 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (before, after, rodsPerThrow, reciprocatingShare) => {
          const rule = { rodsPerThrow, reciprocatingShare };
          const change = bobweightChange(before, after, rule, 0.05);
          const total = change.byPart.reduce((sum, { changeKg }) => sum + changeKg, 0);
          expect(total).toBeCloseTo(change.changeKg, 9);
          expect(change.unbalancePerThrowKgM).toBeCloseTo(0.05 * Math.abs(total), 9);
          const heavier = { ...before, rodBigEndKg: before.rodBigEndKg + 0.01 };
          expect(bobweight(heavier, rule).bobweightKg).toBeGreaterThan(
            bobweight(before, rule).bobweightKg,
          );
        },
      ),
      { seed: 50, numRuns: 200 },
    );
  });

  it('names the part that cannot be', () => {
    expect(() => bobweight({ ...PARTS, pistonKg: 0 }, HALF)).toThrow(/piston/);
    expect(() => bobweight({ ...PARTS, ringsKg: Number.NaN }, HALF)).toThrow(NonPhysicalError);
    expect(() => bobweight(PARTS, { rodsPerThrow: 2, reciprocatingShare: 1.1 })).toThrow(/share/);
    expect(() => bobweight(PARTS, { rodsPerThrow: 0, reciprocatingShare: 0.5 })).toThrow(/rods/);
  });
});

describe('crank layouts', () => {
  it.each(CRANK_LAYOUTS.map((layout) => [layout.id, layout] as const))(
    '%s: its throws cancel as it says (identity)',
    (_, layout) => {
      const { force, coupleM } = throwResidual(
        layout.throwAnglesDeg.map((angleDeg, i) => ({ angleDeg, positionM: 0.1 * i })),
      );
      expect(force < 1e-9 && coupleM < 1e-9).toBe(layout.throwsCancel);
      expect(layout.throwsCancel).toBe(layout.reciprocatingShare === null);
    },
  );

  it('the cross-plane leaves a couple of √10 throw spacings and no force (independent, by hand)', () => {
    // Pins 0, 90, 270, 180 at −1.5, −0.5, 0.5, 1.5: x −1.5 − 1.5 = −3, y −0.5 − 0.5 = −1.
    const spaced = [0, 90, 270, 180].map((angleDeg, i) => ({ angleDeg, positionM: i }));
    expect(throwResidual(spaced).force).toBeCloseTo(0, 12);
    expect(throwResidual(spaced).coupleM).toBeCloseTo(Math.sqrt(10), 12);
  });
});

describe('residual unbalance', () => {
  // Independent, by hand: 1 oz·in = 7.20078e-4 kg·m; (6000 × 2π/60)² = 394 784.2 → 284.3 N, 63.9 lbf.
  it('of one ounce inch pulls with 284 N at 6000 rev/min', () => {
    expect(OZ_IN).toBeCloseTo(7.20077887e-4, 12);
    expect(unbalanceForceN(OZ_IN, 6000)).toBeCloseTo(284.28, 2);
    expect(unbalanceKgM(g(10), 0.05)).toBeCloseTo(500 * G_MM, 12);
  });

  // Reference: a tool maker's page on ISO 1940-1 (docs.steelcam.org, catalogue p. K53): 2 kg, 10 000 rev/min,
  // G 6.3 → 12 g·mm, 6 g·mm/kg.
  it('allows 12 g·mm for 2 kg at 10 000 rev/min in G 6.3 (reference)', () => {
    const unbalance = permissibleUnbalanceKgM(6.3, 2, 10_000) / G_MM;
    expect(Math.abs(unbalance - 12)).toBeLessThan(0.5);
    // The same page's formula 9549 G m / n, to the digits of its constant.
    expect(unbalance / ((9549 * 6.3 * 2) / 10_000)).toBeCloseTo(1, 4);
  });

  // Reference: energy-tech.com, article 18389 p. 3: U[oz·in] = 6.015 G W[lb] / N.
  it('agrees with 6.015 G W / N in ounce inches (reference)', () => {
    const unbalance = permissibleUnbalanceKgM(2.5, inside(55, 'lb'), 7000) / OZ_IN;
    expect(unbalance / ((6.015 * 2.5 * 55) / 7000)).toBeCloseTo(1, 3);
  });

  it('grade and unbalance go there and back, and the grade rises with speed (identity)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 4000, noNaN: true }),
        fc.double({ min: 0.1, max: 200, noNaN: true }),
        fc.double({ min: 100, max: 20_000, noNaN: true }),
        (grade, rotorKg, speedRpm) => {
          const allowed = permissibleUnbalanceKgM(grade, rotorKg, speedRpm);
          expect(balanceGradeMmPerS(allowed, rotorKg, speedRpm) / grade).toBeCloseTo(1, 10);
          expect(balanceGradeMmPerS(allowed, rotorKg, 2 * speedRpm)).toBeGreaterThan(grade);
        },
      ),
      { seed: 1940, numRuns: 200 },
    );
    expect([0.3, 6.3, 6.4, 99, 101].map(gradeKept)).toEqual([0.4, 6.3, 16, 100, null]);
  });

  it('refuses rotors of no mass and speeds that are none', () => {
    expect(() => balanceGradeMmPerS(1e-4, 0, 6000)).toThrow(/rotor mass/);
    expect(() => permissibleUnbalanceKgM(6.3, 20, Number.NaN)).toThrow(NonPhysicalError);
    expect(() => unbalanceForceN(-1, 6000)).toThrow(/unbalance/);
  });
});

describe('reciprocating force', () => {
  const SLIDER = {
    reciprocatingKg: 0.75,
    crankRadiusM: 0.044196,
    rodLengthM: 0.14478,
    speedRpm: 6500,
  };

  // Independent: 3.48 in stroke, 5.7 in rod at 6500 rev/min has 26 728 m/s² at top and 14 226 at bottom.
  it('at both dead centres is mass times the exact acceleration', () => {
    expect(Math.abs(reciprocatingForceN(SLIDER, 0).totalN / 0.75 - 26_728)).toBeLessThan(0.5);
    expect(Math.abs(reciprocatingForceN(SLIDER, 180).totalN / 0.75 + 14_226)).toBeLessThan(0.5);
  });

  it('follows the second derivative of the exact slider within what the higher orders hold (independent)', () => {
    const { crankRadiusM: r, rodLengthM: l } = SLIDER;
    const height = (deg: number) => {
      const angle = (deg * Math.PI) / 180;
      return r * Math.cos(angle) + Math.sqrt(l ** 2 - (r * Math.sin(angle)) ** 2);
    };
    const omegaDegPerS = SLIDER.speedRpm * 6;
    const { primaryN } = reciprocatingAmplitudeN(SLIDER);
    for (let deg = 0; deg < 360; deg += 5) {
      const bend = height(deg + 0.05) - 2 * height(deg) + height(deg - 0.05);
      const exactN = (-0.75 * bend * omegaDegPerS ** 2) / 0.05 ** 2;
      const off = Math.abs(reciprocatingForceN(SLIDER, deg).totalN - exactN) / primaryN;
      expect(off).toBeLessThan((r / l) * (1 / Math.sqrt(1 - (r / l) ** 2) - 1) + 1e-6);
    }
  });

  it('refuses a rod shorter than the crank', () => {
    expect(() => reciprocatingAmplitudeN({ ...SLIDER, rodLengthM: 0.04 })).toThrow(/rod length/);
  });
});

describe('shaking of the whole engine', () => {
  const slider = { reciprocatingKg: 1, crankRadiusM: 0.06, rodLengthM: 0.24, speedRpm: 2400 };
  const { primaryN, secondaryN } = reciprocatingAmplitudeN(slider);
  const inline = (pins: readonly number[]) =>
    pins.map((pinDeg, i) => ({ bankDeg: 0, pinDeg, positionM: 0.1 * i }));

  // Identities that every textbook states.
  it('inline 4: no first order, four times the second, no couple', () => {
    const got = shakingForces(slider, inline([0, 180, 180, 0]));
    expect(got.primaryForceN.largest).toBeCloseTo(0, 6);
    expect(got.secondaryForceN.largest).toBeCloseTo(4 * secondaryN, 6);
    expect(got.primaryCoupleNm.largest).toBeCloseTo(0, 6);
    expect(got.secondaryCoupleNm.largest).toBeCloseTo(0, 6);
  });

  it('inline 6: nothing at all', () => {
    const got = shakingForces(slider, inline([0, 120, 240, 240, 120, 0]));
    for (const { largest } of Object.values(got)) expect(largest).toBeCloseTo(0, 6);
  });

  it('three cylinders around one pin: 3/2 of the first order turning forward, 3/2 of the second', () => {
    const radial = [0, 120, 240].map((bankDeg) => ({ bankDeg, pinDeg: 0, positionM: 0 }));
    const got = shakingForces(slider, radial);
    expect(got.primaryForceN.largest).toBeCloseTo(1.5 * primaryN, 6);
    expect(got.primaryForceN.smallest).toBeCloseTo(1.5 * primaryN, 6);
    expect(got.secondaryForceN.largest).toBeCloseTo(1.5 * secondaryN, 6);
  });

  it('90° twin on one pin: half of both cylinders on the counterweight cancels the first order', () => {
    const twin = [-45, 45].map((bankDeg) => ({ bankDeg, pinDeg: 0, positionM: 0 }));
    expect(shakingForces(slider, twin).primaryForceN.smallest).toBeCloseTo(primaryN, 6);
    expect(shakingForces(slider, twin, 0.5).primaryForceN.largest).toBeCloseTo(0, 6);
  });

  it('cross-plane V8 with half on the counterweights: no force and no couple of either order but the second’s', () => {
    const v8 = [0, 90, 270, 180].flatMap((pinDeg, i) =>
      [-45, 45].map((bankDeg) => ({ bankDeg, pinDeg, positionM: 0.1 * i })),
    );
    const bare = shakingForces(slider, v8);
    expect(bare.primaryForceN.largest).toBeCloseTo(0, 6);
    expect(bare.primaryCoupleNm.largest).toBeCloseTo(0.1 * Math.sqrt(10) * primaryN, 6);
    const balanced = shakingForces(slider, v8, 0.5);
    expect(balanced.primaryForceN.largest).toBeCloseTo(0, 6);
    expect(balanced.primaryCoupleNm.largest).toBeCloseTo(0, 6);
    expect(balanced.secondaryForceN.largest).toBeCloseTo(0, 6);
  });

  // Reference: a worked solution (askfilo.com, four cylinders of 100 kg, pins 0, 180, 240, 60, r 150, l 450 mm,
  // 1200 rev/min): first order balanced, second order 5 ω² = 78 957 N when the first crank stands at top.
  it('agrees with a worked four-cylinder example (reference)', () => {
    const big = { reciprocatingKg: 100, crankRadiusM: 0.15, rodLengthM: 0.45, speedRpm: 1200 };
    const pins = [0, 180, 240, 60];
    const got = shakingForces(big, inline(pins));
    expect(got.primaryForceN.largest).toBeCloseTo(0, 3);
    const atTop = pins.reduce((sum, pin) => sum + reciprocatingForceN(big, pin).secondaryN, 0);
    expect(Math.abs(atTop - 78_957)).toBeLessThan(0.5);
    expect(got.secondaryForceN.largest).toBeGreaterThanOrEqual(atTop);
  });

  it('does not care from where angles and places are counted (identity)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -360, max: 360, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (turnDeg, shiftM) => {
          const here = inline([0, 90, 270, 180]).map((c, i) => ({ ...c, bankDeg: 30 * i }));
          const there = here.map((c) => ({
            bankDeg: c.bankDeg + turnDeg,
            pinDeg: c.pinDeg + turnDeg,
            positionM: c.positionM + shiftM,
          }));
          const [a, b] = [shakingForces(slider, here), shakingForces(slider, there)];
          expect(b.primaryForceN.largest).toBeCloseTo(a.primaryForceN.largest, 6);
          expect(b.secondaryCoupleNm.largest).toBeCloseTo(a.secondaryCoupleNm.largest, 6);
        },
      ),
      { seed: 8, numRuns: 100 },
    );
  });
});

describe('matching of a set', () => {
  it('says what comes off each part; parts not weighed stay out', () => {
    const match = matchSet('piston', [0.482, null, 0.4805, 0.4811]);
    expect(match).toMatchObject({ lightestAt: 2, heaviestAt: 0, lightestKg: 0.4805 });
    expect(match.spreadKg).toBeCloseTo(0.0015, 12);
    expect(match.takeOffKg[1]).toBeNull();
    expect(match.takeOffKg[3]).toBeCloseTo(0.0006, 12);
    expect(Math.min(...match.takeOffKg.map((kg) => kg ?? 0))).toBe(0);
  });

  it('refuses nothing and impossible masses', () => {
    expect(() => matchSet('piston', [null, null])).toThrow(/piston/);
    expect(() => matchSet('rod big end', [0.4, 0])).toThrow(/rod big end/);
  });
});
