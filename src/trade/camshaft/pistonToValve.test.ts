import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, toInside } from '../../units/index.ts';
import type { CrankSlider } from '../geometry/index.ts';
import {
  type Centrelines,
  centrelinesOfCard,
  closedValveClearanceM,
  liftCurveOfCard,
  lobeLiftM,
  pistonToValve,
  pistonToValveByAdvance,
  type ValveAndPocket,
  valveClearanceAtM,
  valveLiftM,
} from './index.ts';

/** Evenly over a range: a plain fc.double favours zero and the ends, where little is shown. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => min + ((max - min) * part) / 1_000_000);

const inch = (value: number) => toInside(value, findUnit('in')!);

interface Point {
  readonly y: number;
  readonly z: number;
}

/** A point turned about another, anticlockwise. */
function turned({ y, z }: Point, about: Point, angle: number): Point {
  const [dy, dz] = [y - about.y, z - about.z];
  return {
    y: about.y + dy * Math.cos(angle) - dz * Math.sin(angle),
    z: about.z + dy * Math.sin(angle) + dz * Math.cos(angle),
  };
}

/** Piston pin's height drawn by compass: the crankpin on its circle, the rod's other end on the line y = −offset. */
function pinHeight({ strokeM, rodLengthM, pinOffsetM = 0 }: CrankSlider, fromLine: number): number {
  const crankpin = turned({ y: 0, z: strokeM / 2 }, { y: 0, z: 0 }, -fromLine);
  return crankpin.z + Math.sqrt(rodLengthM ** 2 - (crankpin.y + pinOffsetM) ** 2);
}

/** How far the piston stands below its highest point, the wheel zeroed at that point. */
function dropOf(slider: CrankSlider): (crankDeg: number) => number {
  let top = 0;
  for (let step = 0.05; step > 1e-9; step /= 2)
    for (const way of [-1, 1])
      while (pinHeight(slider, top + way * step) > pinHeight(slider, top)) top += way * step;
  return (crankDeg) => pinHeight(slider, top) - pinHeight(slider, top + (crankDeg * Math.PI) / 180);
}

/**
 * The shapes themselves, with the block's deck at z = 0: the closed valve's face as points of a level line turned into
 * place, the floor as two points turned by its own angle.
 */
function shapesOf(valve: ValveAndPocket) {
  if ('measuredM' in valve.gap) throw new Error('shapes are drawn from parts');
  const { deckM, gasketThicknessM, valveRecessM } = valve.gap;
  const angle = (valve.valveAngleDeg * Math.PI) / 180;
  const floorDeg = valve.floorAngleDeg ?? (valve.pocketDepthM > 0 ? valve.valveAngleDeg : 0);
  const lowEdge: Point = { y: 0, z: gasketThicknessM + valveRecessM };
  const face = Array.from({ length: 41 }, (_, k) =>
    turned({ y: (valve.headDiameterM * k) / 40, z: lowEdge.z }, lowEdge, angle),
  );
  const straightDown: Point = { y: 0, z: -1 };
  const opening = turned(straightDown, { y: 0, z: 0 }, angle);
  // From the low edge along the valve's axis down to the crown, then on by the pocket's depth.
  const toCrown = (lowEdge.z + deckM) / -opening.z;
  const along = toCrown + valve.pocketDepthM;
  const under: Point = { y: lowEdge.y + opening.y * along, z: lowEdge.z + opening.z * along };
  const ends = [-1, 1].map((side) =>
    turned({ y: under.y + side, z: under.z }, under, (floorDeg * Math.PI) / 180),
  );
  return { face, opening, floor: ends as [Point, Point] };
}

/** Height of a point over the line from a to b, square to it; negative below. */
function above(point: Point, [a, b]: readonly [Point, Point]): number {
  const [ly, lz] = [b.y - a.y, b.z - a.z];
  return (ly * (point.z - a.z) - lz * (point.y - a.y)) / Math.hypot(ly, lz);
}

