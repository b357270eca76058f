import { locateKnock } from '../knock.ts';
import { isWatched, reached } from '../limit.ts';
import type { LadderPull } from '../types.ts';
import type { Place, TwoInput, TwoPull } from './types.ts';

/*
 * What ran clean, and what may be run next. More lead and a leaner mixture both bring an engine nearer to knock, and
 * leaner a hot exhaust too, so a pull that ran clean clears every place with no more lead and no leaner mixture, and one
 * that reached its limit bars every place with as much lead and as lean a mixture (a hot exhaust: as lean, at any lead).
 * Less lead makes the exhaust hotter and a very rich mixture fouls, so a place far to that side of all that was run is not
 * cleared by it either.
 * What may be run next is at most one rung past one clean pull, and past it in one setting only.
 */

const CLOSE = 1e-9;

export interface Cleared {
  readonly watched: boolean;
  readonly clean: readonly Place[];
  readonly limits: readonly (Place & { readonly sign: 'knock' | 'exhaust' })[];
  readonly lowest: Place | null;
}

const asLadderPull = (pull: TwoPull): LadderPull => ({ ...pull, setting: pull.leadDeg });

/**
 * What the pulls say of the limit. As for one setting: a limit counts from any pull, excluded or aborted ones too; that
 * a place is clean only from pulls that were finished, counted and watched; where nothing watched, what was run stands in.
 */
export function clearedBy(
  input: TwoInput,
  counted: ReadonlySet<string>,
  rungs: readonly [number, number],
): Cleared {
  const { exhaustLimitK } = input;
  const known = input.pulls.filter(
    ({ leadDeg, lambda }) => Number.isFinite(leadDeg) && Number.isFinite(lambda),
  );
  const knocked = knockedByChannel(known, rungs);
  const pulls = known.map((pull) => ({ pull, one: asLadderPull(pull) }));
  const watched = pulls.some(({ one }) => isWatched(one, exhaustLimitK));
  const limits = pulls
    .filter(({ pull, one }) => reached(one, exhaustLimitK) || knocked.has(pull.id))
    .map(({ pull: { leadDeg, lambda, knockHeard, id } }) => ({
      leadDeg,
      lambda,
      sign: knockHeard === false && !knocked.has(id) ? ('exhaust' as const) : ('knock' as const),
    }));
  const clean = pulls
    .filter(
      ({ pull, one }) =>
        counted.has(pull.id) &&
        !reached(one, exhaustLimitK) &&
        !knocked.has(pull.id) &&
        (!watched || isWatched(one, exhaustLimitK)) &&
        !isBarred(limits, pull),
    )
    .map(({ pull: { leadDeg, lambda } }) => ({ leadDeg, lambda }));
  const run = pulls.filter(({ pull }) => counted.has(pull.id)).map(({ pull }) => pull);
  return {
    watched,
    clean,
    limits,
    lowest:
      run.length === 0
        ? null
        : {
            leadDeg: Math.min(...run.map(({ leadDeg }) => leadDeg)),
            lambda: Math.min(...run.map(({ lambda }) => lambda)),
          },
  };
}

/**
 * Which pulls' knock channels show knock: those past the lowest limit over the sweep that all of them together show. One
 * rung of lead and one of mixture are taken to bring an engine equally nearer to knock; that tells only which of the
 * pulls made had knocked, never where one may go.
 */
function knockedByChannel(
  pulls: readonly TwoPull[],
  rungs: readonly [number, number],
): ReadonlySet<string> {
  const along = ({ leadDeg, lambda }: Place) => leadDeg + (lambda * rungs[0]) / rungs[1];
  const limit = locateKnock(
    pulls.flatMap((pull) =>
      pull.knock === null
        ? []
        : [{ u: along(pull), speedRpm: pull.knock.speedRpm, level: pull.knock.level }],
    ),
    rungs[0],
  );
  if (limit === null) return new Set();
  const lowest = limit.lowestOver(null);
  return new Set(
    pulls.filter((pull) => pull.knock !== null && along(pull) > lowest).map(({ id }) => id),
  );
}

/** Knock bars more lead and leaner; a hot exhaust bars leaner at any lead, for less lead is hotter still. */
function isBarred(limits: Cleared['limits'], { leadDeg, lambda }: Place): boolean {
  return limits.some(
    (limit) =>
      lambda >= limit.lambda - CLOSE &&
      (limit.sign === 'exhaust' || leadDeg >= limit.leadDeg - CLOSE),
  );
}

/** Whether a place may stand in the engine: cleared by a clean pull, barred by none that reached its limit. */
export function isCleared({ clean, limits }: Cleared, { leadDeg, lambda }: Place): boolean {
  return (
    clean.some((one) => leadDeg <= one.leadDeg + CLOSE && lambda <= one.lambda + CLOSE) &&
    !isBarred(limits, { leadDeg, lambda })
  );
}

/** Whether a place may be run next: at most one rung past a clean pull, in one setting, and not far short of all. */
export function mayRun(cleared: Cleared, place: Place, rungs: readonly [number, number]): boolean {
  const { clean, limits, lowest } = cleared;
  if (lowest === null) return false;
  const [x, z] = rungs;
  const past = clean.some(
    (one) =>
      (place.leadDeg <= one.leadDeg + x + CLOSE && place.lambda <= one.lambda + CLOSE) ||
      (place.leadDeg <= one.leadDeg + CLOSE && place.lambda <= one.lambda + z + CLOSE),
  );
  return (
    past &&
    place.leadDeg >= lowest.leadDeg - x - CLOSE &&
    place.lambda >= lowest.lambda - z - CLOSE &&
    !isBarred(limits, place)
  );
}
