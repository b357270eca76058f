import { describe, expect, it } from 'vitest';
import type { Quantity } from '../pull/recording.ts';
import { type ReadOptions, type RunFile, readRunFile } from './index.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const read = (data: string | Uint8Array, options: Partial<ReadOptions> = {}) =>
  readRunFile(typeof data === 'string' ? bytes(data) : data, { fileName: 'odd.csv', ...options });

function values(file: RunFile, quantity: Quantity): number[] {
  const channel = file.recording.channels.find((one) => one.quantity === quantity);
  expect(channel, quantity).toBeDefined();
  return [...channel!.values].map((value) => Math.round(value * 1e6) / 1e6);
}

/** What every spelling of the plain table below must come to. */
function expectPlain(file: RunFile): void {
  expect(values(file, 'time')).toEqual([0, 0.02, 0.04, 0.06]);
  expect(values(file, 'speed')).toEqual([2500, 3000.5, 3500, 4000]);
  expect(values(file, 'torque')).toEqual([200, 210.25, -1, 220]);
  expect(file.recording.kind).toBe('time series');
}

const PLAIN =
  'Time (s),RPM,Torque (Nm)\n0,2500,200\n0.02,3000.5,210.25\n0.04,3500,-1\n0.06,4000,220\n';
const swap = (from: string, to: string) => PLAIN.replaceAll(from, to);

