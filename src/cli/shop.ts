/** Things in the shop, addressed at the command: `engine:Rally six`, `day:2026-05-17@28`. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nearest } from '../build/sheet/near.ts';
import { InputError } from '../errors.ts';
import {
  type Build,
  backupRecord,
  type Engine,
  InUseError,
  openRecord,
  type PullbookRecord,
  type SideWanted,
  type TestDay,
} from '../record/index.ts';
import { listed } from '../report/index.ts';

/**
 * Runs against the record of a folder; where another Pullbook has it open, against a copy made for the occasion.
 * @throws InputError  no shop in that folder
 */
export async function readingShop<T>(
  folder: string,
  work: (record: PullbookRecord) => Promise<T>,
): Promise<T> {
  if (!existsSync(join(folder, 'pullbook.sqlite')))
    throw new InputError(
      `There is no shop in ${folder} yet; name its folder with --data or PULLBOOK_HOME, or import pulls first.`,
    );
  let copy: string | null = null;
  const record = await openRecord(folder).catch(async (error: unknown) => {
    if (!(error instanceof InUseError)) throw error;
    copy = mkdtempSync(join(tmpdir(), 'pullbook-reading-'));
    await backupRecord(folder, join(copy, 'pullbook.sqlite'));
    return openRecord(copy);
  });
  try {
    return await work(record);
  } finally {
    await record.close();
    if (copy !== null) rmSync(copy, { recursive: true, force: true });
  }
}

export const KINDS = ['engine', 'build', 'left', 'day', 'ladder', 'group', 'pull'] as const;
type Kind = (typeof KINDS)[number];

export interface Address {
  readonly kind: Kind;
  /** Names between slashes, from the engine down. */
  readonly path: readonly string[];
  /** What stood after `@`: a setting, or for `left` a use. */
  readonly at: string | null;
}

/** What was typed as a thing of the shop; null where it names no kind. */
export function addressOf(text: string): Address | null {
  const found = new RegExp(`^(${KINDS.join('|')}):(.+?)(?:@([^@]+))?$`, 'i').exec(text.trim());
  if (found === null) return null;
  return {
    kind: found[1]!.toLowerCase() as Kind,
    path: found[2]!.split('/').map((part) => part.trim()),
    at: found[3]?.trim() ?? null,
  };
}

/** @throws InputError  nothing of that name, or several, with the names that are near */
export async function sideAt(record: PullbookRecord, address: Address): Promise<SideWanted> {
  const { kind, path, at } = address;
  switch (kind) {
    case 'engine':
      return { kind, engineId: (await engineNamed(record, path[0]!)).id };
    case 'build': {
      const build = await buildNamed(record, path);
      return at === null ? { kind, buildId: build.id } : ofBuildAt(record, build, leadOf(at));
    }
    case 'left':
      return {
        kind,
        buildId: (await buildNamed(record, path)).id,
        ...(at === null ? {} : { use: at }),
      };
    case 'day': {
      const day = await dayNamed(record, path);
      return at === null ? { kind, dayId: day.id } : rungOf(record, day, null, leadOf(at));
    }
    case 'ladder': {
      const byId = path.length === 1 ? await record.ladders.find(path[0]!) : null;
      const name = byId === null && path.length > 1 ? path.at(-1)! : null;
      const day =
        byId === null
          ? await dayNamed(record, name === null ? path : path.slice(0, -1))
          : await record.days.get(byId.dayId);
      if (at !== null) return rungOf(record, day, byId?.name ?? name, leadOf(at));
      return { kind, ladderId: byId?.id ?? (await ladderOf(record, day, name)).id };
    }
    case 'group': {
      if (path.length < 2)
        throw new InputError(
          `group:${path.join('/')} names no group; expected a day and its group, such as group:2026-05-17/a`,
        );
      return {
        kind,
        dayId: (await dayNamed(record, path.slice(0, -1))).id,
        group: path.at(-1)!,
      };
    }
    case 'pull':
      return { kind: 'pulls', pullIds: await pullsNamed(record, path.join('/').split(',')) };
  }
}

function leadOf(at: string): number {
  const found = /^(-?\d+(?:\.\d+)?)\s*(?:deg|°|degrees)?$/i.exec(at);
  if (found === null)
    throw new InputError(`"@${at}" is no setting; expected degrees of lead, such as @28`);
  return Number(found[1]);
}

interface Named {
  readonly id: string;
}

/** The one of a name or id; case plays no part. @throws InputError  none or several, with what is near */
function theOne<T extends Named>(
  things: readonly T[],
  wanted: string,
  names: (thing: T) => readonly (string | null)[],
  called: string,
  tellApart: (thing: T) => string = ({ id }) => id,
): T {
  const is = (text: string | null) => text?.toLowerCase() === wanted.toLowerCase();
  const found = things.filter((thing) => thing.id === wanted || names(thing).some(is));
  if (found.length === 1) return found[0]!;
  if (found.length > 1)
    throw new InputError(
      `"${wanted}" is the name of ${found.length} ${called}s; say which: ${listed(found.map(tellApart))}.`,
      { found: wanted },
    );
  const known = [
    ...new Set(
      things.flatMap((thing) => names(thing)).filter((name) => name !== null && name !== ''),
    ),
  ] as string[];
  const near = nearest(wanted, known);
  const few = known.slice(0, MOST_NAMES);
  throw new InputError(
    `There is no ${called} "${wanted}" in the shop${
      near === null
        ? known.length === 0
          ? '; it has none yet.'
          : `; there ${few.length === 1 ? 'is' : 'are'} ${listed(few)}${known.length > few.length ? ' and others' : ''}.`
        : `; did you mean "${near}"?`
    }`,
    { found: wanted, expected: near ?? few.join(', ') },
  );
}
const MOST_NAMES = 8;

