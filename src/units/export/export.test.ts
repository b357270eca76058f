import fc from 'fast-check';
import { parquetMetadata, parquetReadObjects } from 'hyparquet';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import { UNITS } from '../table.ts';
import { csvOf, csvText } from './csv.ts';
import { parquetOf } from './parquet.ts';
import { eachOnce, nameFor, shownNumbers } from './shown.ts';
import { type Cell, headOf, type Table, words, yesOrNo } from './table.ts';
import { symbolOfUcum, ucumOfSymbol } from './ucum.ts';
import { cutTo, MOST_LETTERS, sheetName, xlsxOf } from './xlsx.ts';

const COLUMNS = [
  words('note', 'Note'),
  shownNumbers({ title: 'Peak power', unit: 'hp', decimals: 1 }),
  yesOrNo('aborted', 'Aborted'),
];
const tableOf = (rows: readonly (readonly Cell[])[]): Table => ({
  name: 'pulls',
  title: 'Pulls: "a/b" [=1]',
  description: '',
  columns: COLUMNS,
  rows,
});

type Pages = readonly { readonly sheet: string; readonly data: readonly (readonly Cell[])[] }[];
const readBack = async (bytes: Uint8Array): Promise<Pages> =>
  (await readWorkbook(Buffer.from(bytes), { trim: false })) as unknown as Pages;

/** What a workbook holds of a cell: an empty text is an empty cell, and what is no number is not known. */
function held(cell: Cell): Cell {
  if (typeof cell === 'number') return Number.isFinite(cell) ? (cell === 0 ? 0 : cell) : null;
  return typeof cell === 'string' ? cutTo(cell, MOST_LETTERS) || null : cell;
}

const HOSTILE = [
  '=1+1',
  '+1',
  '-1',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  'a\r\nb\nc',
  '\u0000\u0007\u001b[2J\u0085',
  '_x0041_ _x000D_',
  '<b>&"\'</b>]]>',
  '😀👩‍🔧',
  '\ud800 half \udc00',
  '\ud83f\udffe \ufffd \ufffe',
  'שלום \u202e evil',
  ' blanks ',
  'constructor',
  '__proto__',
  'toString',
  'true',
  '1.5',
  '2026-05-17',
  '#REF!',
];
const NUMBERS = [0, -3.2, 0.1 + 0.2, 1e308, 5e-324, 2 ** 53, -1e-7, NaN, Infinity, -Infinity];

describe('a workbook', () => {
  it('gives hostile cells back as they went in, texts as texts and numbers whole', async () => {
    const long = `${'x'.repeat(32_765)}😀${'y'.repeat(8000)}`;
    const texts = [...HOSTILE, 'z'.repeat(40_000), long];
    const rows = texts.map((one, at): Cell[] => [one, NUMBERS[at % NUMBERS.length]!, at % 2 === 0]);
    const [first, about] = await readBack(
      await xlsxOf(tableOf(rows), [['Engine', '=HYPERLINK("x")']]),
    );
    expect(first!.sheet).toBe('Pulls "a b" =1');
    expect(first!.data).toEqual([
      ['Note', 'Peak power, hp', 'Aborted'],
      ...rows.map((row) => row.map(held)),
    ]);
    expect(about!.sheet).toBe('About');
    expect(about!.data).toContainEqual(['Engine', '=HYPERLINK("x")', null, null]);
    expect(about!.data).toContainEqual(['Peak power, hp', 'hp', 'peakPowerHp', null]);
  });

  it('of any cells at all', async () => {
    const letter = fc.oneof(
      fc.constantFrom(...'=+-@\t\r\n\'"<&_x0D', '\u0000', '\ud83d', '\ude00', '\uffff', '😀', 'א'),
      fc.string({ unit: 'binary', minLength: 1, maxLength: 1 }),
    );
    const anyText = fc.array(letter, { maxLength: 12 }).map((letters) => letters.join(''));
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(anyText, fc.double(), fc.boolean()), { minLength: 1, maxLength: 20 }),
        async (rows) => {
          const [first] = await readBack(await xlsxOf(tableOf(rows)));
          expect(first!.data.slice(1)).toEqual(rows.map((row) => row.map(held)));
        },
      ),
      { numRuns: 12, seed: 11 },
    );
  });

  it('has names of sheets within the limits of the format', () => {
    for (const title of [
      '',
      "''",
      '[]:*?/\\',
      'History',
      "'quoted'",
      '😀'.repeat(40),
      '\u0007',
      '\ud800',
    ])
      expect(sheetName(title)).toMatch(/^(?!')(?:(?![[\]/\\:*?\p{Cc}\p{Cs}]).){1,31}(?<!')$/u);
    expect(sheetName('Pull by pull: A/B')).toBe('Pull by pull A B');
  });

  it('says where a table is too long for it', async () => {
    const rows = new Array<Cell[]>(1_048_576).fill([]);
    await expect(xlsxOf(tableOf(rows))).rejects.toThrow(/Take it as CSV or Parquet/);
  });
});

