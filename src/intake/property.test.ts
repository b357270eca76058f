import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PullbookError } from '../errors.ts';
import { readRunFile, readSession } from './index.ts';

const SEED = 20261125;
const bytes = (text: string) => new TextEncoder().encode(text);

/** Finite doubles as people and loggers meet them: short decimals, long ones, tiny and huge (−0 is written as 0). */
const number = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: -9_999_999, max: 9_999_999 }).map((n) => n / 1000) },
  {
    weight: 2,
    arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0),
  },
  { weight: 1, arbitrary: fc.constant(Number.NaN) },
);

const dialect = fc
  .record({
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    decimal: fc.constantFrom('.', ','),
    end: fc.constantFrom('\n', '\r\n', '\r'),
    quote: fc.constantFrom('none', 'header', 'all'),
    missing: fc.constantFrom('', '-', 'NaN', '---'),
    encoding: fc.constantFrom('utf-8', 'utf-8 with mark', 'utf-16le', 'utf-16be', 'latin1'),
    unitsIn: fc.constantFrom('brackets', 'a row'),
    preamble: fc.integer({ min: 0, max: 4 }),
    padding: fc.constantFrom('', ' '),
  })
  // A decimal comma between commas needs quotes, as every writer of such files knows.
  .map((one) => (one.delimiter === ',' && one.decimal === ',' ? { ...one, quote: 'all' } : one));

type Dialect = typeof dialect extends fc.Arbitrary<infer T> ? T : never;

function write(
  names: readonly (readonly [string, string])[],
  rows: readonly number[][],
  as: Dialect,
): Uint8Array {
  const quoted = (text: string, isHeader: boolean) =>
    as.quote === 'all' || (isHeader && as.quote === 'header') ? `"${text}"` : text;
  const line = (cells: readonly string[], isHeader: boolean) =>
    cells.map((cell) => quoted(cell, isHeader)).join(`${as.padding}${as.delimiter}${as.padding}`);
  const header =
    as.unitsIn === 'brackets'
      ? [
          line(
            names.map(([name, unit]) => `${name} (${unit})`),
            true,
          ),
        ]
      : [
          line(
            names.map(([name]) => name),
            true,
          ),
          line(
            names.map(([, unit]) => unit),
            true,
          ),
        ];
  const body = rows.map((cells) =>
    line(
      cells.map((value) =>
        Number.isNaN(value) ? as.missing : String(value).replace('.', as.decimal),
      ),
      false,
    ),
  );
  const preamble = Array.from({ length: as.preamble }, (_, at) => `Note ${at}: façade`);
  const text = [...preamble, ...header, ...body, ''].join(as.end);
  switch (as.encoding) {
    case 'utf-16le':
      return new Uint8Array(Buffer.from(`\uFEFF${text}`, 'utf16le'));
    case 'utf-16be':
      return new Uint8Array(Buffer.from(`\uFEFF${text}`, 'utf16le').swap16());
    case 'latin1':
      return new Uint8Array(Buffer.from(text, 'latin1'));
    case 'utf-8 with mark':
      return bytes(`\uFEFF${text}`);
    default:
      return bytes(text);
  }
}

const NAMES = [
  ['Time', 's'],
  ['Speed', 'rpm'],
  ['Torque', 'N·m'],
  ['Wobble', 'mm'],
] as const;

