import { describe, expect, it } from 'vitest';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { evaluateSpline, splineSd } from '../numerics/spline.ts';
import { pullsOf } from './compared.fixture.ts';
import { compareGroups } from './index.ts';
import { type TypedTable, typedGroup } from './typedTable.ts';

const truth = (speed: number) => 420 - 1.7e-5 * (speed - 4700) ** 2 + 6 * Math.sin(speed / 400);
const table = (step: number, more: Partial<TypedTable> = {}): TypedTable => ({
  name: 'paper',
  points: Array.from({ length: Math.floor(5000 / step) + 1 }, (_, i) => ({
    speedRpm: 2500 + i * step,
    torqueNm: Math.round(truth(2500 + i * step)),
  })),
  standard: 'SAE J1349',
  relSd: null,
  ...more,
});

describe('a curve typed from paper', () => {
  it('holds the truth between its points, and is less sure where they are far apart', () => {
    const normal = gaussian(3);
    let [held, count] = [0, 0];
    for (let i = 0; i < 40; i++) {
      const [a, b, top] = [3 + 4 * normal(), 300 + 60 * normal(), 4700 + 400 * normal()];
      const wavy = (speed: number) =>
        420 - 1.7e-5 * (speed - top) ** 2 + a * Math.sin(speed / Math.max(200, b));
      const points = Array.from({ length: 11 }, (_, k) => ({
        speedRpm: 2500 + 500 * k,
        torqueNm: wavy(2500 + 500 * k) * (1 + 0.003 * normal()),
      }));
      const { torque } = typedGroup(table(500, { points }), 'SAE J1349').group.pulls[0]!;
      for (let speed = 2750; speed < 7500; speed += 250) {
        const off = Math.abs(evaluateSpline(torque, speed) - wavy(speed));
        held += off <= 1.96 * splineSd(torque, speed) ? 1 : 0;
        count++;
      }
    }
    expect(held / count).toBeGreaterThan(0.9);
    const sd = (step: number) =>
      splineSd(typedGroup(table(step), 'SAE J1349').group.pulls[0]!.torque, 5250);
    expect(sd(1000)).toBeGreaterThan(1.5 * sd(250));
  });

  it('is a side of a comparison, with a day and a cell of its own', () => {
    const typed = typedGroup(table(500), 'SAE J1349');
    const [pair] = compareGroups({
      groups: [
        typed.group,
        { name: 'measured', pulls: pullsOf((speed) => 1.1 * truth(speed), [0, 1, 2], 4) },
      ],
      bandRpm: [3500, 6500],
      reference: [],
      repeatabilityPercent: null,
      calibrationRelSd: { cell: 0.0025, ...typed.calibrationRelSd },
      worthPercent: 0.75,
    }).pairs;
    expect(pair!.gain.low).toBeLessThan(10);
    expect(pair!.gain.high).toBeGreaterThan(10);
    // Two days at 1.2 % and a cell of 1 %, 1.96 sds each way: 7.7 % wide before anything else.
    expect(pair!.gain.high - pair!.gain.low).toBeGreaterThan(6.5);
    expect(typed.warnings.join(' ')).toContain('does not say how far');
  });

  it('refuses what is no curve', () => {
    const of =
      (points: TypedTable['points'], standard: TypedTable['standard'] = null) =>
      () =>
        typedGroup(table(500, { points, standard }), 'SAE J1349');
    const good = table(1000).points;
    expect(of(good)().warnings.join(' ')).toContain('does not name its air standard');
    expect(of(good, 'SAE 60F dry')).toThrow('compare in SAE 60F dry');
    expect(of(good.slice(0, 3))).toThrow('type its peaks');
    expect(of([...good, good[0]!])).toThrow('twice');
    expect(of([...good, { speedRpm: 9000, torqueNm: -3 }])).toThrow('above zero');
  });
});
