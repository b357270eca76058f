import type { ReactNode } from 'react';
import type { CompareAnswer, CompareInput } from '../../src/compare/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import type { Span } from '../charts/scale.ts';

/** A pull of a side, whether it counts or not. */
export interface PullWords {
  readonly key: string;
  /** `pull 3`. */
  readonly name: string;
  readonly href?: string;
  /** `30°`, where a setting is known. */
  readonly setting: string | null;
  /** Why it is left out; null where it counts. */
  readonly why: string | null;
}

/** One side as it stands above the picture; in the order of the input's groups. */
export interface SideWords {
  readonly name: string;
  /** `3 pulls at 30°, 14 May 2026`. */
  readonly aside: string;
  readonly href?: string;
  readonly pulls: readonly PullWords[];
}

/** A band by a word: what an owner does with the engine, or all that was swept. */
export interface QuickBand {
  readonly name: string;
  readonly band: Span;
}

export interface CompareProps {
  readonly bandRpm: Span;
  readonly sides: readonly SideWords[];
  readonly units: UnitSystem;
  /** In which air all pulls stand: `SAE J1349`. */
  readonly standard: string;
  /** Which pulls were taken, in a sentence; empty where nothing needs saying. */
  readonly taken: string;
  /** What makes the sides less alike, from bringing them together. */
  readonly warnings: readonly string[];
  /** From what it is known how days differ, in a sentence. */
  readonly daysFrom: string;
  readonly quickBands: readonly QuickBand[];
  readonly onBand?: (band: Span) => void;
  readonly onSwap?: () => void;
  readonly onRemove?: (side: number) => void;
  /** Opens the picker for one more side, or for another one in the place of an old. */
  readonly onPick?: (side: number | null) => void;
  /** Further acts, beside those on the sides. */
  readonly acts?: ReactNode;
  /** What is said of sides that have no curve to draw, before the pictures. */
  readonly undrawn?: ReactNode;
}

export interface CompareScreenProps extends CompareProps {
  /** Its own band is not looked at: the one beside it moves without a new preparation. */
  readonly input: CompareInput;
}

export interface CompareViewProps extends CompareProps {
  readonly answer: CompareAnswer | null;
  readonly trouble: string | null;
  /** Speeds that all pulls cover; null where the sides cannot be brought together at all. */
  readonly speedsRpm: Span | null;
  /** The answer is of a band that has moved on meanwhile. */
  readonly settling: boolean;
}
