import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, toInside } from '../../units/index.ts';
import {
  anglesAtLift,
  camEvents,
  camFromEvents,
  centrelinesOfCard,
  durationAtLiftDeg,
  followerMotion,
  type LiftCurve,
  type LobeCard,
  liftCurveOfCard,
  liftCurveOfSides,
  lobeBendMPerDeg2,
  lobeLiftM,
  lobeSlopeMPerDeg,
  maxValveLiftM,
  valveAnglesAtLift,
  valveEvents,
  valveLiftM,
  valveTimeArea,
} from './index.ts';

/** Evenly over a range: a plain fc.double favours zero and the ends, where little is shown. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => min + ((max - min) * part) / 1_000_000);

const inch = (value: number) => toInside(value, findUnit('in')!);

/** Durations by rising lift, thousandths of an inch. */
const cardOf = (lobeLift: number, durations: readonly (readonly [number, number])[]): LobeCard => ({
  lobeLiftM: inch(lobeLift / 1000),
  durations: durations.map(([lift, durationDeg]) => ({ liftM: inch(lift / 1000), durationDeg })),
});

const FULL = cardOf(350, [
  [6, 280],
  [20, 255],
  [50, 230],
  [100, 196],
  [200, 148],
  [300, 92],
]);
const ONLY_50 = cardOf(350, [[50, 230]]);

/** Cards as shops have them: a lobe of a cycloid's shape, made a little wider or fuller at random. */
const cards = fc
  .record({
    lobeLiftM: between(5e-3, 13e-3),
    halfDeg: between(100, 180),
    lifts: fc.uniqueArray(fc.integer({ min: 10, max: 900 }), { minLength: 1, maxLength: 7 }),
    jitter: fc.array(between(-1, 1), { minLength: 7, maxLength: 7 }),
  })
  .map(({ lobeLiftM: lobe, halfDeg, lifts, jitter }) => {
    const sorted = [...lifts].sort((a, b) => b - a);
    let last = 0;
    const durations = sorted.map((share, k) => {
      const half = halfDeg * (1 - cycloidPlace(share / 1000)) + jitter[k]!;
      last = Math.max(half, last + 0.5);
      return { liftM: (lobe * share) / 1000, durationDeg: 2 * last };
    });
    return { lobeLiftM: lobe, durations } satisfies LobeCard;
  });

/** Place on a cycloidal rise, 0 to 1, where its lift is a share of the whole: u − sin(2πu)/2π, by halving. */
function cycloidPlace(share: number): number {
  let [low, high] = [0, 1];
  for (let k = 0; k < 60; k++) {
    const u = (low + high) / 2;
    if (u - Math.sin(2 * Math.PI * u) / (2 * Math.PI) < share) low = u;
    else high = u;
  }
  return low;
}

const sweep = (lift: LiftCurve, step: number) => {
  const places: number[] = [];
  for (let deg = lift.beginsDeg - 5; deg <= lift.endsDeg + 5; deg += step) places.push(deg);
  return places;
};

