import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { parquetWriteBuffer } from 'hyparquet-writer';
import { describe, expect, it } from 'vitest';
import { FormatError, sentenceOf } from '../errors.ts';
import { readRunFile } from './index.ts';

type Cell = string | number | null;

/** The least that makes an .xlsx: a workbook, its pages with inline texts, and a style for times of day. */
function workbook(pages: Record<string, Cell[][]>, clockColumn = -1): Uint8Array {
  const names = Object.keys(pages);
  const safe = (text: string) =>
    text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
  const letter = (column: number) => String.fromCharCode(65 + column);
  const cell = (value: Cell, row: number, column: number) => {
    const at = `r="${letter(column)}${row + 1}"`;
    if (value === null) return '';
    if (typeof value === 'string')
      return `<c ${at} t="inlineStr"><is><t>${safe(value)}</t></is></c>`;
    return `<c ${at}${column === clockColumn ? ' s="1"' : ''}><v>${value}</v></c>`;
  };
  const sheet = (rows: Cell[][]) =>
    `<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${rows
      .map(
        (cells, row) =>
          `<row r="${row + 1}">${cells.map((value, column) => cell(value, row, column)).join('')}</row>`,
      )
      .join('')}</sheetData></worksheet>`;
  const files: Record<string, Uint8Array> = {
    '[Content_Types].xml': strToU8(
      `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/></Types>`,
    ),
    'xl/workbook.xml': strToU8(
      `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>${names
        .map((name, at) => `<sheet name="${name}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`)
        .join('')}</sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${names
        .map(
          (_, at) =>
            `<Relationship Id="rId${at + 1}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet${at + 1}.xml"/>`,
        )
        .join(
          '',
        )}<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>`,
    ),
    'xl/styles.xml': strToU8(
      `<?xml version="1.0"?><styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="21" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ),
  };
  names.forEach((name, at) => {
    files[`xl/worksheets/sheet${at + 1}.xml`] = strToU8(sheet(pages[name]!));
  });
  return zipSync(files);
}

const ROWS = Array.from({ length: 30 }, (_, at) => [at / 50, 2500.5 + 40 * at, 200 + at / 3]);
const HEADER = ['Time (s)', 'RPM', 'Torque (lb-ft)'];
const LB_FT = 1.3558179483314;

describe('spreadsheets', () => {
  it('are read with preamble and header, and count rows as lines', async () => {
    const data = workbook({ Run: [['Shop run 7'], [], HEADER, ...ROWS] });
    const file = await readRunFile(data, { fileName: 'run.xlsx' });
    const { recording, shape } = file;
    expect(shape.format).toBe('spreadsheet');
    expect([...recording.channels[1]!.values]).toEqual(ROWS.map((row) => row[1]));
    expect(recording.channels[2]!.values[3]).toBeCloseTo(201 * LB_FT, 9);
    expect([...recording.lineOfRow.slice(0, 2)]).toEqual([4, 5]);
  });

  it('take the page that holds a table, or the one asked for', async () => {
    const pages = {
      Cover: [['Nothing here']],
      First: [HEADER, ...ROWS],
      Second: [['Time (s)', 'RPM', 'Torque (Nm)'], ...ROWS],
    };
    const first = await readRunFile(workbook(pages), { fileName: 'run.xlsx' });
    expect(first.recording.warnings.join()).toMatch(/3 pages: "First" was read/);
    const second = await readRunFile(workbook(pages), { fileName: 'run.xlsx', sheet: 'Second' });
    expect(second.recording.channels[2]!.values[3]).toBe(201);
    const byNumber = await readRunFile(workbook(pages), { fileName: 'run.xlsx', sheet: 3 });
    expect(byNumber.recording.channels[2]!.values[3]).toBe(201);
    await expect(
      readRunFile(workbook(pages), { fileName: 'run.xlsx', sheet: 'Third' }),
    ).rejects.toThrow(/no page "Third"/);
  });

  it('times of day become seconds', async () => {
    const rows = ROWS.map(([, rpm, torque], at) => [0.25 + at / 86_400, rpm!, torque!]);
    const data = workbook({ Run: [['Time', 'RPM', 'Torque (lb-ft)'], ...rows] }, 0);
    const { recording } = await readRunFile(data, { fileName: 'run.xlsx' });
    expect(recording.channels[0]).toMatchObject({ quantity: 'time', unit: 'clock' });
    expect([
      ...recording.channels[0]!.values.map((value) => Math.round(value * 100) / 100),
    ]).toEqual(ROWS.map((_, at) => at));
  });

  it('name the row and column of what is wrong', async () => {
    const rows: Cell[][] = ROWS.map((row) => [...row]);
    rows[20]![2] = 'sensor fault';
    const reading = readRunFile(workbook({ Run: [HEADER, ...rows] }), { fileName: 'run.xlsx' });
    await expect(reading).rejects.toMatchObject({
      place: { file: 'run.xlsx', line: 22, column: 3, found: 'sensor fault' },
    });
  });

  it.each([
    ['a zip of something else', zipSync({ 'a.txt': strToU8('hello') })],
    ['a cut workbook', workbook({ Run: [HEADER, ...ROWS] }).slice(0, 400)],
    ['an empty page', workbook({ Run: [] })],
  ])('are refused: %s', async (_, data) => {
    await expect(readRunFile(data, { fileName: 'bad.xlsx' })).rejects.toThrow(FormatError);
  });
});

