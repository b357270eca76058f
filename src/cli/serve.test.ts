import { afterEach, describe, expect, it } from 'vitest';
import { run } from './program.ts';
import { speedTable, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

const folders: ReturnType<typeof testFolder>[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

describe('pullbook serve', () => {
  it('prints its address, answers there, and gives the record back when it is told to stop', async () => {
    const folder = testFolder({ 'a.csv': speedTable() });
    folders.push(folder);
    const stop = new AbortController();
    const test = testIo(folder.folder);
    let tell: (address: string) => void = () => {};
    const told = new Promise<string>((resolve) => {
      tell = resolve;
    });
    const out = (text: string) => {
      test.io.out(text);
      const address = /http:\/\/\S+/.exec(text)?.[0];
      if (address !== undefined) tell(address);
    };
    const args = ['serve', '--port', '0', '--no-demo', '--data', 'home'];
    const served = run(args, { ...test.io, out, signal: stop.signal });
    const address = await Promise.race([told, served.then((code) => `ended with ${code}`)]);
    const health = await fetch(`${address}/api/v1/health`);
    expect(health.status).toBe(200);
    stop.abort();
    expect(await served).toBe(0);
    // The folder is free again: the next command opens it.
    const next = testIo(folder.folder);
    expect(await run(['import', '--data', 'home', '--engine', 'e', 'a.csv'], next.io)).toBe(0);
  });

  it('calls an impossible port wrong usage', async () => {
    const test = testIo(process.cwd());
    expect(await run(['serve', '--port', '70000'], test.io)).toBe(2);
    expect(test.err()).toMatch(/--port/);
  });
});
