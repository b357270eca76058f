/** Opens the record of a folder: lock, check, migrate, and the repository over it. */

import { existsSync, mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type Database from 'better-sqlite3';
import { StoreError } from '../errors.ts';
import type { SettingName } from '../ladder/kinds.ts';
import { backupRecord } from './backup.ts';
import { checkCalibration } from './calibrations.ts';
import { checkOpen, databaseFile, INCOMING } from './check.ts';
import { fromRow, toRow } from './codec.ts';
import { inertiaSaidBefore } from './days.ts';
import {
  LADDER_NAMES,
  NEW_BUILD,
  NEW_CALIBRATION,
  NEW_CELL,
  NEW_COMPARISON,
  NEW_DAY,
  NEW_DECISION,
  NEW_ENGINE,
  NEW_LADDER,
  NEW_PART_TEST,
  NEW_PULL,
  NEW_SERVICE_EVENT,
  NEW_SERVICE_READING,
  NEW_SHOP,
} from './defaults.ts';
import { makeDerived } from './derived.ts';
import { inOneChange } from './draft.ts';
import { makeEvents } from './events.ts';
import { makeBuildFiles, makeFiles } from './files.ts';
import { makeHandOvers } from './handOvers.ts';
import { makeId } from './ids.ts';
import { lockFolder } from './lock.ts';
import { migrate } from './migrate.ts';
import { makeTicks } from './plans.ts';
import { makePortions } from './portion.ts';
import { makeUpdateMany, nextOrder } from './pulls.ts';
import { makeRecordings } from './recordings.ts';
import type { PullbookRecord } from './repository.ts';
import { makeAsk, makePeaks, refillFindable } from './search/index.ts';
import { sentenceFor } from './sentences.ts';
import { checkReading } from './service.ts';
import { makeSheets } from './sheets.ts';
import { makeShelf } from './shelf.ts';
import { type Connections, kyselyOver, openConnection, storeErrorOf } from './store.ts';
import { daySummaries, shopSummary } from './summary.ts';
import { checkUse, checkVehicle } from './uses.ts';

export interface OpenOptions {
  readonly now?: () => Date;
  readonly newId?: (kind: string) => string;
}

/**
 * Opens the record in a folder, and makes both where they are missing.
 * @throws StoreError when another Pullbook has it, it is damaged, or its history is not ours.
 */
export async function openRecord(
  folder: string,
  options: OpenOptions = {},
): Promise<PullbookRecord> {
  const whole = resolve(folder);
  const now = options.now ?? (() => new Date());
  const file = databaseFile(whole);
  makeFolder(whole);
  const unlock = lockFolder(whole);
  const open: Database.Database[] = [];
  try {
    if (existsSync(join(whole, INCOMING)) && !existsSync(file)) {
      throw new StoreError(
        'A restore into this folder was interrupted; run `pullbook restore FILE` again.',
        { file: join(whole, INCOMING) },
      );
    }
    const existed = existsSync(file);
    const writer = openConnection(file);
    open.push(writer);
    if (existed) checkOpen(writer, file);
    migrate(writer, file, now().toISOString());
    seedShop(writer);
    // Not whether the file existed: a first run may have been killed before it recorded anything.
    const isNew = writer.prepare('SELECT 1 FROM event LIMIT 1').get() === undefined;
    const reader = openConnection(file, { readonly: true });
    open.push(reader);
    const at: Connections = {
      file,
      writing: kyselyOver(writer),
      reading: kyselyOver(reader),
      now,
      newId: options.newId ?? ((kind) => makeId(kind, now().getTime())),
    };
    await refillFindable(at);
    const closeAll = () => {
      // Kysely closes only connections it has used.
      for (const db of open) db.close();
      unlock();
    };
    return recordOver(at, { folder: whole, isNew, reader, closeAll });
  } catch (error) {
    for (const db of open) db.close();
    unlock();
    throw storeErrorOf(error, file);
  }
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new StoreError(
      `The folder ${folder} cannot be made; choose another one with --data or PULLBOOK_HOME.`,
      { file: folder },
      error,
    );
  }
}

function seedShop(db: Database.Database): void {
  const row = { id: 'shop', ...toRow('shop', { ...NEW_SHOP }) };
  const columns = Object.keys(row);
  db.prepare(
    `INSERT OR IGNORE INTO shop (${columns.join(', ')}) VALUES (${columns.map((c) => `@${c}`).join(', ')})`,
  ).run(row);
}