describe('the lift curve from card points', () => {
  it('goes exactly through every point of the card (property)', () => {
    fc.assert(
      fc.property(cards, (card) => {
        const lift = liftCurveOfCard(card);
        for (const { liftM, durationDeg } of card.durations) {
          expect(Math.abs(lobeLiftM(lift, durationDeg / 2) - liftM)).toBeLessThan(1e-12);
          expect(Math.abs(lobeLiftM(lift, -durationDeg / 2) - liftM)).toBeLessThan(1e-12);
          expect(durationAtLiftDeg(lift, liftM)).toBeCloseTo(durationDeg, 7);
        }
        expect(lobeLiftM(lift, 0)).toBeCloseTo(card.lobeLiftM, 14);
      }),
      { seed: 50, numRuns: 200 },
    );
  });

  it('rises to the nose and falls from it, nowhere else (property)', () => {
    fc.assert(
      fc.property(cards, (card) => {
        const lift = liftCurveOfCard(card);
        const places = sweep(lift, 0.5);
        const values = places.map((deg) => lobeLiftM(lift, deg));
        const wrong = values.slice(1).filter((value, k) => {
          const rise = value - values[k]!;
          return places[k + 1]! <= 0 ? rise < -1e-13 : places[k]! >= 0 && rise > 1e-13;
        });
        expect(wrong).toEqual([]);
        expect(Math.min(...values)).toBe(0);
      }),
      { seed: 51, numRuns: 150 },
    );
  });

  it('has the slope and bend that differences of its lift show, across every point (independent)', () => {
    for (const card of [FULL, ONLY_50]) {
      const lift = liftCurveOfCard(card);
      const h = 0.02;
      for (const deg of sweep(lift, 0.37)) {
        const [a, b, c] = [deg - h, deg, deg + h].map((at) => lobeLiftM(lift, at));
        expect(Math.abs((c! - a!) / (2 * h) - lobeSlopeMPerDeg(lift, deg))).toBeLessThan(3e-9);
        expect(Math.abs((c! - 2 * b! + a!) / h ** 2 - lobeBendMPerDeg2(lift, deg))).toBeLessThan(
          6e-9,
        );
      }
    }
  });

  it('has one hump of negative acceleration over the nose, positive on both flanks', () => {
    for (const card of [FULL, ONLY_50]) {
      const lift = liftCurveOfCard(card);
      expect(lift.curve.limited).toBe(false);
      const signs = sweep(lift, 0.5)
        .map((deg) => Math.sign(lobeBendMPerDeg2(lift, deg)))
        .filter((sign) => sign !== 0);
      const turns = signs.filter((sign, k) => k > 0 && sign !== signs[k - 1]);
      expect(turns).toHaveLength(2);
      expect(signs[0]).toBe(1);
      expect(signs.at(-1)).toBe(1);
    }
  });

  it('with only 0.050 in known the flank is a guess, said to be one, and a plausible one', () => {
    const lift = liftCurveOfCard(ONLY_50);
    expect(lift.estimated).toBe('flank');
    // From memory: 0.006 in durations run 40 to 60° longer than those at 0.050 in.
    const seat = durationAtLiftDeg(lift, inch(0.006));
    expect(seat).toBeGreaterThan(230 + 43);
    expect(seat).toBeLessThan(230 + 53);
    // A flat tappet of 0.842 in limits the slope to half its width per radian of cam: 0.0935 mm per crank degree.
    const steepest = Math.max(...sweep(lift, 0.5).map((deg) => lobeSlopeMPerDeg(lift, deg)));
    expect(steepest * 1000).toBeGreaterThan(0.07);
    expect(steepest * 1000).toBeLessThan(0.1);
  });

  it('runs the ramp on from the two lowest points, or ends it where the card does', () => {
    expect(liftCurveOfCard(FULL).estimated).toBe('ramp');
    const closed = cardOf(350, [
      [0, 330],
      [6, 280],
      [50, 230],
    ]);
    const lift = liftCurveOfCard(closed);
    expect(lift.estimated).toBe('nothing');
    expect([lift.beginsDeg, lift.endsDeg]).toEqual([-165, 165]);
  });

  it('a ramp of third power is run on to its true end (identity)', () => {
    const end = 160;
    const at = (fromMaxDeg: number) => 2.4e-9 * (end - fromMaxDeg) ** 3;
    const card: LobeCard = {
      lobeLiftM: 8.9e-3,
      durations: [125, 145].map((deg) => ({ liftM: at(deg), durationDeg: 2 * deg })),
    };
    expect(liftCurveOfCard(card).endsDeg).toBeCloseTo(end, 9);
  });

  // Motions of cam handbooks, from memory: shares of the lift against shares of the rise.
  it.each([
    ['harmonic', (u: number) => (1 - Math.cos(Math.PI * u)) / 2],
    ['cycloidal', (u: number) => u - Math.sin(2 * Math.PI * u) / (2 * Math.PI)],
    ['3-4-5 polynomial', (u: number) => 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5],
  ])('is as near a lobe of %s motion as its docstring says (independent)', (_, motion) => {
    const [L, half] = [8.89e-3, 150];
    const placeOf = (share: number) => {
      let [low, high] = [0, 1];
      for (let k = 0; k < 60; k++) {
        const u = (low + high) / 2;
        if (motion(u) < share) low = u;
        else high = u;
      }
      return low;
    };
    const worst = (thousandths: readonly number[]) => {
      const lift = liftCurveOfCard({
        lobeLiftM: L,
        durations: thousandths.map((lifted) => ({
          liftM: inch(lifted / 1000),
          durationDeg: 2 * half * (1 - placeOf(inch(lifted / 1000) / L)),
        })),
      });
      const errors = sweep(lift, 0.5).map((deg) =>
        Math.abs(lobeLiftM(lift, deg) - L * motion(Math.max(0, 1 - Math.abs(deg) / half))),
      );
      return Math.max(...errors) / L;
    };
    expect(worst([6, 20, 50, 100, 200, 300])).toBeLessThan(0.01);
    expect(worst([6, 50, 200])).toBeLessThan(0.03);
    expect(worst([50])).toBeLessThan(0.1);
  });

  it('takes sides that differ, with one acceleration at the nose', () => {
    const lift = liftCurveOfSides({
      lobeLiftM: 9e-3,
      opening: [
        { liftM: 1.27e-3, beforeMaxDeg: 112 },
        { liftM: 5e-3, beforeMaxDeg: 74 },
        { liftM: 0.15e-3, beforeMaxDeg: 136 },
      ],
      closing: [
        { liftM: 5e-3, afterMaxDeg: 77 },
        { liftM: 1.27e-3, afterMaxDeg: 118 },
        { liftM: 0.15e-3, afterMaxDeg: 149 },
      ],
    });
    expect(anglesAtLift(lift, 1.27e-3).risingDeg).toBeCloseTo(-112, 7);
    expect(anglesAtLift(lift, 1.27e-3).fallingDeg).toBeCloseTo(118, 7);
    expect(lobeSlopeMPerDeg(lift, 0)).toBeCloseTo(0, 15);
    const near = 1e-6;
    expect(lobeBendMPerDeg2(lift, -near)).toBeCloseTo(lobeBendMPerDeg2(lift, near), 10);
  });

  it('moves the follower at speed: m/deg × 6 n, m/deg² × (6 n)² (identity)', () => {
    const lift = liftCurveOfCard(FULL);
    const motion = followerMotion(lift, -60, 6000);
    expect(motion.velocityMPerS).toBeCloseTo(lobeSlopeMPerDeg(lift, -60) * 36_000, 10);
    expect(motion.accelerationMPerS2).toBeCloseTo(lobeBendMPerDeg2(lift, -60) * 36_000 ** 2, 6);
    expect(followerMotion(lift, 200, 6000)).toEqual({
      liftM: 0,
      velocityMPerS: 0,
      accelerationMPerS2: 0,
    });
  });

  it.each([
    [cardOf(350, []), /opening/],
    [cardOf(0, [[50, 230]]), /lobe lift/],
    [cardOf(50, [[50, 230]]), /lift on the opening side/],
    [cardOf(350, [[-1, 230]]), /lift/],
    [
      cardOf(350, [
        [50, 230],
        [50, 231],
      ]),
      /given twice/,
    ],
    [
      cardOf(350, [
        [50, 230],
        [100, 240],
      ]),
      /angle at/,
    ],
    [cardOf(350, [[50, Number.NaN]]), /duration/],
    [cardOf(Number.NaN, [[50, 230]]), /lobe lift/],
  ])('refuses card %# by name', (card, name) => {
    expect(() => liftCurveOfCard(card)).toThrow(NonPhysicalError);
    expect(() => liftCurveOfCard(card)).toThrow(name);
  });

  it('answers with numbers everywhere, whatever the card (property)', () => {
    fc.assert(
      fc.property(cards, between(-400, 400), (card, deg) => {
        const lift = liftCurveOfCard(card);
        const { liftM, velocityMPerS, accelerationMPerS2 } = followerMotion(lift, deg, 7000);
        expect([liftM, velocityMPerS, accelerationMPerS2].every(Number.isFinite)).toBe(true);
      }),
      { seed: 52, numRuns: 200 },
    );
    expect(() => lobeLiftM(liftCurveOfCard(FULL), Number.NaN)).toThrow(NonPhysicalError);
  });
});

