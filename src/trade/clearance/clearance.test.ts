import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, fromInside, toInside } from '../../units/index.ts';
import {
  CLEARANCE_USES,
  COLD_LASH_CHART,
  clearanceBetween,
  coldLashM,
  EXPANDING_MATERIALS,
  judgeClearance,
  lashChange,
  pushrodChain,
  roundness,
  SHIPPED_WINDOWS,
  spreadOf,
  thermalGrowthM,
  type WarmPart,
  WINDOW_SOURCES,
  warmClearanceM,
  windowLimits,
  windowsFor,
} from './index.ts';

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);
const outside = (value: number, unit: string) => fromInside(value, findUnit(unit)!);
const inch = (value: number) => inside(value, 'in');
const alpha = (id: string) => EXPANDING_MATERIALS.find((one) => one.id === id)!.expansionPerK;

describe('repeated measurements', () => {
  it('spread, mean and sd (independent, by hand: 2, 4, 4, 4, 5, 5, 7, 9 has sd √(32/7))', () => {
    const got = spreadOf('weight', [2, 4, null, 4, 4, 5, 5, 7, 9])!;
    expect(got).toMatchObject({ count: 8, smallest: 2, largest: 9, spread: 7, mean: 5 });
    expect(got.sd).toBeCloseTo(Math.sqrt(32 / 7), 12);
    expect(spreadOf('weight', [null])).toBeNull();
    expect(spreadOf('weight', [3])!.sd).toBeNull();
    expect(() => spreadOf('weight', [1, Number.NaN])).toThrow(/weight/);
  });

  it('taper and out-of-round of three heights by two directions (independent, by hand)', () => {
    const got = roundness([
      [0.10205, 0.10203],
      [0.10204, 0.102],
      [0.10201, 0.10202],
    ])!;
    // Along: 102.05 to 102.01; across: 102.03 to 102.00. Heights: 0.02, 0.04, 0.01 mm.
    expect(got.taperM).toBeCloseTo(0.00004, 12);
    expect(got.outOfRoundM).toBeCloseTo(0.00004, 12);
    expect(got.diameter.smallest).toBe(0.102);
  });

  it('says null for what too few readings leave open', () => {
    expect(roundness([[null, null]])).toBeNull();
    expect(roundness([[0.1, null]])).toMatchObject({ taperM: null, outOfRoundM: null });
    expect(
      roundness([
        [0.1, null],
        [0.1001, null],
      ])!.outOfRoundM,
    ).toBeNull();
    expect(() => roundness([[0.1, -0.1]])).toThrow(/diameter/);
  });

  it('does not care which height or direction comes first (identity)', () => {
    const diameter = fc.double({ min: 0.09, max: 0.11, noNaN: true });
    const cross = fc.tuple(diameter, diameter);
    fc.assert(
      fc.property(fc.array(cross, { minLength: 2, maxLength: 5 }), (heights) => {
        const a = roundness(heights)!;
        const turned = [...heights].reverse().map(([x, y]) => [y, x] as const);
        expect(roundness(turned)).toMatchObject({ taperM: a.taperM, outOfRoundM: a.outOfRoundM });
        expect(a.taperM!).toBeLessThanOrEqual(a.diameter.spread);
        expect(a.outOfRoundM!).toBeLessThanOrEqual(a.diameter.spread);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
});

describe('clearance between two measured parts', () => {
  const hole = { diametersM: [0.0555, 0.05552, null], standardUncertaintyM: 3e-6 };
  const journal = { diametersM: [0.05545, 0.05546], standardUncertaintyM: 4e-6 };

  it('is tightest at the smallest hole on the largest part (independent, by hand; gauges 3-4-5)', () => {
    const got = clearanceBetween(hole, journal);
    expect(got.smallestM).toBeCloseTo(0.00004, 12);
    expect(got.largestM).toBeCloseTo(0.00007, 12);
    expect(got.meanM).toBeCloseTo(0.000055, 12);
    expect(got.standardUncertaintyM).toBeCloseTo(5e-6, 12);
    expect(got.lowM).toBeCloseTo(0.00003, 12);
    expect(got.highM).toBeCloseTo(0.00008, 12);
  });

  it('shifts with the hole and against the part (identity), and refuses nothing measured', () => {
    const wider = { ...hole, diametersM: [0.05551, 0.05553] };
    expect(clearanceBetween(wider, journal).meanM).toBeCloseTo(0.000065, 12);
    expect(() => clearanceBetween({ ...hole, diametersM: [null] }, journal)).toThrow(/hole/);
    expect(() => clearanceBetween(hole, { ...journal, diametersM: [0] })).toThrow(/part inside/);
  });
});

describe('growth with temperature', () => {
  // Reference: Callister Table B.6 prints both units; 1e-6/°F × 1.8 must give the 1e-6/K within its rounding.
  it.each([
    ['grey-iron', 6.3],
    ['ductile-iron', 6.2],
    ['steel-1040', 6.3],
    ['steel-4340', 6.8],
    ['aluminium-356', 11.9],
    ['aluminium-6061', 13.1],
    ['aluminium-7075', 13],
    ['aluminium-2024', 12.7],
    ['titanium-6-4', 4.8],
    ['magnesium-az91', 14.4],
  ])('%s grows %d millionths a °F (reference)', (id, perF) => {
    expect(Math.abs((alpha(id) * 1e6) / 1.8 - perF)).toBeLessThan(0.1);
  });

  it('a 4 in iron bore grows 4.6 thousandths over 100 K (independent, by hand)', () => {
    const bore = { lengthM: inch(4), expansionPerK: alpha('grey-iron'), temperatureK: 393.15 };
    expect(outside(thermalGrowthM(bore), 'in')).toBeCloseTo(0.00456, 10);
  });

  it('an aluminium piston closes up in an iron bore; like in like at one temperature scales (identity)', () => {
    const bore = { diameterM: 0.1, expansionPerK: alpha('grey-iron'), temperatureK: 370 };
    const piston = { diameterM: 0.0999, expansionPerK: alpha('aluminium-2618'), temperatureK: 420 };
    expect(warmClearanceM(bore, piston)).toBeLessThan(0.0001);
    const same = { ...piston, expansionPerK: bore.expansionPerK, temperatureK: 370 };
    expect(warmClearanceM(bore, same)).toBeCloseTo(
      0.0001 * (1 + bore.expansionPerK * (370 - 293.15)),
      12,
    );
    const cold = { ...piston, temperatureK: 293.15 };
    expect(warmClearanceM({ ...bore, temperatureK: 293.15 }, cold)).toBeCloseTo(0.0001, 12);
  });

  it('a bearing opens in an aluminium block (independent, by hand)', () => {
    // 60 mm: (21.5 − 12.3)e-6 × 80 K × 60 mm = 44 µm.
    const warm = 293.15 + 80;
    const housing = { diameterM: 0.06, expansionPerK: alpha('aluminium-356'), temperatureK: warm };
    const journal = { diameterM: 0.05995, expansionPerK: alpha('steel-4340'), temperatureK: warm };
    expect(warmClearanceM(housing, journal) - 0.00005).toBeCloseTo(44.2e-6, 6);
  });

  it('names what cannot be', () => {
    const part = { lengthM: 0.1, expansionPerK: 12e-6, temperatureK: 370 };
    expect(() => thermalGrowthM({ ...part, temperatureK: 95 })).toThrow(/temperature/);
    expect(() => thermalGrowthM({ ...part, expansionPerK: 12 })).toThrow(/expansion/);
    expect(() => thermalGrowthM({ ...part, lengthM: Number.NaN })).toThrow(NonPhysicalError);
  });
});

/** A pushrod V8 of usual size, intake side. */
function chain(block: string, head: string) {
  const part = (lengthM: number, id: string, temperatureK: number): WarmPart => ({
    lengthM,
    expansionPerK: alpha(id),
    temperatureK,
  });
  return pushrodChain({
    rockerRatio: 1.5,
    block: part(0.115, block, 365),
    pivot: part(0.12, head, 370),
    seat: part(0.02, head, 370),
    valve: part(0.125, 'valve-martensitic', 400),
    pushrod: part(0.235, 'steel-4340', 365),
  });
}

describe('lash cold and hot', () => {
  // Independent: usual dimensions and temperatures against a maker's rule of thumb; the rule's own steps are 0.006 in.
  it.each(COLD_LASH_CHART.map(({ block, head, addM }) => [block, head, addM] as const))(
    '%s block, %s head: sign and size as the chart within 0.003 in',
    (block, head, addM) => {
      const id = { iron: 'grey-iron', aluminium: 'aluminium-356' };
      const { changeM } = lashChange(chain(id[block], id[head]));
      expect(Math.abs(outside(-changeM - addM, 'in'))).toBeLessThan(0.003);
    },
  );

  it('the weights are those of the drawn rocker (independent: the lever by coordinates)', () => {
    const parts = chain('aluminium-356', 'aluminium-356');
    const lengths: Record<string, number> = {};
    for (const { name, lengthM } of parts) lengths[name] = lengthM;
    const grown = (name: string) =>
      lengths[name]! + thermalGrowthM(parts.find((part) => part.name === name)!);
    const lash = (length: (name: string) => number) => {
      const pivot = length('block') + length('pivot');
      const tip = length('block') + length('seat') + length('valve');
      // Arms 60 and 40 mm: the valve's end mirrors the pushrod's about the pivot, 1.5 times.
      return pivot + ((pivot - length('pushrod')) * 60) / 40 - tip;
    };
    const { changeM, byPart } = lashChange(parts);
    expect(changeM).toBeCloseTo(lash(grown) - lash((name) => lengths[name]!), 12);
    expect(byPart.map(({ name }) => name)).toEqual(['block', 'pivot', 'seat', 'valve', 'pushrod']);
  });

  it('cold lash is hot lash less the change, and cannot be below 0', () => {
    const change = { changeM: inch(0.006), byPart: [] };
    expect(outside(coldLashM(inch(0.022), change), 'in')).toBeCloseTo(0.016, 12);
    expect(() => coldLashM(inch(0.004), change)).toThrow(/cold lash/);
  });
});

describe('windows', () => {
  const limits = (kind: Parameters<typeof windowsFor>[1], use: (typeof CLEARANCE_USES)[number]) =>
    windowLimits(windowsFor(SHIPPED_WINDOWS, kind, { use, material: null })[0]!, {
      boreM: inch(4.44),
      journalM: inch(2.2),
    })!;

  // Reference: S42, worked there: 4.440 in × 0.0045 = 0.0198 → 0.020 in; our street window begins at S43's 0.0040.
  it('a 4.440 in street bore takes a top gap of 0.020 in (reference)', () => {
    const { lowM, highM } = limits('ring-gap-top', 'street');
    expect(outside(lowM!, 'in')).toBeCloseTo(0.01776, 6);
    const gap = judgeClearance(inch(0.02), { lowM, highM }, { below: 'stop', above: 'look again' });
    expect(gap.verdict).toBe('fine');
  });

  // Reference: S44: 0.0022 in on a 2.200 in journal.
  it('a 2.200 in journal takes 0.0022 in (reference)', () => {
    const { lowM, highM } = limits('rod-bearing', 'street');
    expect(outside(lowM!, 'in')).toBeLessThan(0.0022);
    expect(outside(highM!, 'in')).toBeGreaterThan(0.0022);
  });

  it('every window runs upwards, names its source, and is found for every use it names (identity)', () => {
    for (const window of SHIPPED_WINDOWS) {
      expect(window.low === null && window.high === null).toBe(false);
      if (window.low !== null && window.high !== null) expect(window.low).toBeLessThan(window.high);
      expect(window.source.length).toBeGreaterThan(3);
      for (const key of window.source.match(/S\d+/g) ?? [])
        expect(WINDOW_SOURCES[key], key).toMatch(/^https?:/);
      // Found means an address or a data sheet is named; otherwise the row says that there is none.
      if (window.tag === 'F') expect(window.source).toMatch(/S\d+|service data/);
      else expect(window.source).toMatch(/no source/);
      for (const use of window.uses ?? CLEARANCE_USES)
        expect(
          windowsFor(SHIPPED_WINDOWS, window.kind, { use, material: window.material })[0],
        ).toBe(window);
    }
  });

  it('every kind has a window for every use', () => {
    for (const kind of new Set(SHIPPED_WINDOWS.map((window) => window.kind)))
      for (const use of CLEARANCE_USES)
        expect(
          windowsFor(SHIPPED_WINDOWS, kind, { use, material: null }).length,
          `${kind} for ${use}`,
        ).toBeGreaterThan(0);
  });

  it('what is not known excludes nothing; a size not known leaves the limits open', () => {
    const open = windowsFor(SHIPPED_WINDOWS, 'piston-to-valve-intake', {
      use: 'race',
      material: null,
    });
    expect(open.map(({ material }) => material).sort()).toEqual(['aluminium rods', 'steel rods']);
    const gap = windowsFor(SHIPPED_WINDOWS, 'ring-gap-top', { use: 'race', material: null })[0]!;
    expect(windowLimits(gap, {})).toBeNull();
    expect(() => windowLimits(gap, { boreM: 0 })).toThrow(/bore/);
  });

  it('judges both sides and what is missing; the limits are fine (independent, by hand)', () => {
    const window = { lowM: 0.001, highM: 0.002 };
    const gravity = { below: 'stop', above: 'look again' } as const;
    expect(judgeClearance(0.0008, window, gravity)).toMatchObject({
      verdict: 'stop',
      side: 'below',
    });
    expect(judgeClearance(0.0008, window, gravity).toWindowM).toBeCloseTo(0.0002, 12);
    expect(judgeClearance(0.0023, window, gravity).toWindowM).toBeCloseTo(-0.0003, 12);
    expect(judgeClearance(0.0023, window, gravity).verdict).toBe('look again');
    for (const edge of [0.001, 0.002, 0.0015])
      expect(judgeClearance(edge, window, gravity)).toMatchObject({
        verdict: 'fine',
        toWindowM: 0,
      });
    expect(judgeClearance(9, { lowM: 0.001, highM: null }, gravity).verdict).toBe('fine');
    expect(() => judgeClearance(Number.NaN, window, gravity)).toThrow(NonPhysicalError);
  });
});
