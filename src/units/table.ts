import {
  FT_M,
  G0,
  GAL_IMP_M3,
  GAL_US_M3,
  IN_M,
  LB_KG,
  LBF_N,
  MERCURY_KG_M3,
  type UnitRow,
  unit,
  WATER_KG_M3,
} from './definitions.ts';
import { SIMPLE_UNITS } from './simpleUnits.ts';
import type { Dimension } from './types.ts';

export type { UnitRow } from './definitions.ts';

const MASSES: readonly (readonly [string, number, readonly string[]])[] = [
  ['lb', LB_KG, ['lbs', 'lbm', 'pound', 'pounds', '#']],
  ['kg', 1, ['kgs', 'kilogram', 'kilograms']],
  ['g', 1e-3, ['gram', 'grams', 'gm']],
];
const VOLUMES: readonly (readonly [string, number, string, readonly string[]])[] = [
  ['L', 1e-3, '1 L = 1 dm³', ['liter', 'litre', 'liters', 'litres', 'ltr']],
  ['cm³', 1e-6, 'SI', ['cc', 'ccm', 'cm3', 'mL', 'ccs']],
  ['m³', 1, 'SI', ['m3', 'cubic metre', 'cubic meter']],
  [
    'in³',
    IN_M ** 3,
    '1 in = 0.0254 m',
    ['in3', 'ci', 'cid', 'cu in', 'cuin', 'cubic inch', 'cubic inches', 'inch3'],
  ],
  ['ft³', FT_M ** 3, '1 ft = 0.3048 m', ['ft3', 'cu ft', 'cubic feet', 'cubic foot', 'cf']],
  [
    'gal',
    GAL_US_M3,
    'US liquid gallon, 231 in³',
    ['gallon', 'gallons', 'us gal', 'gal us', 'us gallon'],
  ],
  ['imp gal', GAL_IMP_M3, '4.54609 L', ['imperial gallon', 'uk gal', 'gal imp', 'gal uk']],
];
const PER_TIMES: readonly (readonly [string, number, readonly string[]])[] = [
  ['h', 3600, ['hr', 'hrs', 'hour', 'hours']],
  ['min', 60, ['minute', 'mn']],
  ['s', 1, ['sec', 'second']],
];

/** `lb/h` and its sisters, with every spelling of both halves. */
function perTime(
  dimension: Dimension,
  numerator: readonly [string, number, readonly string[]],
  extra: Readonly<Record<string, readonly string[]>>,
): UnitRow[] {
  const [symbol, factor, spellings] = numerator;
  return PER_TIMES.map(([time, seconds, timeSpellings]) => {
    const name = `${symbol}/${time}`;
    const all = [symbol, ...spellings].flatMap((top) =>
      [time, ...timeSpellings].map((bottom) => `${top}/${bottom}`),
    );
    return unit(dimension, name, factor / seconds, `${symbol} per ${time}`, [
      ...all.filter((spelling) => spelling !== name),
      ...(extra[name] ?? []),
    ]);
  });
}

const PRESSURES: readonly (readonly [string, number, string, readonly string[]])[] = [
  ['Pa', 1, 'SI', ['pascal', 'pascals', 'N/m2']],
  ['kPa', 1e3, 'SI', ['kilopascal', 'kilopascals']],
  ['hPa', 100, 'SI', ['hectopascal']],
  ['mbar', 100, '1 bar = 1e5 Pa', ['mb', 'millibar', 'millibars']],
  ['bar', 1e5, '1 bar = 1e5 Pa', ['bars']],
  ['MPa', 1e6, 'SI', ['megapascal']],
  [
    'psi',
    LBF_N / IN_M ** 2,
    'lbf/in²',
    ['lbf/in2', 'lb/in2', 'lbs/in2', 'lb/sq in', 'lbs/sq in', 'pounds per square inch'],
  ],
  [
    'inHg',
    MERCURY_KG_M3 * G0 * IN_M,
    'conventional mercury, 13595.1 kg/m³ × g0 × 1 in',
    ['in Hg', '"Hg', 'inches Hg', 'inch Hg', 'ins Hg', 'inches of mercury', 'Hg in'],
  ],
  [
    'mmHg',
    MERCURY_KG_M3 * G0 * 1e-3,
    'conventional mercury, 13595.1 kg/m³ × g0 × 1 mm',
    ['mm Hg', 'mm of mercury'],
  ],
  ['torr', 101325 / 760, '101325/760 Pa', []],
  [
    'inH2O',
    WATER_KG_M3 * G0 * IN_M,
    'conventional water, 1000 kg/m³ × g0 × 1 in',
    ['"H2O', 'inches H2O', 'inch H2O', 'inWC', 'inWG', 'in of water', 'inches of water'],
  ],
  [
    'mmH2O',
    WATER_KG_M3 * G0 * 1e-3,
    'conventional water, 1000 kg/m³ × g0 × 1 mm',
    ['mmWC', 'mmWG'],
  ],
  ['kgf/cm²', G0 / 1e-4, 'kilogram-force, g0', ['kgf/cm2', 'kg/cm2', 'kp/cm2']],
  ['atm', 101325, 'standard atmosphere', ['atmosphere', 'atmospheres']],
];
const GAUGE = ['g', 'gauge', 'gage', 'ga', 'rel', 'relative'];
const ABSOLUTE = ['a', 'abs', 'absolute'];

/** The plain unit, and the two whose spelling says against what the pressure is measured. */
function pressureRows([symbol, factor, source, spellings]: (typeof PRESSURES)[number]): UnitRow[] {
  const stems = [symbol, ...spellings];
  const joined = symbol === 'psi' || symbol === 'bar';
  const withSuffix = (suffixes: readonly string[]) =>
    stems.flatMap((stem) => suffixes.map((suffix) => `${stem} ${suffix}`));
  return [
    unit('pressure', symbol, factor, source, spellings),
    {
      ...unit(
        'pressure',
        joined ? `${symbol}g` : `${symbol} gauge`,
        factor,
        source,
        withSuffix(GAUGE),
      ),
      pressureReference: 'gauge',
    },
    {
      ...unit(
        'pressure',
        joined ? `${symbol}a` : `${symbol} abs`,
        factor,
        source,
        withSuffix(ABSOLUTE),
      ),
      pressureReference: 'absolute',
    },
  ];
}

/** Every unit known, each factor exact from its definition. */
export const UNITS: readonly UnitRow[] = [
  ...SIMPLE_UNITS,
  ...MASSES.map(([symbol, factor, spellings]) =>
    unit('mass', symbol, factor, symbol === 'lb' ? 'international pound' : 'SI', spellings),
  ),
  ...MASSES.flatMap((mass) =>
    perTime('massFlow', mass, {
      'lb/h': ['pph', 'lb per hour', 'lbs per hour'],
    }),
  ),
  ...VOLUMES.map(([symbol, factor, source, spellings]) =>
    unit('volume', symbol, factor, source, spellings),
  ),
  ...VOLUMES.flatMap(([symbol, factor, , spellings]) =>
    perTime('volumeFlow', [symbol, factor, spellings], {
      'gal/h': ['gph', 'us gph'],
      'gal/min': ['gpm'],
      'L/h': ['lph'],
      'L/min': ['lpm'],
      'ft³/min': ['cfm', 'acfm'],
      'ft³/h': ['cfh'],
    }),
  ),
  ...PRESSURES.flatMap(pressureRows),
];
