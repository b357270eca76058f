import { basename, dirname, join, resolve } from 'node:path';
import { readSessionAt, type Session, type SessionPull } from '../../intake/index.ts';
import { isSameGroup, steppedIn } from '../../ladder/index.ts';
import type { Change, Configuration, NewPull, Pull, PullbookRecord } from '../../record/index.ts';

/** A session's run files and typed peaks, with what its operator said of each. */
export interface SessionFile {
  readonly session: Session;
  /** Name of its day: its date, else the name of the folder it lies in. */
  readonly day: string;
  readonly runs: readonly {
    readonly path: string;
    readonly shownName: string;
    readonly pull: SessionPull;
    readonly order: number;
  }[];
  readonly typed: readonly { readonly pull: SessionPull; readonly order: number }[];
}

/** @throws FormatError, InputError  naming the key that is wrong */
export async function readSessionFile(path: string, shownName: string): Promise<SessionFile> {
  const session = await readSessionAt(path, shownName);
  const pulls = session.pulls.map((pull, order) => ({ pull, order }));
  return {
    session,
    day: session.day ?? basename(dirname(resolve(path))),
    runs: pulls.flatMap(({ pull, order }) =>
      pull.file === null
        ? []
        : [
            {
              path: resolve(dirname(path), pull.file),
              shownName: join(dirname(shownName), pull.file),
              pull,
              order,
            },
          ],
    ),
    typed: pulls.filter(({ pull }) => pull.file === null),
  };
}

/** What the session's operator set and saw, as the record keeps it. */
export function pullFields(pull: SessionPull, order: number): Omit<NewPull, 'dayId'> {
  return {
    order,
    leadDeg: pull.leadDeg,
    lambdaTarget: pull.lambdaTarget,
    lambdaMeasured: pull.lambdaMeasured,
    lambdaErrorSd: pull.lambdaErrorSd,
    jets: pull.jets,
    loadPercent: pull.loadPercent,
    note: pull.note ?? '',
    excludedBecause: pull.excludedBecause,
    watched: pull.watched,
    knockHeard: pull.knockHeard,
    aborted: pull.aborted,
    group: pull.group,
    configuration: configurationOf(pull.configuration),
  };
}

/** Puts typed peaks into the day, those that stand there already left alone. */
export async function importTyped(
  record: PullbookRecord,
  dayId: string,
  { typed }: SessionFile,
  change: Change,
): Promise<readonly Pull[]> {
  const standing = await record.pulls.list({ dayId });
  const pulls: Pull[] = [];
  for (const { pull, order } of typed) {
    const same = standing.find(
      (one) =>
        one.recordingSha256 === null &&
        one.leadDeg === pull.leadDeg &&
        one.peakPowerW === pull.peakPowerW &&
        one.peakTorqueNm === pull.peakTorqueNm &&
        one.order === order,
    );
    pulls.push(
      same ??
        (await record.pulls.create(
          {
            dayId,
            ...pullFields(pull, order),
            peakPowerW: pull.peakPowerW,
            peakTorqueNm: pull.peakTorqueNm,
            peaksAre: pull.basis,
          },
          change,
        )),
    );
  }
  return pulls;
}

/**
 * Every part test of the session has its ladder. Where all pulls are of part tests, the day's own ladder becomes the
 * first one's, as when the session is worked without a record.
 */
export async function laddersOfParts(
  record: PullbookRecord,
  dayId: string,
  { pulls }: Session,
  change: Change,
): Promise<void> {
  const groups = [...new Set(pulls.map(({ group }) => group))];
  const standing = await record.ladders.list({ dayId });
  const missing = groups.filter((group) =>
    standing.every((ladder) => !isSameGroup(ladder.group, group)),
  );
  const [own] = standing;
  if (!groups.includes(null) && standing.length === 1 && own!.group === null)
    await record.ladders.update(own!.id, { group: missing.shift()! }, change);
  for (const group of missing) {
    if (group === null) continue;
    await record.ladders.create({ dayId, name: `Spark lead, part test ${group}`, group }, change);
  }
}

/**
 * The lambda ladders that the day's pulls make while none of its ladders steps anything, or that the session says it is
 * of: those of most pulls, one for each part test.
 */
export async function laddersOfLambda(
  record: PullbookRecord,
  dayId: string,
  { setting }: Session,
  change: Change,
): Promise<void> {
  const { lambdaTarget } = await record.days.get(dayId);
  const pulls = await record.pulls.list({ dayId });
  const standing = await record.ladders.list({ dayId });
  const stepped = steppedIn(pulls, lambdaTarget);
  for (const group of new Set(pulls.map((pull) => pull.group))) {
    const own = stepped.filter((one) => isSameGroup(one.group, group));
    const lambda = own.find((one) => one.setting === 'lambda');
    const isAsked = setting === 'lambda' || own.every((one) => one.setting === 'lambda');
    const stands = standing.some(
      (one) => one.setting === 'lambda' && isSameGroup(one.group, group),
    );
    if (lambda === undefined || !isAsked || stands) continue;
    const { heldLeadDeg, heldLambda } = lambda;
    const named = group === null ? {} : { name: `Lambda, part test ${group}` };
    await record.ladders.create(
      { dayId, ...named, setting: 'lambda', group, heldLeadDeg, heldLambda },
      change,
    );
  }
}

const FIELDS = [
  'exhaust',
  'airCleaner',
  'accessories',
  'oil',
  'plugs',
  'leadSetBy',
  'distributorCurve',
] as const satisfies readonly (keyof Configuration)[];

/** Named fields where the record has them; all else stands together under `other`. */
function configurationOf(words: Readonly<Record<string, string>>): Configuration {
  const known = Object.fromEntries(
    FIELDS.flatMap((field) => (words[field] === undefined ? [] : [[field, words[field]]])),
  );
  const others = Object.entries(words)
    .filter(([name]) => !(FIELDS as readonly string[]).includes(name))
    .map(([name, value]) => (name === 'configuration' ? value : `${name}: ${value}`));
  return others.length === 0 ? known : { ...known, other: others.join('; ') };
}