describe('CSV', () => {
  it('keeps numbers numbers and runs no text, in cells and in heads', () => {
    const rows: Cell[][] = [
      [' =1', -3.2, true],
      ['\uff1dx', NaN, null],
      ['a;=1', 1e21, false],
      ['-3.2', 0.30000000000000004, null],
    ];
    expect(csvOf({ ...tableOf(rows), columns: [words('=x', ''), ...COLUMNS.slice(1)] })).toBe(
      "'=x,peakPowerHp,aborted\r\n' =1,-3.2,true\r\n'\uff1dx,,\r\n\"a;=1\",1e+21,false\r\n'-3.2,0.30000000000000004,\r\n",
    );
    expect(csvText([])).toBe('\ufeff');
  });
});

describe('Parquet', () => {
  it('has the unit of each column and what the table is of in its metadata', async () => {
    const bytes = parquetOf(tableOf([['=1', 412.34567, true]]), [['Engine', 'Six']]);
    const file = bytes.buffer as ArrayBuffer;
    expect(await parquetReadObjects({ file })).toEqual([
      { note: '=1', peakPowerHp: 412.34567, aborted: true },
    ]);
    const facts = new Map(
      parquetMetadata(file).key_value_metadata!.map(({ key, value }) => [key, value]),
    );
    expect(facts.get('Engine')).toBe('Six');
    expect(JSON.parse(facts.get('columns')!)[1]).toEqual({
      name: 'peakPowerHp',
      title: 'Peak power',
      unit: '[HP]',
      symbol: 'hp',
    });
  });
});

describe('names and units of columns', () => {
  it('makes names for programs out of heads, each once', () => {
    expect(nameFor('Peak power', 'hp')).toBe('peakPowerHp');
    expect(nameFor('lost at 28°', '%')).toBe('lostAt28DegPercent');
    expect(nameFor('28° to 30°', '%')).toBe('at28DegTo30DegPercent');
    expect(nameFor('BSFC', 'lb/hp·h')).toBe('BSFCLbPerHph');
    expect(nameFor('±', '')).toBe('within');
    const twice = eachOnce([words('a', ''), words('a', ''), words('a2', '')]);
    expect(new Set(twice.map(({ name }) => name)).size).toBe(3);
    expect(headOf(shownNumbers({ title: 'Lambda', unit: '' }))).toBe('Lambda');
  });

  // The worth of UCUM's own atoms in SI (The Unified Code for Units of Measure, tables 1 to 12; from memory). The codes
  // are worked out from them and must come to the factor of our own table, which has its own sources.
  const IN = 0.0254;
  const FT = 12 * IN;
  const LB = 0.45359237;
  const LBF = LB * 9.80665;
  const ATOMS: Readonly<Record<string, number>> = {
    '{rev}': 1, '{count}': 1, deg: 1, '%': 0.01, '1': 1,
    m: 1, mm: 1e-3, cm: 1e-2, km: 1e3, kg: 1, g: 1e-3, s: 1, h: 3600, min: 60, Hz: 1,
    N: 1, Pa: 1, kPa: 1e3, bar: 1e5, W: 1, kW: 1e3, J: 1, MJ: 1e6, K: 1, Cel: 1, L: 1e-3,
    '[degF]': 5 / 9, '[ft_i]': FT, '[in_i]': IN, '[mi_i]': 5280 * FT, '[sin_i]': IN ** 2,
    '[sft_i]': FT ** 2, '[cin_i]': IN ** 3, '[cft_i]': FT ** 3, '[gal_us]': 231 * IN ** 3,
    '[lb_av]': LB, '[oz_av]': LB / 16, '[lbf_av]': LBF, '[psi]': LBF / IN ** 2,
    '[HP]': 550 * FT * LBF, '[Btu_IT]': 1055.05585262,
    "[in_i'Hg]": 133_322 * IN, "[in_i'H2O]": 9806.65 * IN,
  }; // biome-ignore format: a table reads better in lines of several
  function worth(code: string): number {
    const [top, ...below] = code
      .replace(/\/\(([^)]*)\)/, (_, inner) => `/${inner.replaceAll('.', '/')}`)
      .split('/');
    const product = (part: string) =>
      part.split('.').reduce((all, atom) => {
        const [, name, power] = /^(.*?)(\d)?$/.exec(atom)!;
        return all * (atom in ATOMS ? ATOMS[atom]! : ATOMS[name!]! ** Number(power ?? 1));
      }, 1);
    return below.reduce((left, part) => left / product(part), product(top!));
  }

  it('has a code of the same worth for every unit that is shown', async () => {
    const { DISPLAY_KINDS } = await import('../display.ts');
    for (const kind of Object.values(DISPLAY_KINDS))
      for (const [symbol] of Object.values(kind)) {
        const unit = UNITS.find((one) => one.symbol === symbol)!;
        const code = ucumOfSymbol(symbol);
        expect(code, symbol).not.toMatch(/^\{(?!count|rev)/);
        // Inside, speed is in rev/min; a percent is a fraction there.
        const inside = unit.dimension === 'rotationalSpeed' ? 60 : 1;
        expect((worth(code) * inside) / unit.factor, symbol).toBeCloseTo(1, 4);
        expect(ucumOfSymbol(symbolOfUcum(code))).toBe(code);
      }
  });
});
