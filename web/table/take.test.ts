import { parquetMetadata, parquetReadObjects } from 'hyparquet';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import {
  numberColumn,
  quantityColumn,
  quantityRangeColumn,
  settingColumn,
  tableFrom,
  wordsColumn,
  yesNoColumn,
} from './model.ts';
import { shownOf } from './shown.test-data.ts';
import { leavingTable, takenBytes } from './take.ts';
import { placeFacts } from './taken-from.ts';

const ROWS = [
  {
    name: '=HYPERLINK("x")',
    deg: 28.26,
    w: 300_000,
    low: 295_000,
    high: 306_000,
    out: false,
    mm: 1,
  },
  { name: '−two', deg: null, w: Number.NaN, low: null, high: 1, out: true, mm: null },
];
const model = tableFrom(ROWS, [
  wordsColumn('pull', ({ name }) => name),
  settingColumn('lead', 'deg', ({ deg }) => deg),
  quantityColumn('peak power', 'power', 'us', ({ w }) => w),
  quantityRangeColumn('peak power, 95 %', 'power', 'us', ({ low, high }) => ({ low, high })),
  yesNoColumn('left out', ({ out }) => out),
  numberColumn('=A1', null, ({ mm }) => mm),
]);
// 1 hp is 550 ft·lbf/s = 745.699871582270 W (1 ft = 0.3048 m, 1 lbf = 4.4482216152605 N).
const HP = 745.6998715822702;

describe('a table of a screen', () => {
  it('is drawn rounded, with its units in the heads and what is not known as a dash', () => {
    expect(shownOf(model)).toEqual({
      columns: ['pull', 'lead, °', 'peak power, hp', 'peak power, 95 %, hp', 'left out', '=A1'],
      rows: [
        ['=HYPERLINK("x")', '28.26°', '402.3', '395.6 to 410.4', 'no', '1'],
        ['−two', '–', '–', '0.0 or less', 'yes', '–'],
      ],
    });
  });

  it('leaves whole as CSV, workbook and Parquet, the same numbers in each and no column without its unit', async () => {
    const table = leavingTable('Pulls', model);
    const csv = (await takenBytes(table, 'csv', [])).bytes as string;
    const [head, first, second, end] = csv.split('\r\n');
    expect(head).toBe(
      '\ufeffpull,"lead, °","peak power, hp","peak power, 95 % (low), hp","peak power, 95 % (high), hp",left out,\'=A1',
    );
    const [words, figures] = first!.split('",') as [string, string];
    expect(words).toBe('"\'=HYPERLINK(""x"")');
    const [deg, power] = figures.split(',');
    expect(Number(deg)).toBe(28.26);
    expect(Number(power)).toBeCloseTo(300_000 / HP, 9);
    expect(second).toMatch(/^−two,,,,0\.00134\d+,true,$/);
    expect(end).toBe('');

    const book = (await takenBytes(table, 'xlsx', [['Engine', 'Six']])).bytes as Uint8Array;
    const [page, about] = await readWorkbook(Buffer.from(book));
    expect(page!.data[1]).toEqual([
      '=HYPERLINK("x")',
      28.26,
      Number(power),
      expect.closeTo(295_000 / HP, 9),
      expect.closeTo(306_000 / HP, 9),
      false,
      1,
    ]);
    const said = about!.data.map((row) => row.slice(0, 2));
    for (const line of [
      ['Engine', 'Six'],
      ['lead, °', '°'],
      ['peak power, hp', 'hp'],
    ])
      expect(said).toContainEqual(line);

    const file = ((await takenBytes(table, 'parquet', [])).bytes as Uint8Array)
      .buffer as ArrayBuffer;
    const [row] = await parquetReadObjects({ file });
    expect(row).toMatchObject({
      pull: '=HYPERLINK("x")',
      leadDeg: 28.26,
      peakPowerHp: Number(power),
    });
    const facts = new Map(
      parquetMetadata(file).key_value_metadata!.map((one) => [one.key, one.value]),
    );
    const units = JSON.parse(facts.get('columns')!).map(
      (one: { unit: string | null; note?: string }) => one.unit ?? one.note ?? null,
    );
    expect(units).toEqual([null, 'deg', '[HP]', '[HP]', '[HP]', null, 'in the unit of its row']);
  });

  it('says where it stood', () => {
    const way = [
      { label: 'Shop', to: '/' },
      { label: 'Six', to: '/engines/e1' },
      { label: 'Refresh', to: '/builds/b1' },
      { label: 'Sheet' },
    ];
    expect(placeFacts(way, '/builds/b1/sheet/block')).toEqual([
      ['Engine', 'Six'],
      ['Build', 'Refresh'],
      ['Page', 'Sheet'],
    ]);
    expect(
      placeFacts(
        way.slice(0, 2).map(({ label }) => ({ label })),
        '/engines/e1',
      ).at(-1),
    ).toEqual(['Engine', 'Six']);
  });
});
