import { resolve } from 'node:path';
import { backupRecord, restoreRecord } from '../record/index.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT } from './io.ts';

export interface RecordFlags {
  readonly data?: string;
}

/** `pullbook backup`: a consistent copy of the record, also while a server has it open. */
export async function backup(file: string, flags: RecordFlags, io: CommandIo): Promise<number> {
  let shown = -1;
  await backupRecord(recordFolder(flags.data, io), resolve(io.cwd, file), (share) => {
    const percent = Math.floor(share * 100);
    if (io.progressTerminal && percent !== shown) io.err(`\rcopying ${percent} %`);
    shown = percent;
  });
  if (io.progressTerminal) io.err('\r');
  io.out(`backed up to ${file}\n`);
  return EXIT.done;
}

/** `pullbook restore`: a backup takes the place of the record; what stood there is kept beside it. */
export async function restore(file: string, flags: RecordFlags, io: CommandIo): Promise<number> {
  const folder = recordFolder(flags.data, io);
  const aside = restoreRecord(folder, resolve(io.cwd, file), new Date());
  io.out(`restored into ${folder}\n`);
  if (aside !== null) io.out(`what stood there before is in ${aside}\n`);
  return EXIT.done;
}
