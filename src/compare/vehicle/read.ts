import { type ReadWritten, readWritten, type Written } from '../written.ts';
import type { Clutch, Converter, Shift, Traction, Vehicle } from './types.ts';

const KEYS = [
  'format',
  'name',
  'mass',
  'wheelInertia',
  'engineInertia',
  'gears',
  'finalDrive',
  'tyre',
  'driveline',
  'clutch',
  'converter',
  'dragArea',
  'rollingResistance',
  'traction',
  'shift',
  'airDensity',
  'grade',
  'rollout',
] as const;

/** What is taken where a vehicle says nothing (common practice, no source), in words for whoever reads the answer. */
const USUAL = {
  /** Of each of four wheels with tyre and brake. */
  wheelInertiaKgM2: 4,
  engineInertiaKgM2: 0.2,
  loss: 0.06,
  airDensityKgPerM3: 1.2,
  rollingResistance: 0.013,
  shiftTimeS: 0.3,
} as const;

/** Usual shape of a passenger vehicle's converter over speed ratio (from memory; give the maker's curve where known). */
export const USUAL_CONVERTER: Converter['curve'] = [
  { speedRatio: 0, torqueRatio: 2, capacity: 1 },
  { speedRatio: 0.4, torqueRatio: 1.58, capacity: 0.98 },
  { speedRatio: 0.7, torqueRatio: 1.22, capacity: 0.9 },
  { speedRatio: 0.88, torqueRatio: 1, capacity: 0.72 },
  { speedRatio: 0.95, torqueRatio: 1, capacity: 0.4 },
  { speedRatio: 1, torqueRatio: 1, capacity: 0 },
];

export interface ReadVehicle {
  readonly vehicle: Vehicle;
  /** What was taken because nothing was said, in sentences. */
  readonly assumed: readonly string[];
}

/**
 * A vehicle from parsed JSON of the format vehicle/1, as written by hand (docs/vehicle.md). Quantities are texts with
 * their unit.
 * @returns the vehicle, or everything that is wrong with it
 */
export function readVehicle(value: unknown): ReadWritten<ReadVehicle> {
  return readWritten(value, wholeVehicle);
}

function wholeVehicle(file: Written): ReadVehicle | null {
  const key = file.object(KEYS);
  if (key === null) return null;
  if (key('format').value !== 'vehicle/1') return key('format').wrong('"vehicle/1"');
  const assumed: string[] = [];
  /** What is said, else what is usual, with a word on it. */
  const or = <T>(
    one: Written,
    usual: T,
    sentence: string | null,
    read: (w: Written) => T | null,
  ): T | null => {
    if (!one.isMissing) return read(one);
    if (sentence !== null) assumed.push(sentence);
    return usual;
  };
  const name = or(key('name'), 'the vehicle', null, (w) => w.text(80));
  const massKg = key('mass').quantity('mass', 50, 60_000, 'from 50 to 60000 kg');
  const wheelInertiaKgM2 = or(
    key('wheelInertia'),
    USUAL.wheelInertiaKgM2,
    'The inertia of the wheels is not said: 4 kg·m² for all of them was taken.',
    (w) => w.quantity('inertia', 0, 1000, 'from 0 to 1000 kg·m²'),
  );
  const engineInertiaKgM2 = or(
    key('engineInertia'),
    USUAL.engineInertiaKgM2,
    'The inertia of engine and flywheel is not said: 0.2 kg·m² was taken.',
    (w) => w.quantity('inertia', 0.001, 100, 'from 0.001 to 100 kg·m²'),
  );
  const gears = (key('gears').list(1, 12, 'gear ratios, first gear first') ?? []).map((w) =>
    w.number(0.2, 20, 'a ratio'),
  );
  const ratios = gears.filter((ratio) => ratio !== null);
  if (ratios.some((ratio, i) => i > 0 && ratio >= ratios[i - 1]!))
    key('gears').wrong('ratios that fall from gear to gear, first gear first');
  const finalDrive = key('finalDrive').number(0.5, 20, 'a ratio');
  const tyre = tyreOf(key('tyre'));
  const driveline = drivelineOf(key('driveline'), ratios.length, assumed);
  const coupling = couplingOf(key('clutch'), key('converter'), file, assumed);
  const dragAreaM2 = key('dragArea').quantity(
    'area',
    0,
    20,
    'drag coefficient times frontal area, from 0 to 20 m²',
  );
  const rollingResistance = or(
    key('rollingResistance'),
    USUAL.rollingResistance,
    'Rolling resistance is not said: 0.013 of the weight was taken.',
    (w) =>
      typeof w.value === 'string' && w.value.includes('%')
        ? w.quantity('fraction', 0, 0.3, 'from 0 to 30 %')
        : w.number(0, 0.3, 'a part of the weight'),
  );
  const traction = key('traction').isMissing ? null : tractionOf(key('traction'));
  const shift = shiftOf(key('shift'), ratios.length, assumed);
  const airDensityKgPerM3 = or(
    key('airDensity'),
    USUAL.airDensityKgPerM3,
    'Air density is not said: 1.2 kg/m³ was taken for the drag.',
    (w) => w.quantity('density', 0.3, 1.6, 'from 0.3 to 1.6 kg/m³'),
  );
  const grade = or(key('grade'), 0, null, (w) =>
    w.quantity('fraction', -0.3, 0.4, 'from -30 to 40 %'),
  );
  const rolloutM = or(key('rollout'), 0, null, (w) => w.quantity('length', 0, 2, 'from 0 to 2 m'));
  if (
    [
      name,
      massKg,
      wheelInertiaKgM2,
      engineInertiaKgM2,
      finalDrive,
      tyre,
      driveline,
      coupling,
    ].includes(null) ||
    [dragAreaM2, rollingResistance, shift, airDensityKgPerM3, grade, rolloutM].includes(null) ||
    traction === undefined ||
    ratios.length !== gears.length ||
    ratios.length === 0
  )
    return null;
  return {
    vehicle: {
      name: name!,
      massKg: massKg!,
      wheelInertiaKgM2: wheelInertiaKgM2!,
      engineInertiaKgM2: engineInertiaKgM2!,
      gears: ratios,
      finalDrive: finalDrive!,
      ...tyre!,
      ...driveline!,
      coupling: coupling!,
      dragAreaM2: dragAreaM2!,
      rollingResistance: rollingResistance!,
      traction,
      shift: shift!,
      airDensityKgPerM3: airDensityKgPerM3!,
      grade: grade!,
      rolloutM: rolloutM!,
    },
    assumed,
  };
}

