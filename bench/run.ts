import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchCase } from './case.ts';

/** `npm run bench` runs all; `npm run bench -- WORD` those whose file name holds the word. */
const wanted = process.argv[2] ?? '';
const files = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.bench.ts') && name.includes(wanted))
  .sort();

interface Row {
  what: string;
  ours: string;
  peer: string;
  'peer takes': string;
  ratio: string;
  memory: string;
  target: string;
  met: string;
}
const rows: Row[] = [];
for (const file of files) {
  const loaded = (await import(join(import.meta.dirname, file))) as {
    default: BenchCase | readonly BenchCase[];
  };
  for (const benchCase of [loaded.default].flat()) {
    process.stderr.write(`measuring ${benchCase.name} …\n`);
    const { oursMs, peerMs, peakMb, met, note } = await benchCase.run();
    rows.push({
      what: benchCase.name,
      ours: `${oursMs.toFixed(1)} ms`,
      peer: benchCase.peer,
      'peer takes': peerMs === null ? '' : `${peerMs.toFixed(1)} ms`,
      ratio: peerMs === null ? '' : `${(peerMs / oursMs).toFixed(2)} x`,
      memory: peakMb === undefined ? '' : `${peakMb.toFixed(0)} MB`,
      target: benchCase.target,
      met: `${met ? 'met' : 'MISSED'}${note === undefined ? '' : ` (${note})`}`,
    });
  }
}
console.table(rows);