describe('one table however it is written', () => {
  const decimalComma = PLAIN.replaceAll(',', ';').replaceAll('.', ',');
  it.each([
    ['commas', PLAIN],
    ['semicolons', swap(',', ';')],
    ['tabs', swap(',', '\t')],
    ['pipes', swap(',', '|')],
    ['decimal commas between semicolons', decimalComma],
    ['decimal commas between tabs', decimalComma.replaceAll(';', '\t')],
    [
      'decimal commas in quotes between commas',
      decimalComma.replace(/[^;\n]+/g, '"$&"').replaceAll(';', ','),
    ],
    ['every cell quoted', PLAIN.replace(/[^,\n]+/g, '"$&"')],
    ['CRLF', swap('\n', '\r\n')],
    ['CR alone', swap('\n', '\r')],
    ['no end of the last line', PLAIN.trimEnd()],
    ['blank lines', swap('\n', '\n\n')],
    ['lines of delimiters', PLAIN.replace('\n0.04', '\n,,\n0.04')],
    ['trailing delimiters', swap('\n', ',\n')],
    ['trailing delimiters in rows alone', PLAIN.replace(/(\d)\n/g, '$1,\n')],
    ['a trailing delimiter in the header alone', PLAIN.replace('(Nm)\n', '(Nm),\n')],
    ['cells padded with blanks', swap(',', '  ,  ')],
    ['exponents', PLAIN.replace('2500', '2.5e+03').replace('210.25', '21025E-2')],
    ['plus signs', PLAIN.replace('220', '+220')],
    ['more digits than a double holds', PLAIN.replace('2500', '2500.0000000000000000000')],
    ['units in square brackets', PLAIN.replaceAll('(', '[').replaceAll(')', ']')],
    [
      'units behind commas in quotes',
      PLAIN.replace('Time (s)', '"Time, s"').replace('Torque (Nm)', '"Torque, Nm"'),
    ],
    [
      'units behind the name',
      PLAIN.replace('Time (s)', 'Time s').replace('Torque (Nm)', 'Torque Nm'),
    ],
    ['a row of units', PLAIN.replace('Time (s),RPM,Torque (Nm)', 'Time,RPM,Torque\ns,rpm,Nm')],
    [
      'a row of bracketed units',
      PLAIN.replace('Time (s),RPM,Torque (Nm)', 'Time,RPM,Torque\n[s],[1/min],[Nm]'),
    ],
    [
      'a row of units above the names',
      PLAIN.replace('Time (s),RPM,Torque (Nm)', 's,rpm,Nm\nTime,Engine speed,Torque'),
    ],
    [
      'rows of types and sensor numbers under names and units',
      PLAIN.replace(
        'Time (s),RPM,Torque (Nm)',
        'Time,RPM,Torque\ns,rpm,Nm\nfloat,float,float\nch1,ch2,ch3',
      ),
    ],
    ['a row of groups above the names', `Logger,Engine,Brake\n${PLAIN}`],
    ['a ruled line under the header', PLAIN.replace('\n0,', '\n---,---,---\n0,')],
    ['room claimed beforehand', `${PLAIN}${'\0'.repeat(400)}`],
    ['an end mark of old systems', `${PLAIN}\u001a`],
    ['a blank row under the header', PLAIN.replace('\n0,', '\n,,\n0,')],
    ['a header broken over lines', PLAIN.replace('Torque (Nm)', '"Torque\n(Nm)"')],
    ['a header repeated on the way', PLAIN.replace('\n0.04', '\nTime (s),RPM,Torque (Nm)\n0.04')],
    ['preamble', `Run 12\nOperator: somebody, on the day\nDisplacement,5.4\n\n${PLAIN}`],
    ['a line that names the delimiter', `sep=,\n${PLAIN}`],
    ['footers', `${PLAIN}\nEnd of run\nMax,4000,220\nRows: 4\n`],
    ['another table under the first', `${PLAIN}\nSummary\nRPM,Power\n2500,50\n4000,90\n`],
    ['a note between rows', PLAIN.replace('\n0.04', '\n# second half\n0.04')],
    [
      'time in ms',
      PLAIN.replace('Time (s)', 'Time (ms)')
        .replace('0.02', '20')
        .replace('0.04', '40')
        .replace('0.06', '60'),
    ],
    [
      'clock times',
      PLAIN.replace('Time (s)', 'Time')
        .replace('\n0,', '\n07:34:26.00,')
        .replace('0.02', '07:34:26.02')
        .replace('0.04', '07:34:26.04')
        .replace('0.06', '07:34:26.06'),
    ],
    [
      'dates with times',
      PLAIN.replace('Time (s)', 'Time')
        .replace('\n0,', '\n2026-05-17 07:34:26.00,')
        .replace('0.02', '2026-05-17 07:34:26.02')
        .replace('0.04', '2026-05-17 07:34:26.04')
        .replace('0.06', '2026-05-17 07:34:26.06'),
    ],
    [
      'speed in rev/s',
      PLAIN.replace('RPM', 'Speed (Hz)')
        .replace('2500', '41.66666666666667')
        .replace('3000.5', '50.00833333333333')
        .replace('3500', '58.333333333333336')
        .replace('4000', '66.66666666666667'),
    ],
    [
      'other words between',
      PLAIN.replace('Torque (Nm)', 'Torque (Nm),Note').replace(/(\d)\n/g, '$1,ok\n'),
    ],
  ])('%s', async (_, text) => {
    expectPlain(await read(text));
  });

  it.each([
    ['thousands marks in quotes', PLAIN.replace('2500', '"2,500"').replace('3000.5', '"3,000.5"')],
    [
      'thousands commas between semicolons',
      PLAIN.replaceAll(',', ';').replace('2500', '2,500').replace('3000.5', '3,000.5'),
    ],
    ['thousands marks of blanks', PLAIN.replace('2500', '2 500').replace('3000.5', '3 000.5')],
    ['thousands marks of apostrophes', PLAIN.replace('2500', "2'500").replace('3000.5', "3'000.5")],
    [
      'thousands points beside decimal commas',
      decimalComma.replace('2500', '2.500').replace('3000,5', '3.000,5'),
    ],
  ])('%s', async (_, text) => {
    expectPlain(await read(text));
  });

  it('UTF-8 with a byte-order mark, UTF-16 both ways with and without one, Latin-1', async () => {
    const withDegree = PLAIN.replace('Torque (Nm)', 'Torque (Nm),Oil Temp (°C)').replace(
      /(\d)\n/g,
      '$1,90\n',
    );
    const le = (text: string) => new Uint8Array(Buffer.from(text, 'utf16le'));
    const be = (text: string) => new Uint8Array(Buffer.from(text, 'utf16le').swap16());
    for (const data of [
      bytes(`\uFEFF${withDegree}`),
      le(`\uFEFF${withDegree}`),
      le(withDegree),
      be(`\uFEFF${withDegree}`),
      be(withDegree),
      new Uint8Array(Buffer.from(withDegree, 'latin1')),
    ]) {
      const file = await read(data);
      expectPlain(file);
      expect(values(file, 'oilTemperature')).toEqual([363.15, 363.15, 363.15, 363.15]);
      expect(file.recording.channels[0]!.header).toBe('Time (s)');
      expect(file.recording.channels[3]!.header).toBe('Oil Temp (°C)');
    }
  });

  it('bytes that arrive one by one', async () => {
    async function* trickle() {
      for (const byte of bytes(PLAIN)) yield Uint8Array.of(byte);
    }
    expectPlain(await readRunFile(trickle(), { fileName: 'trickle.csv' }));
  });

  it('keeps the line of every row', async () => {
    const file = await read(`preamble\n\n${PLAIN.replace('\n0.04', '\n\n# note\n0.04')}`);
    expect([...file.recording.lineOfRow]).toEqual([4, 5, 8, 9]);
    expect(file.notes.map((note) => note.line)).toEqual([1, 7]);
  });
});

