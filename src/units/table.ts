import type { Dimension, Unit } from './types.ts';

/** A unit and the ways people and loggers spell it (case, spaces, dots and dashes do not matter). */
export interface UnitRow extends Unit {
  readonly spellings: readonly string[];
}

/* Definitions. Everything below is derived from these, nothing is rounded. */
const LB_KG = 0.45359237; // international pound, 1959
const FT_M = 0.3048; // international foot, 1959
const IN_M = FT_M / 12;
const G0 = 9.80665; // standard gravity, 3rd CGPM 1901
const GAL_US_M3 = 231 * IN_M ** 3; // US liquid gallon, 231 cubic inches
const GAL_IMP_M3 = 4.54609e-3; // imperial gallon, UK Units of Measurement Regulations 1995
const LBF_N = LB_KG * G0;
const MERCURY_KG_M3 = 13595.1; // conventional density of mercury (0 °C)
const WATER_KG_M3 = 1000; // conventional density of water (4 °C)
const HP_W = 550 * FT_M * LBF_N; // mechanical horsepower, 550 ft·lbf/s
const PS_W = 75 * G0; // metric horsepower, 75 kgf·m/s

function unit(
  dimension: Dimension,
  symbol: string,
  factor: number,
  source: string,
  spellings: readonly string[] = [],
  offset = 0,
): UnitRow {
  return { symbol, dimension, factor, offset, source, spellings };
}

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