function tyreOf(tyre: Written): Pick<Vehicle, 'tyreRadiusM' | 'tyreGrowthS2PerM2'> | null {
  const key = tyre.object(['radius', 'growth', 'growthAt']);
  if (key === null) return null;
  const tyreRadiusM = key('radius').quantity(
    'length',
    0.1,
    1.2,
    'the rolling radius from 0.1 to 1.2 m',
  );
  if (key('growth').isMissing)
    return tyreRadiusM === null ? null : { tyreRadiusM, tyreGrowthS2PerM2: 0 };
  const growth = key('growth').quantity('fraction', 0, 0.3, 'from 0 to 30 %');
  const at = key('growthAt').quantity(
    'speed',
    5,
    200,
    'the road speed at which it has grown so much',
  );
  if (tyreRadiusM === null || growth === null || at === null) return null;
  return { tyreRadiusM, tyreGrowthS2PerM2: growth / (at * at) };
}

function drivelineOf(
  driveline: Written,
  gears: number,
  assumed: string[],
): Pick<Vehicle, 'efficiency' | 'dragTorqueNm'> | null {
  const all = (loss: number) => Array.from({ length: gears }, () => 1 - loss);
  const usual = () => {
    assumed.push(
      'The losses of the driveline are not said: 6 % was taken (common practice, no source).',
    );
    return all(USUAL.loss);
  };
  if (driveline.isMissing) return { efficiency: usual(), dragTorqueNm: 0 };
  const key = driveline.object(['loss', 'lossByGear', 'drag']);
  if (key === null) return null;
  const part = (w: Written) => w.quantity('fraction', 0, 0.6, 'from 0 to 60 %');
  let losses: readonly (number | null)[] | null;
  if (!key('lossByGear').isMissing) {
    const list = key('lossByGear').list(gears, gears, 'losses, one a gear');
    losses = list === null ? null : list.map((w) => part(w));
  } else if (key('loss').isMissing) losses = usual().map((efficiency) => 1 - efficiency);
  else {
    const loss = part(key('loss'));
    losses = loss === null ? null : all(loss).map((efficiency) => 1 - efficiency);
  }
  const dragTorqueNm = key('drag').isMissing
    ? 0
    : key('drag').quantity('torque', 0, 1000, 'at the axle, from 0 to 1000 N·m');
  if (losses === null || losses.includes(null) || dragTorqueNm === null) return null;
  return { efficiency: losses.map((loss) => 1 - loss!), dragTorqueNm };
}

const rpmOf = (w: Written) => w.quantity('rotationalSpeed', 100, 30_000, 'from 100 to 30000 rpm');

