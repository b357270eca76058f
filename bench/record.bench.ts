/** The record: the first screen of a large shop, and kill -9 in the middle of imports at the full count. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openRecord } from '../src/record/index.ts';
import { killWhileImporting } from '../src/record/kill.ts';
import { createApp } from '../src/service/index.ts';
import type { BenchCase } from './case.ts';

const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

async function timed(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-bench-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** 200 engines, two builds each, 1,000 days of ten pulls, written past the repository because only reading is measured. */
function fill(folder: string): void {
  const db = new Database(join(folder, 'pullbook.sqlite'));
  db.transaction(() => {
    db.exec(`
      INSERT INTO cell (id, name, notes, ratio, torque_is, calibration_rel_sd) VALUES ('cell', 'Cell', '', 1, '{}', 0.005);
      WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 199)
        INSERT INTO engine SELECT 'engine_' || i, 'Engine ' || i, i, '', '', 8, 0.0057, NULL, 10, 4, 'natural', 'gasoline' FROM n;
      WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 399)
        INSERT INTO build SELECT 'build_' || i, 'engine_' || (i / 2), 'Build ' || (i % 2), '', NULL, NULL, NULL, NULL FROM n;
      WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 999)
        INSERT INTO test_day (id, build_id, cell_id, name, date, notes, configuration)
        SELECT 'day_' || i, 'build_' || (i % 400), 'cell', '', date('2020-01-01', '+' || i || ' days'), '', '{}' FROM n;
      INSERT INTO ladder (id, day_id, name, setting) SELECT 'ladder_' || id, id, 'Spark lead', 'lead' FROM test_day;
      INSERT INTO decision SELECT 'decision_' || id, id, 'bursts', 28, 'A', '2026-01-01', '', NULL FROM ladder;
      WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 9999)
        INSERT INTO pull (id, day_id, pull_order, lead_deg, note, knock_heard, aborted, configuration)
        SELECT 'pull_' || i, 'day_' || (i / 10), i % 10, 20 + i % 10, printf('%.200c', 'x'), 'false', 0, '{}' FROM n;
    `);
  })();
  db.close();
}

const firstScreen: BenchCase = {
  name: 'first screen of a shop with 10,000 pulls',
  peer: 'better-sqlite3, one prepared SELECT of all days with their pulls counted, as JSON',
  target: 'under 200 ms of server time',
  run: () =>
    inFolder(async (folder) => {
      await (await openRecord(folder)).close();
      fill(folder);
      const record = await openRecord(folder);
      const db = new Database(join(folder, 'pullbook.sqlite'), { readonly: true });
      const raw = db.prepare(
        'SELECT test_day.*, count(pull.id) AS pulls FROM test_day LEFT JOIN pull ON pull.day_id = test_day.id GROUP BY test_day.id',
      );
      const ours: number[] = [];
      const peers: number[] = [];
      try {
        const app = createApp(record, { port: () => 4310, webRoot: null });
        // The whole way of the request through the server, as it leaves for the network.
        const ask = async () => {
          const url = 'http://localhost:4310/api/v1/shop/summary';
          const answer = await app.request(url, { headers: { host: 'localhost:4310' } });
          const { pullCount } = (await answer.json()) as { pullCount: number };
          if (pullCount !== 10_000) throw new Error(`the first screen counted ${pullCount} pulls`);
        };
        const cold = await timed(ask);
        for (let round = 0; round < 21; round += 1) {
          ours.push(await timed(ask));
          peers.push(await timed(() => JSON.stringify(raw.all())));
        }
        const oursMs = median(ours);
        const note = `first time after opening ${cold.toFixed(1)} ms`;
        return { oursMs, peerMs: median(peers), met: Math.max(oursMs, cold) < 200, note };
      } finally {
        db.close();
        await record.close();
      }
    }),
};

const KILLS = 200;
const killed: BenchCase = {
  name: `kill -9 in the middle of an import, ${KILLS} times on one folder`,
  peer: 'none (a count, not a time)',
  target: 'nothing acknowledged is lost, opens clean',
  run: () =>
    inFolder(async (folder) => {
      const start = performance.now();
      const report = await killWhileImporting(folder, KILLS, 17);
      return {
        oursMs: performance.now() - start,
        peerMs: null,
        met: report.lost.length === 0 && report.halfStored === 0,
        note: `${report.acknowledged} acknowledged, ${report.lost.length} lost, ${report.halfStored} half stored`,
      };
    }),
};

export default [firstScreen, killed];
