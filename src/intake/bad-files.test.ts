import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ErrorPlace, FormatError, InputError, PullbookError } from '../errors.ts';
import { type ReadOptions, readRunFile } from './index.ts';

async function refusal(
  data: string | Uint8Array,
  options: Partial<ReadOptions> = {},
): Promise<{ message: string; place: ErrorPlace }> {
  const bytes = typeof data === 'string' ? new TextEncoder().encode(data) : data;
  try {
    await readRunFile(bytes, { fileName: 'bad.csv', ...options });
  } catch (error) {
    expect(error).toBeInstanceOf(FormatError);
    const { message, place } = error as PullbookError;
    expect(place.file).toBe('bad.csv');
    expect(message).not.toMatch(/\n/);
    return { message, place };
  }
  throw new Error('the file was not refused');
}

const row = (at: number) =>
  `${(at / 50).toFixed(2)},${2500 + 20 * at},${(200 + at / 7).toFixed(2)}`;
const rows = (from: number, to: number) =>
  Array.from({ length: to - from }, (_, at) => row(from + at)).join('\n');
const HEADER = 'Time (s),RPM,Torque (Nm)';
const GOOD = `${HEADER}\n${rows(0, 100)}\n`;

describe('bad files are refused with place, found and expected', () => {
  it.each([
    ['no bytes', ''],
    ['blank lines only', '\n\n  \n'],
    ['a byte-order mark only', '\uFEFF'],
  ])('an empty file: %s', async (_, text) => {
    const { message, place } = await refusal(text);
    expect(message).toMatch(/empty/);
    expect(place.line).toBe(1);
    expect(place.expected).toMatch(/header/);
  });

  it.each([
    [
      'random bytes',
      Uint8Array.from({ length: 4000 }, (_, at) => (at * 7919 + (at >> 3) * 31) & 255),
    ],
    [
      'a picture',
      Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, ...new Array(200).fill(0)]),
    ],
    ['a PDF', new TextEncoder().encode('%PDF-1.7\n%âãÏÓ\n1 0 obj\n')],
    [
      'a gzip archive',
      Uint8Array.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3, ...new Array(100).fill(0x9c)]),
    ],
    ['zeros', new Uint8Array(5000)],
  ])('a binary file: %s', async (_, data) => {
    const { message, place } = await refusal(data);
    expect(message).toMatch(/binary/);
    expect(place.expected).toMatch(/delimited text/);
  });

  it('a row cut short in the middle', async () => {
    const { message, place } = await refusal(GOOD.replace(`\n${row(60)}\n`, '\n1.20,3700\n'));
    expect(message).toMatch(/2 of 3 cells/);
    expect(place).toMatchObject({ line: 62, column: 2, expected: '3 cells' });
    expect(place.found).toMatch(/3700/);
  });

  it('a last row cut short when the power went', async () => {
    const { message, place } = await refusal(`${GOOD}2.00,45`);
    expect(message).toMatch(/cut short/);
    expect(place.line).toBe(102);
  });

  it('a row with a cell too many', async () => {
    const { place } = await refusal(GOOD.replace(row(7), `${row(7)},88`));
    expect(place).toMatchObject({ line: 9, column: 4, found: '88', expected: '3 cells' });
  });

  it('a column that turns to text half way', async () => {
    const text = `${HEADER}\n${rows(0, 50)}\n${rows(50, 100).replace(/,[\d.]+$/gm, ',ERR')}\n`;
    const { message, place } = await refusal(text);
    expect(message).toMatch(/turns to text/);
    expect(place).toMatchObject({ line: 52, column: 3, found: 'ERR', expected: 'a number' });
  });

  it('words in one cell far beyond the head of the file', async () => {
    const text = `${HEADER}\n${rows(0, 40_000)}\n${row(40_000).replace(/^[^,]+/, 'late')}\n`;
    const { place } = await refusal(text);
    expect(place).toMatchObject({ line: 40_002, column: 1, found: 'late' });
  });

  it('a clock that turns to text', async () => {
    const text =
      'Time,RPM,Torque (Nm)\n07:00:00,2500,200\n07:00:01,2600,201\n07:00:02,2700,202\nlater,2800,203\n';
    const { place } = await refusal(text);
    expect(place).toMatchObject({ line: 5, column: 1, found: 'later', expected: 'a clock time' });
  });

  it('two columns of one name', async () => {
    const { message, place } = await refusal(GOOD.replace('Time (s),RPM', 'Time (s),Torque (Nm)'));
    expect(message).toMatch(/columns 2 and 3 are both named "Torque \(Nm\)"/);
    expect(place).toMatchObject({ line: 1, column: 3, found: 'Torque (Nm)' });
  });

  it.each([
    ['in brackets', 'Torque (furlongs)', ''],
    ['behind a comma', '"Torque, furlongs"', ''],
    ['in the row of units', 'Torque', 's,rpm,furlongs\n'],
  ])('a unit that is not known, %s', async (_, header, unitRow) => {
    const text = GOOD.replace('Torque (Nm)', header).replace('\n', `\n${unitRow}`);
    const { message, place } = await refusal(
      unitRow === '' ? text : text.replace('Time (s)', 'Time'),
    );
    expect(message).toMatch(/unit "furlongs" .* not known/);
    expect(place).toMatchObject({
      line: unitRow === '' ? 1 : 2,
      column: 3,
      found: 'furlongs',
      expected: 'lb-ft, N·m or kgf·m',
    });
  });

  it('a unit of another quantity in a mapping', async () => {
    const mapping = { 'Torque (Nm)': { quantity: 'torque', unit: 'kPa' } } as const;
    const { message } = await refusal(GOOD, { mapping });
    expect(message).toMatch(/"kPa" is no unit of torque/);
  });

  it('a speed that never rises', async () => {
    const text = `${HEADER}\n${rows(0, 50).replace(/,(\d+),/g, (_, n: string) => `,${3000 + (Number(n) % 7)},`)}\n`;
    const { message, place } = await refusal(text);
    expect(message).toMatch(/speed never rises: it stays between 300\d and 300\d rpm/);
    expect(place).toMatchObject({ line: 2, column: 2 });
  });

  it('a speed without numbers', async () => {
    const { message } = await refusal(GOOD.replace(/,\d+,/g, ',-,'));
    expect(message).toMatch(/"RPM" holds no speeds/);
  });

  it('a file without a speed', async () => {
    const { message, place } = await refusal(GOOD.replace('RPM', 'Oil Press (kPa)'));
    expect(message).toMatch(/not a run file but a file without a speed/);
    expect(place.found).toMatch(/Oil Press/);
  });

  it('a file with neither torque nor power', async () => {
    const { message } = await refusal(GOOD.replace('Torque (Nm)', 'Lambda'));
    expect(message).toMatch(/not a run file but a file with neither torque nor power/);
  });

  it('a name and a unit that do not go together', async () => {
    const { message } = await refusal(GOOD.replace('Torque (Nm)', 'Torque (kPa)'));
    expect(message).toMatch(
      /neither torque nor power: .*"Torque \(kPa\)" has a unit that is none of torque/,
    );
  });

  it('a file without a header, until a mapping names its columns', async () => {
    const headless = `${rows(0, 100)}\n`;
    const { message } = await refusal(headless);
    expect(message).toMatch(/without a speed and with neither torque nor power: it has no header/);
    const file = await readRunFile(new TextEncoder().encode(headless), {
      fileName: 'headless.csv',
      mapping: {
        'column 1': { quantity: 'time', unit: 's' },
        'column 2': { quantity: 'speed', unit: 'rpm' },
        'column 3': { quantity: 'torque', unit: 'lb-ft' },
      },
    });
    expect(file.recording.channels.map((channel) => channel.quantity)).toEqual([
      'time',
      'speed',
      'torque',
    ]);
    expect(file.recording.lineOfRow[0]).toBe(1);
  });

  it('a header without rows, and prose', async () => {
    expect((await refusal(`${HEADER}\n`)).message).toMatch(/a header but no row of numbers/);
    expect((await refusal('Dear all\nthe engine ran well today\n')).message).toMatch(
      /no table of numbers/,
    );
  });

  it('fewer names than columns', async () => {
    const { place } = await refusal(GOOD.replace('Time (s),', ''));
    expect(place).toMatchObject({ line: 1, found: '2 names', expected: '3 names' });
  });

  it('a line that never ends', async () => {
    const { message } = await refusal(`${GOOD}${'1'.repeat(6_000_000)}`);
    expect(message).toMatch(/longer than 1 MB/);
  });

  it('a quote that is never closed keeps to its line', async () => {
    const { place } = await refusal(GOOD.replace(row(7), '0.14,"2640,200'));
    expect(place.line).toBe(9);
  });

  it('hostile text in messages is short and without control characters', async () => {
    const { place } = await refusal(
      GOOD.replace(row(70), `1.4,3900,\u001b]0;x\u0007${'<b>'.repeat(400)}`),
    );
    expect(place.found!.length).toBeLessThanOrEqual(80);
    expect(place.found).not.toMatch(/\p{Cc}/u);
  });

  it.each([
    ['blanks in a row', GOOD.replace(row(70), `a${' '.repeat(900_000)}b`)],
    ['blanks in the header', GOOD.replace('RPM', `RPM${' '.repeat(200_000)}x`)],
    ['brackets in the header', GOOD.replace('RPM', '('.repeat(100_000))],
    ['commas', ','.repeat(250_000)],
    ['quotes', '"'.repeat(250_000)],
    ['quotes and commas', '",'.repeat(120_000)],
    ['dashes', '-\n'.repeat(120_000)],
    ['digits', `${HEADER}\n${'9'.repeat(250_000)},1,2\n`],
    ['short lines', '1,2\na\n'.repeat(40_000)],
  ])('endless %s come to an answer', async (_, text) => {
    await readRunFile(new TextEncoder().encode(text), { fileName: 'bad.csv' }).catch((error) => {
      expect(error).toBeInstanceOf(PullbookError);
    });
  });

  it('a file that is not there', async () => {
    await expect(readRunFile('/nowhere/at/all.csv', { fileName: 'all.csv' })).rejects.toThrow(
      InputError,
    );
  });

  it('a reading that is called off', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'pullbook-'));
    try {
      const path = join(folder, 'long.csv');
      writeFileSync(path, `${HEADER}\n${rows(0, 60_000)}\n`);
      const control = new AbortController();
      const seen: number[] = [];
      const reading = readRunFile(path, {
        fileName: 'long.csv',
        signal: control.signal,
        onProgress: (done, total) => {
          seen.push(done / total!);
          control.abort();
        },
      });
      await expect(reading).rejects.toMatchObject({ name: 'AbortError' });
      expect(seen).toHaveLength(1);
      expect(seen[0]).toBeLessThan(1);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
