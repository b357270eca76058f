/** A record in a folder of its own, for tests; removed with everything in it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecord } from './open.ts';
import type { PullbookRecord } from './repository.ts';
import type { Cell, Engine, TestDay } from './types.ts';

export function temporaryFolder(): { folder: string; remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** One engine with one build and one day in one cell. */
export async function oneDay(
  record: PullbookRecord,
): Promise<{ cell: Cell; engine: Engine; day: TestDay }> {
  const cell = await record.cells.create({ name: 'Cell' });
  const engine = await record.engines.create({ name: 'Engine' });
  const build = await record.builds.create({ engineId: engine.id, name: 'First build' });
  const day = await record.days.create({ buildId: build.id, cellId: cell.id, date: '2026-05-17' });
  return { cell, engine, day };
}

/** Runs against a fresh record and cleans up after it. */
export async function withRecord(
  work: (record: PullbookRecord, folder: string) => Promise<void>,
): Promise<void> {
  const { folder, remove } = temporaryFolder();
  const record = await openRecord(folder);
  try {
    await work(record, folder);
  } finally {
    await record.close();
    remove();
  }
}
