import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, fromInside, toInside } from '../../units/index.ts';
import {
  type CrankSlider,
  compressionRatio,
  crankingPressureEstimate,
  deckClearanceM,
  dynamicCompression,
  peakPistonAccelerations,
  peakPistonSpeeds,
  pinHeightAtTopM,
  pinInertiaForceN,
  pistonMotion,
  pistonPositionM,
  pistonSpeedTable,
  pistonTravelM,
  quenchM,
  rodBoltTension,
  rodStretchM,
  sweptVolumeM3,
} from './index.ts';

/** Evenly over a range: a plain fc.double favours zero and the ends, where little is shown. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => min + ((max - min) * part) / 1_000_000);

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);
const outside = (value: number, unit: string) => fromInside(value, findUnit(unit)!);
const inch = (value: number) => inside(value, 'in');

/** 3.48 in stroke, 5.7 in rod. */
const SLIDER: CrankSlider = { strokeM: inch(3.48), rodLengthM: inch(5.7) };

/**
 * The piston pin by drawing: the crankpin on its circle, then the upper point of the vertical line x = −e at the rod's
 * length from it, found by halving; nothing of the code's formula.
 */
function drawnPinHeightM(slider: CrankSlider, fromLineRad: number): number {
  const [r, l, e] = [slider.strokeM / 2, slider.rodLengthM, slider.pinOffsetM ?? 0];
  const [cx, cy] = [r * Math.sin(fromLineRad), r * Math.cos(fromLineRad)];
  let [low, high] = [cy, cy + 2 * l];
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (Math.hypot(-e - cx, middle - cy) < l) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const sliders = fc
  .record({
    strokeM: between(0.04, 0.14),
    ratio: between(1.2, 2.5),
    offset: between(-0.05, 0.05),
  })
  .map(({ strokeM, ratio, offset }) => ({
    strokeM,
    rodLengthM: strokeM * ratio,
    pinOffsetM: offset * strokeM,
  }));

describe('piston position', () => {
  // By hand from x = r + l − r cos θ − √(l² − r² sin²θ).
  it.each([
    [30, 7.618],
    [60, 27.249],
    [90, 51.107],
  ])('3.48/5.7 in at %d°: %d mm', (deg, mm) => {
    expect(pistonPositionM(SLIDER, deg) * 1000).toBeCloseTo(mm, 3);
    expect(pistonPositionM(SLIDER, -deg) * 1000).toBeCloseTo(mm, 3);
  });

  it('3.48/5.7 in at 70° ABDC has risen 0.9053 in (reference: "Static vs. dynamic compression ratio", empirenet.com/pkelley2, as quoted on steelcitymusclecars.com)', () => {
    const risen = SLIDER.strokeM - pistonPositionM(SLIDER, 180 + 70);
    expect(outside(risen, 'in')).toBeCloseTo(0.9053, 4);
  });

  it('agrees with the drawing by compass, from the drawn top (independent)', () => {
    fc.assert(
      fc.property(sliders, between(-360, 720), (slider, deg) => {
        // The drawn top: the highest point over fine steps, refined by halving the step.
        let top = 0;
        for (let step = 0.1; step > 1e-9; step /= 2)
          for (const way of [-1, 1])
            while (drawnPinHeightM(slider, top + way * step) > drawnPinHeightM(slider, top))
              top += way * step;
        const expected =
          drawnPinHeightM(slider, top) - drawnPinHeightM(slider, top + (deg * Math.PI) / 180);
        expect(Math.abs(pistonPositionM(slider, deg) - expected)).toBeLessThan(3e-8);
        expect(pinHeightAtTopM(slider)).toBeCloseTo(drawnPinHeightM(slider, top), 12);
      }),
      { seed: 570, numRuns: 60 },
    );
  });

  it('travels the stroke without an offset, a little more with one', () => {
    expect(pistonTravelM(SLIDER)).toBeCloseTo(SLIDER.strokeM, 14);
    const offset = { ...SLIDER, pinOffsetM: 1e-3 };
    // The roots' series in e: e²/2 (1/(l − r) − 1/(l + r)) + e⁴/8 (1/(l − r)³ − 1/(l + r)³).
    const [r, l] = [SLIDER.strokeM / 2, SLIDER.rodLengthM];
    const [short, long] = [1 / (l - r), 1 / (l + r)];
    const more = (1e-6 / 2) * (short - long) + (1e-12 / 8) * (short ** 3 - long ** 3);
    expect(pistonTravelM(offset) - SLIDER.strokeM).toBeCloseTo(more, 13);
  });
});

describe('piston speed and acceleration', () => {
  it('are the derivatives of the position, by central differences (independent)', () => {
    fc.assert(
      fc.property(sliders, between(0, 720), between(500, 12_000), (slider, deg, rpm) => {
        const degPerS = 6 * rpm;
        const at = (offset: number) => pistonPositionM(slider, deg + offset);
        const motion = pistonMotion(slider, deg, rpm);
        const peakV = slider.strokeM * rpm * 0.06;
        // Five-point formulae with steps that balance truncation against rounding.
        const h = 0.05;
        const v = ((8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h)) * degPerS;
        const k = 0.5;
        const a =
          ((16 * (at(k) + at(-k)) - (at(2 * k) + at(-2 * k)) - 30 * at(0)) / (12 * k * k)) *
          degPerS ** 2;
        expect(motion.positionM).toBeCloseTo(at(0), 14);
        expect(Math.abs(motion.velocityMPerS - v)).toBeLessThan(1e-7 * peakV);
        const scale = (slider.strokeM / 2) * ((rpm * Math.PI) / 30) ** 2;
        expect(Math.abs(motion.accelerationMPerS2 - a)).toBeLessThan(1e-5 * scale);
      }),
      { seed: 571, numRuns: 300 },
    );
  });

  it('3.48/5.7 in at 6500 rev/min: 26 728 and 14 226 m/s², 31.46 m/s at 74.3°, mean 19.15 (independent: by hand)', () => {
    const { towardsCrank, awayFromCrank } = peakPistonAccelerations(SLIDER, 6500);
    expect(towardsCrank.value).toBeCloseTo(26_728, -1);
    expect(towardsCrank.crankDeg).toBeCloseTo(0, 4);
    expect(-pistonMotion(SLIDER, 180, 6500).accelerationMPerS2).toBeCloseTo(14_226, -1);
    // l/r = 3.28 < 4: the harder pull the other way stands beside the bottom, not on it.
    expect(awayFromCrank.value).toBeGreaterThan(14_226);
    expect(Math.abs(awayFromCrank.crankDeg - 180)).toBeGreaterThan(20);
    const { down, up } = peakPistonSpeeds(SLIDER, 6500);
    expect(down.value).toBeCloseTo(31.46, 2);
    expect(down.crankDeg).toBeCloseTo(74.3, 1);
    expect(up.crankDeg).toBeCloseTo(360 - down.crankDeg, 9);
    expect(pistonSpeedTable(SLIDER, [6500])[0]!.meanMPerS).toBeCloseTo(19.15, 2);
  });

  it('3.307/6.024 in at 6000 rev/min: 1078 in/s where the acceleration is zero, 75.6° (reference: quartermile.ws, topic 7907)', () => {
    const slider = { strokeM: inch(3.307), rodLengthM: inch(6.024) };
    const { down } = peakPistonSpeeds(slider, 6000);
    expect(down.crankDeg).toBeCloseTo(75.6, 1);
    expect(outside(down.value, 'in')).toBeCloseTo(1078, 0);
    // The page counts from the crank's axis: 7.68 in at the top (r + l), 6.218 in at 0.0021 s.
    expect(outside(pinHeightAtTopM(slider), 'in')).toBeCloseTo(7.68, 2);
    const height = pinHeightAtTopM(slider) - pistonPositionM(slider, 0.002100653404 * 360 * 100);
    expect(outside(height, 'in')).toBeCloseTo(6.218, 2);
  });

  it('ω²r(1 + r/l) at the top and −ω²r(1 − r/l) at the bottom (identity)', () => {
    const [r, l, omega] = [SLIDER.strokeM / 2, SLIDER.rodLengthM, (6000 * 2 * Math.PI) / 60];
    expect(pistonMotion(SLIDER, 0, 6000).accelerationMPerS2).toBeCloseTo(
      omega ** 2 * r * (1 + r / l),
      8,
    );
    expect(pistonMotion(SLIDER, 180, 6000).accelerationMPerS2).toBeCloseTo(
      -(omega ** 2) * r * (1 - r / l),
      8,
    );
    expect(pistonMotion(SLIDER, 0, 6000).velocityMPerS).toBeCloseTo(0, 10);
  });

  it('peaks are not exceeded anywhere, with any offset (property)', () => {
    fc.assert(
      fc.property(sliders, (slider) => {
        const { down, up } = peakPistonSpeeds(slider, 6000);
        const { towardsCrank, awayFromCrank } = peakPistonAccelerations(slider, 6000);
        let [most, least, pull, push] = [0, 0, 0, 0];
        for (let deg = 0; deg < 360; deg += 0.25) {
          const { velocityMPerS, accelerationMPerS2 } = pistonMotion(slider, deg, 6000);
          most = Math.max(most, velocityMPerS);
          least = Math.min(least, velocityMPerS);
          pull = Math.max(pull, accelerationMPerS2);
          push = Math.min(push, accelerationMPerS2);
        }
        for (const [peak, seen] of [
          [down.value, most],
          [up.value, -least],
          [towardsCrank.value, pull],
          [awayFromCrank.value, -push],
        ] as const) {
          expect(peak).toBeGreaterThanOrEqual(seen * (1 - 1e-12));
          expect(peak).toBeLessThan(seen * 1.0001);
        }
      }),
      { seed: 572, numRuns: 60 },
    );
  });

  it('finds the peaks of a slider far off its line, whose bottom is not near 180°', () => {
    const far = { strokeM: 0.1, rodLengthM: 0.1, pinOffsetM: 0.035 };
    const seen = Array.from({ length: 3600 }, (_, k) => pistonMotion(far, k / 10, 6000));
    const speeds = seen.map(({ velocityMPerS }) => velocityMPerS);
    const { down, up } = peakPistonSpeeds(far, 6000);
    expect(down.value / Math.max(...speeds)).toBeCloseTo(1, 5);
    expect(up.value / -Math.min(...speeds)).toBeCloseTo(1, 5);
    // The bottom by drawing: crank and rod on each other, the crankpin on the far side.
    const lowest =
      seen.reduce((best, { positionM }, k) => (positionM > seen[best]!.positionM ? k : best), 0) /
      10;
    expect(lowest).toBeGreaterThan(down.crankDeg);
    expect(lowest).toBeLessThan(up.crankDeg);
    expect(Math.abs(lowest - 180)).toBeGreaterThan(15);
  });

  it('the table is the peaks at each speed (identity)', () => {
    const offset = { ...SLIDER, pinOffsetM: 1.5e-3 };
    for (const row of pistonSpeedTable(offset, [0, 3000, 7000])) {
      const { down, up } = peakPistonSpeeds(offset, row.speedRpm);
      expect(row.peakMPerS).toBeCloseTo(Math.max(down.value, up.value), 9);
      const { towardsCrank, awayFromCrank } = peakPistonAccelerations(offset, row.speedRpm);
      expect(row.towardsCrankMPerS2).toBeCloseTo(towardsCrank.value, 5);
      expect(row.awayFromCrankMPerS2).toBeCloseTo(awayFromCrank.value, 5);
    }
  });

  it('refuses a rod that cannot turn, and what is not a number', () => {
    const short = { strokeM: 0.1, rodLengthM: 0.05 };
    expect(() => pistonPositionM(short, 10)).toThrow(NonPhysicalError);
    expect(() => pistonPositionM(short, 10)).toThrow(/rod length/);
    expect(() => pistonPositionM({ ...SLIDER, pinOffsetM: 0.2 }, 10)).toThrow(/rod length/);
    expect(() => pistonPositionM(SLIDER, Number.NaN)).toThrow(/crank angle/);
    expect(() => pistonMotion(SLIDER, 0, -1)).toThrow(/speed/);
    expect(() => pistonTravelM({ strokeM: Number.NaN, rodLengthM: 0.1 })).toThrow(/stroke/);
  });
});

describe('inertia', () => {
  it('0.75 kg at 6500 rev/min pulls 20.0 kN, 4507 lbf, on the rod (independent: by hand)', () => {
    const pull = rodBoltTension({
      slider: SLIDER,
      reciprocatingKg: 0.6,
      rodAbovePartingKg: 0.15,
      bolts: 2,
      speedRpm: 6500,
    });
    expect(pull.rodN).toBeCloseTo(20_046, -1);
    expect(pull.rodN / 4.4482216152605).toBeCloseTo(4507, -1);
    expect(pull.perBoltN).toBeCloseTo(pull.rodN / 2, 9);
    expect(pull.perBoltWithBendingN).toBeCloseTo(0.65 * pull.rodN, 6);
  });

  it('pulls the rod at the top and presses it at the bottom', () => {
    expect(pinInertiaForceN(SLIDER, 0.6, 0, 6500)).toBeCloseTo(0.6 * 26_728, -1);
    expect(pinInertiaForceN(SLIDER, 0.6, 180, 6500)).toBeCloseTo(-0.6 * 14_226, -1);
    expect(() => pinInertiaForceN(SLIDER, -1, 0, 6500)).toThrow(/mass/);
  });
});

describe('deck and quench', () => {
  it('9.025 in block, 3.48 in stroke, 5.7 in rod, 1.560 in piston: 0.025 in below (reference: calculator.city, table of its compression height page)', () => {
    const deckM = deckClearanceM({
      ...SLIDER,
      blockHeightM: inch(9.025),
      compressionHeightM: inch(1.56),
    });
    expect(outside(deckM, 'in')).toBeCloseTo(0.025, 9);
    expect(outside(quenchM(deckM, inch(0.015)), 'in')).toBeCloseTo(0.04, 9);
  });

  it('a 6.25 in block, 3 in stroke, 4 in rod, 0.5 in piston: 0.25 in (reference: calculator.academy, deck height)', () => {
    const stack = { strokeM: inch(3), rodLengthM: inch(4) };
    expect(
      outside(
        deckClearanceM({ ...stack, blockHeightM: inch(6.25), compressionHeightM: inch(0.5) }),
        'in',
      ),
    ).toBeCloseTo(0.25, 9);
  });

  it('counts a piston out of the hole off the gasket', () => {
    expect(quenchM(-2e-4, 1e-3)).toBeCloseTo(8e-4, 15);
    expect(quenchM(-2e-3, 1e-3)).toBeLessThan(0);
    expect(() => quenchM(0, -1e-3)).toThrow(/gasket/);
  });

  it('20 kN on 145 mm of 150 mm² steel stretch it 0.093 mm (independent: by hand, 207 GPa)', () => {
    const stretch = rodStretchM({
      tensionN: 20_000,
      rodLengthM: 0.145,
      beamAreaM2: 150e-6,
      youngModulusPa: 207e9,
    });
    expect(stretch * 1000).toBeCloseTo(0.0934, 4);
  });
});

describe('dynamic compression', () => {
  const cylinder = { ...SLIDER, boreM: inch(4.03), clearanceM3: 79.53e-6 };

  // By hand: effective stroke in inches and ratio for three closings.
  it.each([
    [60, 2.813, 8.39],
    [66, 2.674, 8.03],
    [72, 2.523, 7.63],
  ])('closing %d° ABDC: %d in left, %d:1', (closes, left, ratio) => {
    const dynamic = dynamicCompression({ ...cylinder, intakeClosesAbdcDeg: closes });
    expect(outside(dynamic.effectiveStrokeM, 'in')).toBeCloseTo(left, 3);
    expect(dynamic.ratio).toBeCloseTo(ratio, 2);
  });

  it('is the static ratio when the valve closes at the bottom, and falls as it closes later (property)', () => {
    expect(dynamicCompression({ ...cylinder, intakeClosesAbdcDeg: 0 }).ratio).toBeCloseTo(
      compressionRatio(sweptVolumeM3(cylinder.boreM, cylinder.strokeM), cylinder.clearanceM3),
      12,
    );
    fc.assert(
      fc.property(sliders, between(5, 150), between(0.1, 20), (slider, closes, later) => {
        const at = (intakeClosesAbdcDeg: number) =>
          dynamicCompression({ ...slider, boreM: 0.1, clearanceM3: 7e-5, intakeClosesAbdcDeg });
        expect(at(closes + later).ratio).toBeLessThan(at(closes).ratio);
      }),
      { seed: 573, numRuns: 100 },
    );
  });

  it('counts closing on the way up, which an offset tells from the way down (independent: by drawing)', () => {
    const offset = { ...cylinder, pinOffsetM: 2e-3 };
    const { effectiveStrokeM } = dynamicCompression({ ...offset, intakeClosesAbdcDeg: 66 });
    const [r, l] = [SLIDER.strokeM / 2, SLIDER.rodLengthM];
    // At the top the crankpin leans towards the far side of the offset: crank and rod in one line.
    const top = -Math.asin(2e-3 / (r + l));
    const drawn =
      drawnPinHeightM(offset, top) - drawnPinHeightM(offset, top + (246 * Math.PI) / 180);
    expect(effectiveStrokeM).toBeCloseTo(drawn, 12);
    const down =
      drawnPinHeightM(offset, top) - drawnPinHeightM(offset, top + (114 * Math.PI) / 180);
    expect(Math.abs(effectiveStrokeM - down)).toBeGreaterThan(1e-4);
  });

  it('a longer rod gives less at the same closing', () => {
    const long = dynamicCompression({
      ...cylinder,
      rodLengthM: inch(6.2),
      intakeClosesAbdcDeg: 66,
    });
    expect(long.ratio).not.toBeCloseTo(8.03, 2);
    // The longer rod dwells less at the bottom, so the piston has risen more by then.
    expect(long.ratio).toBeLessThan(8.03);
  });

  it('7.5:1 with n = 1.3 at 14.7 psi is 187.1 psi on the gauge (reference: en.wikipedia.org "Compression ratio", via altsci.com)', () => {
    const estimate = crankingPressureEstimate(7.5, inside(14.7, 'psi'));
    // 7.5^1.3 × 14.7 = 201.8 absolute.
    expect(outside(estimate.highGaugePa, 'psi')).toBeCloseTo(187.1, 1);
    expect(estimate.lowGaugePa).toBeLessThan(estimate.gaugePa);
    expect(estimate.gaugePa).toBeLessThan(estimate.highGaugePa);
  });

  it('refuses closings that are none, and air that is none', () => {
    expect(() => dynamicCompression({ ...cylinder, intakeClosesAbdcDeg: 181 })).toThrow(/closing/);
    expect(() => dynamicCompression({ ...cylinder, intakeClosesAbdcDeg: Number.NaN })).toThrow(
      NonPhysicalError,
    );
    expect(() => crankingPressureEstimate(0.9, 1e5)).toThrow(/ratio/);
    expect(() => crankingPressureEstimate(8, 0)).toThrow(/atmospheric/);
  });
});
