import { readVehicle, USUAL_CONVERTER } from '../../src/compare/index.ts';
import {
  type DisplayKind,
  formatQuantity,
  quantityText,
  readNumber,
  type UnitSystem,
} from '../../src/units/index.ts';
import type { Field, Values } from '../form/fields.ts';
import { rowsOf, textOfRows } from '../form/table-text.ts';

/** A vehicle as its file has it. */
export type WrittenVehicle = Readonly<Record<string, unknown>>;

interface VehicleField extends Field {
  /** Where it stands in the file: `tyre.radius`. */
  readonly path: string;
}

const quantity = (
  path: string,
  label: string,
  shown: DisplayKind,
  dimension: NonNullable<Field['dimension']>,
  more: Partial<VehicleField> = {},
): VehicleField => ({ key: path, path, label, kind: 'quantity', shown, dimension, ...more });
const part = (path: string, label: string, more: Partial<VehicleField> = {}): VehicleField => ({
  key: path,
  path,
  label,
  kind: 'percent',
  ...more,
});

const CONVERTER = { key: 'coupling', is: 'converter' } as const;

const curveText = (curve: typeof USUAL_CONVERTER): string =>
  textOfRows(
    curve.map(({ speedRatio, torqueRatio, capacity }) =>
      [speedRatio, torqueRatio, capacity].map(String),
    ),
  );

/** All that a form asks of a vehicle, in the order of a person's knowing it. */
export const VEHICLE_FIELDS: readonly VehicleField[] = [
  { key: 'name', path: 'name', label: 'Name', kind: 'text', required: true },
  quantity('mass', 'Mass, all that moves', 'vehicleMass', 'mass', {
    required: true,
    hint: 'With driver, fuel and load.',
  }),
  {
    key: 'gears',
    path: 'gears',
    label: 'Gear ratios',
    kind: 'text',
    required: true,
    hint: 'First gear first: 2.97 2.07 1.43 1.00',
  },
  { key: 'finalDrive', path: 'finalDrive', label: 'Final drive', kind: 'number', required: true },
  quantity('tyre.radius', 'Rolling radius of the driven tyre', 'length', 'length', {
    required: true,
  }),
  part('tyre.growth', 'Tyre growth', { hint: 'Empty: none.' }),
  quantity('tyre.growthAt', 'Tyre growth at', 'roadSpeed', 'speed'),
  quantity('dragArea', 'Drag coefficient times frontal area', 'dragArea', 'area', {
    required: true,
  }),
  part('rollingResistance', 'Rolling resistance', { hint: 'Part of the weight. Empty: 1.3 %.' }),
  part('driveline.loss', 'Loss in the driveline', { hint: 'Empty: 6 %.' }),
  {
    key: 'coupling',
    path: '',
    label: 'Clutch or converter',
    kind: 'choice',
    choices: [
      { value: 'clutch', label: 'clutch' },
      { value: 'converter', label: 'torque converter' },
    ],
  },
  quantity('launchSpeed', 'Launch speed of the engine', 'speed', 'rotationalSpeed', {
    hint: 'A clutch is slipped at it; a converter needs none.',
  }),
  quantity('converter.stallSpeed', 'Converter stalls at', 'speed', 'rotationalSpeed', {
    only: CONVERTER,
  }),
  quantity('converter.stallTorque', 'with a torque of', 'torque', 'torque', { only: CONVERTER }),
  {
    key: 'converter.curve',
    path: 'converter.curve',
    label: 'Converter by speed ratio',
    kind: 'table',
    only: CONVERTER,
    columns: ['Speed ratio', 'Torque ratio', 'Capacity'],
    offer: { label: 'Fill in the usual shape', text: curveText(USUAL_CONVERTER) },
    hint: 'Turbine over pump, from 0 at stall to 1; capacity is pump torque over its speed squared, as a part of that at stall, so it falls from 1 to 0. Empty: the usual shape.',
  },
  {
    key: 'traction.coefficient',
    path: 'traction.coefficient',
    label: 'Grip: force over load',
    kind: 'number',
    hint: 'Empty: nothing limits the force.',
  },
  {
    key: 'traction.driven',
    path: 'traction.driven',
    label: 'Driven wheels',
    kind: 'choice',
    choices: ['rear', 'front', 'all'].map((value) => ({ value, label: value })),
  },
  part('traction.drivenShare', 'Weight on the driven wheels at rest'),
  quantity('traction.centreHeight', 'Height of the centre of mass', 'length', 'length'),
  quantity('traction.wheelbase', 'Wheelbase', 'length', 'length'),
  quantity('shift.time', 'Time of a shift without drive', 'time', 'time', {
    hint: 'Empty: 0.3 s.',
  }),
  quantity('shift.limit', 'Highest engine speed', 'speed', 'rotationalSpeed', {
    hint: 'Empty: as far as was swept.',
  }),
  {
    key: 'shift.speeds',
    path: 'shift.speeds',
    label: 'Shift speeds, rpm',
    kind: 'text',
    nullable: true,
    hint: 'One, or one a shift. Empty: the best.',
  },
  quantity('engineInertia', 'Inertia of engine, flywheel, clutch', 'inertia', 'inertia'),
  quantity('wheelInertia', 'Inertia of all wheels', 'inertia', 'inertia'),
  quantity('airDensity', 'Air density', 'density', 'density', { hint: 'For drag only.' }),
  part('grade', 'Grade', { hint: 'Uphill is more than 0.' }),
  quantity('rollout', 'Roll before the clock starts', 'distance', 'length', {
    hint: 'A strip’s: about a foot.',
  }),
];