function recordOver(
  at: Connections,
  opened: { folder: string; isNew: boolean; reader: Database.Database; closeAll: () => void },
): PullbookRecord {
  const getShop = async () =>
    fromRow('shop', await at.reading.selectFrom('shop').selectAll().executeTakeFirstOrThrow());
  const mappings = makeShelf<'mapping', never, { cellId: string }>(at, 'mapping', { defaults: {} });
  let closed = false;
  return {
    folder: opened.folder,
    isNew: opened.isNew,
    shop: {
      get: getShop,
      async update(patch, change = {}) {
        await inOneChange(
          at,
          change,
          (draft) => sentenceFor(draft.touched),
          (draft) => draft.update('shop', 'shop', { ...patch }),
        );
        return getShop();
      },
    },
    cells: makeShelf(at, 'cell', { defaults: { ...NEW_CELL } }),
    mappings: {
      ...mappings,
      async findByShape(cellId, shape) {
        const row = await at.reading
          .selectFrom('mapping')
          .selectAll()
          .where('cell_id', '=', cellId)
          .where('shape', '=', shape)
          .executeTakeFirst();
        return row === undefined ? null : fromRow('mapping', row);
      },
      async put(cellId, shape, answers, change = {}) {
        const standing = await this.findByShape(cellId, shape);
        return standing === null
          ? mappings.create({ cellId, shape, answers } as never, change)
          : mappings.update(standing.id, { answers }, change);
      },
    },
    engines: makeShelf(at, 'engine', { defaults: { ...NEW_ENGINE } }),
    builds: makeShelf(at, 'build', { defaults: { ...NEW_BUILD } }),
    days: makeShelf(at, 'day', {
      defaults: async (draft, fresh) => ({
        ...NEW_DAY,
        inertiaKgM2: await inertiaSaidBefore(draft, fresh),
      }),
      along: async (draft, fields) => {
        const id = at.newId('ladder');
        await draft.insert('ladder', id, { ...NEW_LADDER, id, dayId: fields.id });
      },
    }),
    pulls: {
      ...makeShelf(at, 'pull', {
        defaults: async (draft, fresh) => ({
          ...NEW_PULL,
          order: fresh.order ?? (await nextOrder(draft, fresh.dayId as string)),
        }),
      }),
      updateMany: makeUpdateMany(at),
    },
    ladders: makeShelf(at, 'ladder', {
      defaults: async (_draft, fresh) => ({
        ...NEW_LADDER,
        name: LADDER_NAMES[(fresh.setting as SettingName | undefined) ?? NEW_LADDER.setting],
      }),
    }),
    decisions: makeShelf(at, 'decision', {
      defaults: async () => ({ ...NEW_DECISION, decidedAt: at.now().toISOString() }),
    }),
    recordings: makeRecordings(at),
    sheets: makeSheets(at),
    buildFiles: makeBuildFiles(at),
    files: makeFiles(at),
    plans: {
      ...makeShelf(at, 'plan', {
        defaults: async () => ({ madeAt: at.now().toISOString(), who: '' }),
      }),
      ...makeTicks(at),
    },
    comparisons: makeShelf(at, 'comparison', {
      defaults: async () => ({ ...NEW_COMPARISON, keptAt: at.now().toISOString() }),
    }),
    vehicles: makeShelf(at, 'vehicle', {
      defaults: async () => ({ who: '', keptAt: at.now().toISOString() }),
      check: checkVehicle,
    }),
    uses: makeShelf(at, 'engineUse', {
      defaults: async () => ({ who: '', keptAt: at.now().toISOString() }),
      check: checkUse,
    }),
    partTests: makeShelf(at, 'partTest', {
      defaults: async () => ({ ...NEW_PART_TEST, madeAt: at.now().toISOString() }),
    }),
    serviceEvents: makeShelf(at, 'serviceEvent', {
      defaults: async () => ({ ...NEW_SERVICE_EVENT, writtenAt: at.now().toISOString() }),
    }),
    serviceReadings: makeShelf(at, 'serviceReading', {
      defaults: async () => ({ ...NEW_SERVICE_READING, writtenAt: at.now().toISOString() }),
      checkWhole: checkReading,
    }),
    handOvers: makeHandOvers(at),
    portions: makePortions(at),
    search: makeAsk(at),
    peaks: makePeaks(at),
    calibrations: makeShelf(at, 'calibration', {
      defaults: { ...NEW_CALIBRATION },
      check: checkCalibration,
    }),
    derived: makeDerived(at),
    events: makeEvents(at),
    summary: () => shopSummary(at.reading),
    daysOfEngine: (engineId) => daySummaries(at.reading, engineId),
    check: async () => checkOpen(opened.reader, at.file),
    backup: (toFile, progress) => backupRecord(opened.folder, toFile, progress),
    isClosed: () => closed,
    async close() {
      if (closed) return;
      closed = true;
      await at.reading.destroy();
      await at.writing.destroy();
      opened.closeAll();
    },
  };
}
