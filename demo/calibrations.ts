import type { NewCalibration } from '../src/record/repository.ts';
import { type DeadWeights, localGravityMPerS2 } from '../src/trade/index.ts';
import { findUnit, toInside } from '../src/units/index.ts';
import { Chance } from './random.ts';

/** What each cell of the demo truly reads too high [%]; its run files and its weights both come from it. */
export const READS_HIGH_PERCENT = { one: 0.4, two: 0.9, three: 0.7 } as const;

export type DemoCalibration = Omit<NewCalibration, 'cellId'> & {
  readonly cell: keyof typeof READS_HIGH_PERCENT;
};

/** A place by the sea in the middle latitudes. */
const GRAVITY_M_PER_S2 = Number(localGravityMPerS2(52, 20).toFixed(4));

interface Hung {
  readonly cell: DemoCalibration['cell'];
  readonly seed: number;
  readonly armM: number;
  readonly massesKg: readonly number[];
  /** How the arm hangs back on the way down, and how the reading jitters [N·m]. */
  readonly hangsNm: number;
  readonly jitterNm: number;
}

/** Weights hung on the arm of a simulated cell, up and down, the arm itself a little off its stated length. */
function hung({ cell, seed, armM, massesKg, hangsNm, jitterNm }: Hung): DeadWeights {
  const chance = new Chance(seed, 'weights');
  const armOff = 1 + 3e-4 * chance.normal();
  const gain = 1 + READS_HIGH_PERCENT[cell] / 100;
  const most = Math.max(...massesKg);
  const at = (massKg: number, direction: 'up' | 'down') => {
    const appliedNm = massKg * GRAVITY_M_PER_S2 * armM * armOff;
    // Widest in the middle, nothing at the top, most of it gone at no load.
    const share = direction === 'up' ? 0 : 1 - (2 * (massKg / most) - 0.8) ** 2 / 1.44;
    const readingNm = gain * appliedNm + hangsNm * share + jitterNm * chance.normal();
    return { massKg, readingNm: Number(readingNm.toFixed(1)), direction };
  };
  return {
    kind: 'dead weights',
    arm: { lengthM: armM, gravityMPerS2: GRAVITY_M_PER_S2, offLevelDeg: 0 },
    // Weights within 0.05 %, the arm within half a millimetre, gravity within 0.01 %.
    uncertainty: {
      massRelative: 5e-4 / Math.sqrt(3),
      armLengthRelative: 5e-4 / armM / Math.sqrt(3),
      gravityRelative: 1e-4 / Math.sqrt(3),
      offLevelLimitDeg: 0.5,
    },
    resolutionNm: 0.1,
    points: [
      ...massesKg.map((massKg) => at(massKg, 'up')),
      ...massesKg
        .slice(0, -1)
        .reverse()
        .map((massKg) => at(massKg, 'down')),
    ],
  };
}

const inches = (length: number) => toInside(length, findUnit('in', 'length')!);
const pounds = (mass: number) => toInside(mass, findUnit('lb', 'mass')!);

/** What the demo's cells were held against: two stand well, the motorcycle stand is past its day. */
export function demoCalibrations(): readonly DemoCalibration[] {
  return [
    {
      cell: 'one',
      doneOn: '2026-01-15',
      who: 'the operator',
      intervalMonths: 12,
      notes: 'Arm levelled with a spirit level, shaft locked. Second person read the display.',
      measured: hung({
        cell: 'one',
        seed: 7101,
        armM: 0.5,
        massesKg: [0, 10, 20, 30, 40, 50, 60],
        hangsNm: 0.5,
        jitterNm: 0.15,
      }),
    },
    {
      cell: 'one',
      doneOn: '2026-01-15',
      who: 'the operator',
      intervalMonths: 6,
      notes: '',
      measured: {
        kind: 'sensor',
        sensor: 'Inlet air temperature',
        unit: '°C',
        reference: 'glass thermometer of the weather hut, both in one bucket',
        referenceUncertainty: 0.2 / Math.sqrt(3),
        points: [
          { reading: 0.4, reference: 0.1 },
          { reading: 11.9, reference: 11.8 },
          { reading: 24.3, reference: 24.2 },
          { reading: 40.6, reference: 40.8 },
        ],
      },
    },
    {
      cell: 'two',
      doneOn: '2026-05-04',
      who: 'the operator',
      intervalMonths: 12,
      notes:
        'After the new load cell. Two-foot arm with the shop’s own barbell weights, weighed first.',
      measured: hung({
        cell: 'two',
        seed: 7201,
        armM: inches(24),
        massesKg: [0, 40, 80, 120, 160, 200].map(pounds),
        hangsNm: 0.8,
        jitterNm: 0.3,
      }),
    },
    {
      cell: 'three',
      doneOn: '2025-05-10',
      who: 'the apprentice',
      intervalMonths: 12,
      notes: 'Chain off, arm on the brake’s own shaft.',
      measured: hung({
        cell: 'three',
        seed: 7301,
        armM: 0.4,
        massesKg: [0, 5, 10, 15, 20, 25],
        hangsNm: 0.3,
        jitterNm: 0.1,
      }),
    },
  ];
}