const OTHERS: readonly UnitRow[] = [
  unit('time', 's', 1, 'SI', ['sec', 'secs', 'second', 'seconds']),
  unit('time', 'ms', 1e-3, 'SI', ['msec', 'msecs', 'millisecond', 'milliseconds', 'milli s']),
  unit('time', 'µs', 1e-6, 'SI', ['us', 'usec', 'microsecond', 'microseconds']),
  unit('time', 'min', 60, '60 s', ['mins', 'minute', 'minutes']),
  unit('time', 'h', 3600, '3600 s', ['hr', 'hrs', 'hour', 'hours']),

  unit('rotationalSpeed', 'rpm', 1, 'the base', [
    'rev/min',
    'revs/min',
    '1/min',
    '/min',
    'min^-1',
    'r/min',
    'U/min',
    'tr/min',
    'revolutions per minute',
    'rpms',
    'turns/min',
    'revs per minute',
    'engine rpm',
  ]),
  unit('rotationalSpeed', 'krpm', 1000, '1000 rev/min', [
    'rpm x1000',
    'x1000 rpm',
    '1000 rpm',
    'rpm/1000',
    'rpm*1000',
    '1000/min',
  ]),
  unit('rotationalSpeed', 'rev/s', 60, '60 rev/min', [
    'rps',
    'revs/s',
    'rev/sec',
    'r/s',
    'revs per second',
  ]),
  unit('rotationalSpeed', 'Hz', 60, '1/s, taken as rev/s', ['hertz', '1/s', 's^-1', '/s']),
  unit('rotationalSpeed', 'rad/s', 60 / (2 * Math.PI), '2π rad a turn', [
    'rad/sec',
    'radians per second',
  ]),

  unit('torque', 'N·m', 1, 'SI', [
    'Nm',
    'newton metre',
    'newton meter',
    'newton metres',
    'newton meters',
  ]),
  unit('torque', 'kN·m', 1e3, 'SI', ['kNm']),
  unit('torque', 'daN·m', 10, 'SI', ['daNm', 'mdaN']),
  unit('torque', 'lb-ft', LBF_N * FT_M, 'lbf × ft', [
    'lbft',
    'lbf-ft',
    'lbs-ft',
    'ft-lb',
    'ft-lbs',
    'ft-lbf',
    'foot pound',
    'foot pounds',
    'pound feet',
    'pound foot',
    'pounds feet',
    'lb feet',
    'lbs feet',
    'foot lb',
    'foot lbs',
    'lb foot',
    'ftlbsf',
    'lbfft',
    '#ft',
    // Wrong, but written so by many: nothing else has these spellings.
    'ft/lb',
    'ft/lbs',
    'lb/ft',
    'lbs/ft',
    'ft#',
  ]),
  unit('torque', 'lb-in', LBF_N * IN_M, 'lbf × in', [
    'lbf-in',
    'lbs-in',
    'in-lb',
    'in-lbs',
    'in-lbf',
    'inch pound',
    'inch pounds',
    'pound inch',
    'lb inch',
  ]),
  unit('torque', 'kgf·m', G0, 'kilogram-force × m, g0', [
    'kgm',
    'kg-m',
    'kp-m',
    'mkg',
    'mkp',
    'mkgf',
    'kilogram metre',
  ]),
  unit('torque', 'kgf·cm', G0 / 100, 'kilogram-force × cm, g0', ['kgcm', 'kpcm', 'cmkg']),

  unit('power', 'W', 1, 'SI', ['watt', 'watts']),
  unit('power', 'kW', 1e3, 'SI', ['kilowatt', 'kilowatts']),
  unit('power', 'hp', HP_W, 'mechanical horsepower, 550 ft·lbf/s', [
    'bhp',
    'horsepower',
    'horse power',
    'brake horsepower',
    'mechanical hp',
    'hp mech',
  ]),
  unit('power', 'PS', PS_W, 'metric horsepower, 75 kgf·m/s', [
    'cv',
    'ch',
    'pk',
    'hk',
    'metric hp',
    'hp metric',
    'metric horsepower',
  ]),

  unit('temperature', 'K', 1, 'SI', ['kelvin', 'deg K']),
  unit(
    'temperature',
    '°C',
    1,
    't/°C = T/K − 273.15',
    [
      'C',
      'deg C',
      'C°',
      'degree C',
      'degrees C',
      'celsius',
      'degrees celsius',
      'deg celsius',
      'oC',
    ],
    273.15,
  ),
  unit(
    'temperature',
    '°F',
    5 / 9,
    't/°F = 1.8 T/K − 459.67',
    [
      'F',
      'deg F',
      'F°',
      'degree F',
      'degrees F',
      'fahrenheit',
      'degrees fahrenheit',
      'deg fahrenheit',
      'oF',
    ],
    (459.67 * 5) / 9,
  ),
  unit('temperature', '°R', 5 / 9, 'Rankine', ['deg R', 'rankine']),

  unit('fraction', '1', 1, 'a plain ratio', ['ratio', 'dimensionless', 'none', 'unitless']),
  unit('fraction', 'λ', 1, 'a plain ratio', ['lambda', 'lam', 'lambda ratio']),
  unit('fraction', 'AFR', 1, 'mass of air to mass of fuel', [
    'A/F',
    ':1',
    'air/fuel',
    'air fuel ratio',
    'afr:1',
    'kg/kg',
    'lb/lb',
  ]),
  unit('fraction', '%', 0.01, '1/100', [
    'percent',
    'pct',
    'per cent',
    '%RH',
    'RH%',
    'RH',
    '% rel',
    '% r.h.',
    'percent rh',
  ]),
  unit('fraction', 'ppm', 1e-6, '1e-6'),

  unit('angle', 'deg', 1, 'the base', [
    '°',
    'degree',
    'degrees',
    'degs',
    '°BTDC',
    'deg BTDC',
    'degrees BTDC',
    'BTDC',
    '°CA',
    'deg CA',
    'CA deg',
    '°CA BTDC',
    'deg CA BTDC',
    '°KW',
    'crank deg',
    'crank degrees',
    'deg crank',
    'CAD',
    '° v. OT',
    'deg b.t.d.c.',
    'degb',
    'dbtdc',
  ]),
  unit('angle', 'rad', 180 / Math.PI, '180/π', ['radian', 'radians']),

  unit('inertia', 'kg·m²', 1, 'SI', ['kgm2', 'kg m^2', 'kg-m2', 'kilogram square metre']),
  unit('inertia', 'kg·cm²', 1e-4, 'SI', ['kgcm2']),
  unit('inertia', 'g·cm²', 1e-7, 'SI', ['gcm2']),
  unit('inertia', 'lb·ft²', LB_KG * FT_M ** 2, 'lb × ft²', [
    'lb-ft2',
    'lbm-ft2',
    'lbs ft2',
    'lb ft sq',
    'ft2 lb',
  ]),
  unit('inertia', 'lb·in²', LB_KG * IN_M ** 2, 'lb × in²', ['lb-in2', 'lbm-in2', 'lbs in2']),
  unit('inertia', 'slug·ft²', LBF_N * FT_M, 'lbf·ft·s²', [
    'slug-ft2',
    'lbf-ft-s2',
    'ft-lbf-s2',
    'lb-ft-s2',
    'ft-lb-s2',
  ]),

  unit('length', 'mm', 1e-3, 'SI', ['millimetre', 'millimeter', 'millimetres', 'millimeters']),
  unit('length', 'cm', 1e-2, 'SI', ['centimetre', 'centimeter']),
  unit('length', 'm', 1, 'SI', ['metre', 'meter', 'metres', 'meters']),
  unit('length', 'in', IN_M, '1 in = 0.0254 m', ['inch', 'inches', '"']),
  unit('length', 'ft', FT_M, '1 ft = 0.3048 m', ['foot', 'feet']),
  unit('length', 'thou', IN_M / 1000, '1/1000 in', ['mil', 'mils']),

  unit('mass', 'oz', LB_KG / 16, '1/16 lb', ['ounce', 'ounces']),

  unit('density', 'kg/m³', 1, 'SI', ['kg/m3']),
  unit('density', 'kg/L', 1e3, 'SI', ['g/cm3', 'g/cc', 'g/mL', 'kg/dm3']),
  unit('density', 'g/L', 1, 'SI'),
  unit('density', 'lb/gal', LB_KG / GAL_US_M3, 'lb per US gallon', ['lbs/gal', 'lb/us gal', 'ppg']),
  unit('density', 'lb/ft³', LB_KG / FT_M ** 3, 'lb per ft³', ['lb/ft3', 'lbs/ft3']),

  unit('specificConsumption', 'kg/J', 1, 'SI'),
  unit('specificConsumption', 'g/kWh', 1e-3 / 3.6e6, 'g per 3.6 MJ', [
    'g/kW-h',
    'g/kW/h',
    'g/kW hr',
    'g/(kW h)',
  ]),
  unit(
    'specificConsumption',
    'lb/hp·h',
    LB_KG / (HP_W * 3600),
    'lb per mechanical horsepower hour',
    [
      'lb/hp-hr',
      'lbs/hp-hr',
      'lb/bhp-hr',
      'lb/(hp h)',
      'lb/hp/h',
      'lbs/hp/hr',
      'lb/hp/hr',
      'lbm/hp-hr',
      'lbs/bhp-hr',
      'lb/bhp-h',
      'lbs/hp-h',
    ],
  ),

  unit('speed', 'm/s', 1, 'SI', ['m/sec']),
  unit('speed', 'km/h', 1 / 3.6, 'SI', ['kph', 'kmh', 'km/hr']),
  unit('speed', 'mph', (5280 * FT_M) / 3600, 'mile of 5280 ft', ['mi/h', 'miles per hour']),
  unit('speed', 'ft/min', FT_M / 60, '1 ft = 0.3048 m', ['fpm', 'feet/min', 'ft per minute']),
  unit('speed', 'ft/s', FT_M, '1 ft = 0.3048 m', ['fps', 'ft/sec']),

  unit('count', 'counts', 1, 'a plain number', ['count', 'cnt', 'cnts', 'events', 'no.', 'number']),
];

/** Every unit known, each factor exact from its definition. */
export const UNITS: readonly UnitRow[] = [
  ...OTHERS,
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
