import type { DisplayKind } from '../../units/display.ts';
import type { Place } from '../sheet/types.ts';
import type { Ask, Need } from './ask.ts';

/** A window that a measured or computed value should stand in. */
export interface Window {
  /** Inside units; null where that side is open. */
  readonly low: number | null;
  readonly high: number | null;
  /** Beyond these the verdict is `stop`; null: beyond low or high it is `look again` only. */
  readonly stopBelow: number | null;
  readonly stopAbove: number | null;
  /** Document, or `common practice, no source`, or `the shop's own`. */
  readonly source: string;
  /** Where the sites that the source names can be read. */
  readonly addresses?: readonly string[];
}

export type Verdict = 'fine' | 'look again' | 'stop' | 'not known';

/** A sentence that belongs to an answer, and what it rests on where it claims something. */
export interface Note {
  readonly sentence: string;
  readonly source: string | null;
}

/** A value with words to it: the range that its own rule leaves, reasons, cautions; or no value, and why. */
export interface Said {
  readonly value: Value | null;
  /** Between which the rule itself, not the tolerances on the sheet, lets the truth lie. */
  readonly range?: { readonly low: number; readonly high: number };
  readonly notes?: readonly Note[];
  /** Of values that stand by row of a free table: what each row is called. */
  readonly rows?: readonly string[];
}

/** One number, or one a place. */
export type Value = number | readonly (number | null)[];

/** What something is made of, before the sheet was asked. */
interface Spec {
  readonly id: string;
  /** The section of the sheet that it stands in. */
  readonly section: string;
  readonly label: string;
  readonly shown: DisplayKind;
  /** Digits where the kind's own are not right. */
  readonly decimals?: number;
  /** A difference of two such quantities: the zero point of the unit plays no part (of temperatures). */
  readonly isDifference?: true;
  /** Whether this engine has such a thing at all; it is asked nothing about what it has not. All do unless said. */
  readonly applies?: (ask: Ask) => boolean;
}

/** A figure that follows from the sheet: one number, or one a place. */
export interface FigureSpec extends Spec {
  readonly per?: Place;
  /** How it comes about, with its source, in one sentence. */
  readonly how: string;
  readonly compute: Need<Value | Said>;
}

/** A check of a value against a window. */
export interface CheckSpec extends Spec {
  readonly per?: Place;
  /** How the value comes about. */
  readonly how: string;
  /** Name of the window in the shop's list. */
  readonly window: string;
  readonly compute: Need<Value | Said>;
  /** Turns a window given per metre of something (bore, journal), or per rev/min, into one of the value's own kind. */
  readonly scale?: Need<number>;
  /** What would bring it right, for a value that stands too low and one that stands too high. */
  readonly remedy: { readonly low: string; readonly high: string };
  /** The sharper the consequence, the earlier a missing measurement of it is asked for: 1 to 3. */
  readonly weight: 1 | 2 | 3;
}

/** What all answers carry: where they came from, what they want, and what is physically wrong. */
interface Answered {
  readonly id: string;
  readonly section: string;
  readonly label: string;
  readonly shown: DisplayKind;
  readonly decimals: number | null;
  readonly how: string;
  readonly per: Place | null;
  /** Inside units; null when not known. Of values by place the one that was judged, or their mean. */
  readonly value: number | null;
  /** Values by place; null where the answer is one number. */
  readonly each: readonly (number | null)[] | null;
  /** What the rows are called, where values stand by row of a free table and not by place. */
  readonly rows: readonly string[] | null;
  /** Half of the 95 % interval that follows from the tolerances on the sheet; null where there are none. */
  readonly plusMinus: number | null;
  /** Paths of the sheet that it was computed from. */
  readonly from: readonly string[];
  /** Paths in whose place something usual was taken; the notes say what. */
  readonly assumed: readonly string[];
  readonly isDifference: boolean;
  /** Between which the rule itself lets the truth lie, beside what the tolerances do; null where none is stated. */
  readonly range: { readonly low: number; readonly high: number } | null;
  /** Reasons and cautions; of an answer without value that misses nothing, why there is none. */
  readonly notes: readonly Note[];
  /** Paths that would have to be measured first. */
  readonly missing: readonly string[];
  /** Why the values on the sheet cannot be true together, where they cannot. */
  readonly problem: string | null;
}

export interface Figure extends Answered {}

export interface Check extends Answered {
  readonly verdict: Verdict;
  readonly window: Window | null;
  /** Index of the place that stands worst; null where there is one value or all are fine. */
  readonly worst: number | null;
  readonly remedy: string | null;
}

/** A measurement still to be made, the more decisive the earlier. */
export interface ToMeasure {
  readonly path: string;
  readonly label: string;
  /** Labels of what it would decide, alone or with others. */
  readonly decides: readonly string[];
  readonly weight: number;
}

export interface SheetAnswer {
  readonly figures: readonly Figure[];
  readonly checks: readonly Check[];
  readonly measureNext: readonly ToMeasure[];
}
