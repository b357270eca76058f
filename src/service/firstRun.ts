/** The first run of all: the demo shop, whole or not at all, so that a kill in the middle leaves no half of it. */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { StoreError } from '../errors.ts';
import {
  type Change,
  type DayPlan,
  openRecord,
  type PullbookRecord,
  restoreRecord,
} from '../record/index.ts';
import { importRunFile } from './importRunFile.ts';
import { Curves } from './work/curves.ts';
import { type Deciding, decide } from './work/decisions.ts';
import { makePlan } from './work/plans.ts';
import { Readings } from './work/readings.ts';

/** Fills a new record; each run file and decision goes by the way in that a user's take. */
export type DemoLoader = (
  record: PullbookRecord,
  ways: {
    readonly importRunFile: (
      dayId: string,
      fileName: string,
      bytes: Uint8Array,
    ) => ReturnType<typeof importRunFile>;
    readonly decide: (ladderId: string, decision: Deciding, change: Change) => Promise<unknown>;
    readonly makePlan: (dayId: string, change: Change, madeAt: string) => Promise<DayPlan>;
  },
  onProgress?: (done: number, total: number) => void,
) => Promise<void>;

/** Loads the demo into a folder that has no record yet; a demo that breaks off is said and left away. @throws StoreError when the folder cannot be written or is in use */
export async function firstRun(
  folder: string,
  demo: DemoLoader | null | undefined,
  say: (line: string) => void,
): Promise<void> {
  if (demo === null || existsSync(join(folder, 'pullbook.sqlite'))) return;
  const load = demo ?? (await shippedDemo());
  if (load === null) return;
  const workshop = join(folder, 'first-run');
  rmSync(workshop, { recursive: true, force: true });
  const record = await openRecord(workshop);
  try {
    let shown = -1;
    const curves = new Curves(record, new Readings(record));
    await load(
      record,
      {
        importRunFile: (dayId, fileName, bytes) =>
          importRunFile(record, dayId, fileName, bytes, { who: 'demo shop' }),
        decide: (ladderId, decision, change) => decide(record, curves, ladderId, decision, change),
        makePlan: (dayId, change, madeAt) => makePlan(record, dayId, change, madeAt),
      },
      (done, total) => {
        const tenth = Math.floor((done * 10) / total);
        if (tenth !== shown) say(`first run: demo shop ${tenth * 10} %`);
        shown = tenth;
      },
    );
    await record.close();
    restoreRecord(folder, join(workshop, 'pullbook.sqlite'), new Date());
  } catch (error) {
    // A shop must not be kept from its work by a demo; a disk that refuses will refuse the shop too.
    if (error instanceof StoreError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    say(`the demo shop could not be loaded (${why}); starting with an empty shop`);
  } finally {
    await record.close();
    rmSync(workshop, { recursive: true, force: true });
  }
}

/**
 * The demo lies beside the product and is no part of it: built as `demo.js` next to the command, or in the tree
 * when run from the sources; null where it was left away.
 */
async function shippedDemo(): Promise<DemoLoader | null> {
  const here = import.meta.dirname;
  const places = [join(here, 'demo.js'), join(here, '..', '..', 'demo', 'load.ts')];
  const place = places.find((file) => existsSync(file));
  if (place === undefined) return null;
  const { loadDemo } = (await import(pathToFileURL(place).href)) as { loadDemo: DemoLoader };
  return loadDemo;
}
