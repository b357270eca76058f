import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { unitKey } from './find.ts';
import {
  DISPLAY_KINDS,
  type DisplayKind,
  differenceToInside,
  displayUnit,
  findUnit,
  formatQuantity,
  fromInside,
  parseQuantity,
  quantityText,
  readNumber,
  toInside,
  UNITS,
} from './index.ts';

const inside = (value: number, text: string) => toInside(value, findUnit(text)!);

describe('the table of units', () => {
  it('finds every unit by its own symbol and by each spelling', () => {
    for (const row of UNITS)
      for (const spelling of [row.symbol, ...row.spellings])
        expect(findUnit(spelling, row.dimension)?.symbol, `${spelling} (${row.dimension})`).toBe(
          row.symbol,
        );
  });

  it('gives no spelling to two units of one dimension, nor to two dimensions', () => {
    const owners = new Map<string, Set<string>>();
    for (const row of UNITS)
      for (const spelling of [row.symbol, ...row.spellings]) {
        const key = unitKey(spelling);
        owners.set(key, (owners.get(key) ?? new Set()).add(`${row.dimension} ${row.symbol}`));
      }
    expect(
      [...owners].filter(([, set]) => set.size > 1).map(([key, set]) => [key, ...set]),
    ).toEqual([]);
  });

  it('goes there and back again in every unit (identity, 1e-12 relative)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...UNITS),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (unit, value) => {
          const back = fromInside(toInside(value, unit), unit);
          // An offset costs its own rounding: up to 273.15 K and 459.67 °F of cancellation.
          const scale = Math.max(Math.abs(value), Math.abs(unit.offset / unit.factor), 1e-300);
          expect(Math.abs(back - value) / scale).toBeLessThan(1e-12);
        },
      ),
      { seed: 20, numRuns: 500 },
    );
  });

  it('has a source for each row', () => {
    for (const row of UNITS) expect(row.source.length, row.symbol).toBeGreaterThan(1);
  });
});

describe('constants derived from definitions', () => {
  // Definitions: international foot and pound (1959), g0 (CGPM 1901). Expected digits: NIST SP 811 appendix B.8
  // (from memory for the printed digits; each follows from the definitions by hand).
  it.each([
    ['mechanical horsepower', inside(1, 'hp'), 745.69987158, 5e-9],
    ['metric horsepower', inside(1, 'PS'), 735.49875, 1e-9],
    ['pound-foot', inside(1, 'lb-ft'), 1.3558179483, 5e-11],
    ['inch of mercury', inside(1, 'inHg'), 3386.389, 5e-4],
    ['millimetre of mercury', inside(1, 'mmHg'), 133.3224, 5e-5],
    ['psi', inside(1, 'psi'), 6894.757293, 5e-7],
    ['US gallon', inside(1, 'gal'), 3.785411784e-3, 1e-15],
    ['International Table Btu per pound', inside(1, 'Btu/lb'), 2326, 1e-15],
    ['29.92 inHg', inside(29.92, 'inHg'), 101320, 5],
    ['lb/hp-h in g/kWh', fromInside(inside(1, 'lb/hp-h'), findUnit('g/kWh')!), 608.277, 5e-4],
    ['14.7 psi per standard atmosphere', fromInside(101325, findUnit('psi')!), 14.69594878, 5e-9],
    ['32 °F', inside(32, '°F'), 273.15, 1e-9],
    ['77 °F', inside(77, '°F'), 298.15, 1e-9],
    ['212 °F', inside(212, '°F'), 373.15, 1e-9],
    ['-40 °F', inside(-40, '°F'), inside(-40, '°C'), 1e-9],
    ['lb·ft²', inside(1, 'lb-ft²'), 0.0421401101, 5e-11],
  ])('%s', (_name, value, expected, tolerance) => {
    expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance);
  });

  it('hp = lb·ft × rpm / 5252.1131 and kW = N·m × rpm / 9549.2966', () => {
    const turn = (2 * Math.PI) / 60;
    expect(inside(1, 'hp') / (inside(1, 'lb-ft') * turn)).toBeCloseTo(5252.1131, 4);
    expect(inside(1, 'kW') / (inside(1, 'N·m') * turn)).toBeCloseTo(9549.2966, 4);
  });
});

