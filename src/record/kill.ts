/** Kills a process in the middle of its imports, again and again on one folder, and looks what is left. */
import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xorshift128plus } from 'pure-rand/generator/xorshift128plus';
import { openRecord } from './open.ts';
import { sha256Of } from './pack.ts';

interface KillReport {
  readonly kills: number;
  readonly acknowledged: number;
  /** Acknowledged imports that are gone or changed; must be empty. */
  readonly lost: readonly string[];
  /** Recordings with another number of pulls than were imported together; must be 0. */
  readonly halfStored: number;
}

/**
 * Each round starts a process that imports file after file, waits for a random number of acknowledgements (none:
 * while it opens the record) and kills it (SIGKILL) a random fraction of an import later; then the record is opened, with its integrity check.
 * What a power cut does beyond a kill (the disk's own cache) it cannot show.
 * @throws StoreError when the database does not open clean.
 */
export async function killWhileImporting(
  folder: string,
  kills: number,
  seed: number,
): Promise<KillReport> {
  const chance = xorshift128plus(seed);
  const victim = builtVictim();
  const acknowledged = new Set<string>();
  const lost: string[] = [];
  let halfStored = 0;
  for (let round = 0; round < kills; round += 1) {
    const acks = uniformInt(chance, 0, 12);
    const spins = uniformInt(chance, 0, acks === 0 ? 60_000_000 : 3_000_000);
    const fresh = await killedAfter(victim, folder, `${seed}-${round}`, acks, spins);
    const record = await openRecord(folder);
    await record.check();
    for (const sha256 of fresh) {
      acknowledged.add(sha256);
      const bytes = await record.recordings.bytes(sha256).catch(() => null);
      if (bytes === null || sha256Of(bytes) !== sha256) lost.push(sha256);
    }
    const all = await record.pulls.list();
    const counts = new Map<string, number>();
    for (const pull of all)
      counts.set(pull.recordingSha256!, (counts.get(pull.recordingSha256!) ?? 0) + 1);
    halfStored += [...counts.values()].filter((count) => count !== 2).length;
    for (const sha256 of acknowledged) if (!counts.has(sha256)) lost.push(sha256);
    await record.close();
  }
  rmSync(victim, { force: true });
  return { kills, acknowledged: acknowledged.size, lost, halfStored };
}

/** The victim as one plain script, built once, because starting it is most of a round's time. */
function builtVictim(): string {
  const root = join(import.meta.dirname, '..', '..');
  const outfile = join(root, 'node_modules', '.cache', 'pullbook', `kill-${process.pid}.mjs`);
  buildSync({
    entryPoints: [join(import.meta.dirname, 'killChild.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
  });
  return outfile;
}

/** The digests that were acknowledged before the process died. */
function killedAfter(
  victim: string,
  folder: string,
  seed: string,
  acks: number,
  spins: number,
): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [victim, folder, seed], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let output = '';
    let killed = false;
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      output += text;
      if (killed || output.split('\n').length - 2 < acks) return;
      killed = true;
      // Not a clock: a stretch of work, so that the blow falls anywhere in an import.
      let busy = 0;
      for (let spin = 0; spin < spins; spin += 1) busy = (busy * 31 + spin) % 1_000_003;
      if (busy >= 0) child.kill('SIGKILL');
    });
    child.on('error', reject);
    child.on('close', (code) => {
      if (!killed) reject(new Error(`the importing process ended by itself with code ${code}`));
      else resolve(output.split('\n').slice(1, -1));
    });
  });
}
