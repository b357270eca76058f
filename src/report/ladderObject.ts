import type {
  LadderAnswer,
  NextMove,
  SettingInterval,
  StepAnswer,
  UseAnswer,
} from '../ladder/types.ts';
import type { Mark } from '../pull/types.ts';
import type { DayPull } from './ladderInput.ts';

/** A peak of a pull; the interval is null where the figure was typed, the speed where it was not given. */
export interface PublishedPeak {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  readonly speedRpm: number | null;
}

/** A day's ladder, as `pullbook ladder --json` publishes it. `value: null` means not known yet. */
export interface LadderObject {
  readonly session: string;
  readonly setting: string;
  readonly unit: string;
  readonly best: SettingInterval;
  readonly knee: SettingInterval;
  readonly limit: SettingInterval | null;
  readonly uses: Readonly<Record<string, UseAnswer>>;
  readonly next: NextMove;
  readonly limitWatched: boolean;
  readonly steps: readonly Omit<StepAnswer, 'bySpeed'>[];
  readonly repeatabilityPercent: number;
  readonly pulls: readonly {
    readonly file: string | null;
    /** Which pull of that file, from 1; null for typed peaks. */
    readonly pull: number | null;
    readonly lead: number;
    readonly excludedBecause: string | null;
    readonly peakTorque: PublishedPeak | null;
    readonly peakPower: PublishedPeak | null;
    readonly correctionFactor: number | null;
    readonly marks: readonly Mark[];
  }[];
  readonly headline: string;
  readonly summary: string;
  readonly standard: string;
  readonly bandRpm: readonly [number, number] | null;
  readonly warnings: readonly string[];
}

/** A pull with where it stands on disk. */
export interface FiledPull extends DayPull {
  readonly file: string | null;
  readonly pullOfFile: number | null;
  readonly typedPowerSpeedRpm: number | null;
  readonly typedTorqueSpeedRpm: number | null;
  /** What is seen only beside the day's other pulls. */
  readonly dayMarks: readonly Mark[];
}

/** The published object of a ladder's answer. */
export function ladderObject(parts: {
  readonly session: string;
  readonly setting: string;
  readonly unit: string;
  readonly standard: string;
  readonly bandRpm: readonly [number, number] | null;
  readonly answer: LadderAnswer;
  readonly pulls: readonly FiledPull[];
  readonly warnings: readonly string[];
}): LadderObject {
  const { answer, session, setting, unit, standard, bandRpm } = parts;
  return {
    session,
    setting,
    unit,
    best: answer.best,
    knee: answer.knee,
    limit: answer.limit,
    uses: Object.fromEntries(
      Object.entries(answer.uses).map(([name, use]) => [
        name,
        {
          value: use.value,
          givesUpPercent: use.givesUpPercent,
          why: use.why,
          chancePastBest: use.chancePastBest,
          chancePastLimit: use.chancePastLimit,
          holdback: use.holdback,
        },
      ]),
    ),
    next: answer.next,
    limitWatched: answer.limitWatched,
    steps: answer.steps.map(({ bySpeed: _bySpeed, ...step }) => step),
    repeatabilityPercent: answer.repeatability.value,
    pulls: parts.pulls.map(publishedPull),
    headline: answer.headline,
    summary: answer.summary,
    standard,
    bandRpm,
    warnings: [...new Set([...parts.warnings, ...answer.warnings])],
  };
}

function publishedPull(pull: FiledPull): LadderObject['pulls'][number] {
  const { curve } = pull;
  return {
    file: pull.file,
    pull: pull.pullOfFile,
    lead: pull.setting,
    excludedBecause: pull.excludedBecause,
    peakTorque: curve?.peakTorque ?? typedPeak(pull.peakTorqueNm, 'N·m', pull.typedTorqueSpeedRpm),
    peakPower: curve?.peakPower ?? typedPeak(pull.peakPowerW, 'W', pull.typedPowerSpeedRpm),
    correctionFactor: curve?.correctionFactor ?? null,
    marks: [...(curve?.marks ?? []), ...pull.dayMarks],
  };
}

function typedPeak(
  value: number | null,
  unit: string,
  speedRpm: number | null,
): PublishedPeak | null {
  return value === null ? null : { value, low: null, high: null, unit, speedRpm };
}
