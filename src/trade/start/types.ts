import type { Fuel } from '../fuel/index.ts';

/** Chambers by how fast they burn, as a builder tells them apart. */
export type Chamber =
  | 'four-valve pent roof'
  | 'two-valve fast burn'
  | 'two-valve wedge'
  | 'two-valve hemispherical';

export type Aspiration = 'natural' | 'boosted' | 'nitrous';

/** What the first settings are read from; any of it may be unknown. */
export interface StartInput {
  readonly aspiration?: Aspiration | undefined;
  readonly fuel?: Fuel | undefined;
  readonly compressionRatio?: number | undefined;
  readonly chamber?: Chamber | undefined;
  readonly boreM?: number | undefined;
}

/** One step of the reasoning, and what it rests on. */
export interface Reason {
  readonly sentence: string;
  readonly source: string;
}

/**
 * A window to begin in, or why there is none. `missing` lists what to find out, that which decides most first.
 * There is never a single figure, and never a promise.
 */
export type StartWindow<Window> =
  | {
      readonly state: 'window';
      readonly window: Window;
      readonly reasons: readonly Reason[];
      readonly caution: string;
    }
  | { readonly state: 'none'; readonly reasons: readonly Reason[] }
  | { readonly state: 'missing'; readonly missing: readonly (keyof StartInput)[] };

/** To stand beside every window. */
export const START_CAUTION =
  'A place to begin, not a promise: the engine maker’s figure wins. Make the first pulls short, listen for knock, read the plugs, and change one thing at a time.';

export const PRACTICE = 'common practice, no source';
