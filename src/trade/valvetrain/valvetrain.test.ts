import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, fromInside, toInside } from '../../units/index.ts';
import {
  effectiveRatio,
  type LobeMotion,
  lobeLiftSpentM,
  massAtValveKg,
  midLiftCorrection,
  nearestPushrod,
  openWithLash,
  preloadFromPushrodM,
  preloadFromTurnsM,
  pushrodLengthM,
  type RockerGeometry,
  rockerSweep,
  springLoadN,
  springLoads,
  springMargin,
  springsTogether,
  springThrough,
  surgeFrequencyHz,
  surgeSwingsPerCamTurn,
  valveLiftWithLashM,
} from './index.ts';

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);
const outside = (value: number, unit: string) => fromInside(value, findUnit(unit)!);
const inch = (value: number) => inside(value, 'in');

describe('valve spring', () => {
  const spring = springThrough(
    { heightM: inch(1.9), loadN: inside(200, 'lbf') },
    { heightM: inch(1.3), loadN: inside(494, 'lbf') },
  );

  it('of 200 lbf at 1.900 in and 494 at 1.300 has 490 lb/in (independent, by hand)', () => {
    expect(outside(spring.rateNPerM, 'lb/in')).toBeCloseTo(490, 9);
    const loads = springLoads(spring, {
      installedHeightM: inch(1.95),
      valveLiftM: inch(0.65),
      coilBindHeightM: inch(1.225),
    });
    // 200 − 0.05 × 490; 494; 1.300 − 1.225.
    expect(outside(loads.seatN, 'lbf')).toBeCloseTo(175.5, 9);
    expect(outside(loads.openN, 'lbf')).toBeCloseTo(494, 9);
    expect(outside(loads.coilBindMarginM!, 'in')).toBeCloseTo(0.075, 9);
  });

  it('does not push above its free height, and coil bind may be unknown', () => {
    expect(springLoadN(spring, inch(3))).toBe(0);
    const fitted = { installedHeightM: inch(1.9), valveLiftM: inch(0.6) };
    expect(springLoads(spring, fitted).coilBindMarginM).toBeNull();
  });

  it('two inside each other carry what both carry at every height (identity)', () => {
    const inner = { rateNPerM: 20_000, heightM: 0.045, loadN: 150 };
    const both = springsTogether([spring, inner]);
    for (const heightM of [0.03, 0.035, 0.04])
      expect(springLoadN(both, heightM)).toBeCloseTo(
        springLoadN(spring, heightM) + springLoadN(inner, heightM),
        8,
      );
  });

  it('rings at ½ √(k/m) as a chain of 400 small masses does (independent)', () => {
    const [rate, massKg, n] = [60_000, 0.09, 400];
    // n springs of n k and n − 1 masses m/n between held ends: ω = 2 √(n k / (m/n)) sin(π / 2n).
    const chainHz =
      (2 * Math.sqrt((n * rate) / (massKg / n)) * Math.sin(Math.PI / (2 * n))) / (2 * Math.PI);
    expect(surgeFrequencyHz(rate, massKg) / chainHz).toBeCloseTo(1, 4);
    expect(surgeSwingsPerCamTurn(400, 6000)).toBeCloseTo(8, 12);
  });

  it('refuses springs that cannot be, by name', () => {
    const point = { heightM: 0.045, loadN: 500 };
    expect(() => springThrough(point, { heightM: 0.05, loadN: 900 })).toThrow(/height/);
    expect(() => springThrough(point, { heightM: 0.03, loadN: 400 })).toThrow(/load/);
    expect(() => springLoadN({ rateNPerM: 0, ...point }, 0.04)).toThrow(/rate/);
    expect(() => springLoads(spring, { installedHeightM: 0.04, valveLiftM: 0.05 })).toThrow(/lift/);
    expect(() => surgeFrequencyHz(1000, Number.NaN)).toThrow(NonPhysicalError);
  });
});

const PARTS = {
  valveKg: 0.11,
  retainerKg: 0.02,
  locksKg: 0.005,
  springKg: 0.12,
  rockerInertiaKgM2: 6e-5,
  rockerValveArmM: 0.04,
  pushrodKg: 0.075,
  lifterKg: 0.12,
  rockerRatio: 1.6,
};

