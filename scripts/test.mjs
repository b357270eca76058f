/**
 * `npm test`: everything a change must pass, from a fresh clone, closing with one line of totals.
 * Two lanes, one a core: what needs neither database nor browser runs while those are prepared.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  findBrowser,
  findPdfReader,
  installCommand,
  NO_BROWSER,
  NO_PDF_READER,
} from './browser.mjs';
import { ensurePackages, nativeCommand, nativeWorks, QUICK_COMPILE, root } from './install.mjs';

/** One worker that keeps what it has loaded: with a module graph this wide, loading it for every file took half the time. */
const IN_ONE_WORKER = ['--maxWorkers=1', '--no-isolate'];
const NEEDS_DATABASE = ['src/record', 'src/service', 'src/cli'];
/** Need the database too, and run at the end of the other lane, so that both end together. */
const REPORT_AND_DEMO = ['src/report', 'demo/load'];
const reports = mkdtempSync(join(tmpdir(), 'pullbook-test-'));
const totals = { passed: 0, failed: 0, skipped: 0 };
const failedSteps = [];

/** One step; its output comes in one piece when it ends, so that two lanes stay readable. */
function step(name, command, args, env = {}) {
  const started = performance.now();
  return new Promise((done) => {
    const child = spawn(command, args, {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      shell: process.platform === 'win32',
    });
    let output = '';
    const keep = (chunk) => {
      output += chunk;
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.on('error', (error) => keep(`${error.message}\n`));
    child.on('close', (code) => {
      const seconds = ((performance.now() - started) / 1000).toFixed(1);
      process.stdout.write(`\n── ${name}: ${code === 0 ? 'passed' : 'FAILED'} in ${seconds} s\n`);
      if (code !== 0 || name.startsWith('tests')) process.stdout.write(output);
      if (code !== 0) failedSteps.push(name);
      done(code === 0);
    });
  });
}

async function vitest(name, args, env) {
  const file = join(reports, `${name.replaceAll(/\W+/g, '-')}.json`);
  const bin = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  await step(
    `tests: ${name}`,
    process.execPath,
    [bin, 'run', '--reporter=dot', '--reporter=json', `--outputFile.json=${file}`, ...args],
    env,
  );
  try {
    const report = JSON.parse(readFileSync(file, 'utf8'));
    totals.passed += report.numPassedTests;
    totals.failed += report.numFailedTests;
    totals.skipped += report.numPendingTests + report.numTodoTests;
  } catch {
    totals.failed += 1;
    failedSteps.push(`tests: ${name} left no report`);
  }
}

const bin = (name) => join(root, 'node_modules', '.bin', name);

/** Resolved when dist/ stands: the browser tests serve it. */
let markBuilt;
const built = new Promise((done) => {
  markBuilt = done;
});
/** Resolved when the database's native part works, or was tried. */
let markEngine;
const engineReady = new Promise((done) => {
  markEngine = done;
});

/** What needs no browser, and the database only at its end. */
async function numbersLane() {
  await step('build', process.execPath, ['scripts/build.mjs']);
  markBuilt();
  await step('types', bin('tsc'), ['--noEmit']);
  await step('lint', bin('biome'), ['check', '--error-on-warnings', '.']);
  await vitest('numbers and references', [
    '--project=unit',
    '--project=reference',
    ...IN_ONE_WORKER,
    ...[...NEEDS_DATABASE, ...REPORT_AND_DEMO].flatMap((path) => [
      '--exclude',
      `${path}**`,
      '--exclude',
      `${path}/**`,
    ]),
  ]);
  await vitest('known truth', ['--project=whole', 'test/truth']);
  await engineReady;
  await vitest('report and demo', ['--project=unit', ...IN_ONE_WORKER, ...REPORT_AND_DEMO]);
}

/** What needs the database's native part, and a browser; both are prepared first. */
async function productLane() {
  if (!nativeWorks()) {
    await step('database engine', ...nativeCommand, process.env.CI ? QUICK_COMPILE : {});
  }
  markEngine();
  if (findBrowser() === null || !findPdfReader()) {
    const install = installCommand();
    if (install === null) process.stdout.write(`\n${NO_BROWSER}\n`);
    else await step('browser', ...install);
  }
  const browser = findBrowser();
  if (browser === null) failedSteps.push(NO_BROWSER);
  if (!findPdfReader()) failedSteps.push(NO_PDF_READER);
  await vitest('record, service and command', [
    '--project=unit',
    ...IN_ONE_WORKER,
    ...NEEDS_DATABASE,
  ]);
  await built;
  await vitest(
    'the whole product',
    ['--project=whole', '--exclude', 'test/truth/**'],
    browser === null ? {} : { PULLBOOK_BROWSER: browser },
  );
}

const started = performance.now();
ensurePackages();
await Promise.all([numbersLane(), productLane()]);
rmSync(reports, { recursive: true, force: true });

const seconds = Math.round((performance.now() - started) / 1000);
process.stdout.write(`\nall steps took ${seconds} s\n`);
for (const name of new Set(failedSteps)) process.stdout.write(`failed: ${name}\n`);
if (failedSteps.length > 0 && totals.failed === 0) totals.failed = failedSteps.length;
process.stdout.write(
  `${totals.passed} passed, ${totals.failed} failed, ${totals.skipped} skipped\n`,
);
process.exit(failedSteps.length === 0 && totals.failed === 0 && totals.passed > 0 ? 0 : 1);