describe('spellings', () => {
  it.each([
    [
      'lb-ft',
      [
        'lb-ft',
        'lbft',
        'ft-lb',
        'ft·lbf',
        'ft.lbs',
        'lb·ft',
        'LB-FT',
        'Ft-Lbs',
        'lb ft',
        '(lb-ft)',
        'ft*lb',
        'ft_lb',
        'ft/lbs',
        'Lb/Ft',
      ],
    ],
    ['N·m', ['Nm', 'N·m', 'N.m', 'N-m', 'N m', '[Nm]', 'NÂ·m', 'N�m', 'N⋅m', 'NM']],
    ['kgf·m', ['kgf·m', 'kgm', 'kg-m', 'kgf m']],
    ['hp', ['hp', 'bhp', 'HP', 'Hp']],
    ['PS', ['PS', 'cv', 'ps']],
    ['kW', ['kW', 'KW', 'kw']],
    ['inHg', ['inHg', '"Hg', 'in Hg', 'in. Hg', 'INHG', '″Hg', "''Hg", 'in-Hg']],
    ['mmHg', ['mmHg', 'mm Hg']],
    ['psig', ['psig', 'PSIG', 'psi g', 'psi(g)', 'psi gauge']],
    ['psia', ['psia', 'psi abs', 'psi (abs)', 'psi(a)']],
    ['kPa gauge', ['kPa(g)', 'kPag', 'kPa g']],
    ['kPa abs', ['kPa abs', 'kPa(a)', 'kPaA']],
    ['bara', ['bara', 'bar abs']],
    ['°F', ['°F', 'F', 'degF', 'deg F', 'Â°F', 'º F', '�F', 'Deg. F']],
    ['°C', ['°C', 'C', 'degC', 'deg C', '℃', 'Â°C', '˚C', 'oC']],
    ['K', ['K', 'kelvin']],
    ['lb/h', ['lb/h', 'lb/hr', 'lbs/hr', 'Lbs/Hr', 'pph', 'lb per hour', '#/hr']],
    ['kg/h', ['kg/h', 'kg/hr']],
    ['g/s', ['g/s', 'g/sec']],
    ['gal/h', ['gal/h', 'gph', 'GPH', 'gal/hr']],
    ['L/h', ['L/h', 'l/h', 'lph', 'L/hr']],
    ['rpm', ['rpm', '1/min', 'min⁻¹', 'rev/min', 'RPM', 'min-1', 'min^-1', 'r/min']],
    ['rev/s', ['rev/s', 'rps']],
    ['Hz', ['Hz', '1/s']],
    ['s', ['s', 'sec', 'Seconds', '(s)']],
    ['ms', ['ms', 'msec']],
    ['%', ['%', 'percent', 'pct', '%RH', '% RH']],
    ['deg', ['deg', '°', '°BTDC', 'deg BTDC', '°CA', 'Â°', '° BTDC', 'degrees']],
    ['kg·m²', ['kg m^2', 'kg·m²', 'kgm2', 'kg m2', 'kg-m^2', 'kgÂ·mÂ²']],
    ['lb·ft²', ['lb-ft²', 'lb ft^2', 'lb-ft2']],
    ['L', ['L', 'l', 'litre']],
    ['cm³', ['cc', 'cm3', 'ccm']],
    ['in³', ['in3', 'ci', 'cid', 'cu in', 'cu. in.', 'in^3']],
    ['counts', ['counts', 'count']],
    ['λ', ['λ', 'lambda', 'Lambda', 'Î»']],
    ['AFR', ['AFR', ':1', 'A/F']],
    ['1', ['-', '[-]', '(-)', '–', '1']],
  ])('%s', (symbol, spellings) => {
    for (const spelling of spellings) expect(findUnit(spelling)?.symbol, spelling).toBe(symbol);
  });

  it('knows gauge from absolute by the spelling only', () => {
    expect(findUnit('psig')?.pressureReference).toBe('gauge');
    expect(findUnit('kPa(a)')?.pressureReference).toBe('absolute');
    expect(findUnit('psi')?.pressureReference).toBeUndefined();
  });

  it('does not guess', () => {
    for (const text of [
      '',
      ' ',
      'furlong',
      'x',
      '??',
      'toString',
      '__proto__',
      'constructor',
      '°ATDC',
    ])
      expect(findUnit(text), text).toBeUndefined();
    expect(findUnit('hp', 'torque')).toBeUndefined();
  });
});