function couplingOf(
  clutch: Written,
  converter: Written,
  file: Written,
  assumed: string[],
): Clutch | Converter | null {
  if (clutch.isMissing === converter.isMissing)
    return file.wrong('either a clutch or a converter, as "clutch" or "converter"');
  if (!clutch.isMissing) {
    const key = clutch.object(['launchSpeed', 'capacity']);
    if (key === null) return null;
    const launchRpm = rpmOf(key('launchSpeed'));
    const capacityNm = key('capacity').isMissing
      ? undefined
      : key('capacity').quantity('torque', 1, 1e5, 'from 1 to 100000 N·m');
    if (launchRpm === null || capacityNm === null) return null;
    return { kind: 'clutch', launchRpm, capacityNm: capacityNm ?? null };
  }
  const key = converter.object(['stallSpeed', 'stallTorque', 'launchSpeed', 'curve']);
  if (key === null) return null;
  const stallRpm = rpmOf(key('stallSpeed'));
  const stallTorqueNm = key('stallTorque').quantity(
    'torque',
    1,
    1e5,
    'the torque with which it stalls at that speed',
  );
  const launchRpm = key('launchSpeed').isMissing ? undefined : rpmOf(key('launchSpeed'));
  const curve = key('curve').isMissing ? USUAL_CONVERTER : curveOf(key('curve'));
  if (curve === USUAL_CONVERTER)
    assumed.push(
      'The converter’s curve is not said: a usual one was taken, doubling torque at stall.',
    );
  if (stallRpm === null || stallTorqueNm === null || launchRpm === null || curve === null)
    return null;
  return { kind: 'converter', stallRpm, stallTorqueNm, curve, launchRpm: launchRpm ?? null };
}

function curveOf(curve: Written): Converter['curve'] | null {
  const rows = curve.list(2, 60, 'points');
  if (rows === null) return null;
  const points = rows.map((row) => {
    const key = row.object(['speedRatio', 'torqueRatio', 'capacity']);
    if (key === null) return null;
    const speedRatio = key('speedRatio').number(0, 1, 'turbine over pump');
    const torqueRatio = key('torqueRatio').number(0.5, 5, 'turbine torque over pump torque');
    const capacity = key('capacity').number(0, 3, 'a part of the capacity at stall');
    if (speedRatio === null || torqueRatio === null || capacity === null) return null;
    return { speedRatio, torqueRatio, capacity };
  });
  const read = points.filter((point) => point !== null);
  if (read.length < rows.length) return null;
  const rises = read.every((point, i) => i === 0 || point.speedRatio > read[i - 1]!.speedRatio);
  if (!rises || read[0]!.speedRatio !== 0 || read[0]!.capacity !== 1)
    return curve.wrong('speed ratios that rise from 0, with a capacity of 1 there');
  const last = read.at(-1)!;
  if (last.speedRatio !== 1 || last.capacity !== 0)
    return curve.wrong(
      'a last point at speed ratio 1 with a capacity of 0: nothing is carried without slip',
    );
  return read;
}

function tractionOf(traction: Written): Traction | undefined {
  const key = traction.object([
    'coefficient',
    'driven',
    'drivenShare',
    'centreHeight',
    'wheelbase',
  ]);
  if (key === null) return undefined;
  const coefficient = key('coefficient').number(0.02, 6, 'force over load');
  const driven = key('driven').oneOf(['rear', 'front', 'all']);
  if (driven === 'all' && coefficient !== null)
    return { coefficient, driven, drivenShare: 1, centreHeightM: 0, wheelbaseM: 1 };
  const drivenShare = key('drivenShare').quantity(
    'fraction',
    0.05,
    1,
    'weight on the driven wheels, from 5 to 100 %',
  );
  const centreHeightM = key('centreHeight').quantity(
    'length',
    0,
    3,
    'of the centre of mass, from 0 to 3 m',
  );
  const wheelbaseM = key('wheelbase').quantity('length', 0.5, 12, 'from 0.5 to 12 m');
  if (
    coefficient === null ||
    driven === null ||
    drivenShare === null ||
    centreHeightM === null ||
    wheelbaseM === null
  )
    return undefined;
  return { coefficient, driven, drivenShare, centreHeightM, wheelbaseM };
}

function shiftOf(shift: Written, gears: number, assumed: string[]): Shift | null {
  const usual = () => {
    assumed.push('The time of a shift is not said: 0.3 s without drive was taken.');
    return USUAL.shiftTimeS;
  };
  if (shift.isMissing) return { speedsRpm: null, timeS: gears > 1 ? usual() : 0, limitRpm: null };
  const key = shift.object(['speeds', 'time', 'limit']);
  if (key === null) return null;
  const timeS = key('time').isMissing
    ? gears > 1
      ? usual()
      : 0
    : key('time').quantity('time', 0, 5, 'from 0 to 5 s');
  const limitRpm = key('limit').isMissing ? undefined : rpmOf(key('limit'));
  let speedsRpm: readonly (number | null)[] | null = null;
  if (!key('speeds').isMissing) {
    const one = typeof key('speeds').value === 'string';
    const list = one ? null : key('speeds').list(gears - 1, gears - 1, 'shift speeds, one a shift');
    if (!one && list === null) return null;
    speedsRpm = one
      ? Array.from({ length: gears - 1 }, () => rpmOf(key('speeds')))
      : list!.map((w) => rpmOf(w));
    if (speedsRpm.includes(null)) return null;
  }
  if (timeS === null || limitRpm === null) return null;
  return { speedsRpm: speedsRpm as readonly number[] | null, timeS, limitRpm: limitRpm ?? null };
}
