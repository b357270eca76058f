import type {
  LadderAnswer,
  MixtureAnswer,
  NextMove,
  SettingInterval,
  StepAnswer,
  UseAnswer,
} from '../ladder/types.ts';
import type { Mark } from '../pull/types.ts';
import { findFuel } from '../trade/index.ts';
import type { DayPull } from './ladderInput.ts';
import type { SetAt } from './pullSettings.ts';

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
    /** As the ladder took it; null: not known. */
    readonly lambda: number | null;
    readonly excludedBecause: string | null;
    readonly peakTorque: PublishedPeak | null;
    readonly peakPower: PublishedPeak | null;
    readonly correctionFactor: number | null;
    readonly marks: readonly Mark[];
  }[];
  /** What a mixture ladder says beside its best; null for lead. */
  readonly mixture:
    | (MixtureAnswer & {
        /** The fuel burnt and its air to fuel by mass at lambda 1; null: a fuel that is not known. */
        readonly fuel: { readonly name: string; readonly stoichiometricAfr: number } | null;
      })
    | null;
  readonly headline: string;
  readonly summary: string;
  readonly standard: string;
  readonly bandRpm: readonly [number, number] | null;
  readonly warnings: readonly string[];
}

/** A pull with where it stands on disk. */
export interface FiledPull extends DayPull, SetAt {
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
  /** As the session names it. */
  readonly fuel: string;
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
    pulls: parts.pulls.map((pull) => publishedPull(pull, setting)),
    mixture: answer.mixture === null ? null : { ...answer.mixture, fuel: fuelNamed(parts.fuel) },
    headline: answer.headline,
    summary: answer.summary,
    standard,
    bandRpm,
    warnings: [...new Set([...parts.warnings, ...answer.warnings])],
  };
}

function fuelNamed(name: string) {
  const fuel = findFuel(name);
  return fuel === undefined ? null : { name: fuel.name, stoichiometricAfr: fuel.stoichiometricAfr };
}

const finiteOr = (value: number): number | null => (Number.isFinite(value) ? value : null);

function publishedPull(pull: FiledPull, setting: string): LadderObject['pulls'][number] {
  const { curve } = pull;
  return {
    file: pull.file,
    pull: pull.pullOfFile,
    lead: pull.leadDeg,
    lambda:
      setting === 'lambda' ? finiteOr(pull.setting) : (pull.lambdaMeasured ?? pull.lambdaTarget),
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
