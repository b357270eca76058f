import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { afterEach, describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import { type Cell, sheetTable, writeSheet } from '../build/index.ts';
import { readBuildFile } from '../intake/index.ts';
import type { RefusedObject, SheetObject } from '../report/index.ts';
import { run } from './program.ts';
import { testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

const folders: ReturnType<typeof testFolder>[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});
async function called(files: Parameters<typeof testFolder>[0], ...args: string[]) {
  const folder = testFolder(files);
  folders.push(folder);
  const test = testIo(folder.folder);
  return { code: await run(args, test.io), ...test };
}

const [, SIX, V8] = demoSheets().map(({ sheet }) => sheet);
/** Cells as a spreadsheet of a country with decimal commas saves them. */
const asCsv = (rows: readonly (readonly Cell[])[]) =>
  rows
    .map((row) =>
      row
        .map((cell) => {
          const text =
            typeof cell === 'number' ? String(cell).replace('.', ',') : String(cell ?? '');
          return /[";\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
        })
        .join(';'),
    )
    .join('\r\n');

describe('pullbook sheet', () => {
  it('answers a build file with figures by section, checks with window and remedy, and what to measure next', async () => {
    const { code, out } = await called({ 'v8.json': writeSheet(V8!) }, 'sheet', 'v8.json');
    expect(code).toBe(0);
    expect(out()).toContain('Rescue boat V8, overhaul 2026, for sustained');
    expect(out()).toMatch(/look again\s+Quench, cold\s+Cylinder \d\s+0\.062/);
    expect(out()).toContain('A thinner gasket');
    expect(out()).toMatch(/Compression ratio\s+9\.\d\d {2}± 0\.0\d/);
    expect(out()).toContain('To measure next');
    expect(out()).toContain('common practice, no source');
  });

  it('writes the sheet as .json, .csv or .xlsx, each of which reads back as the same sheet', async () => {
    for (const sheet of [SIX!, V8!])
      for (const ending of ['json', 'csv', 'xlsx']) {
        const out = `again.${ending}`;
        const test = await called(
          { 'v8.json': writeSheet(sheet) },
          'sheet',
          'v8.json',
          '--out',
          out,
        );
        expect(test.code).toBe(0);
        const read = await readBuildFile(join(folders.at(-1)!.folder, out), { fileName: out });
        expect(read).toEqual(sheet);
      }
    const args = ['sheet', 'v8.json', '--out', 'again.ods'];
    expect((await called({ 'v8.json': writeSheet(V8!) }, ...args)).err()).toContain(
      '.json, .csv or .xlsx',
    );
  });

  it('names every slip of a file at once, by its path or its row and column', async () => {
    const files = {
      'build.json': JSON.stringify({
        format: 'sheet/1',
        layout: { cylinders: 4 },
        sections: {
          block: { values: { boreNominl: '83.5 mm', boreTopAcross: { each: [83.5], unit: 'mm' } } },
          crank: { values: { stroke: '88.4', endFloat: '0.15 bar' } },
          pistonz: {},
        },
      }),
      'build.csv':
        'section,field,place,value,unit\nlayout,cylinders,,4\ndeck,gasketThicknes,,1.1,mm\nheads,chamberVolume,Cylinder 2,wide,cc\n',
    };
    const { code, err } = await called(files, 'sheet', 'build.json', 'build.csv');
    expect(code).toBe(1);
    for (const place of [
      'block.values.boreNominl',
      'block.values.boreTopAcross.each',
      'crank.values.stroke',
      'crank.values.endFloat',
      'sections.pistonz',
      'line 3, column 2',
      'line 4, column 4',
    ])
      expect(err()).toContain(`${place}: found`);
    const json = await called(files, 'sheet', '--json', 'build.json');
    expect((json.objects()[0] as unknown as RefusedObject).error.also).toHaveLength(4);
  });

  it('answers the same figures in either system of units, and the same JSON', async () => {
    const files = { 'v8.json': writeSheet(V8!) };
    const us = await called(files, 'sheet', 'v8.json');
    const metric = await called(files, 'sheet', '--units', 'metric', 'v8.json');
    expect(us.out()).toMatch(/Displacement\s+349\.7/);
    expect(metric.out()).toMatch(/Displacement\s+5\.730/);
    const lines = await Promise.all(
      ['us', 'metric'].map(async (units) =>
        (await called(files, 'sheet', '--json', '--units', units, 'v8.json')).out(),
      ),
    );
    expect(lines[0]).toBe(lines[1]);
  });

  it('publishes a versioned object in SI with places by name', async () => {
    const { objects } = await called({ 'v8.json': writeSheet(V8!) }, 'sheet', '--json', 'v8.json');
    const [answer] = objects() as unknown as [SheetObject];
    expect(answer).toMatchObject({ format: 'sheet-answer/1', file: 'v8.json', ok: true });
    const displacement = answer.figures.find(({ id }) => id === 'displacement')!;
    expect(displacement.unit).toBe('m³');
    expect(displacement.value).toBeCloseTo(5.73e-3, 6);
    const quench = answer.checks.find(({ id }) => id === 'quench')!;
    expect(quench).toMatchObject({ unit: 'm', verdict: 'look again' });
    expect(quench.worst).toMatch(/^Cylinder \d$/);
    expect(quench.each![0]!.place).toBe('Cylinder 1');
  });

  it('judges by the windows of a shop where they are given, and by none where they cannot be read', async () => {
    const windows = (high: string) =>
      JSON.stringify({
        format: 'windows/1',
        windows: [{ name: 'quench', low: '0.9 mm', high, source: 'our own builds' }],
      });
    const files = {
      'v8.json': writeSheet(V8!),
      'w.json': windows('1.7 mm'),
      'x.json': windows('1'),
    };
    const args = ['sheet', '--json', '--windows'] as const;
    const { objects } = await called(files, ...args, 'w.json', 'v8.json');
    const [answer] = objects() as unknown as [SheetObject];
    const quench = answer.checks.find(({ id }) => id === 'quench')!;
    expect(quench).toMatchObject({ verdict: 'fine', window: { source: 'our own builds' } });
    expect(quench.window!.high).toBeCloseTo(0.0017, 12);
    const { code, out, err } = await called(files, ...args, 'x.json', 'v8.json');
    expect([code, out()]).toEqual([1, '']);
    expect(err()).toContain('windows[0].high');
  });

  it('takes the same sheet as a spreadsheet saved with semicolons and decimal commas', async () => {
    const json = await called({ 'a.json': writeSheet(SIX!) }, 'sheet', '--json', 'a.json');
    const csv = await called({ 'a.json': asCsv(sheetTable(SIX!)) }, 'sheet', '--json', 'a.json');
    expect(csv.out()).toBe(json.out());
  });

  it('judges by the use that is said', async () => {
    const { objects } = await called(
      { 'v8.json': writeSheet(V8!) },
      'sheet',
      '--json',
      '--use',
      'bursts',
      'v8.json',
    );
    expect(objects()[0]).toMatchObject({ use: 'bursts' });
  });

  it('refuses the bad by field, cell or line, goes on with the good, and ends with 1', async () => {
    const files = {
      'slip.json': writeSheet(V8!).replace('"boreNominal"', '"boreNominl"'),
      'torn.json': writeSheet(V8!).slice(0, 400),
      'slip.csv': 'section,field,value,unit\nlayout,cylinders,8\ncrank,stroke,3.48,psi\n',
      'run.csv': 'Time (s),Torque (Nm)\n0,1\n1,2\n',
      'good.json': writeSheet(V8!),
    };
    const { code, objects } = await called(
      files,
      'sheet',
      '--json',
      ...Object.keys(files),
      'gone.json',
    );
    expect(code).toBe(1);
    const answers = objects() as unknown as (SheetObject | RefusedObject)[];
    expect(answers.map(({ ok }) => ok)).toEqual([false, false, false, false, true, false]);
    const [slip, torn, cell, other] = answers as RefusedObject[];
    expect(slip!.error.message).toContain('perhaps "boreNominal" is meant');
    expect(torn!.error.message).toContain('not whole JSON');
    expect(cell!.error).toMatchObject({ line: 3, column: 4, found: '"psi"' });
    expect(other!.error).toMatchObject({ line: 1 });
  });

  it('reads a workbook', async () => {
    const folder = testFolder({});
    folders.push(folder);
    writeFileSync(`${folder.folder}/six.xlsx`, workbook(sheetTable(SIX!)));
    const test = testIo(folder.folder);
    expect(await run(['sheet', '--json', 'six.xlsx'], test.io)).toBe(0);
    const json = await called({ 'six.xlsx': writeSheet(SIX!) }, 'sheet', '--json', 'six.xlsx');
    expect(test.out()).toBe(json.out());
  });
});

/** The least that is a workbook: one page of texts and numbers. */
function workbook(rows: readonly (readonly Cell[])[]): Uint8Array {
  const escaped = (text: string) =>
    text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');
  const column = (at: number): string =>
    (at >= 26 ? column(Math.floor(at / 26) - 1) : '') + String.fromCharCode(65 + (at % 26));
  const cell = (value: Cell, at: string) =>
    value === null
      ? ''
      : typeof value === 'number'
        ? `<c r="${at}"><v>${value}</v></c>`
        : typeof value === 'boolean'
          ? `<c r="${at}" t="b"><v>${value ? 1 : 0}</v></c>`
          : `<c r="${at}" t="inlineStr"><is><t>${escaped(value)}</t></is></c>`;
  const page = rows
    .map(
      (row, i) =>
        `<row r="${i + 1}">${row.map((one, j) => cell(one, `${column(j)}${i + 1}`)).join('')}</row>`,
    )
    .join('');
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const packaged = 'http://schemas.openxmlformats.org/package/2006';
  const head = '<?xml version="1.0" encoding="UTF-8"?>';
  return zipSync({
    '[Content_Types].xml': strToU8(
      `${head}<Types xmlns="${packaged}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/></Types>`,
    ),
    '_rels/.rels': strToU8(
      `${head}<Relationships xmlns="${packaged}/relationships"><Relationship Id="a" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(
      `${head}<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Sheet" sheetId="1" r:id="a"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `${head}<Relationships xmlns="${packaged}/relationships"><Relationship Id="a" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    'xl/worksheets/sheet1.xml': strToU8(
      `${head}<worksheet xmlns="${main}"><sheetData>${page}</sheetData></worksheet>`,
    ),
  });
}
