import type { LimitFinding } from './limit.ts';
import type { SettingKind } from './types.ts';
import { chanceText, chosenPercentText, percentText, settingText } from './words.ts';

/** What the next move is decided from; settings mirrored, up is unsafe. */
export interface Standing {
  readonly kind: SettingKind;
  readonly mirror: number;
  readonly rung: number;
  readonly worthPercent: number;
  /** Distinct rungs that counted, lowest first; empty: none. */
  readonly rungs: readonly { readonly u: number; readonly pulls: number }[];
  readonly lastU: number;
  readonly limit: LimitFinding;
  /** Middle estimate of the lowest limit over the band, where one was located. */
  readonly limitMiddle: number | null;
  /** The pull that disagrees with the others, or null. */
  readonly strayU: number | null;
  readonly best: number;
  /** What the step to the highest rung gained [%]; null: there was none. */
  readonly lastStepPercent: number | null;
  /** Chance that one more rung gains what is worth having, its middle gain [1], and that it gains nothing at all. */
  readonly chanceWorth: number;
  readonly middleGain: number;
  readonly chanceBestBelowLadder: number;
  /** Expected gain of what would be left in the engine after that pull [1]. */
  readonly worth: number;
}

export interface Move {
  readonly action: 'pull' | 'repeat' | 'back' | 'stop';
  readonly u: number | null;
  readonly worth: number | null;
  readonly why: string;
  readonly headline: string;
  /** What made it: `knee` claims that more no longer pays. */
  readonly because:
    | 'nothing yet'
    | 'first rungs'
    | 'still gains'
    | 'chance'
    | 'stray'
    | 'knee'
    | 'limit'
    | 'knock'
    | 'begun too far'
    | 'not clean';
}

/** Chance of a worthwhile gain at which another rung is run. */
const PULL_CHANCE = 0.3;
/** Chance below which the ladder is finished; and the same where the last of several steps gained less than is worth having. */
const STOP_CHANCE = 0.05;
const STOP_CHANCE_AFTER_SMALL_STEP = 0.15;
/** Chance that the best lies below the whole ladder at which a more careful rung is asked for. */
const BEGUN_TOO_FAR = 0.3;

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export function nextMove(standing: Standing): Move {
  const { kind, mirror, rung, rungs, limit, worthPercent } = standing;
  const say = (u: number) => settingText(mirror * u, kind);
  const worthText = chosenPercentText(worthPercent);
  const top = rungs.at(-1)?.u;
  if (limit.lowestKnock !== null) return afterKnock(standing, say);
  if (top === undefined) {
    return {
      action: 'pull',
      u: null,
      worth: null,
      why: `No pull counts yet: start at a careful ${kind.word}, well to the safe side of where the best is expected.`,
      headline: 'No pulls yet. Start careful.',
      because: 'nothing yet',
    };
  }
  if (limit.highestClean === null) {
    return {
      action: 'repeat',
      u: rungs[0]!.u,
      worth: null,
      why: `No rung is known to have run clean: repeat ${say(rungs[0]!.u)} and watch for knock.`,
      headline: `Repeat ${say(rungs[0]!.u)} and watch it.`,
      because: 'not clean',
    };
  }
  const cleanTop = Math.min(top, limit.highestClean);
  const next = cleanTop + rung;
  const unwatched = rungs.find(({ u }) => u > cleanTop + 1e-9)?.u;
  if (unwatched !== undefined) {
    const run = unwatched <= next + 1e-9;
    const u = run ? unwatched : next;
    return {
      action: run ? 'repeat' : 'pull',
      u,
      worth: standing.worth,
      why: `${say(unwatched)} was run but nobody watched it: run ${say(u)} and watch for knock before going on.`,
      headline: `${run ? 'Repeat' : 'Try'} ${say(u)} and watch it.`,
      because: 'not clean',
    };
  }
  if (standing.strayU !== null) {
    return {
      action: 'repeat',
      u: standing.strayU,
      worth: null,
      why: `The pull at ${say(standing.strayU)} does not agree with the others; a second one tells which to believe.`,
      headline: `The pulls disagree. Repeat ${say(standing.strayU)}.`,
      because: 'stray',
    };
  }
  if (rungs.length > 1 && standing.chanceBestBelowLadder > BEGUN_TOO_FAR) {
    const u = rungs[0]!.u - rung;
    return {
      action: 'pull',
      u,
      worth: null,
      why: `The best lies below the most careful rung run so far, so the ladder needs ${say(u)}.`,
      headline: `Try ${say(u)}: this ladder began too far.`,
      because: 'begun too far',
    };
  }
  const { lastStepPercent } = standing;
  // One step alone shows no knee: what its two pulls happened to be off by would end the ladder.
  const smallStep = rungs.length >= 3 && lastStepPercent !== null && lastStepPercent < worthPercent;
  const stopChance = smallStep ? STOP_CHANCE_AFTER_SMALL_STEP : STOP_CHANCE;
  if (standing.limitMiddle !== null && next > standing.limitMiddle) {
    return {
      action: 'stop',
      u: null,
      worth: null,
      why: `The limit lies near ${say(standing.limitMiddle)}, so ${say(next)} is not to be run.`,
      headline: `Stop here. The limit lies near ${say(standing.limitMiddle)}.`,
      because: 'limit',
    };
  }
  const gain = percentText(100 * standing.middleGain);
  const chance = chanceText(standing.chanceWorth);
  if (rungs.length < 3 && standing.chanceWorth >= stopChance) {
    return {
      action: 'pull',
      u: next,
      worth: standing.worth,
      why:
        rungs.length === 1
          ? `One rung says nothing about the next: ${say(next)} is the second.`
          : `${say(next)} is expected to change mean power by ${gain}; ${rungs.length} rungs cannot show the knee yet.`,
      headline: `Not there yet. Try ${say(next)}.`,
      because: 'first rungs',
    };
  }
  if (standing.chanceWorth >= PULL_CHANCE) {
    return {
      action: 'pull',
      u: next,
      worth: standing.worth,
      why: `The next rung has a chance of ${chance} to gain ${worthText} or more; ${gain} is expected.`,
      headline: `Not there yet. Try ${say(next)}.`,
      because: 'still gains',
    };
  }
  if (standing.chanceWorth >= stopChance) {
    const u = repeatRung(rungs);
    return {
      action: 'repeat',
      u,
      worth: standing.worth,
      why: `Another rung still has a chance of ${chance} to gain ${worthText}; repeating ${say(u)} tells gain from drift without more risk.`,
      headline: `More ${kind.word} hardly pays. Repeat ${say(u)} to be sure.`,
      because: 'chance',
    };
  }
  return {
    action: 'stop',
    u: null,
    worth: standing.worth,
    why: `Another rung has a chance of ${chance} to gain ${worthText} of mean power: not worth its risk.`,
    headline: `Stop here. ${capital(kind.more)} no longer pays.`,
    because: 'knee',
  };
}