describe('any table in any dialect', () => {
  it('reads back to the last bit', async () => {
    const table = fc.array(fc.tuple(number, number), { minLength: 3, maxLength: 30 });
    await fc.assert(
      fc.asyncProperty(dialect, table, async (as, wild) => {
        const rows = wild.map(([torque, wobble], at) => [
          at / 50,
          2500.5 + 100 * at,
          at === 0 ? 200 : torque,
          wobble,
        ]);
        const file = await readRunFile(write(NAMES, rows, as), { fileName: 'any.txt' });
        const { channels } = file.recording;
        expect(channels.map((channel) => channel.quantity)).toEqual([
          'time',
          'speed',
          'torque',
          'other',
        ]);
        for (const [column, channel] of channels.entries())
          expect([...channel.values]).toEqual(rows.map((cells) => cells[column]));
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('reads numbers exactly as the language does', async () => {
    const text = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc
        .tuple(fc.bigInt({ min: 0n, max: 10n ** 25n }), fc.bigInt({ min: 0n, max: 10n ** 12n }))
        .map(([a, b]) => `${a}.${b}`),
      fc
        .tuple(fc.bigInt({ min: 0n, max: 10n ** 18n }), fc.integer({ min: -40, max: 40 }))
        .map(([a, e]) => `${a}e${e}`),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(text, { minLength: 3, maxLength: 40 }), async (cells) => {
        const rows = cells.map((cell, at) => `${at},${3000 + 50 * at},${cell}`);
        const file = await readRunFile(bytes(`Time (s),RPM,Torque (Nm)\n${rows.join('\n')}\n`), {
          fileName: 'exact.csv',
        });
        expect([...file.recording.channels[2]!.values]).toEqual(cells.map(Number));
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('does not depend on how the bytes are cut into chunks', async () => {
    const whole = write(
      NAMES,
      Array.from({ length: 60 }, (_, at) => [at / 50, 2500 + at * 30, at / 7, at]),
      {
        delimiter: ';',
        decimal: ',',
        end: '\r\n',
        quote: 'header',
        missing: '-',
        encoding: 'utf-16le',
        unitsIn: 'brackets',
        preamble: 2,
        padding: '',
      },
    );
    const expected = await readRunFile(whole, { fileName: 'cut.txt' });
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 0, max: whole.length }), { maxLength: 20 }),
        async (cuts) => {
          const edges = [0, ...cuts.sort((a, b) => a - b), whole.length];
          async function* pieces() {
            for (let at = 1; at < edges.length; at++)
              yield whole.subarray(edges[at - 1], edges[at]);
          }
          const file = await readRunFile(pieces(), { fileName: 'cut.txt' });
          expect(file).toEqual(expected);
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
  });
});

/** Either a recording or a typed refusal; anything else fails the property. */
async function answers(data: Uint8Array): Promise<void> {
  try {
    const { recording } = await readRunFile(data, { fileName: 'fuzz.bin' });
    for (const channel of recording.channels) expect(channel.values).toHaveLength(recording.rows);
  } catch (error) {
    if (!(error instanceof PullbookError)) throw error;
    expect(error.message.length).toBeLessThan(500);
  }
}

describe('any bytes at all', () => {
  it('are read or refused, never a crash', async () => {
    const data = fc.oneof(
      fc.uint8Array({ maxLength: 600 }),
      fc.string({ unit: 'grapheme', maxLength: 400 }).map(bytes),
      fc
        .string({
          unit: fc.constantFrom(...'0123456789.,;:|\t\n\r"\' -+eE/%()[]aNnrpmTq°µ\u0000\ufeff'),
          maxLength: 400,
        })
        .map(bytes),
      fc
        .tuple(
          fc.constantFrom('PK\u0003\u0004', 'PAR1', '\uFEFF'),
          fc.uint8Array({ maxLength: 300 }),
        )
        .map(([head, tail]) => Uint8Array.from([...bytes(head), ...tail])),
    );
    await fc.assert(fc.asyncProperty(data, answers), { seed: SEED, numRuns: 500 });
  });

  it('good files with bytes changed, lost and doubled', async () => {
    const good = bytes(
      `Run 7;;\nTime (s);RPM;Torque Obs (lb-ft)\n${Array.from({ length: 40 }, (_, at) => `${at / 50};${2500 + at * 40};"${200 + at / 3}"`).join('\r\n')}\nMax;4000;220\n`,
    );
    const edit = fc.record({
      at: fc.nat(good.length - 1),
      kind: fc.constantFrom('set', 'cut', 'double'),
      byte: fc.nat(255),
      length: fc.integer({ min: 1, max: 40 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 6 }), async (edits) => {
        let data = [...good];
        for (const { at, kind, byte, length } of edits) {
          if (kind === 'set') data[at % data.length] = byte;
          else if (kind === 'cut') data.splice(at, length);
          else data = [...data.slice(0, at + length), ...data.slice(at)];
          if (data.length === 0) data = [byte];
        }
        await answers(Uint8Array.from(data));
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it('any JSON as a session', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json(),
          fc.string(),
          fc.jsonValue().map((value) =>
            JSON.stringify({
              pullbook: 'session/1',
              engine: value,
              cell: value,
              band: value,
              pulls: [value],
            }),
          ),
        ),
        (text) => {
          try {
            readSession(text, 'fuzz.json');
          } catch (error) {
            if (!(error instanceof PullbookError)) throw error;
          }
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
  });
});