describe('missing values', () => {
  it.each(['', '-', '---', 'NaN', 'N/A', '""'])('%j is NaN', async (mark) => {
    const file = await read(PLAIN.replace('3500', mark));
    expect(values(file, 'speed')).toEqual([2500, 3000.5, Number.NaN, 4000]);
  });

  it('first rows may miss all but the time', async () => {
    const file = await read(PLAIN.replace('\n0,', '\n-0.02,-,-\n0,'));
    expect(values(file, 'torque')).toEqual([Number.NaN, 200, 210.25, -1, 220]);
  });

  it('takes an unchanging filler for missing, and says so', async () => {
    const rows = Array.from(
      { length: 40 },
      (_, at) =>
        `${at / 50},${2500 + 40 * at},${200 + at},9999,${at > 20 && at < 26 ? -999.9 : 90 + at / 10}`,
    );
    const file = await read(
      `Time (s),RPM,Torque (Nm),EGT 1 (C),Oil Temp (C)\n${rows.join('\n')}\n`,
    );
    expect(values(file, 'exhaustTemperature').every(Number.isNaN)).toBe(true);
    const oil = values(file, 'oilTemperature');
    expect(oil.filter(Number.isNaN)).toHaveLength(5);
    expect(oil[0]).toBe(363.15);
    expect(file.recording.warnings.filter((warning) => warning.includes('filler'))).toHaveLength(2);
  });

  it('leaves a speed that truly passes 9999 alone', async () => {
    const rows = Array.from(
      { length: 100 },
      (_, at) => `${at / 50},${at === 99 ? 9999 : 9000 + 10 * at},${200 + at}`,
    );
    const file = await read(`Time (s),RPM,Torque (Nm)\n${rows.join('\n')}\n`);
    expect(values(file, 'speed').at(-1)).toBe(9999);
  });
});

describe('what rows are', () => {
  it('a table binned by speed', async () => {
    const file = await read('RPM,Torque (lb-ft)\n3000,300\n3500,320\n4000,310\n');
    expect(file.recording.kind).toBe('speed table');
    // 1 lb-ft = 1.3558179483314 N·m (international foot and pound, standard gravity: exact products).
    expect(values(file, 'torque')).toEqual([406.745384, 433.861743, 420.303564]);
  });

  it('two pulls in one table', async () => {
    const file = await read(
      'RPM,Torque (Nm)\n3000,300\n3500,320\n4000,310\n3000,301\n3500,321\n4000,311\n',
    );
    expect(file.recording.kind).toBe('speed table');
    expect(file.recording.rows).toBe(6);
  });

  it('keeps what it does not recognise under its own name', async () => {
    const file = await read(
      PLAIN.replace('Torque (Nm)', 'Torque (Nm),Wibble (furlongs),Gear').replace(
        /(\d)\n/g,
        '$1,7.5,third\n',
      ),
    );
    const other = file.recording.channels.filter((channel) => channel.quantity === 'other');
    expect(other.map((channel) => [channel.header, channel.unit])).toEqual([
      ['Wibble (furlongs)', 'furlongs'],
      ['Gear', null],
    ]);
    expect([...other[0]!.values]).toEqual([7.5, 7.5, 7.5, 7.5]);
    expect(file.recording.warnings.join()).toMatch(/"Gear" holds words/);
  });

  it('shows hostile headers as text and runs nothing', async () => {
    const hostile = '<img src=x onerror=alert(1)>';
    const file = await read(
      PLAIN.replace(
        'Torque (Nm)',
        `Torque (Nm),${hostile},=cmd|x,__proto__,a\u0000b\u001b[31m`,
      ).replace(/(\d)\n/g, '$1,1,2,3,4\n'),
      { mapping: {} },
    );
    expect(file.recording.channels.slice(3).map((channel) => channel.header)).toEqual([
      hostile,
      '=cmd|x',
      '__proto__',
      'a b [31m',
    ]);
    expect(file.recording.channels.slice(3).every((channel) => channel.quantity === 'other')).toBe(
      true,
    );
  });

  it('knows two files of one logger setup by their shape', async () => {
    const one = await read(PLAIN);
    const two = await read(PLAIN.replace('4000', '4100'));
    const three = await read(PLAIN.replace('(Nm)', '(lb-ft)'));
    expect(one.shape.fingerprint).toBe(two.shape.fingerprint);
    expect(one.shape.fingerprint).not.toBe(three.shape.fingerprint);
  });
});