/** The rung whose repeat says most of drift and of the last steps: the one before the last. */
function repeatRung(rungs: Standing['rungs']): number {
  return rungs[Math.max(0, rungs.length - 2)]!.u;
}

function afterKnock(standing: Standing, say: (u: number) => string): Move {
  const { limit, rung, rungs, lastU, kind } = standing;
  const knocked = limit.lowestKnock!;
  const clean = limit.highestClean;
  const sign = limit.sign === 'exhaust' ? 'The exhaust was too hot' : 'It knocked';
  if (clean === null) {
    const u = knocked - rung;
    return {
      action: 'back',
      u,
      worth: null,
      why: `${sign} at ${say(knocked)}, the most careful rung run: go back to ${say(u)} or less and find a rung that runs clean.`,
      headline: `Go back. ${sign} at ${say(knocked)}.`,
      because: 'knock',
    };
  }
  const { limitMiddle } = standing;
  const where =
    limit.channel === null || limitMiddle === null
      ? `between ${say(clean)} and ${say(knocked)}`
      : `near ${say(limitMiddle)}`;
  const outside = limit.channel !== null && limitMiddle !== null && knocked <= limitMiddle;
  const knock = `${sign} at ${say(knocked)}${outside ? ', if only outside the band' : ''}`;
  if (lastU > clean + 1e-9 || rungs.length === 0) {
    return {
      action: 'back',
      u: clean,
      worth: null,
      why: `${knock}; the limit${outside ? ' in it' : ''} lies ${where}, and ${say(clean)} is the highest that ran clean from end to end.`,
      headline: `Go back. The limit lies ${where}.`,
      because: 'knock',
    };
  }
  return {
    action: 'stop',
    u: null,
    worth: null,
    why: `The limit lies ${where} and is in the way: ${kind.more} is not to be tried on this fuel and air.`,
    headline: `Stop here. The limit lies ${where}.`,
    because: 'limit',
  };
}
