import { constants, existsSync } from 'node:fs';
import { access, open, rename, rm } from 'node:fs/promises';
import { resolve } from 'node:path';
import { InputError } from '../errors.ts';
import { type Engine, openRecord } from '../record/index.ts';
import {
  exportShop,
  lookAtShopFile,
  type ShopFile,
  takeShopFile,
  withShopFile,
} from '../service/work/shopFile.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine, plain } from './io.ts';
import { readingShop } from './shop.ts';
import { version } from './version.ts';

export interface ShopFileFlags {
  readonly data?: string;
  readonly engine?: string;
  readonly look?: boolean;
  readonly json?: boolean;
}

/** `pullbook export`: the shop, or one engine of it, for another machine; also while a server has it open. */
export async function exportTo(file: string, flags: ShopFileFlags, io: CommandIo): Promise<number> {
  const path = resolve(io.cwd, file);
  if (existsSync(path))
    throw new InputError(`${file} exists; name a new file, an export is never written over one.`, {
      file,
      expected: 'the name of a new file',
    });
  await readingShop(recordFolder(flags.data, io), async (record) => {
    const engines = await record.engines.list();
    const wanted = flags.engine === undefined ? 'all' : [engineNamed(engines, flags.engine).id];
    const part = `${path}.part`;
    const out = await open(part, 'wx');
    try {
      const about = { madeAt: new Date().toISOString(), pullbook: version() };
      // `write` may stop short of the end of a piece where the disk is full, and would say nothing.
      await exportShop(record, wanted, about, (piece) => out.writeFile(piece));
      await out.sync();
      await out.close();
      await rename(part, path);
    } catch (error) {
      await out.close().catch(() => {});
      await rm(part, { force: true });
      throw error;
    }
  });
  io.out(`exported to ${plain(file)}\n`);
  return EXIT.done;
}

function engineNamed(engines: readonly Engine[], name: string): Engine {
  const found = engines.filter((one) => one.name.toLowerCase() === name.trim().toLowerCase());
  if (found.length === 1) return found[0]!;
  throw new InputError(
    found.length === 0
      ? `There is no engine ${name} in this shop.`
      : `There are ${found.length} engines called ${name}; rename one first.`,
    {
      found: name,
      expected: engines
        .map((one) => one.name)
        .join(', ')
        .slice(0, 500),
    },
  );
}

/** `pullbook take`: what comes in, in one change; with `--look` nothing does. */
export async function take(file: string, flags: ShopFileFlags, io: CommandIo): Promise<number> {
  const path = resolve(io.cwd, file);
  await access(path, constants.R_OK).catch((error: unknown) => {
    throw new InputError(`There is no file ${file} that can be read.`, { file }, error);
  });
  return withShopFile(path, file, (given) => takeInto(given, flags, io));
}

async function takeInto(given: ShopFile, flags: ShopFileFlags, io: CommandIo): Promise<number> {
  const record = await openRecord(recordFolder(flags.data, io));
  try {
    const look = await lookAtShopFile(record, given);
    if (flags.look === true || look.conflicts.length > 0) {
      io.out(
        flags.json
          ? jsonLine({ ok: look.conflicts.length === 0, ...look })
          : `${plain(look.sentence)}\n`,
      );
      return look.conflicts.length === 0 ? EXIT.done : EXIT.refused;
    }
    const done = await takeShopFile(record, given, {});
    const sentence = look.sentence
      .replaceAll('would come in', 'came in')
      .replaceAll('comes in as', 'came in as');
    io.out(flags.json ? jsonLine({ ok: true, ...done }) : `${plain(sentence)}\n`);
    return EXIT.done;
  } finally {
    await record.close();
  }
}
