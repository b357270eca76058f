import { resolve } from 'node:path';
import envPaths from 'env-paths';
import type { CommandIo } from './io.ts';

/** Folder of the record: the option, else PULLBOOK_HOME, else the user's data folder. */
export function recordFolder(data: string | undefined, io: CommandIo): string {
  const home = io.env.PULLBOOK_HOME;
  const said = data ?? (home === undefined || home === '' ? undefined : home);
  return said === undefined ? envPaths('pullbook', { suffix: '' }).data : resolve(io.cwd, said);
}
