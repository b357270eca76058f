import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import {
  advancedCentrelines,
  camEvents,
  camFromEvents,
  centrelinesOfCard,
  installedCam,
  measuredCentreline,
  valveOverlapDeg,
} from './index.ts';

/** Evenly over a range: a plain fc.double favours zero and the ends, where little is shown. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => min + ((max - min) * part) / 1_000_000);

describe('events from the card', () => {
  it('112 plus four has its intake centreline at 108 (common practice, no source)', () => {
    const centrelines = centrelinesOfCard(112, 4);
    expect(centrelines).toEqual({ intakeCentrelineDeg: 108, exhaustCentrelineDeg: 116 });
    // 265/277 at 0.050 in on it, by hand.
    expect(camEvents({ intakeDurationDeg: 265, exhaustDurationDeg: 277, ...centrelines })).toEqual({
      intakeOpensBtdcDeg: 24.5,
      intakeClosesAbdcDeg: 60.5,
      exhaustOpensBbdcDeg: 74.5,
      exhaustClosesAtdcDeg: 22.5,
    });
  });

  it('280/280 on 108 plus four: 36, 64, 72, 28, overlap 64 (independent: by hand)', () => {
    const events = camEvents({
      intakeDurationDeg: 280,
      exhaustDurationDeg: 280,
      ...centrelinesOfCard(108, 4),
    });
    expect(events).toEqual({
      intakeOpensBtdcDeg: 36,
      intakeClosesAbdcDeg: 64,
      exhaustOpensBbdcDeg: 72,
      exhaustClosesAtdcDeg: 28,
    });
    expect(valveOverlapDeg(events)).toBe(64);
  });

  it('31/63/77/29 is 274/286 on 106 and 114 (reference: onallcylinders.com, 26 July 2023)', () => {
    const cam = camFromEvents({
      intakeOpensBtdcDeg: 31,
      intakeClosesAbdcDeg: 63,
      exhaustOpensBbdcDeg: 77,
      exhaustClosesAtdcDeg: 29,
    });
    expect(cam).toMatchObject({
      intakeDurationDeg: 274,
      exhaustDurationDeg: 286,
      intakeCentrelineDeg: 106,
      exhaustCentrelineDeg: 114,
      lobeSeparationDeg: 110,
      advanceDeg: 4,
      overlapDeg: 60,
    });
  });

  it('20-60, 60-20 advanced by 5 is 25-55, 65-15, retarded 15-65, 55-25 (reference: ausmini.com, "Valve timing diagrams")', () => {
    const cam = camFromEvents({
      intakeOpensBtdcDeg: 20,
      intakeClosesAbdcDeg: 60,
      exhaustOpensBbdcDeg: 60,
      exhaustClosesAtdcDeg: 20,
    });
    expect(cam.intakeDurationDeg).toBe(260);
    const moved = (byDeg: number) => camEvents({ ...cam, ...advancedCentrelines(cam, byDeg) });
    expect(moved(5)).toEqual({
      intakeOpensBtdcDeg: 25,
      intakeClosesAbdcDeg: 55,
      exhaustOpensBbdcDeg: 65,
      exhaustClosesAtdcDeg: 15,
    });
    expect(moved(-5)).toEqual({
      intakeOpensBtdcDeg: 15,
      intakeClosesAbdcDeg: 65,
      exhaustOpensBbdcDeg: 55,
      exhaustClosesAtdcDeg: 25,
    });
  });

  const cams = fc.record({
    intakeDurationDeg: between(150, 350),
    exhaustDurationDeg: between(150, 350),
    separation: between(95, 125),
    advance: between(-10, 10),
  });

  it('are consistent with the durations, and come back as the card (property)', () => {
    fc.assert(
      fc.property(cams, ({ separation, advance, ...durations }) => {
        const events = camEvents({ ...durations, ...centrelinesOfCard(separation, advance) });
        expect(events.intakeOpensBtdcDeg + 180 + events.intakeClosesAbdcDeg).toBeCloseTo(
          durations.intakeDurationDeg,
          9,
        );
        expect(events.exhaustOpensBbdcDeg + 180 + events.exhaustClosesAtdcDeg).toBeCloseTo(
          durations.exhaustDurationDeg,
          9,
        );
        const { intakeDurationDeg, exhaustDurationDeg } = durations;
        expect(valveOverlapDeg(events)).toBeCloseTo(
          (intakeDurationDeg + exhaustDurationDeg) / 2 - 2 * separation,
          9,
        );
        const back = camFromEvents(events);
        expect(back.lobeSeparationDeg).toBeCloseTo(separation, 9);
        expect(back.advanceDeg).toBeCloseTo(advance, 9);
      }),
      { seed: 265, numRuns: 300 },
    );
  });

  it('refuses cams that are none, by name', () => {
    const good = { intakeDurationDeg: 265, exhaustDurationDeg: 277, ...centrelinesOfCard(112, 4) };
    expect(() => camEvents({ ...good, intakeDurationDeg: 0 })).toThrow(/intake duration/);
    expect(() => camEvents({ ...good, exhaustDurationDeg: Number.NaN })).toThrow(NonPhysicalError);
    expect(() => camEvents({ ...good, intakeCentrelineDeg: 500 })).toThrow(/intake centreline/);
    expect(() => centrelinesOfCard(112, Number.NaN)).toThrow(/advance/);
    expect(() =>
      camFromEvents({
        intakeOpensBtdcDeg: -200,
        intakeClosesAbdcDeg: 10,
        exhaustOpensBbdcDeg: 60,
        exhaustClosesAtdcDeg: 20,
      }),
    ).toThrow(/intake duration/);
  });
});

describe('the degree wheel', () => {
  it('60 and 145.5° have their middle at 102.75 (reference: blog.decatech.com, degree wheel)', () => {
    const { centrelineDeg, spreadDeg } = measuredCentreline('intake', [
      { risingAtdcDeg: 60, fallingAtdcDeg: 145.5 },
    ]);
    expect(centrelineDeg).toBe(102.75);
    expect(spreadDeg).toBe(0);
  });

  it('an exhaust lobe reads before the top', () => {
    const { centrelineDeg, middlesDeg } = measuredCentreline('exhaust', [
      { risingAtdcDeg: -158, fallingAtdcDeg: -74 },
      { risingAtdcDeg: -159, fallingAtdcDeg: -74 },
    ]);
    expect(middlesDeg).toEqual([116, 116.5]);
    expect(centrelineDeg).toBe(116.25);
  });

  it('one pair: ½(0.5²)·… = 0.354° of reading and 0.25° of zero make 0.433° (independent: by hand)', () => {
    const { standardDeg, halfWidth95Deg } = measuredCentreline('intake', [
      { risingAtdcDeg: 60, fallingAtdcDeg: 150 },
    ]);
    expect(standardDeg).toBeCloseTo(Math.sqrt(0.125 + 0.0625), 12);
    // Effective freedom 8 (0.1875/0.125)² = 18; t(0.975, 18) = 2.101 of the printed tables.
    expect(halfWidth95Deg).toBeCloseTo(2.101 * Math.sqrt(0.1875), 3);
  });

  it('holds the true centreline in about 95 of 100 degreed cams (independent: simulated wheel)', () => {
    // A small generator of its own, seeded: sums of twelve uniforms are near enough normal.
    let state = 12345;
    const uniform = () => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647;
    };
    const normal = () => Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, 0) - 6;
    for (const count of [1, 3, 6]) {
      let held = 0;
      const runs = 2000;
      for (let run = 0; run < runs; run++) {
        const zero = 0.25 * normal();
        const readings = Array.from({ length: count }, (_, k) => ({
          risingAtdcDeg: 108 - 45 - k + zero + 0.5 * normal(),
          fallingAtdcDeg: 108 + 45 + k + zero + 0.5 * normal(),
        }));
        const { centrelineDeg, halfWidth95Deg } = measuredCentreline('intake', readings);
        if (Math.abs(centrelineDeg - 108) <= halfWidth95Deg) held += 1;
      }
      expect(held / runs).toBeGreaterThan(0.94);
      expect(held / runs).toBeLessThan(0.98);
    }
  });

  it('readings that disagree more than assumed widen the answer', () => {
    const at = (spread: number) =>
      measuredCentreline('intake', [
        { risingAtdcDeg: 60 - spread, fallingAtdcDeg: 150 - spread },
        { risingAtdcDeg: 60 + spread, fallingAtdcDeg: 150 + spread },
      ]).halfWidth95Deg;
    expect(at(3)).toBeGreaterThan(2 * at(0));
  });

  it('says advanced, retarded or as the card', () => {
    const stands = (lobe: 'intake' | 'exhaust', centrelineDeg: number, card: number) =>
      installedCam(lobe, { centrelineDeg, halfWidth95Deg: 0.9 }, card);
    expect(stands('intake', 104, 108)).toMatchObject({ advancedDeg: 4, stands: 'advanced' });
    expect(stands('intake', 110, 108)).toMatchObject({ advancedDeg: -2, stands: 'retarded' });
    expect(stands('intake', 108.5, 108)).toMatchObject({ advancedDeg: -0.5, stands: 'as card' });
    expect(stands('exhaust', 120, 116)).toMatchObject({ advancedDeg: 4, stands: 'advanced' });
    expect(stands('intake', 108, 108).advancedDeg).toBe(0);
  });

  it('refuses readings that are none', () => {
    expect(() => measuredCentreline('intake', [])).toThrow(/readings/);
    expect(() =>
      measuredCentreline('intake', [{ risingAtdcDeg: 150, fallingAtdcDeg: 60 }]),
    ).toThrow(/falling reading/);
    expect(() =>
      measuredCentreline('intake', [{ risingAtdcDeg: Number.NaN, fallingAtdcDeg: 60 }]),
    ).toThrow(NonPhysicalError);
  });
});