describe('mass at the valve', () => {
  it('holds the energy of all parts (independent: summed at 3 m/s, the spring in slices)', () => {
    const v = 3;
    const slices = 10_000;
    let energy = 0.5 * (PARTS.valveKg + PARTS.retainerKg + PARTS.locksKg) * v ** 2;
    for (let i = 0; i < slices; i++)
      energy += 0.5 * (PARTS.springKg / slices) * ((v * (i + 0.5)) / slices) ** 2;
    energy += 0.5 * PARTS.rockerInertiaKgM2 * (v / PARTS.rockerValveArmM) ** 2;
    energy += 0.5 * (PARTS.pushrodKg + PARTS.lifterKg) * (v / PARTS.rockerRatio) ** 2;
    expect(massAtValveKg(PARTS)).toBeCloseTo((2 * energy) / v ** 2, 9);
  });

  it('asks for the arm only with a rocker, and names what cannot be', () => {
    const direct = { ...PARTS, rockerInertiaKgM2: 0, rockerValveArmM: null, rockerRatio: 1 };
    expect(massAtValveKg(direct)).toBeCloseTo(0.11 + 0.025 + 0.04 + 0.195, 12);
    expect(() => massAtValveKg({ ...PARTS, rockerValveArmM: null })).toThrow(/valve arm/);
    expect(() => massAtValveKg({ ...PARTS, lifterKg: -1 })).toThrow(/lifter/);
  });
});

describe('spring against inertia', () => {
  const LIFT = 0.014;
  const SPAN = 140;
  /** Raised cosine over 140 degrees of the cam, its nose at 0. */
  const w = (2 * Math.PI) / SPAN;
  const cam: LobeMotion = {
    of: 'cam',
    liftM: (deg) => (LIFT / 2) * (1 + Math.cos(w * deg)),
    accelerationMPerDeg2: (deg) => -(LIFT / 2) * w ** 2 * Math.cos(w * deg),
    fromDeg: -SPAN / 2,
    toDeg: SPAN / 2,
  };
  const spring = { rateNPerM: 60_000, heightM: 0.048, loadN: 600 };
  const valve = { motion: cam, spring, installedHeightM: 0.048, massKg: 0.26 };

  it('floats where the nose lets go, in closed form (independent)', () => {
    const got = springMargin(valve, 6000);
    // Seat load 600 + 60 000 × 0.014 = 1440 N at the nose; −a = (L/2) w² per deg².
    const expected = Math.sqrt(1440 / (0.26 * (LIFT / 2) * w ** 2)) / 3;
    expect(got.floatSpeedRpm).toBeCloseTo(expected, 6);
    expect(got.floatAngleDeg).toBeCloseTo(0, 9);
    expect(got.leastRatio).toBeCloseTo((expected / 6000) ** 2, 9);
    expect(got.tightest.marginN).toBeCloseTo(1440 * (1 - (6000 / expected) ** 2), 6);
  });

  it('agrees with a free valve thrown off the nose (independent: its equation of motion, stepped)', () => {
    const { floatSpeedRpm } = springMargin(valve, 6000);
    const leaves = (speedRpm: number) => {
      const dt = 1e-7;
      let [y, v] = [LIFT, 0];
      for (let i = 1; i < 2000; i++) {
        v -= ((600 + 60_000 * y) / 0.26) * dt;
        y += v * dt;
        if (y > cam.liftM(i * dt * speedRpm * 3) + 1e-9) return true;
      }
      return false;
    };
    expect(leaves(floatSpeedRpm! * 1.005)).toBe(true);
    expect(leaves(floatSpeedRpm! * 0.995)).toBe(false);
  });

  it('is the same in crank degrees; need grows with speed squared (identity)', () => {
    const crank: LobeMotion = {
      of: 'crank',
      liftM: (deg) => cam.liftM(deg / 2),
      accelerationMPerDeg2: (deg) => cam.accelerationMPerDeg2(deg / 2) / 4,
      fromDeg: -SPAN,
      toDeg: SPAN,
    };
    const [a, b] = [springMargin(valve, 5000), springMargin({ ...valve, motion: crank }, 5000)];
    expect(b.floatSpeedRpm).toBeCloseTo(a.floatSpeedRpm!, 6);
    expect(b.tightest.marginN).toBeCloseTo(a.tightest.marginN, 6);
    const faster = springMargin(valve, 10_000);
    expect(faster.floatSpeedRpm).toBeCloseTo(a.floatSpeedRpm!, 9);
    a.angles.forEach(({ neededN }, i) => {
      expect(faster.angles[i]!.neededN).toBeCloseTo(4 * neededN, 6);
    });
  });

  it('more spring raises the float speed, more mass lowers it (identity)', () => {
    const base = springMargin(valve, 6000).floatSpeedRpm!;
    const stiff = { ...spring, loadN: 700 };
    expect(springMargin({ ...valve, spring: stiff }, 6000).floatSpeedRpm).toBeGreaterThan(base);
    expect(springMargin({ ...valve, massKg: 0.3 }, 6000).floatSpeedRpm).toBeLessThan(base);
  });

  it('refuses a lobe of no span, and lifts that are no number', () => {
    const motion = { ...cam, toDeg: -100 };
    expect(() => springMargin({ ...valve, motion }, 6000)).toThrow(/lobe/);
    const lost = { ...cam, liftM: () => Number.NaN };
    expect(() => springMargin({ ...valve, motion: lost }, 6000)).toThrow(/valve lift/);
  });
});

