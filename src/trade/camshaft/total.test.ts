import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import * as geometry from '../geometry/index.ts';
import * as camshaft from './index.ts';

/** What a form or a file may hold where a number belongs, slips of the unit by twelve powers of ten included. */
const anything = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 1, max: 400_000 }).map((k) => k / 1000) },
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 20_000 }).map((k) => k / 1e5) },
  { weight: 1, arbitrary: fc.integer({ min: -12, max: 12 }).map((power) => 10 ** power) },
  { weight: 1, arbitrary: fc.constantFrom(0, -1, Number.NaN, Number.POSITIVE_INFINITY, -1e12) },
);

/** Every number found anywhere in an answer. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value === 'object' && value !== null) return Object.values(value).flatMap(numbersIn);
  return [];
}

type Draw = () => number;

const slider = (n: Draw) => ({ strokeM: n(), rodLengthM: n(), pinOffsetM: n() });
const parts = (n: Draw): geometry.ClearanceParts => ({
  boreM: n(),
  chamberM3: n(),
  domeM3: n(),
  dishM3: n(),
  deckM: n(),
  gasket: { boreM: n(), thicknessM: n() },
  topLand: { diameterM: n(), depthM: n() },
});
const lines = (n: Draw) => ({ intakeCentrelineDeg: n(), exhaustCentrelineDeg: n() });
const CALLS: Record<string, (n: Draw) => unknown> = {
  displacement: (n) => geometry.engineDisplacementM3(n(), n(), 8),
  ratios: (n) => [geometry.boreStrokeRatio(n(), n()), geometry.rodRatio(n(), n())],
  clearance: (n) => geometry.clearanceVolume(parts(n)),
  ratio: (n) => geometry.compressionRatio(n(), n()),
  chamber: (n) => geometry.chamberForRatioM3(parts(n), n(), n()),
  crown: (n) => geometry.crownForRatioM3(parts(n), n(), n()),
  deckForRatio: (n) => geometry.deckForRatioM(parts(n), n(), n()),
  dynamic: (n) =>
    geometry.dynamicCompression({
      ...slider(n),
      boreM: n(),
      clearanceM3: n(),
      intakeClosesAbdcDeg: n(),
    }),
  cranking: (n) => geometry.crankingPressureEstimate(n(), n()),
  motion: (n) => geometry.pistonMotion(slider(n), n(), n()),
  travel: (n) => geometry.pistonTravelM(slider(n)),
  speeds: (n) => geometry.pistonSpeedTable(slider(n), [n(), n()]),
  pin: (n) => geometry.pinInertiaForceN(slider(n), n(), n(), n()),
  bolts: (n) =>
    geometry.rodBoltTension({
      slider: slider(n),
      reciprocatingKg: n(),
      rodAbovePartingKg: n(),
      bolts: 2,
      speedRpm: n(),
    }),
  deck: (n) =>
    geometry.deckClearanceM({ ...slider(n), blockHeightM: n(), compressionHeightM: n() }),
  quench: (n) => geometry.quenchM(n(), n()),
  stretch: (n) =>
    geometry.rodStretchM({
      tensionN: n(),
      rodLengthM: n(),
      beamAreaM2: n(),
      youngModulusPa: n(),
    }),
  events: (n) =>
    camshaft.camEvents({ intakeDurationDeg: n(), exhaustDurationDeg: n(), ...lines(n) }),
  card: (n) => camshaft.centrelinesOfCard(n(), n()),
  fromEvents: (n) =>
    camshaft.camFromEvents({
      intakeOpensBtdcDeg: n(),
      intakeClosesAbdcDeg: n(),
      exhaustOpensBbdcDeg: n(),
      exhaustClosesAtdcDeg: n(),
    }),
  wheel: (n) =>
    camshaft.measuredCentreline('intake', [
      { risingAtdcDeg: n(), fallingAtdcDeg: n() },
      { risingAtdcDeg: n(), fallingAtdcDeg: n() },
    ]),
};

describe('whatever is handed in', () => {
  it.each(Object.keys(CALLS))('%s answers with numbers or says which value cannot be', (name) => {
    fc.assert(
      fc.property(fc.array(anything, { minLength: 24, maxLength: 24 }), (values) => {
        let next = 0;
        let answer: unknown;
        try {
          answer = CALLS[name]!(() => values[next++ % values.length]!);
        } catch (error) {
          expect(error).toBeInstanceOf(NonPhysicalError);
          return;
        }
        expect(numbersIn(answer).filter((value) => !Number.isFinite(value))).toEqual([]);
      }),
      { seed: 500, numRuns: 300 },
    );
  });
});