const at = (written: WrittenVehicle, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>(
      (value, key) =>
        typeof value === 'object' && value !== null
          ? (value as Record<string, unknown>)[key]
          : undefined,
      written,
    );

/** What stands in the form for a written vehicle, inside values where fields are quantities. */
export function vehicleValues(written: WrittenVehicle): Values {
  const read = readVehicle(written);
  if ('problems' in read) return { name: written.name };
  const { vehicle } = read.value;
  const { coupling, traction, shift } = vehicle;
  const said = (path: string, value: unknown) =>
    at(written, path) === undefined ? undefined : value;
  const isConverter = coupling.kind === 'converter';
  return {
    name: vehicle.name,
    mass: vehicle.massKg,
    gears: vehicle.gears.join(' '),
    finalDrive: vehicle.finalDrive,
    'tyre.radius': vehicle.tyreRadiusM,
    'tyre.growth': said('tyre.growth', percentIn(at(written, 'tyre.growth'))),
    'tyre.growthAt':
      vehicle.tyreGrowthS2PerM2 > 0
        ? Math.sqrt(percentIn(at(written, 'tyre.growth'))! / vehicle.tyreGrowthS2PerM2)
        : undefined,
    dragArea: vehicle.dragAreaM2,
    rollingResistance: said('rollingResistance', vehicle.rollingResistance),
    'driveline.loss': said('driveline.loss', 1 - vehicle.efficiency[0]!),
    coupling: coupling.kind,
    launchSpeed: coupling.launchRpm ?? undefined,
    'converter.stallSpeed': isConverter ? coupling.stallRpm : undefined,
    'converter.stallTorque': isConverter ? coupling.stallTorqueNm : undefined,
    'converter.curve': isConverter ? said('converter.curve', curveText(coupling.curve)) : undefined,
    'traction.coefficient': traction?.coefficient,
    'traction.driven': traction?.driven ?? 'rear',
    'traction.drivenShare': said('traction.drivenShare', traction?.drivenShare),
    'traction.centreHeight': said('traction.centreHeight', traction?.centreHeightM),
    'traction.wheelbase': said('traction.wheelbase', traction?.wheelbaseM),
    'shift.time': said('shift.time', shift.timeS),
    'shift.limit': shift.limitRpm ?? undefined,
    'shift.speeds': shift.speedsRpm === null ? '' : [...new Set(shift.speedsRpm)].join(' '),
    engineInertia: said('engineInertia', vehicle.engineInertiaKgM2),
    wheelInertia: said('wheelInertia', vehicle.wheelInertiaKgM2),
    airDensity: said('airDensity', vehicle.airDensityKgPerM3),
    grade: said('grade', vehicle.grade),
    rollout: said('rollout', vehicle.rolloutM),
  };
}

/** `2 %` as 0.02. */
const percentIn = (value: unknown): number | undefined =>
  typeof value === 'string' ? Number.parseFloat(value) / 100 : undefined;

/** A new vehicle's form: what must be chosen anyway. */
export const NEW_VEHICLE: Values = { coupling: 'clutch', 'traction.driven': 'rear' };

/**
 * The file of a vehicle after a form: what was not touched keeps its text, the rest is written in the units of the
 * person who typed it.
 */
export function vehicleFrom(
  before: WrittenVehicle,
  patch: Values,
  units: UnitSystem,
): WrittenVehicle {
  const out: Record<string, unknown> = JSON.parse(
    JSON.stringify({ ...before, format: 'vehicle/1' }),
  );
  const kind =
    (patch.coupling as string | undefined) ??
    (out.converter === undefined ? 'clutch' : 'converter');
  const launch = at(out, kind === 'clutch' ? 'clutch.launchSpeed' : 'converter.launchSpeed');
  if (kind === 'clutch') delete out.converter;
  else delete out.clutch;
  if (launch !== undefined) put(out, `${kind}.launchSpeed`, launch);
  for (const field of VEHICLE_FIELDS) {
    if (!(field.key in patch) || field.key === 'coupling') continue;
    const value = patch[field.key];
    const path = field.key === 'launchSpeed' ? `${kind}.launchSpeed` : field.path;
    if (path.startsWith('converter.') && kind === 'clutch') continue;
    put(out, path, writtenOf(field, value, units));
  }
  if (out.traction !== undefined && at(out, 'traction.coefficient') === undefined)
    delete out.traction;
  return out;
}

function writtenOf(field: VehicleField, value: unknown, units: UnitSystem): unknown {
  if (value === null || value === undefined || value === '') return undefined;
  if (field.key === 'converter.curve') return curveIn(String(value));
  if (field.key === 'gears') return numbersIn(String(value));
  if (field.key === 'shift.speeds') {
    const speeds = numbersIn(String(value)).map((speed) => `${speed} rpm`);
    return speeds.length === 1 ? speeds[0] : speeds;
  }
  if (field.kind === 'quantity' && typeof value === 'number')
    return trimmed(quantityText(value, field.shown!, units, { decimals: 4 }));
  if (field.kind === 'percent' && typeof value === 'number')
    return `${Number((100 * value).toFixed(4))} %`;
  return value;
}

/** Rows of a converter's curve; what is no number stays as it is, to be refused by name. */
const curveIn = (text: string) =>
  rowsOf(text).map(([speedRatio = '', torqueRatio = '', capacity = '']) =>
    Object.fromEntries(
      Object.entries({ speedRatio, torqueRatio, capacity })
        .filter(([, cell]) => cell !== '')
        .map(([key, cell]) => [key, readNumber(cell) ?? cell]),
    ),
  );

/** `2.97 2.07 1.43`, with spaces, semicolons or commas between; what is no number stays as it is, to be refused by name. */
const numbersIn = (text: string): (number | string)[] =>
  text
    .split(/[;\s]+|,\s+/)
    .filter((one) => one !== '')
    .map((one) => readNumber(one) ?? one);

/** `3500.0000 lb` → `3500 lb`. */
const trimmed = (text: string): string =>
  text.replace(/(\.\d*?)0+(?= |$)/, '$1').replace(/\.(?= |$)/, '');

function put(out: Record<string, unknown>, path: string, value: unknown): void {
  const keys = path.split('.');
  const last = keys.pop()!;
  let place = out;
  for (const key of keys) {
    const next = place[key];
    place[key] = typeof next === 'object' && next !== null ? next : {};
    place = place[key] as Record<string, unknown>;
  }
  if (value === undefined) delete place[last];
  else place[last] = value;
}

/** One line on a vehicle: `1180 kg, 5 gears, final drive 3.90, clutch`. */
export function vehicleWords(written: WrittenVehicle, units: UnitSystem): string {
  const read = readVehicle(written);
  if ('problems' in read) return 'cannot be read any more';
  const { massKg, gears, finalDrive, coupling } = read.value.vehicle;
  const { text, unit } = formatQuantity(massKg, 'vehicleMass', units);
  return `${text} ${unit}, ${gears.length} ${gears.length === 1 ? 'gear' : 'gears'}, final drive ${finalDrive}, ${coupling.kind}`;
}
