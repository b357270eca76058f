import { type CompareAnswer, findingOf, type PeaksAnswer } from '../compare/index.ts';
import type { Banded } from '../pull/types.ts';
import type { UnitSystem } from '../units/index.ts';
import type { CompareWork } from './compareSides.ts';

/** A peak of one side's mean curve: `value` in `unit` with its 95 % interval, and where it stands. */
export interface ComparePeak extends Banded {
  readonly unit: string;
  readonly speedRpm: number;
  readonly speedLowRpm: number;
  readonly speedHighRpm: number;
  readonly atEdge: boolean;
}

/** Two sides compared, as `pullbook compare --json` publishes it: gains are of B over A, intervals 95 %. */
export interface CompareObject {
  readonly a: string;
  readonly b: string;
  readonly standard: string;
  readonly band: {
    readonly fromRpm: number;
    readonly toRpm: number;
    readonly gainPercent: number;
    readonly lowPercent: number;
    readonly highPercent: number;
    readonly word: string;
  };
  /** The whole true difference lies inside of this band with 95 %. */
  readonly bySpeed: readonly {
    readonly speedRpm: number;
    readonly gainPercent: number;
    readonly lowPercent: number;
    readonly highPercent: number;
  }[];
  readonly crossings: readonly {
    readonly speedRpm: number;
    readonly lowRpm: number;
    readonly highRpm: number;
  }[];
  readonly peaks: {
    readonly a: { readonly torque: ComparePeak; readonly power: ComparePeak };
    readonly b: { readonly torque: ComparePeak; readonly power: ComparePeak };
    readonly powerChange: Banded & { readonly unit: string };
    readonly torqueChange: Banded & { readonly unit: string };
    readonly powerMovedRpm: Banded;
    readonly torqueMovedRpm: Banded;
  };
  readonly finding: string;
  /** Chance that B has more mean power in the band. */
  readonly chanceAhead: number;
  readonly repeatabilityPercent: number;
  /** Null where all pulls are of one day. */
  readonly dayToDayPercent: number | null;
  readonly pulls: { readonly a: readonly string[]; readonly b: readonly string[] };
  readonly leftOut: readonly {
    readonly side: string;
    readonly pull: string;
    readonly why: string;
  }[];
  readonly warnings: readonly string[];
}

/** How more than two sides rank, the strongest first; gains are of each over the first side. */
export interface RankingObject {
  readonly ranking: readonly {
    readonly name: string;
    readonly chanceBest: number;
    /** Sides that cannot be told from it. */
    readonly likeIt: readonly string[];
  }[];
  readonly standard: string;
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly finding: string;
  readonly warnings: readonly string[];
}

/** Two sides, one or both of which are known by their peaks alone. */
export interface PeaksObject extends Omit<PeaksAnswer, 'warnings'> {
  readonly standard: string;
  readonly known: 'peaks only';
  readonly warnings: readonly string[];
}

export type ComparedObject = CompareObject | RankingObject | PeaksObject;

/**
 * All that a comparison publishes: one object for each later side, and how they rank where there are more than two.
 * @param units  in which the findings speak of power
 */
export function compareObjects(
  work: CompareWork,
  units: UnitSystem = 'metric',
): readonly ComparedObject[] {
  const { answer, standard, warnings } = work;
  const pairs = answer?.pairs.map((_, i) => compareObject(work, answer, i, units)) ?? [];
  const peaks = work.peaks.map(
    (one): PeaksObject => ({ ...one, standard, known: 'peaks only', warnings }),
  );
  if (answer === null || pairs.length < 2) return [...pairs, ...peaks];
  const [fromRpm, toRpm] = answer.bandRpm;
  const ranking = { ranking: answer.ranking, standard, fromRpm, toRpm, finding: work.finding };
  return [...pairs, ...peaks, { ...ranking, warnings }];
}

/** One later side over the first. */
function compareObject(
  work: CompareWork,
  answer: CompareAnswer,
  at: number,
  units: UnitSystem,
): CompareObject {
  const { taken } = work;
  const pair = answer.pairs[at]!;
  const [first, second] = [answer.groups[0]!, answer.groups[at + 1]!];
  const peaks = (group: typeof first) => ({
    torque: peak(group.peakTorqueNm, 'N·m'),
    power: peak(group.peakPowerW, 'W'),
  });
  const ids = (name: string) =>
    taken.sides
      .find((side) => side.name === name)!
      .pulls.filter((one) => one.excludedBecause === null)
      .map(({ id, label }) => label ?? id);
  return {
    a: pair.a,
    b: pair.b,
    standard: work.standard,
    band: {
      fromRpm: answer.bandRpm[0],
      toRpm: answer.bandRpm[1],
      gainPercent: pair.gain.value,
      lowPercent: pair.gain.low,
      highPercent: pair.gain.high,
      word: pair.word,
    },
    bySpeed: pair.bySpeed.speedRpm.map((speedRpm, m) => ({
      speedRpm,
      gainPercent: pair.bySpeed.gainPercent[m]!,
      lowPercent: pair.bySpeed.lowPercent[m]!,
      highPercent: pair.bySpeed.highPercent[m]!,
    })),
    crossings: pair.crossings.map(({ speedRpm, lowRpm, highRpm }) => ({
      speedRpm,
      lowRpm,
      highRpm,
    })),
    peaks: {
      a: peaks(first),
      b: peaks(second),
      powerChange: { ...pair.peakPowerChangeW, unit: 'W' },
      torqueChange: { ...pair.peakTorqueChangeNm, unit: 'N·m' },
      powerMovedRpm: pair.peakPowerMovedRpm,
      torqueMovedRpm: pair.peakTorqueMovedRpm,
    },
    finding: `${findingOf(pair, first, second, answer.bandRpm, units)} ${taken.sentence}`,
    chanceAhead: pair.chanceAhead,
    repeatabilityPercent: answer.repeatability.value,
    dayToDayPercent: answer.dayToDay?.value ?? null,
    pulls: { a: ids(pair.a), b: ids(pair.b) },
    leftOut: taken.sides
      .filter(({ name }) => name === pair.a || name === pair.b)
      .flatMap(({ name, pulls }) =>
        pulls.flatMap(({ id, label, excludedBecause }) =>
          excludedBecause === null ? [] : [{ side: name, pull: label ?? id, why: excludedBecause }],
        ),
      ),
    warnings: work.warnings,
  };
}

function peak(
  { value, speedRpm, atEdge }: CompareAnswer['groups'][number]['peakPowerW'],
  unit: string,
): ComparePeak {
  return {
    ...value,
    unit,
    speedRpm: speedRpm.value,
    speedLowRpm: speedRpm.low,
    speedHighRpm: speedRpm.high,
    atEdge,
  };
}
