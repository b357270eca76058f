import { type KnockLimit, locateKnock } from './knock.ts';
import type { LadderInput, LadderPull } from './types.ts';

/** Settings here are mirrored: up is the unsafe side. */
export interface LimitFinding {
  /** Did anything watch for a limit: an ear, a plug, a sensor, a knock channel? */
  readonly watched: boolean;
  /** The highest rung that ran clean below every rung that knocked, at any speed of its sweep; null: none did. */
  readonly highestClean: number | null;
  /** The lowest rung at which knock was seen or heard; null: none. */
  readonly lowestKnock: number | null;
  /** What the knock channel says, speed by speed; null where it saw nothing or is not there. */
  readonly channel: KnockLimit | null;
  /** The two rungs between which the operator's observations put the limit; null: nothing was heard. */
  readonly heardBetween: readonly [clean: number | null, knocking: number] | null;
  readonly disagreement: string | null;
  /** What showed the limit at the lowest rung that reached it; null: none did. */
  readonly sign: LimitSign | null;
}

export type LimitSign = 'knock' | 'exhaust';

/** The limit as one use meets it. */
export interface UseLimit {
  /** Equally likely limits; null: not located. */
  readonly draws: Float64Array | null;
  /** The highest rung that ran clean at the speeds of the use; null: none did. */
  readonly clean: number | null;
}

/** The exhaust was hotter than it may be. An exhaust that stayed below says nothing of knock. */
export const tooHot = (pull: LadderPull, exhaustLimitK: number | null | undefined): boolean =>
  (pull.exhaustPeakK ?? null) !== null &&
  (exhaustLimitK ?? null) !== null &&
  pull.exhaustPeakK! > exhaustLimitK!;
/**
 * The exhaust's limit as this ladder meets it: leaner is hotter, so it stands in the way of a mixture. More lead is
 * cooler: there a hot exhaust is a warning, and no limit on the side to which the ladder climbs.
 */
export const exhaustLimitOf = ({
  kind,
  exhaustLimitK,
}: Pick<LadderInput, 'kind' | 'exhaustLimitK'>): number | null =>
  kind.name === 'lambda' ? (exhaustLimitK ?? null) : null;
/** Somebody or something saw the limit. */
export const reached = (pull: LadderPull, exhaustLimitK: number | null | undefined): boolean =>
  pull.knockHeard !== false || tooHot(pull, exhaustLimitK);
/** Somebody or something would have seen it. */
export const isWatched = (pull: LadderPull, exhaustLimitK: number | null | undefined): boolean =>
  reached(pull, exhaustLimitK) ||
  pull.knock !== null ||
  (pull.watched !== null && pull.watched !== 'not');

/**
 * What the day says about the limit. Knock counts from any pull, excluded or aborted ones too; that a rung ran clean
 * only from pulls that were finished, counted and watched. Where nothing watched, the highest rung run stands in.
 */
export function findLimit(
  input: LadderInput,
  counted: ReadonlySet<LadderPull>,
  mirror: number,
  rung: number,
): LimitFinding {
  const pulls = input.pulls.filter((pull) => Number.isFinite(pull.setting));
  const exhaustLimitK = exhaustLimitOf(input);
  const heard = (pull: LadderPull) => reached(pull, exhaustLimitK);
  const isSeen = (pull: LadderPull) => isWatched(pull, exhaustLimitK);
  const watched = pulls.some(isSeen);
  const channel = locateKnock(
    pulls.flatMap(({ knock, setting }) =>
      knock === null ? [] : [{ u: mirror * setting, speedRpm: knock.speedRpm, level: knock.level }],
    ),
    rung,
  );
  const lowestChannelLimit = channel === null ? null : channel.lowestOver(null);
  const knocks = (pull: LadderPull) =>
    heard(pull) ||
    (pull.knock !== null &&
      lowestChannelLimit !== null &&
      mirror * pull.setting > lowestChannelLimit);
  const clean = (pull: LadderPull) =>
    counted.has(pull) && !knocks(pull) && (!watched || isSeen(pull));
  const us = (chosen: readonly LadderPull[]) => chosen.map((pull) => mirror * pull.setting);
  const knocking = us(pulls.filter(knocks));
  const lowestKnock = knocking.length === 0 ? null : Math.min(...knocking);
  const below = us(pulls.filter(clean)).filter((u) => lowestKnock === null || u < lowestKnock);
  const highestClean = below.length === 0 ? null : Math.max(...below);
  const ears = us(pulls.filter(heard));
  const lowestHeard = ears.length === 0 ? null : Math.min(...ears);
  const cleanAbove = lowestHeard !== null && us(pulls.filter(clean)).some((u) => u >= lowestHeard);
  return {
    watched,
    highestClean,
    lowestKnock,
    channel,
    heardBetween: lowestHeard === null ? null : [highestClean, lowestHeard],
    disagreement: cleanAbove
      ? 'A rung reached its limit that another pull ran past without it; the lower one is believed.'
      : null,
    sign:
      lowestKnock === null
        ? null
        : pulls.some(
              (pull) =>
                mirror * pull.setting === lowestKnock &&
                (pull.knockHeard !== false || !tooHot(pull, exhaustLimitK)),
            )
          ? 'knock'
          : 'exhaust',
  };
}

/**
 * The limit at the speeds that a use visits: the lowest over those speeds, not their average. A limit that was heard
 * holds at every speed, for an ear cannot clear the others.
 */
export function limitForUse(
  finding: LimitFinding,
  counted: ReadonlySet<LadderPull>,
  speedsRpm: readonly [number, number],
  mirror: number,
  exhaustLimitK: number | null | undefined,
): UseLimit {
  const { channel, heardBetween, highestClean } = finding;
  if (channel === null && heardBetween === null) return { draws: null, clean: highestClean };
  const draws = new Float64Array(LIMIT_DRAWS).fill(Number.POSITIVE_INFINITY);
  if (channel !== null) {
    const over = channel.drawsOver(speedsRpm);
    for (let i = 0; i < LIMIT_DRAWS; i++) draws[i] = over[i % over.length]!;
  }
  if (heardBetween !== null) {
    const [clean, knocking] = heardBetween;
    if (clean === null) draws.fill(Number.NEGATIVE_INFINITY);
    else {
      for (let i = 0; i < LIMIT_DRAWS; i++) {
        const place = clean + ((knocking - clean) * (i + 0.5)) / LIMIT_DRAWS;
        draws[i] = Math.min(draws[i]!, place);
      }
    }
  }
  const middle = [...draws].sort((a, b) => a - b)[LIMIT_DRAWS / 2]!;
  const lowestHeard = heardBetween?.[1] ?? Number.POSITIVE_INFINITY;
  const clean = [...counted]
    .filter((pull) => isWatched(pull, exhaustLimitK) && !reached(pull, exhaustLimitK))
    .map((pull) => mirror * pull.setting)
    .filter((u) => u <= middle && u < lowestHeard);
  return { draws, clean: clean.length === 0 ? null : Math.max(...clean) };
}

const LIMIT_DRAWS = 256;
