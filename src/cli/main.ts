import { run } from './program.ts';

const stop = new AbortController();
process.once('SIGINT', () => stop.abort());
process.once('SIGTERM', () => stop.abort());
// A reader such as head that has seen enough is no error of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  terminal: process.stdout.isTTY === true,
  progressTerminal: process.stderr.isTTY === true,
  columns: process.stdout.columns ?? 100,
  cwd: process.cwd(),
  env: process.env,
  signal: stop.signal,
});