describe('lash', () => {
  const lobe = {
    lobeLiftM: (deg: number) =>
      Math.abs(deg) < 70 ? 0.0045 * (1 + Math.cos((Math.PI * deg) / 70)) : 0,
    fromDeg: -90,
    toDeg: 90,
  };

  it('comes off the lift at the valve, and off the lobe divided by the ratio (independent, by hand)', () => {
    const lift = valveLiftWithLashM(inch(0.4), 1.5, inch(0.022));
    expect(outside(lift, 'in')).toBeCloseTo(0.578, 9);
    expect(outside(lobeLiftSpentM(inch(0.024), 1.6), 'in')).toBeCloseTo(0.015, 9);
    expect(valveLiftWithLashM(inch(0.01), 1.5, inch(0.022))).toBe(0);
  });

  it('opens and shuts where the lobe meets it, in closed form (independent)', () => {
    const got = openWithLash(lobe, 1.5, 0.0006);
    const half = (70 / Math.PI) * Math.acos(0.0006 / 1.5 / 0.0045 - 1);
    expect(got!.opensDeg).toBeCloseTo(-half, 6);
    expect(got!.durationDeg).toBeCloseTo(2 * half, 6);
  });

  it('shortens the duration the more there is, down to a valve that stays shut (identity)', () => {
    const spans = [0, 0.0003, 0.0006, 0.003, 0.013].map((l) => openWithLash(lobe, 1.5, l)!);
    const durations = spans.map(({ durationDeg }) => durationDeg);
    expect([...durations].sort((a, b) => b - a)).toEqual(durations);
    expect(openWithLash(lobe, 1.5, 0.02)).toBeNull();
  });

  it('refuses lash below 0', () => {
    expect(() => valveLiftWithLashM(0.01, 1.5, -0.001)).toThrow(/lash/);
    expect(() => openWithLash(lobe, 0, 0.0005)).toThrow(/ratio/);
  });
});