/** How much farther the valve could open before a point of its face is under the floor: by halving. */
function travelLeft(
  face: readonly Point[],
  opening: Point,
  floor: readonly [Point, Point],
): number {
  let [low, high] = [-0.2, 0.3];
  const clear = (travel: number) =>
    face.every(
      ({ y, z }) => above({ y: y + opening.y * travel, z: z + opening.z * travel }, floor) > 0,
    );
  for (let k = 0; k < 45; k++) {
    const middle = (low + high) / 2;
    if (clear(middle)) low = middle;
    else high = middle;
  }
  return low;
}

const lobes = fc
  .record({
    lobe: between(6e-3, 11e-3),
    at50: between(190, 280),
  })
  .map(({ lobe, at50 }) =>
    liftCurveOfCard({ lobeLiftM: lobe, durations: [{ liftM: 1.27e-3, durationDeg: at50 }] }),
  );

const cases = fc.record({
  lift: lobes,
  rockerRatio: between(1, 1.9),
  lashM: between(0, 0.7e-3),
  strokeM: between(0.045, 0.12),
  rods: between(1.4, 2.2),
  offsetM: between(-1.5e-3, 1.5e-3),
  valveAngleDeg: between(0, 35),
  floorAngleDeg: fc.option(between(0, 40), { nil: undefined }),
  headDiameterM: between(0.025, 0.055),
  deckM: between(-0.5e-3, 1e-3),
  gasketM: between(0.4e-3, 1.8e-3),
  recessM: between(-1e-3, 9e-3),
  pocketDepthM: fc.oneof(fc.constant(0), between(0.5e-3, 8e-3)),
  separationDeg: between(98, 118),
  advanceDeg: between(-8, 8),
  lobe: fc.constantFrom('intake' as const, 'exhaust' as const),
});

function caseOf(c: typeof cases extends fc.Arbitrary<infer T> ? T : never) {
  const slider: CrankSlider = {
    strokeM: c.strokeM,
    rodLengthM: c.strokeM * c.rods,
    pinOffsetM: c.offsetM,
  };
  const valve: ValveAndPocket = {
    motion: { lift: c.lift, rockerRatio: c.rockerRatio, lashM: c.lashM },
    valveAngleDeg: c.valveAngleDeg,
    headDiameterM: c.headDiameterM,
    gap: { deckM: c.deckM, gasketThicknessM: c.gasketM, valveRecessM: c.recessM },
    pocketDepthM: c.pocketDepthM,
    ...(c.floorAngleDeg === undefined ? {} : { floorAngleDeg: c.floorAngleDeg }),
  };
  const centrelines: Centrelines = centrelinesOfCard(c.separationDeg, c.advanceDeg);
  // Intake lobe: after the top; exhaust lobe: before it.
  const centreDeg =
    c.lobe === 'intake' ? c.separationDeg - c.advanceDeg : -c.separationDeg - c.advanceDeg;
  return { slider, valve, centrelines, centreDeg };
}

