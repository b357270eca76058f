import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { InputError } from '../errors.ts';
import { programOf } from '../service/program.ts';
import { type Verified, verifyFile } from '../service/work/verify.ts';
import { eachFile } from './eachFile.ts';
import { type CommandIo, EXIT, plain } from './io.ts';
import { table, wrapped } from './table.ts';
import { version } from './version.ts';

export interface VerifyFlags {
  readonly json?: boolean;
}

/** `pullbook verify`: whether every figure of a hand-over still follows; any that does not makes the exit code 1. */
export async function verify(
  files: readonly string[],
  flags: VerifyFlags,
  io: CommandIo,
): Promise<number> {
  let isAllWell = true;
  const code = await eachFile(
    files,
    io,
    flags.json === true,
    async (file) => {
      const verified = await verifyFile(
        await bytesOf(io.cwd, file),
        file,
        programOf(version()),
        io.signal,
      );
      isAllWell &&= verified.verdict === 'follows';
      return [{ ok: true, ...verified }];
    },
    (verified) => showVerified(verified, io.columns),
  );
  return isAllWell ? code : EXIT.refused;
}

async function bytesOf(cwd: string, file: string): Promise<Uint8Array> {
  try {
    return new Uint8Array(await readFile(resolve(cwd, file)));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(
      code === 'ENOENT' ? `There is no file ${file}.` : `${file} cannot be read (${code}).`,
      { file },
      error,
    );
  }
}

const MOST_SHOWN = 20;

function showVerified(verified: Verified, columns: number): string {
  const { file, engine, build, madeAt, madeWith, signedBy, problems, unheld, differences } =
    verified;
  const about = `${engine}, ${build}, made ${madeAt.slice(0, 10)} with ${madeWith}`;
  const key =
    signedBy === null
      ? 'not signed with a key that holds'
      : `signed with the key ${signedBy.name}; compare it with the one the shop gave you`;
  const rows = differences
    .slice(0, MOST_SHOWN)
    .map(({ place, says, follows }) => [plain(place), shown(says), shown(follows)]);
  const more = differences.length - MOST_SHOWN;
  return [
    `${plain(file)}: ${verified.verdict}\n`,
    wrapped(plain(verified.sentence), columns, '  '),
    `  ${plain(about)}\n  ${key}\n`,
    ...[...problems, ...unheld]
      .slice(0, MOST_SHOWN)
      .map(({ sentence }) => wrapped(plain(sentence), columns, '  ')),
    ...(rows.length === 0
      ? []
      : [
          '\n',
          table([{ title: 'where' }, { title: 'it says' }, { title: 'what follows' }], rows),
          ...(more > 0 ? [`  and ${more} more; --json has all\n`] : []),
        ]),
  ].join('');
}

function shown(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing');
  return plain(text.length > 60 ? `${text.slice(0, 59)}…` : text);
}