describe('parseQuantity', () => {
  it.each([
    ['0.770 kg m^2', 'inertia', 0.77],
    ['22 deg', 'angle', 22],
    ['-4°', 'angle', -4],
    ['5300 rpm', 'rotationalSpeed', 5300],
    ['5.3e3rpm', 'rotationalSpeed', 5300],
    ['412 hp', 'power', 412 * 745.6998715822702],
    ['5,445 L', 'volume', null],
    ['5,44 L', 'volume', 5.44e-3],
    ['0,770 kg m^2', 'inertia', 0.77],
    ['1.234,5 rpm', 'rotationalSpeed', 1234.5],
    ['1,234.5 rpm', 'rotationalSpeed', 1234.5],
    ['1,234,567 rpm', 'rotationalSpeed', 1234567],
    ['5 300 rpm', 'rotationalSpeed', 5300],
    ['12 1/min', 'rotationalSpeed', 12],
    ['5 300,5 rpm', 'rotationalSpeed', 5300.5],
    ['5,300 rpm', 'rotationalSpeed', null],
    ['12,34.5 rpm', 'rotationalSpeed', null],
  ] as const)('%s', (text, dimension, expected) => {
    if (expected === null) expect(() => parseQuantity(text, dimension)).toThrow(InputError);
    else expect(parseQuantity(text, dimension)).toBeCloseTo(expected, 9);
  });

  it.each([
    ['5300', 'rotationalSpeed', /"5300" has no unit; expected a speed such as "5300 rpm"/],
    ['5300 hp', 'rotationalSpeed', /"hp" is a unit of power/],
    ['5300 wumps', 'rotationalSpeed', /"wumps" is not a unit that is known/],
    ['1e308 bar', 'pressure', /beyond any quantity/],
    ['5,300 rpm', 'rotationalSpeed', /"5,300" cannot be read as one number without doubt/],
    ['fast', 'rotationalSpeed', /does not begin with a number/],
    ['', 'torque', /does not begin with a number/],
    ['14 psig', 'pressure', /gauge pressure where an absolute one is needed/],
  ] as const)('refuses %s and says why', (text, dimension, message) => {
    expect(() => parseQuantity(text, dimension)).toThrow(message);
    try {
      parseQuantity(text, dimension, { name: 'band' });
    } catch (error) {
      expect((error as InputError).message.startsWith('band: ')).toBe(true);
      expect((error as InputError).place.found).toBe(text);
      expect((error as InputError).place.expected).toBeTruthy();
    }
  });

  it('takes a bare number where a unit is assumed', () => {
    expect(parseQuantity('22', 'angle', { assume: findUnit('deg')! })).toBe(22);
  });

  it('reads back what it printed, for any unit and number (property)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...UNITS),
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        (unit, value) => {
          const read = parseQuantity(`${value} ${unit.symbol}`, unit.dimension, {
            allowGauge: true,
          });
          expect(read).toBe(toInside(value === 0 ? 0 : value, unit));
        },
      ),
      { seed: 21, numRuns: 500 },
    );
  });

  it('leaves numbers of two readings alone', () => {
    expect(readNumber('5,300')).toBeUndefined();
    expect(readNumber('1.2.3')).toBeUndefined();
    expect(readNumber('1.234.567')).toBe(1234567);
    expect(readNumber("1'234.5")).toBe(1234.5);
  });
});

describe('what people see', () => {
  it('has a known unit for every kind in both systems', () => {
    for (const kind of Object.keys(DISPLAY_KINDS) as DisplayKind[])
      for (const system of ['us', 'metric'] as const)
        expect(displayUnit(kind, system).symbol, kind).toBe(DISPLAY_KINDS[kind][system][0]);
  });

  it.each([
    [307e3, 'power', 'us', '411.7 hp'],
    [307e3, 'power', 'metric', '307.0 kW'],
    [500, 'torque', 'us', '368.8 lb-ft'],
    [101325, 'barometer', 'us', '29.92 inHg'],
    [298.15, 'temperature', 'us', '77 °F'],
    [5.445e-3, 'displacement', 'us', '332.3 in³'],
    [0.456, 'percent', 'us', '45.6 %'],
    [null, 'torque', 'us', '– lb-ft'],
    [Number.NaN, 'torque', 'metric', '– N·m'],
    [-0.00001, 'torque', 'metric', '0.0 N·m'],
  ] as const)('%s %s %s', (value, kind, system, text) => {
    expect(quantityText(value, kind, system)).toBe(text);
  });

  it('shows differences of temperature without the zero point, and signs on request', () => {
    expect(formatQuantity(10, 'temperature', 'us', { difference: true }).text).toBe('18');
    expect(formatQuantity(1.2, 'torque', 'metric', { signed: true }).text).toBe('+1.2');
    expect(differenceToInside(18, findUnit('°F')!)).toBeCloseTo(10, 12);
  });
});

describe('any text at all', () => {
  const dimensions = [...new Set(UNITS.map(({ dimension }) => dimension))];
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 20 }),
    fc.stringMatching(/^[0-9.,'+ -]{0,8} ?[a-zA-Z°·"/²Â%-]{0,8}$/),
  );

  it('is a unit or is not, and never an accident', () => {
    fc.assert(
      fc.property(text, (spelling) => {
        const unit = findUnit(spelling);
        if (unit !== undefined)
          expect(UNITS.some(({ symbol }) => symbol === unit.symbol)).toBe(true);
      }),
      { seed: 22, numRuns: 2000 },
    );
  });

  it('is a finite quantity or is refused with what was found and expected', () => {
    fc.assert(
      fc.property(text, fc.constantFrom(...dimensions), (spelling, dimension) => {
        try {
          expect(Number.isFinite(parseQuantity(spelling, dimension, { allowGauge: true }))).toBe(
            true,
          );
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
          expect((error as InputError).place).toMatchObject({ found: spelling });
          expect((error as InputError).place.expected).toBeTruthy();
        }
      }),
      { seed: 23, numRuns: 2000 },
    );
  });
});
