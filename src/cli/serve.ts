import { UsageError } from '../errors.ts';
import { startService } from '../service/index.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT } from './io.ts';
import { version } from './version.ts';

export interface ServeFlags {
  readonly data?: string;
  readonly port?: string;
  readonly host?: string;
  readonly name?: readonly string[];
  readonly maxUpload?: string;
  readonly open?: boolean;
  /** false with --no-demo. */
  readonly demo: boolean;
}

/** `pullbook serve`: answers until it is told to stop, then closes the record and ends with 0. */
export async function serve(flags: ServeFlags, io: CommandIo): Promise<number> {
  const folder = recordFolder(flags.data, io);
  const port = wholeNumber('port', flags.port, 65_535);
  const maxUploadMb = wholeNumber('max-upload', flags.maxUpload, 1_000_000);
  const service = await startService({
    folder,
    version: version(),
    say: (line) => io.err(`${line}\n`),
    ...(port === undefined ? {} : { port }),
    ...(flags.host === undefined ? {} : { host: flags.host }),
    ...(flags.name === undefined ? {} : { names: flags.name }),
    ...(maxUploadMb === undefined ? {} : { maxUploadBytes: maxUploadMb * 1_000_000 }),
    ...(flags.demo ? {} : { demo: null }),
  });
  try {
    io.out(`Pullbook is at ${service.address}\n`);
    io.err(`The record is in ${folder}. Ctrl-C stops the server; nothing is lost by it.\n`);
    if (flags.open && hasScreen(io)) await openBrowser(service.address, io);
    await aborted(io.signal);
  } finally {
    await service.close();
  }
  return EXIT.done;
}

function wholeNumber(name: string, text: string | undefined, most: number): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (/^\d+$/.test(text) && value <= most) return value;
  throw new UsageError(
    `--${name}: "${text}" is out of range; expected a whole number up to ${most}`,
  );
}

/** A browser is only opened where a person can see it. */
function hasScreen({ env }: CommandIo): boolean {
  if (process.platform === 'win32' || process.platform === 'darwin') return !env.SSH_CONNECTION;
  return Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

/** No browser is no failure: the address is printed. */
async function openBrowser(address: string, io: CommandIo): Promise<void> {
  try {
    const { default: open } = await import('open');
    const child = await open(address);
    child.once('error', () => io.err(`No browser could be opened; open ${address} yourself.\n`));
  } catch {
    io.err(`No browser could be opened; open ${address} yourself.\n`);
  }
}

function aborted(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });
}
