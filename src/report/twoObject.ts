import type { TwoAnswer } from '../ladder/two/index.ts';
import type { DayWork } from './dayWork.ts';
import { lambdasOf } from './pullSettings.ts';
import type { LoadAnswer } from './twoWork.ts';

/** Lead and lambda of a day at once, as `pullbook ladder --setting both --json` publishes them. */
export interface TwoObject {
  readonly session: string;
  readonly setting: 'lead and lambda';
  readonly standard: string;
  /** One a load that was held; null: full throttle. */
  readonly loads: readonly (Omit<TwoAnswer, 'version' | 'dots' | 'warnings'> & {
    readonly loadPercent: number | null;
    readonly bandRpm: readonly [number, number];
  })[];
  readonly pulls: readonly {
    readonly file: string | null;
    readonly lead: number;
    readonly lambda: number | null;
    readonly loadPercent: number | null;
    readonly jets: string | null;
    readonly state: TwoAnswer['dots'][number]['state'];
    /** Over the band [W]; null: it does not count. */
    readonly meanPower: number | null;
  }[];
  readonly warnings: readonly string[];
}

/** The published object of a day's answers for both settings. */
export function twoObject(
  session: string,
  work: DayWork,
  answers: readonly LoadAnswer[],
): TwoObject {
  const dots = new Map(answers.flatMap(({ answer }) => answer.dots.map((dot) => [dot.id, dot])));
  const lambdas = lambdasOf(work.pulls, answers[0]?.input.bandRpm ?? null);
  return {
    session,
    setting: 'lead and lambda',
    standard: work.standard,
    loads: answers.map(({ loadPercent, input, answer }) => {
      const { version: _v, dots: _d, warnings: _w, ...rest } = answer;
      return { loadPercent, bandRpm: input.bandRpm, ...rest };
    }),
    pulls: work.pulls.map((pull, i) => {
      const dot = dots.get(pull.id);
      const { lambda } = lambdas[i]!;
      return {
        file: pull.file,
        lead: pull.leadDeg,
        lambda: Number.isFinite(lambda) ? lambda : null,
        loadPercent: pull.loadPercent,
        jets: pull.jets,
        state: dot?.state ?? 'left out',
        meanPower: dot?.meanPowerW ?? null,
      };
    }),
    warnings: [...new Set([...work.warnings, ...answers.flatMap(({ answer }) => answer.warnings)])],
  };
}
