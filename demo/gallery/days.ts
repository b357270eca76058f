import { typedPull } from '../../src/ladder/typed.fixture.ts';
import type { LadderInput, LadderPull } from '../../src/ladder/types.ts';
import { simulateCurveDay } from '../curve-day.ts';
import { dayOfKind, type KindOfDay } from '../kinds-of-day.ts';

const day = (kind: KindOfDay, seed: number): LadderInput =>
  simulateCurveDay(dayOfKind(kind, seed)).input;

function withPulls(
  input: LadderInput,
  change: (pull: LadderPull, at: number) => LadderPull | null,
): LadderInput {
  return {
    ...input,
    pulls: input.pulls.map(change).filter((pull) => pull !== null),
  };
}

const finished = () => day('plain', 3);

/** Inputs for every state the screen must show well, made by the simulated cell. */
export const DAYS: Readonly<Record<string, () => LadderInput>> = {
  finished,
  repeated: () => day('repeat', 4),
  knock: () => day('knock', 5),
  'knock in the way': () => day('knock in the way', 6),
  unfinished: () => day('unfinished', 7),
  drift: () => day('drift', 8),
  flat: () => day('flat', 9),
  none: () => ({ ...finished(), pulls: [] }),
  one: () => withPulls(finished(), (pull, at) => (at === 0 ? pull : null)),
  two: () => withPulls(finished(), (pull, at) => (at < 2 ? pull : null)),
  heard: () =>
    withPulls(finished(), (pull, at) =>
      at > 4
        ? null
        : { ...pull, watched: 'ear', knockHeard: at === 4 ? 4300 : false, aborted: at === 4 },
    ),
  disagree: () =>
    withPulls(finished(), (pull, at) =>
      at !== 2 || pull.torque === null
        ? pull
        : {
            ...pull,
            torque: {
              ...pull.torque,
              coefficients: pull.torque.coefficients.map((one) => one * 0.955),
            },
          },
    ),
  peaks: () => ({
    ...finished(),
    pulls: (
      [
        [32, 775],
        [34, 799],
        [36, 818],
        [38, 823],
      ] as const
    ).map(([setting, hp], order) => typedPull(setting, hp, order)),
  }),
  boosted: () => ({ ...finished(), aspiration: 'boosted' }),
  'left out': () =>
    withPulls(finished(), (pull, at) =>
      at === 1
        ? { ...pull, excludedBecause: 'belt slipped' }
        : at === 3
          ? { ...pull, configuration: 'open headers' }
          : pull,
    ),
};