describe('piston to valve', () => {
  it('is what shapes turned and moved by hand show, at any crank angle (independent)', () => {
    fc.assert(
      fc.property(cases, between(-180, 180), (c, crankDeg) => {
        const { slider, valve, centrelines, centreDeg } = caseOf(c);
        const { face, opening, floor } = shapesOf(valve);
        const drop = dropOf(slider)(crankDeg);
        const lift = Math.max(0, lobeLiftM(c.lift, crankDeg - centreDeg) * c.rockerRatio - c.lashM);
        const opened = face.map(({ y, z }) => ({
          y: y + opening.y * lift,
          z: z + opening.z * lift,
        }));
        const sunk = floor.map(({ y, z }) => ({ y, z: z - drop })) as [Point, Point];
        const expected = travelLeft(opened, opening, sunk);
        const clearance = valveClearanceAtM(slider, valve, c.lobe, centrelines, crankDeg);
        expect(Math.abs(clearance - expected)).toBeLessThan(1e-7);
      }),
      { seed: 80, numRuns: 300 },
    );
  });

  it('finds the tightest point that a search by quarter degrees over the whole turn finds (independent)', () => {
    let [met, cleared, deep] = [0, 0, 0];
    fc.assert(
      fc.property(cases, (c) => {
        const { slider, valve, centrelines, centreDeg } = caseOf(c);
        const { face, opening, floor } = shapesOf(valve);
        const drop = dropOf(slider);
        let [normal, leastDeg] = [Number.POSITIVE_INFINITY, 0];
        for (let crankDeg = -180; crankDeg <= 180; crankDeg += 0.25) {
          const lift = Math.max(
            0,
            lobeLiftM(c.lift, crankDeg - centreDeg) * c.rockerRatio - c.lashM,
          );
          const sunk = floor.map(({ y, z }) => ({ y, z: z - drop(crankDeg) })) as [Point, Point];
          const nearest = Math.min(
            ...[face[0]!, face.at(-1)!].map(({ y, z }) =>
              above({ y: y + opening.y * lift, z: z + opening.z * lift }, sunk),
            ),
          );
          // All points of the face come nearer alike as it opens: the nearest is the one with least travel left.
          if (nearest < normal) {
            normal = nearest;
            leastDeg = crankDeg;
          }
        }
        const lift = Math.max(0, lobeLiftM(c.lift, leastDeg - centreDeg) * c.rockerRatio - c.lashM);
        const least = travelLeft(
          face.map(({ y, z }) => ({ y: y + opening.y * lift, z: z + opening.z * lift })),
          opening,
          floor.map(({ y, z }) => ({ y, z: z - drop(leastDeg) })) as [Point, Point],
        );
        const found = pistonToValve(slider, valve, c.lobe, centrelines);
        // A quarter degree off the tightest point costs less than a hundredth of a millimetre.
        expect(found.clearanceM).toBeLessThan(least + 1e-7);
        expect(found.clearanceM).toBeGreaterThan(least - 1e-5);
        expect(found.normalM).toBeLessThan(normal + 1e-7);
        expect(found.normalM).toBeGreaterThan(normal - 1e-5);
        expect(found.valveLiftM).toBeCloseTo(
          valveLiftM(valve.motion, found.crankDeg - centreDeg),
          12,
        );
        if (found.clearanceM < 0) met += 1;
        else cleared += 1;
        if (Math.abs(found.crankDeg) > 1) deep += 1;
      }),
      { seed: 81, numRuns: 250 },
    );
    // The cases are worth something only when some meet, some clear, and most are tightest away from the top.
    expect(Math.min(met, cleared)).toBeGreaterThan(20);
    expect(deep).toBeGreaterThan(150);
  });

  it('round the head: the walls of a pocket that sinks straight down (independent)', () => {
    let inPocket = 0;
    fc.assert(
      fc.property(cases, between(-1e-3, 1e-3), between(1e-3, 6e-3), (c, axisOffsetM, play) => {
        const { slider, valve, centrelines, centreDeg } = caseOf({
          ...c,
          floorAngleDeg: undefined,
          pocketDepthM: 6e-3,
        });
        const pocket = { diameterM: c.headDiameterM + 2 * play, axisOffsetM };
        const { radialM } = pistonToValve(slider, { ...valve, pocket }, c.lobe, centrelines);
        const drop = dropOf(slider);
        const angle = (c.valveAngleDeg * Math.PI) / 180;
        const { face, opening, floor } = shapesOf(valve);
        // Walls stand square on the floor; in the turned frame the head's and the pocket's edges are plain intervals.
        const flat = (point: Point) => turned(point, { y: 0, z: 0 }, -angle);
        const [low, high] = [flat(face[0]!), flat(face.at(-1)!)];
        const middle = (low.y + high.y) / 2 + axisOffsetM;
        const walls = [middle - pocket.diameterM / 2, middle + pocket.diameterM / 2];
        let least: number | null = null;
        for (let crankDeg = -90; crankDeg <= 90; crankDeg += 0.1) {
          const lift = Math.max(
            0,
            lobeLiftM(c.lift, crankDeg - centreDeg) * c.rockerRatio - c.lashM,
          );
          const floorZ = flat({ y: floor[0].y, z: floor[0].z - drop(crankDeg) }).z;
          const faceZ = flat({
            y: face[0]!.y + opening.y * lift,
            z: face[0]!.z + opening.z * lift,
          }).z;
          if (faceZ - floorZ >= 6e-3) continue;
          const shift = flat({ y: 0, z: -drop(crankDeg) }).y;
          const gap = Math.min(low.y - (walls[0]! + shift), walls[1]! + shift - high.y);
          least = least === null ? gap : Math.min(least, gap);
        }
        if (radialM === null || least === null) {
          // A head that only dips in between two steps of either search is in one and not in the other.
          const { clearanceM } = pistonToValve(slider, valve, c.lobe, centrelines);
          expect(clearanceM).toBeGreaterThan(6e-3 - 1e-5);
        } else {
          inPocket += 1;
          // The head leaves the pocket within a tenth of a degree of where the steps see it.
          expect(Math.abs(radialM - least)).toBeLessThan(1.5e-4);
        }
      }),
      { seed: 82, numRuns: 100 },
    );
    expect(inPocket).toBeGreaterThan(30);
  });

  const lift = liftCurveOfCard({
    lobeLiftM: inch(0.4),
    durations: [
      { liftM: inch(0.05), durationDeg: 265 },
      { liftM: inch(0.006), durationDeg: 312 },
    ],
  });
  const slider: CrankSlider = { strokeM: inch(3.48), rodLengthM: inch(5.7) };
  const valve: ValveAndPocket = {
    motion: { lift, rockerRatio: 1.6, lashM: inch(0.018) },
    valveAngleDeg: 23,
    headDiameterM: inch(2.02),
    gap: { deckM: inch(0.005), gasketThicknessM: inch(0.04), valveRecessM: inch(0.1) },
    pocketDepthM: inch(0.2),
  };
  const centrelines = centrelinesOfCard(112, 4);

  it('is tightest somewhat after the top for the intake, before it for the exhaust (common practice, from memory: about 10°)', () => {
    const intake = pistonToValve(slider, valve, 'intake', centrelines);
    const exhaust = pistonToValve(slider, valve, 'exhaust', centrelines);
    expect(intake.crankDeg).toBeGreaterThan(3);
    expect(intake.crankDeg).toBeLessThan(20);
    expect(exhaust.crankDeg).toBeLessThan(-3);
    expect(exhaust.crankDeg).toBeGreaterThan(-20);
  });

  it('measured travel less lobe lift × ratio: the shop\'s own way (reference: moparts.org, "Checking piston-to-valve clearance", TC − LL × RR = VC)', () => {
    const measured: ValveAndPocket = {
      ...valve,
      motion: { ...valve.motion, lashM: 0 },
      gap: { measuredM: inch(0.35) },
    };
    const atTop = valveClearanceAtM(slider, measured, 'intake', centrelines, 0);
    expect(atTop).toBeCloseTo(inch(0.35) - lobeLiftM(lift, -108) * 1.6, 12);
    expect(closedValveClearanceM(measured)).toBe(inch(0.35));
  });

  it('more advance takes from the intake and gives to the exhaust (reference: hotrod.com, "Piston valve clearance", 2003)', () => {
    const rows = pistonToValveByAdvance(
      slider,
      { intake: valve, exhaust: valve },
      centrelines,
      [-4, -2, 0, 2, 4],
    );
    for (let k = 1; k < rows.length; k++) {
      expect(rows[k]!.intake.clearanceM).toBeLessThan(rows[k - 1]!.intake.clearanceM);
      expect(rows[k]!.exhaust.clearanceM).toBeGreaterThan(rows[k - 1]!.exhaust.clearanceM);
    }
    expect(rows[2]!.intake).toEqual(pistonToValve(slider, valve, 'intake', centrelines));
  });

  it('deck, gasket, recess and pocket give what they are worth along the valve (identity)', () => {
    const at = (over: Partial<ValveAndPocket>) =>
      pistonToValve(slider, { ...valve, ...over }, 'intake', centrelines).clearanceM;
    const base = at({});
    const gap = { deckM: inch(0.005), gasketThicknessM: inch(0.04), valveRecessM: inch(0.1) };
    const cosine = Math.cos((23 * Math.PI) / 180);
    for (const part of ['deckM', 'gasketThicknessM', 'valveRecessM'] as const)
      expect(at({ gap: { ...gap, [part]: gap[part] + 1e-3 } }) - base).toBeCloseTo(
        1e-3 / cosine,
        12,
      );
    expect(at({ pocketDepthM: inch(0.2) + 1e-3 }) - base).toBeCloseTo(1e-3, 12);
  });

  it('grows with the engine: half as large again, half as much clearance again at the same angle (property)', () => {
    const k = 1.5;
    const large = liftCurveOfCard({
      lobeLiftM: k * inch(0.4),
      durations: [
        { liftM: k * inch(0.05), durationDeg: 265 },
        { liftM: k * inch(0.006), durationDeg: 312 },
      ],
    });
    const found = pistonToValve(
      { strokeM: k * slider.strokeM, rodLengthM: k * slider.rodLengthM },
      {
        ...valve,
        motion: { lift: large, rockerRatio: 1.6, lashM: k * inch(0.018) },
        headDiameterM: k * inch(2.02),
        gap: {
          deckM: k * inch(0.005),
          gasketThicknessM: k * inch(0.04),
          valveRecessM: k * inch(0.1),
        },
        pocketDepthM: k * inch(0.2),
      },
      'intake',
      centrelines,
    );
    const small = pistonToValve(slider, valve, 'intake', centrelines);
    expect(found.clearanceM).toBeCloseTo(k * small.clearanceM, 10);
    expect(found.crankDeg).toBeCloseTo(small.crankDeg, 3);
  });

  it('says null round the head where no pocket is given, or the head never gets down into it', () => {
    expect(pistonToValve(slider, valve, 'intake', centrelines).radialM).toBeNull();
    const high: ValveAndPocket = {
      ...valve,
      gap: { measuredM: 0.05 },
      pocket: { diameterM: inch(2.15), axisOffsetM: 0 },
    };
    expect(pistonToValve(slider, high, 'intake', centrelines).radialM).toBeNull();
    expect(
      pistonToValve(
        slider,
        { ...valve, pocket: { diameterM: inch(2.15), axisOffsetM: 0 } },
        'intake',
        centrelines,
      ).radialM,
    ).toBeLessThanOrEqual(inch(0.065));
  });

  it.each([
    [{ valveAngleDeg: 70 }, /valve angle/],
    [{ floorAngleDeg: -1 }, /pocket floor angle/],
    [{ headDiameterM: 0 }, /head diameter/],
    [{ pocketDepthM: -1e-3 }, /pocket depth/],
    [{ gap: { measuredM: Number.NaN } }, /measured/],
    [{ gap: { deckM: 0, gasketThicknessM: -1e-3, valveRecessM: 0 } }, /gasket/],
    [{ pocket: { diameterM: 0, axisOffsetM: 0 } }, /pocket diameter/],
  ])('refuses %o by name', (wrong, name) => {
    const run = () =>
      pistonToValve(slider, { ...valve, ...wrong } as ValveAndPocket, 'intake', centrelines);
    expect(run).toThrow(NonPhysicalError);
    expect(run).toThrow(name);
  });

  it('refuses an engine that cannot turn', () => {
    const stuck = { strokeM: 0.1, rodLengthM: 0.04 };
    expect(() => pistonToValve(stuck, valve, 'intake', centrelines)).toThrow(/rod length/);
  });
});
