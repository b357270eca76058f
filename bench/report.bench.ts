/** A report of forty pulls: cold at the command, warm over the service, and its bundle held against its recordings. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecord } from '../src/record/index.ts';
import { createApp } from '../src/service/index.ts';
import type { BenchCase } from './case.ts';
import { BUILD, fillShop, PULLS } from './reportShop.ts';

const ROUNDS = 5;
const TARGET_MS = 2000;
const MEMORY_MB = 300;
const root = join(import.meta.dirname, '..');
const middle = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[values.length >> 1]!;

interface Ran {
  readonly wallMs: number;
  readonly cpuMs: number;
  readonly peakMb: number;
  readonly out: string;
}

/** Says on standard error, as its last line, what the process took. */
const TOLD = `data:text/javascript,process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  process.stderr.write('\\n' + JSON.stringify({ cpuMs: (userCPUTime + systemCPUTime) / 1000, peakMb: maxRSS / 1024 }));
});`;

/** One process of its own, as a person starts it: from nothing to its end. */
function ran(...args: readonly string[]): Ran {
  const from = performance.now();
  const child = spawnSync(process.execPath, ['--import', TOLD, ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  const wallMs = performance.now() - from;
  if (child.status !== 0) throw new Error(`${args.join(' ')} failed: ${child.stderr}`);
  const told = JSON.parse(child.stderr.split('\n').at(-1)!) as Pick<Ran, 'cpuMs' | 'peakMb'>;
  return { wallMs, ...told, out: child.stdout };
}

const command = (...args: readonly string[]) => ran('bin/pullbook.mjs', ...args);
const child = (...args: readonly string[]) =>
  ran('--import', 'tsx', join(import.meta.dirname, 'reportChild.ts'), ...args);

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-bench-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A shop, none of whose curves is kept, to be copied for each cold run. */
async function freshShop(folder: string): Promise<() => string> {
  // What people run is what is built; the sources would be compiled anew in each process.
  const built = spawnSync(process.execPath, ['scripts/build.mjs'], { cwd: root, stdio: 'ignore' });
  if (built.status !== 0) throw new Error('the command could not be built');
  const shop = join(folder, 'shop');
  await fillShop(shop);
  let count = 0;
  return () => {
    const copy = join(folder, `copy-${count++}`);
    cpSync(shop, copy, { recursive: true });
    return copy;
  };
}

const pagesOf = (pdf: Uint8Array) =>
  Number(/NPages>(\d+)</.exec(Buffer.from(pdf).toString('latin1'))?.[1] ?? Number.NaN);

const seconds = (runs: readonly Ran[], of: 'wallMs' | 'cpuMs') =>
  (middle(runs.map((run) => run[of])) / 1000).toFixed(2);

/** Everything from starting Node on: reading and fitting each recording is the larger part. */
const cold: BenchCase = {
  name: `report of ${PULLS} pulls at the command, no curve kept`,
  peer: 'Typst 0.7 for Node alone, in a process of its own: as many pages of plain text, to the same PDF/A',
  target: `under ${TARGET_MS / 1000} s and ${MEMORY_MB} MB`,
  run: () =>
    inFolder(async (folder) => {
      const shop = await freshShop(folder);
      const out = join(folder, 'report.pdf');
      const ours: Ran[] = [];
      const theirs: Ran[] = [];
      for (let round = 0; round < ROUNDS; round++) {
        ours.push(command('handover', BUILD, '--data', shop(), '--out', out));
        theirs.push(child('typst', String(pagesOf(readFileSync(out)))));
      }
      const oursMs = middle(ours.map(({ wallMs }) => wallMs));
      // What the processes of the peer take to load the compiler of our sources is not its own.
      const peerMs = middle(theirs.map((run) => Number(run.out)));
      const peakMb = Math.max(...ours.map((run) => run.peakMb));
      const parts = child('parts', shop()).out.trim();
      return {
        oursMs,
        peerMs,
        peakMb,
        met: oursMs < TARGET_MS && peakMb < MEMORY_MB,
        note: `${pagesOf(readFileSync(out))} pages, ${seconds(ours, 'cpuMs')} s of processor time; parts in ms, from the sources: ${parts}`,
      };
    }),
};

/** The shop is open and its curves are kept, as after a day's work. */
const warm: BenchCase = {
  name: `the same over the service, curves kept: frozen, and the report set`,
  peer: 'Typst 0.7 for Node alone, warm: as many pages of plain text',
  target: `under ${TARGET_MS / 1000} s`,
  run: () =>
    inFolder(async (folder) => {
      const shop = await freshShop(folder);
      const record = await openRecord(shop());
      try {
        const app = createApp(record, { port: () => 4310, webRoot: null });
        const ask = async (method: string, path: string, body?: unknown) => {
          const answer = await app.request(`http://localhost:4310/api/v1${path}`, {
            method,
            headers: { host: 'localhost:4310', 'content-type': 'application/json' },
            ...(body === undefined ? {} : { body: JSON.stringify(body) }),
          });
          if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
          return new Uint8Array(await answer.arrayBuffer());
        };
        const build = (await record.builds.list()).find(({ name }) => BUILD.endsWith(name))!;
        const times = { freeze: [], report: [], page: [], bundle: [] } as Record<string, number[]>;
        let pages = 0;
        for (let round = 0; round <= ROUNDS; round++) {
          const timed = async (what: string, work: () => Promise<Uint8Array>) => {
            const from = performance.now();
            const bytes = await work();
            // The first round fits the curves and compiles the code; it is not warm.
            if (round > 0) times[what]!.push(performance.now() - from);
            return bytes;
          };
          const made = await timed('freeze', () =>
            ask('POST', `/builds/${build.id}/handovers`, {}),
          );
          const { id } = JSON.parse(Buffer.from(made).toString('utf8')) as { id: string };
          const report = await timed('report', () => ask('GET', `/handovers/${id}/report`));
          await timed('page', () => ask('GET', `/handovers/${id}/page`));
          await timed('bundle', () => ask('GET', `/handovers/${id}/bundle`));
          pages = pagesOf(report);
        }
        const at = (what: string) => middle(times[what]!);
        const peerMs = Number(child('typst', String(pages), '5').out);
        const oursMs = at('freeze') + at('report');
        return {
          oursMs,
          peerMs,
          met: oursMs < TARGET_MS,
          note: Object.keys(times)
            .map((what) => `${what} ${at(what).toFixed(0)}`)
            .join(', ')
            .concat(' ms'),
        };
      } finally {
        await record.close();
      }
    }),
};

/** All is computed again from the recordings: curves, ladders, comparison, tables, pictures, report and page. */
const verified: BenchCase = {
  name: `its bundle held against its recordings (pullbook verify)`,
  peer: 'none: nobody else can say whether the figures follow',
  target: `under ${MEMORY_MB} MB`,
  run: () =>
    inFolder(async (folder) => {
      const shop = await freshShop(folder);
      const [zip, pdf] = [join(folder, 'bundle.zip'), join(folder, 'report.pdf')];
      command('handover', BUILD, '--data', shop(), '--out', zip, pdf);
      const bundles = Array.from({ length: ROUNDS }, () => command('verify', zip));
      const reports = Array.from({ length: 3 }, () => command('verify', pdf));
      for (const { out } of [...bundles, ...reports])
        if (!out.includes(': follows')) throw new Error(`it does not follow: ${out}`);
      const peakMb = Math.max(...[...bundles, ...reports].map((run) => run.peakMb));
      return {
        oursMs: middle(bundles.map(({ wallMs }) => wallMs)),
        peerMs: null,
        peakMb,
        met: peakMb < MEMORY_MB,
        note: `${seconds(bundles, 'cpuMs')} s of processor time; a report with its bundle in it ${seconds(reports, 'wallMs')} s (${seconds(reports, 'cpuMs')} s)`,
      };
    }),
};

export default [cold, warm, verified];
