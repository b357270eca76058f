import { describe, expect, it } from 'vitest';
import { pullsOf } from '../compared.fixture.ts';
import { drawnAlone } from '../drawn.fixture.ts';
import { drawnCurves, evenly } from '../drawn.ts';
import { answerGearing, answerVehicle } from './index.ts';
import { COUPE, humpNm } from './made.fixture.ts';
import { marksOf } from './marks.ts';
import { runVehicle } from './run.ts';
import { engineOfCurve } from './sensitivity.ts';

const drawn = (dayOfB = 'one day') =>
  drawnCurves({
    groups: [
      { name: 'early', pulls: pullsOf((rpm) => humpNm(rpm, 440, 4000), [0, 2, 4], 1) },
      {
        name: 'late',
        pulls: pullsOf((rpm) => humpNm(rpm, 440, 5000), [1, 3, 5], 2).map((pull) => ({
          ...pull,
          day: dayOfB,
        })),
      },
    ],
    bandRpm: [4000, 7000],
    reference: [],
    repeatabilityPercent: null,
    calibrationRelSd: {},
    worthPercent: 0.75,
  });
const QUARTER = (figures: { id: string }[]) => figures.findIndex(({ id }) => id === 'quarterMile');
const vehicle = { ...COUPE, shift: { ...COUPE.shift, limitRpm: 7000 } };

describe('the band of a run', () => {
  const curves = drawn();
  const answer = answerVehicle(vehicle, curves);

  it('is that of runs with the curves drawn, one by one (independent of the linear way)', () => {
    const [early] = curves.curves;
    const shifts = answer.builds[0]!.shifts;
    const at = QUARTER([...answer.builds[0]!.figures]);
    for (const i of [3, 77, 150, 333]) {
      const torqueNm = early!.torqueNm.map((torque, m) => torque * Math.exp(early!.logOff[i]![m]!));
      const run = runVehicle(vehicle, engineOfCurve({ ...early!, torqueNm }), { shifts });
      const middle = answer.builds[0]!.drawn.values[at]!;
      const linear = answer.builds[0]!.drawn.draws[at]![i]! - middle;
      const direct = marksOf(run).distance.quarterMile.timeS! - middle;
      expect(Math.abs(linear - direct)).toBeLessThan(0.003 + 0.1 * Math.abs(direct));
    }
  });

  it('is narrower for the difference than for either where both were made on one day', () => {
    const halfOf = ({ low, high }: { low: number; high: number }) => (high - low) / 2;
    const at = QUARTER([...answer.builds[0]!.figures]);
    const own = halfOf(answer.builds[0]!.figures[at]!.value!);
    const together = halfOf(answer.pairs[0]!.differences[at]!.value!);
    const apart = halfOf(
      answerVehicle(vehicle, drawn('another day')).pairs[0]!.differences[at]!.value!,
    );
    expect(together).toBeLessThan(0.6 * own);
    expect(apart).toBeGreaterThan(1.5 * together);
  });

  it('says who is quicker, by how much, with what chance, and that it is no promise', () => {
    const { finding } = answer.pairs[0]!;
    expect(finding).toMatch(
      /late is quicker than early over the 1\/4 mile: \d+\.\d\d s against \d+\.\d\d s, 0\.\d\d s less \(95 %: .*; chance over 99 %\)/,
    );
    expect(finding).toContain('not a promise');
    expect(finding).toContain('closed course');
  });

  it('knows nothing of a curve typed from paper, and then gives no false width', () => {
    const speed = evenly(2500, 7000, 61);
    const alone = drawnAlone(
      'paper',
      speed,
      speed.map((rpm) => humpNm(rpm)),
    );
    const { builds } = answerVehicle(vehicle, { curves: [alone] });
    const { value } = builds[0]!.figures[QUARTER([...builds[0]!.figures])]!;
    expect(value!.high - value!.low).toBe(0);
  });
});

describe('gearing', () => {
  it('finds a final drive that no other of a fine grid beats, shorter for the later build', () => {
    const speed = evenly(2500, 7000, 61);
    const of = (name: string, at: number) =>
      drawnAlone(
        name,
        speed,
        speed.map((rpm) => humpNm(rpm, 440, at)),
      );
    const curves = [of('early', 3600), of('late', 5200)];
    // The tyres hold it all, so that a shorter gear pays until it runs out.
    const free = { ...vehicle, traction: null };
    const answer = answerGearing(free, curves)!;
    const [early, late] = answer.builds;
    expect(late!.finalDrive).toBeGreaterThan(early!.finalDrive);
    for (const { timeS } of late!.places) expect(timeS!).toBeGreaterThan(late!.timeS - 1e-4);
    expect(late!.asGood[0]).toBeLessThanOrEqual(late!.finalDrive);
    expect(answer.pairs[0]!.b).toBe('late');
    expect(answer.finding).toContain('final drive');
  });
});
