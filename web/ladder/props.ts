import type {
  LadderAnswer,
  LadderInput,
  SettingInterval,
  UseAnswer,
  UseRule,
} from '../../src/ladder/types.ts';
import type { Mark, Peak } from '../../src/pull/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';

/** What the table says of a pull beyond what the ladder computes from. All of it may be missing. */
export interface PullDetail {
  /** What people call it: `pull 4`, a file's name. */
  readonly name: string;
  /** Where its own page is. */
  readonly href?: string;
  readonly peakPower: Peak | null;
  readonly peakTorque: Peak | null;
  readonly lambda: number | null;
  /** Factor that brought it to standard air. */
  readonly airFactor: number | null;
  readonly marks: readonly Mark[];
}

/** A decision on record. */
export interface DecisionNote {
  readonly id: string;
  readonly use: string;
  readonly setting: number | null;
  readonly who: string;
  /** Already in words. */
  readonly when: string;
  readonly why: string;
  /** What was advised then, as it was; null where nothing was. */
  readonly advice: AdviceNote | null;
}

/** Advice as it was kept beside a decision. */
export interface AdviceNote {
  readonly value: number | null;
  readonly why: string;
  /** Null where only the figure was kept. */
  readonly evidence: {
    /** Already in words. */
    readonly standard: string;
    readonly bandRpm: readonly [number, number];
    readonly pulls: number;
    readonly best: SettingInterval;
    readonly limit: SettingInterval | null;
    readonly limitWatched: boolean;
    readonly use: UseAnswer | null;
    readonly curveVersion: number;
    readonly ladderVersion: number;
  } | null;
}

/** A decision about to be recorded, with the question as it stood on the screen and what was advised there. */
export interface NewDecisionNote {
  readonly use: string;
  readonly setting: number;
  readonly who: string;
  readonly why: string;
  readonly advised: number | null;
  readonly bandRpm: readonly [number, number];
  readonly uses: readonly UseRule[];
}

/** What the screen knows of its surroundings. */
export interface LadderTitle {
  /** `Spark ladder`. */
  readonly ladder: string;
  /** Engine, build, day: `Rally six, build 2, 14 May`. Stands on saved pictures. */
  readonly scenario: string;
  /** Air standard in words. */
  readonly standard: string;
}

export interface LadderCallbacks {
  /** After the band came to rest, not at every pixel. */
  readonly onBand?: (bandRpm: readonly [number, number]) => void;
  /** The use the page speaks about. */
  readonly onUse?: (use: string) => void;
  /** After the rules of the uses were changed. */
  readonly onUses?: (uses: readonly UseRule[]) => void;
  /** A reason leaves the pull out; null takes it back in. */
  readonly onExclude?: (pullId: string, because: string | null) => void;
  /** Settles when the decision is on record; a refusal is shown. */
  readonly onDecide?: (decision: NewDecisionNote) => Promise<unknown> | undefined;
}

/** A fuel by which air to fuel is told from lambda. */
export interface FuelNote {
  readonly name: string;
  readonly stoichiometricAfr: number;
}

export interface LadderScreenProps extends LadderCallbacks {
  readonly input: LadderInput;
  readonly title: LadderTitle;
  readonly units: UnitSystem;
  /** The fuel burnt; without it a mixture has no air to fuel. */
  readonly fuel?: FuelNote | null;
  readonly details?: ReadonlyMap<string, PullDetail>;
  readonly decisions?: readonly DecisionNote[];
  /** The use to speak about first; otherwise the first rule. */
  readonly use?: string | null;
  /** Where pulls are added, for the state without pulls. */
  readonly addPullsHref?: string;
  /** Where what was decided is handed over. */
  readonly handOverHref?: string;
}

/** As the screen, but the answer is given and every change goes straight up. */
export interface LadderViewProps extends LadderScreenProps {
  readonly answer: LadderAnswer | null;
  /** Why there is no answer, in a sentence. */
  readonly trouble?: string | null;
  readonly use: string | null;
  /** The answer shown lags behind what is being dragged. */
  readonly settling?: boolean;
}