const column = (name: string, at: number, type?: 'DOUBLE' | 'FLOAT') => ({
  name,
  data: Float64Array.from(ROWS, (row) => row[at]!),
  ...(type === undefined ? {} : { type }),
});

describe('Parquet', () => {
  const good = () =>
    parquetWriteBuffer({
      columnData: [
        column('Time (s)', 0),
        column('RPM', 1),
        column('Torque (lb-ft)', 2),
        { name: 'Gear', data: ROWS.map(() => 'third') },
        { name: 'Count', data: ROWS.map((_, at) => BigInt(at)) },
        { name: 'Lambda', data: ROWS.map((_, at) => (at === 4 ? null : 0.9)), type: 'DOUBLE' },
      ],
      rowGroupSize: 7,
    });

  it('is read from bytes and from disk, row group by row group', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'pullbook-'));
    try {
      const path = join(folder, 'run.parquet');
      writeFileSync(path, new Uint8Array(good()));
      const fromDisk = await readRunFile(path, { fileName: 'run.parquet' });
      const fromBytes = await readRunFile(new Uint8Array(good()), { fileName: 'run.parquet' });
      expect(fromBytes).toEqual(fromDisk);
      const { recording, shape } = fromDisk;
      expect(shape.format).toBe('parquet');
      expect([...recording.channels[1]!.values]).toEqual(ROWS.map((row) => row[1]));
      expect(recording.channels[2]!.values[3]).toBeCloseTo(201 * LB_FT, 9);
      expect(recording.channels[3]).toMatchObject({ header: 'Gear', quantity: 'other' });
      expect(recording.channels[4]!.values[29]).toBe(29);
      expect(recording.channels[5]!.values[4]).toBeNaN();
      expect(recording.lineOfRow).toHaveLength(0);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('takes clocks', async () => {
    const data = parquetWriteBuffer({
      columnData: [
        {
          name: 'Time',
          data: ROWS.map((_, at) => new Date(1_700_000_000_000 + at * 20)),
          type: 'TIMESTAMP',
        },
        column('RPM', 1),
        column('Torque (Nm)', 2),
      ],
    });
    const { recording } = await readRunFile(new Uint8Array(data), { fileName: 'run.parquet' });
    expect(recording.channels[0]!.values[29]).toBeCloseTo(0.58, 9);
  });

  it('is refused where it is damaged', async () => {
    const data = new Uint8Array(good());
    for (const bad of [
      data.slice(0, 300),
      Uint8Array.from([...data.slice(0, 40), ...data.slice(60)]),
    ]) {
      try {
        await readRunFile(bad, { fileName: 'bad.parquet' });
      } catch (error) {
        expect(error).toBeInstanceOf(FormatError);
        expect(sentenceOf(error)).toMatch(/^bad.parquet: .*damaged/);
        continue;
      }
      throw new Error('it was not refused');
    }
  });
});