describe('hydraulic preload', () => {
  it('of half a turn of a 3/8-24 stud at 1.5 is 0.0347 in; the same screw at the pushrod 0.0208 (independent)', () => {
    const nut = { turns: 0.5, pitchM: inch(1 / 24), rockerRatio: 1.5 };
    // The lever by coordinates: tip at (60, 0) stays, pivot at (0, 0) goes down s, seat at −40 on the line through both.
    const s = inch(1 / 48);
    const seatDrop = s + (s / 60) * 40;
    expect(preloadFromTurnsM({ ...nut, at: 'stud' })).toBeCloseTo(seatDrop, 12);
    expect(outside(preloadFromTurnsM({ ...nut, at: 'stud' }), 'in')).toBeCloseTo(0.0347, 4);
    expect(outside(preloadFromTurnsM({ ...nut, at: 'pushrod' }), 'in')).toBeCloseTo(0.0208, 4);
  });

  it('of a fixed rocker is pushrod less zero-lash length', () => {
    expect(preloadFromPushrodM(inch(7.45), inch(7.41))).toBeCloseTo(inch(0.04), 12);
    expect(preloadFromPushrodM(inch(7.4), inch(7.41))).toBeLessThan(0);
    expect(() =>
      preloadFromTurnsM({ turns: -1, pitchM: 1e-3, at: 'stud', rockerRatio: 1.5 }),
    ).toThrow(/turns/);
  });
});

describe('rocker', () => {
  const rocker: RockerGeometry = {
    valveArmM: 0.042,
    pushrodArmM: 0.026,
    valveLiftM: 0.015,
    seatAngleDeg: 12,
  };

  it('ratio is valve lift and lash over lobe lift (independent, by hand)', () => {
    expect(effectiveRatio(inch(0.578), inch(0.4), inch(0.022))).toBeCloseTo(1.5, 12);
    expect(() => effectiveRatio(0.01, 0)).toThrow(/lobe lift/);
  });

  it('sweep agrees with the tip drawn in a thousand steps (independent)', () => {
    fc.assert(
      fc.property(fc.double({ min: -25, max: 40, noNaN: true }), (seatAngleDeg) => {
        const across: number[] = [];
        const shut = Math.sin((seatAngleDeg * Math.PI) / 180);
        for (let i = 0; i <= 1000; i++) {
          const sine = shut - (0.015 * i) / 1000 / 0.042;
          across.push(0.042 * Math.cos(Math.asin(sine)));
        }
        const drawn = Math.max(...across) - Math.min(...across);
        const { sweepM, leastSweepM } = rockerSweep({ ...rocker, seatAngleDeg });
        expect(Math.abs(sweepM - drawn)).toBeLessThan(1e-8);
        expect(sweepM).toBeGreaterThanOrEqual(leastSweepM - 1e-12);
      }),
      { seed: 42, numRuns: 100 },
    );
  });

  it('the correction makes the sweep the least, and is nothing when it already is (identity)', () => {
    const { pivotRiseM, pushrodGainM } = midLiftCorrection(rocker);
    const shut = Math.sin((12 * Math.PI) / 180) - pivotRiseM / 0.042;
    const after = { ...rocker, seatAngleDeg: (Math.asin(shut) * 180) / Math.PI };
    const { sweepM, leastSweepM, openAngleDeg } = rockerSweep(after);
    expect(sweepM).toBeCloseTo(leastSweepM, 12);
    expect(openAngleDeg).toBeCloseTo(-after.seatAngleDeg, 9);
    expect(midLiftCorrection(after).pushrodGainM).toBeCloseTo(0, 12);
    expect(pushrodGainM / pivotRiseM).toBeCloseTo(1 + 26 / 42, 12);
  });

  it('refuses a lift beyond its swing', () => {
    expect(() => rockerSweep({ ...rocker, valveLiftM: 0.06 })).toThrow(/valve lift/);
    expect(() => rockerSweep({ ...rocker, seatAngleDeg: Number.NaN })).toThrow(/rocker angle/);
  });

  it('pushrod is zero-lash length and preload, or less lash over ratio; sold in steps', () => {
    expect(pushrodLengthM(inch(7.41), { preloadM: inch(0.03) })).toBeCloseTo(inch(7.44), 12);
    const solid = pushrodLengthM(inch(7.41), { lashM: inch(0.024), rockerRatio: 1.6 });
    expect(solid).toBeCloseTo(inch(7.395), 12);
    const sold = nearestPushrod(inch(7.44));
    expect(outside(sold.lengthM, 'in')).toBeCloseTo(7.45, 9);
    expect(outside(sold.offM, 'in')).toBeCloseTo(0.01, 9);
  });
});
