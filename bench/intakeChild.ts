/** One reading in a process of its own, so that neither side's memory is counted for the other. Prints one JSON line. */
import { openSync, readFileSync, readSync } from 'node:fs';
import { parse } from 'csv-parse';
import { parse as parseSync } from 'csv-parse/sync';
import Papa from 'papaparse';
import { inferSchema, initParser } from 'udsv';
import { readRunFile } from '../src/intake/index.ts';

type Columns = readonly Float64Array[];

/** Text chunk by chunk, as each parser's own way of streaming wants it. */
function* chunksOf(path: string): Generator<string> {
  const file = openSync(path, 'r');
  const buffer = new Uint8Array(1024 * 1024);
  const decoder = new TextDecoder();
  for (;;) {
    const length = readSync(file, buffer);
    if (length === 0) return;
    yield decoder.decode(buffer.subarray(0, length), { stream: true });
  }
}

/** Columns that grow as rows come. */
function grower(width: number) {
  let columns = Array.from({ length: width }, () => new Float64Array(65_536));
  let rows = 0;
  return {
    add(cells: readonly (string | number)[]): void {
      if (rows === columns[0]!.length)
        columns = columns.map((column) => {
          const larger = new Float64Array(column.length * 2);
          larger.set(column);
          return larger;
        });
      for (let at = 0; at < width; at++) columns[at]![rows] = +cells[at]!;
      rows++;
    },
    done: (): Columns => columns.map((column) => column.subarray(0, rows)),
  };
}

const READERS: Readonly<Record<string, (path: string) => Columns | Promise<Columns>>> = {
  pullbook: async (path) =>
    (await readRunFile(path, { fileName: 'bench.csv' })).recording.channels.map(
      (channel) => channel.values,
    ),
  'udsv whole': (path) => {
    const text = readFileSync(path, 'utf8');
    return initParser(inferSchema(text))
      .typedCols<number[]>(text)
      .map((column) => Float64Array.from(column));
  },
  'udsv in chunks': (path) => {
    let parser: ReturnType<typeof initParser> | null = null;
    let columns: ReturnType<typeof grower> | null = null;
    for (const chunk of chunksOf(path)) {
      parser ??= initParser(inferSchema(chunk));
      columns ??= grower(parser.schema.cols.length);
      const { add } = columns;
      parser.chunk<string[]>(chunk, parser.stringArrs, (row) => add(row));
    }
    parser!.end();
    return columns!.done();
  },
  'papaparse fast mode': (path) => {
    const text = readFileSync(path, 'utf8');
    let columns: ReturnType<typeof grower> | null = null;
    const config = {
      fastMode: true,
      skipEmptyLines: true,
      chunkSize: 1024 * 1024,
      chunk: ({ data }: { data: string[][] }) => {
        const from = columns === null ? 1 : 0;
        columns ??= grower(data[0]!.length);
        for (let at = from; at < data.length; at++) columns.add(data[at]!);
      },
    };
    // Its types know chunks only of files and downloads; its code takes them of text, too.
    Papa.parse<string[]>(text, config as Papa.ParseConfig<string[]>);
    return columns!.done();
  },
  'csv-parse': async (path) => {
    const head = parseSync(readFileSync(path).subarray(0, 4096).toString().split('\n')[0]!);
    const columns = grower((head[0] as string[]).length);
    const parser = parse({ from_line: 2 });
    parser.on('readable', () => {
      for (let row = parser.read(); row !== null; row = parser.read()) columns.add(row);
    });
    const ended = new Promise<void>((resolve, reject) => {
      parser.on('end', resolve);
      parser.on('error', reject);
    });
    for (const chunk of chunksOf(path))
      if (!parser.write(chunk)) await new Promise((resolve) => parser.once('drain', resolve));
    parser.end();
    await ended;
    return columns.done();
  },
};

const [, , reader = '', path = '', times = '1'] = process.argv;
const ms: number[] = [];
let rows = 0;
let sum = 0;
for (let time = 0; time < Number(times); time++) {
  const started = performance.now();
  const columns = await READERS[reader]!(path);
  ms.push(performance.now() - started);
  rows = columns[0]!.length;
  // The second column is engine speed, the same in inside units: proof that both sides did the same work.
  sum = columns[1]!.reduce((total, value) => total + value, 0);
}
const peakMb = process.resourceUsage().maxRSS / 1024;
process.stdout.write(`${JSON.stringify({ ms, rows, sum, peakMb })}\n`);
