import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readVehicle } from './read.ts';

const WHOLE = {
  format: 'vehicle/1',
  name: 'the coupe',
  mass: '3500 lb',
  wheelInertia: '5 kg m^2',
  engineInertia: '0.25 kg m^2',
  gears: [2.97, 2.07, 1.43, 1, 0.8],
  finalDrive: 3.55,
  tyre: { radius: '13 in', growth: '2 %', growthAt: '135 mph' },
  driveline: { loss: '6 %', drag: '5 Nm' },
  clutch: { launchSpeed: '3500 rpm' },
  dragArea: '0.7 m^2',
  rollingResistance: 0.013,
  traction: {
    coefficient: 1,
    driven: 'rear',
    drivenShare: '48 %',
    centreHeight: '0.5 m',
    wheelbase: '2.6 m',
  },
  shift: { time: '0.3 s', limit: '7000 rpm' },
  airDensity: '1.17 kg/m^3',
  rollout: '1 ft',
};
const problemsOf = (change: object) => {
  const read = readVehicle({ ...WHOLE, ...change });
  return 'problems' in read ? read.problems : [];
};

describe('a written vehicle', () => {
  it('is read in inside units, with nothing assumed where all is said', () => {
    const read = readVehicle(WHOLE);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    const { vehicle, assumed } = read.value;
    expect(assumed).toEqual([]);
    expect(vehicle.massKg).toBeCloseTo(1587.57, 2);
    expect(vehicle.tyreRadiusM).toBeCloseTo(0.3302, 6);
    expect(vehicle.tyreGrowthS2PerM2).toBeCloseTo(0.02 / 60.3504 ** 2, 9);
    expect(vehicle.efficiency).toEqual([0.94, 0.94, 0.94, 0.94, 0.94]);
    expect(vehicle.rolloutM).toBeCloseTo(0.3048, 9);
  });

  it('says what was taken where nothing is said', () => {
    const { mass, gears, finalDrive, tyre, clutch, dragArea, format } = WHOLE;
    const read = readVehicle({ format, mass, gears, finalDrive, tyre, clutch, dragArea });
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.value.assumed).toHaveLength(6);
    expect(read.value.vehicle.traction).toBeNull();
  });

  it.each([
    [{ mass: '1500' }, 'mass'],
    [{ mass: '3 kg' }, 'mass'],
    [{ gears: [1, 2] }, 'gears'],
    [{ gears: [] }, 'gears'],
    [{ gears: [3, 'x'] }, 'gears[1]'],
    [{ tyre: { radius: '13 lb' } }, 'tyre.radius'],
    [{ tyre: { radius: '13 in', growth: '2 %' } }, 'tyre.growthAt'],
    [{ clutch: undefined }, 'the file'],
    [{ converter: { stallSpeed: '3000 rpm', stallTorque: '400 Nm' } }, 'the file'],
    [{ clutch: { launchSpeed: 3500 } }, 'clutch.launchSpeed'],
    [{ traction: { coefficient: 1, driven: 'side' } }, 'traction.driven'],
    [{ shift: { speeds: ['6000 rpm'] } }, 'shift.speeds'],
    [{ wheels: 4 }, 'wheels'],
    [{ format: 'car' }, 'format'],
    [{ driveline: { lossByGear: ['5 %'] } }, 'driveline.lossByGear'],
  ])('%j is refused, naming the field', (change, path) => {
    expect(problemsOf(change).map((one) => one.path)).toContain(path);
  });

  it('refuses a converter whose curve cannot be one', () => {
    const converter = (curve: object[]) =>
      problemsOf({
        clutch: undefined,
        converter: { stallSpeed: '2800 rpm', stallTorque: '350 lb-ft', curve },
      });
    expect(converter([{ speedRatio: 0, torqueRatio: 2, capacity: 1 }])).toHaveLength(1);
    expect(
      converter([
        { speedRatio: 0, torqueRatio: 2, capacity: 1 },
        { speedRatio: 1, torqueRatio: 1, capacity: 0.4 },
      ])[0]!.expected,
    ).toContain('speed ratio 1');
    expect(
      problemsOf({
        clutch: undefined,
        converter: { stallSpeed: '2800 rpm', stallTorque: '350 lb-ft' },
      }),
    ).toEqual([]);
  });

  it('reads or refuses anything, and never throws', () => {
    const keys = fc.constantFrom(...Object.keys(WHOLE), 'converter');
    fc.assert(
      fc.property(keys, fc.jsonValue(), (key, value) => {
        const read = readVehicle({ ...WHOLE, [key]: value });
        if ('problems' in read)
          for (const one of read.problems) expect(one.expected.length).toBeGreaterThan(3);
        else expect(read.value.vehicle.massKg).toBeGreaterThan(0);
      }),
      { numRuns: 300, seed: 11 },
    );
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect('problems' in readVehicle(value)).toBe(true);
      }),
      { numRuns: 100, seed: 12 },
    );
  });
});
