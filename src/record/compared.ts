/** What the shop keeps of comparisons: the sides as they were named, what was found, part tests with their plans. */
import type { PartPlan } from '../compare/partTest.ts';
import type { AirStandard, TorqueBasis } from '../pull/recording.ts';
import type { Banded } from '../pull/types.ts';
import type { BandRpm, Id, IsoTime } from './types.ts';

/** A side of a comparison: pulls named by things of the shop, or a curve typed from paper. */
export type SideWanted = {
  /** What the side is called; left out: named after what it is. */
  readonly name?: string | undefined;
} & (
  | { readonly kind: 'pulls'; readonly pullIds: readonly Id[] }
  | { readonly kind: 'rung'; readonly ladderId: Id; readonly setting: number }
  | { readonly kind: 'ladder'; readonly ladderId: Id }
  /** Pulls of one group of a part test. */
  | { readonly kind: 'group'; readonly dayId: Id; readonly group: string }
  | { readonly kind: 'day'; readonly dayId: Id }
  | { readonly kind: 'build'; readonly buildId: Id }
  /** The setting that was decided to be left in the engine of a build; without a use: the decision made last. */
  | { readonly kind: 'left'; readonly buildId: Id; readonly use?: string | undefined }
  /** Its newest build that has pulls. */
  | { readonly kind: 'engine'; readonly engineId: Id }
  | ({ readonly kind: 'paper' } & PaperCurve)
);

/** A curve of which only a printed table, or the peaks, are known. */
export interface PaperCurve {
  /** What the paper says the torque is: in which air, and whether inertia is in it (as of an engine held at each speed). */
  readonly basis: TorqueBasis;
  /** Standard uncertainty of the whole curve that the paper states [%]; null: it does not say. */
  readonly sdPercent: number | null;
  /** Four speeds or more; null where only the peaks are known. */
  readonly table: readonly { readonly speedRpm: number; readonly torqueNm: number }[] | null;
  readonly peaks: PaperPeaks | null;
}
/** At least one of the two; null: not known. */
export interface PaperPeaks {
  readonly torqueNm: number | null;
  readonly torqueSpeedRpm: number | null;
  readonly powerW: number | null;
  readonly powerSpeedRpm: number | null;
}

/** A comparison that somebody kept, with what it said then. Asked anew it follows the record. */
export interface Comparison {
  readonly id: Id;
  /** Engine on whose page it stands: that of the first side of the shop. */
  readonly engineId: Id;
  /** All engines that have a side in it. */
  readonly engineIds: readonly Id[];
  readonly name: string;
  readonly note: string;
  readonly sides: readonly SideWanted[];
  /** Null in both: as the comparison chooses them. */
  readonly bandRpm: BandRpm | null;
  readonly standard: AirStandard | null;
  readonly who: string;
  readonly keptAt: IsoTime;
  /** What it said when it was kept, frozen. */
  readonly said: ComparisonSaid;
}
export interface ComparisonSaid {
  readonly compareVersion: number;
  readonly curveVersion: number;
  readonly standard: AirStandard;
  /** Null where no curves were compared. */
  readonly bandRpm: BandRpm | null;
  readonly sides: readonly { readonly name: string; readonly pullIds: readonly Id[] }[];
  /** Gain of mean power of each later curve over the first [%], 95 %; empty where only peaks are known. */
  readonly gains: readonly (Banded & { readonly word: string })[];
  readonly finding: string;
}

/** A fair test of a part on one day: its plan as it was made. Which pulls are of which side stands in their groups. */
export interface PartTest {
  readonly id: Id;
  readonly dayId: Id;
  readonly name: string;
  /** Groups of the pulls without and with the part. */
  readonly groupA: string;
  readonly groupB: string;
  /** Gain of mean power that the test is to see [%]. */
  readonly gainPercent: number;
  /** Pull-to-pull sd that the plan rests on [%]. */
  readonly repeatabilityPercent: number;
  readonly bandRpm: BandRpm | null;
  readonly plan: PartPlan;
  readonly who: string;
  readonly madeAt: IsoTime;
}
