import type { CommandIo } from './io.ts';

/** Input and output of a command run inside a test. */
export function testIo(cwd: string, env: CommandIo['env'] = {}) {
  const out: string[] = [];
  const err: string[] = [];
  const io: CommandIo = {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    terminal: false,
    progressTerminal: false,
    columns: 100,
    cwd,
    env,
    signal: new AbortController().signal,
  };
  return {
    io,
    out: () => out.join(''),
    err: () => err.join(''),
    /** Standard output as the JSON objects on its lines. */
    objects: () =>
      out
        .join('')
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line) as Record<string, unknown>),
  };
}