describe('lift of the valve', () => {
  const lift = liftCurveOfCard(FULL);

  it('lobe 0.310 in × 1.6 is 0.496 in (reference: "Cam spec terms", scribd.com document 389151894)', () => {
    const lobe = liftCurveOfCard(cardOf(310, [[50, 220]]));
    expect(maxValveLiftM({ lift: lobe, rockerRatio: 1.6, lashM: 0 })).toBeCloseTo(inch(0.496), 12);
  });

  it('lash takes itself off the lift, opens later and closes earlier', () => {
    const tight = { lift, rockerRatio: 1.5, lashM: 0 };
    const loose = { ...tight, lashM: inch(0.02) };
    expect(maxValveLiftM(tight) - maxValveLiftM(loose)).toBeCloseTo(inch(0.02), 15);
    const [a, b] = [valveAnglesAtLift(tight), valveAnglesAtLift(loose)];
    expect(b.opensDeg).toBeGreaterThan(a.opensDeg);
    expect(b.closesDeg).toBeLessThan(a.closesDeg);
    // 0.020 in of lash at 1.5 is 0.01333 in at the lobe.
    expect(b.closesDeg - b.opensDeg).toBeCloseTo(durationAtLiftDeg(lift, inch(0.02) / 1.5), 9);
    expect(valveLiftM(loose, b.opensDeg - 1)).toBe(0);
    expect(valveLiftM(loose, b.opensDeg + 1)).toBeGreaterThan(0);
  });

  it('without lash, checked at ratio × 0.050 in, its events are those of the card (identity)', () => {
    const centrelines = centrelinesOfCard(112, 4);
    const valve = { lift, rockerRatio: 1.6, lashM: 0 };
    const events = valveEvents({ intake: valve, exhaust: valve }, centrelines, 1.6 * inch(0.05));
    const card = camEvents({ intakeDurationDeg: 230, exhaustDurationDeg: 230, ...centrelines });
    for (const key of Object.keys(card) as (keyof typeof card)[])
      expect(events[key]).toBeCloseTo(card[key], 6);
    expect(camFromEvents(events).lobeSeparationDeg).toBeCloseTo(112, 6);
  });

  it('time-area is the sum under the lift (independent: trapezia), the mean lift its share of the opening', () => {
    const valve = { lift, rockerRatio: 1.6, lashM: inch(0.016) };
    const { opensDeg, closesDeg } = valveAnglesAtLift(valve);
    const n = 20_000;
    const step = (closesDeg - opensDeg) / n;
    let sum = 0;
    for (let k = 1; k < n; k++) sum += valveLiftM(valve, opensDeg + k * step) * step;
    const area = valveTimeArea(valve, 6000);
    expect(area.areaMDeg / sum).toBeCloseTo(1, 6);
    expect(area.openDeg).toBeCloseTo(closesDeg - opensDeg, 9);
    expect(area.meanLiftM).toBeCloseTo(area.areaMDeg / area.openDeg, 15);
    expect(area.areaMS).toBeCloseTo(area.areaMDeg / 36_000, 15);
    expect(area.meanLiftM / maxValveLiftM(valve)).toBeGreaterThan(0.45);
    expect(area.meanLiftM / maxValveLiftM(valve)).toBeLessThan(0.65);
  });

  it('refuses trains that cannot be', () => {
    expect(() => valveLiftM({ lift, rockerRatio: 0, lashM: 0 }, 0)).toThrow(/rocker ratio/);
    expect(() => valveLiftM({ lift, rockerRatio: 1.5, lashM: -1e-4 }, 0)).toThrow(/lash/);
    expect(() => maxValveLiftM({ lift, rockerRatio: 1.5, lashM: 0.02 })).toThrow(/lash/);
    const valve = { lift, rockerRatio: 1.5, lashM: 0 };
    expect(() => valveAnglesAtLift(valve, 0.02)).toThrow(/checking lift/);
    expect(() => valveTimeArea(valve, 0)).toThrow(/speed/);
    expect(() => anglesAtLift(lift, 0.02)).toThrow(/lift of the follower/);
  });
});