async function engineNamed(record: PullbookRecord, name: string): Promise<Engine> {
  return theOne(
    await record.engines.list(),
    name,
    (engine) => [engine.name, engine.serial === '' ? null : engine.serial],
    'engine',
  );
}

export const cellNamed = async (record: PullbookRecord, name: string) =>
  theOne(await record.cells.list(), name, (cell) => [cell.name], 'cell');

/** `Refresh 2026`, or `Rally six/Refresh 2026` where several engines have a build of that name. */
export async function buildNamed(record: PullbookRecord, path: readonly string[]): Promise<Build> {
  const engines = new Map((await record.engines.list()).map((engine) => [engine.id, engine.name]));
  const within =
    path.length > 1 ? { engineId: (await engineNamed(record, path[0]!)).id } : undefined;
  return theOne(
    await record.builds.list(within),
    path.at(-1)!,
    ({ name }) => [name],
    'build',
    ({ engineId, name }) => `build:${engines.get(engineId)}/${name}`,
  );
}

/** `2026-05-17` or `Spark ladder`, after an engine and a slash where several have a day of that name or date. */
async function dayNamed(record: PullbookRecord, path: readonly string[]): Promise<TestDay> {
  const engines = new Map((await record.engines.list()).map((engine) => [engine.id, engine]));
  const builds = new Map((await record.builds.list()).map((build) => [build.id, build]));
  const engineOf = (day: TestDay) => engines.get(builds.get(day.buildId)!.engineId)!;
  const engine = path.length > 1 ? await engineNamed(record, path[0]!) : null;
  const days = (await record.days.list()).filter(
    (day) => engine === null || engineOf(day).id === engine.id,
  );
  return theOne(
    days,
    path.at(-1)!,
    ({ name, date }) => [name, date],
    'test day',
    (day) => {
      const short = `day:${engineOf(day).name}/${day.date ?? day.name}`;
      const alike = days.filter(
        (other) => engineOf(other).id === engineOf(day).id && other.date === day.date,
      );
      return alike.length > 1 ? `day:${day.id}` : short;
    },
  );
}

async function ladderOf(record: PullbookRecord, day: TestDay, name: string | null) {
  const ladders = await record.ladders.list({ dayId: day.id });
  if (name !== null) return theOne(ladders, name, (ladder) => [ladder.name], 'ladder');
  const [first] = ladders;
  if (first === undefined) throw new InputError(`${day.name || day.date} has no ladder.`);
  return first;
}

async function rungOf(
  record: PullbookRecord,
  day: TestDay,
  name: string | null,
  setting: number,
): Promise<SideWanted> {
  return { kind: 'rung', ladderId: (await ladderOf(record, day, name)).id, setting };
}

async function ofBuildAt(
  record: PullbookRecord,
  build: Build,
  leadDeg: number,
): Promise<SideWanted> {
  const pulls = [];
  for (const { id: dayId } of await record.days.list({ buildId: build.id }))
    pulls.push(...(await record.pulls.list({ dayId })));
  const own = pulls.filter((pull) => pull.leadDeg === leadDeg && pull.group === null);
  if (own.length > 0)
    return {
      kind: 'pulls',
      pullIds: own.map(({ id }) => id),
      name: `${build.name} at ${leadDeg} degrees of lead`,
    };
  const others = [...new Set(pulls.flatMap((pull) => pull.leadDeg ?? []))].sort((a, b) => a - b);
  throw new InputError(
    `No pull of ${build.name} was made at ${leadDeg} degrees; there are pulls at ${listed(others.map(String)) || 'no lead that is known'}.`,
    { found: String(leadDeg), expected: others.join(', ') },
  );
}

async function pullsNamed(record: PullbookRecord, names: readonly string[]): Promise<string[]> {
  const pulls = await record.pulls.list();
  return names.map((name) => theOne(pulls, name.trim(), ({ fileName }) => [fileName], 'pull').id);
}

/** `build:Rally six/Refresh 2026`, the same without its first word, or an id. */
export const pathOf = (wanted: string): string[] =>
  wanted
    .replace(/^build:/i, '')
    .split('/')
    .map((part) => part.trim());

/** What `--against` names: a build, or `none`; left out: the one before it. */
export const heldAgainst = async (
  record: PullbookRecord,
  against: string | undefined,
): Promise<{ readonly comparedBuildId?: string | null }> => {
  if (against === undefined) return {};
  return {
    comparedBuildId: against === 'none' ? null : (await buildNamed(record, pathOf(against))).id,
  };
};
