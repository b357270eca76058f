/** Kills a process in the middle of its imports and saves, again and again on one folder, and looks what is left. */
import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xorshift128plus } from 'pure-rand/generator/xorshift128plus';
import { openRecord } from './open.ts';
import { sha256Of } from './pack.ts';
import type { PullbookRecord } from './repository.ts';
import type { Calibration } from './types.ts';

interface KillReport {
  readonly kills: number;
  readonly acknowledged: number;
  readonly calibrations: number;
  /** Acknowledged imports, sheets and calibrations that are gone or changed; must be empty. */
  readonly lost: readonly string[];
  /** Recordings with other than their two pulls, sheets of which not every section came along; must be 0. */
  readonly halfStored: number;
}

/**
 * Each round starts a process that imports file after file, saves a sheet and keeps a calibration between, waits for a random number of acknowledgements (none:
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
  const calibrations = new Set<string>();
  const lost: string[] = [];
  let newestSheet: string | null = null;
  let halfStored = 0;
  for (let round = 0; round < kills; round += 1) {
    const acks = uniformInt(chance, 0, 12);
    const spins = uniformInt(chance, 0, acks === 0 ? 60_000_000 : 3_000_000);
    const fresh = await killedAfter(victim, folder, `${seed}-${round}`, acks, spins);
    const record = await openRecord(folder);
    await record.check();
    for (const [, sha256 = ''] of fresh.filter(([what]) => what === 'file')) {
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
    for (const [, id = ''] of fresh.filter(([what]) => what === 'calibration')) {
      calibrations.add(id);
    }
    const kept = await record.calibrations.list();
    const whole = new Set(kept.filter(isWhole).map(({ id }) => id));
    for (const id of calibrations) if (!whole.has(id)) lost.push(id);
    halfStored += kept.length - whole.size;
    const note = fresh.findLast(([what]) => what === 'sheet')?.[1];
    if (note !== undefined) newestSheet = note;
    halfStored += await sheetIsHalf(record);
    if ((await sheetIsOlder(record, newestSheet)) === true) lost.push(`sheet ${newestSheet}`);
    await record.close();
  }
  rmSync(victim, { force: true });
  return {
    kills,
    acknowledged: acknowledged.size,
    calibrations: calibrations.size,
    lost,
    halfStored,
  };
}

/** Everything of a calibration holds the same note. */
function isWhole({ who, notes, measured }: Calibration): boolean {
  return measured.kind === 'sensor' && measured.reference === notes && who === notes;
}

async function sheetNotes(record: PullbookRecord): Promise<readonly (string | undefined)[]> {
  const [build] = await record.builds.list();
  if (build === undefined) return [];
  const { sheet } = await record.sheets.get(build.id);
  return sheet === null ? [] : [sheet.sections.block?.notes, sheet.sections.crank?.notes];
}
const sheetIsHalf = async (record: PullbookRecord) =>
  new Set(await sheetNotes(record)).size > 1 ? 1 : 0;

/** Notes are round and number; a later save may have gone through unacknowledged. */
async function sheetIsOlder(record: PullbookRecord, newest: string | null): Promise<boolean> {
  if (newest === null) return false;
  const at = (note: string | undefined) => (note ?? '0-0,-1').split(/[-,]/).slice(1).map(Number);
  const [[round = 0, number = 0], [wantedRound = 0, wantedNumber = 0]] = [
    at((await sheetNotes(record))[0]),
    at(newest),
  ];
  return round < wantedRound || (round === wantedRound && number < wantedNumber);
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

/** What was acknowledged before the process died, by what it is. */
function killedAfter(
  victim: string,
  folder: string,
  seed: string,
  acks: number,
  spins: number,
): Promise<(readonly string[])[]> {
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
      else
        resolve(
          output
            .split('\n')
            .slice(1, -1)
            .map((line) => line.split(' ')),
        );
    });
  });
}
