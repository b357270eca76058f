import { finite, positive } from '../possible.ts';

export type ClearanceKind =
  | 'main-bearing'
  | 'rod-bearing'
  | 'piston-to-wall'
  | 'ring-gap-top'
  | 'ring-gap-second'
  | 'ring-gap-oil-rail'
  | 'ring-side'
  | 'rod-side'
  | 'crank-end-float'
  | 'piston-to-valve-intake'
  | 'piston-to-valve-exhaust'
  | 'retainer-to-seal'
  | 'coil-bind';

/** What an engine is built for, as far as its clearances care. `sustained` is minutes of full load: marine, towing. */
export const CLEARANCE_USES = [
  'street',
  'street boosted',
  'sustained',
  'race',
  'race boosted',
] as const;
export type ClearanceUse = (typeof CLEARANCE_USES)[number];

/**
 * One window, the shop's to edit. Limits are metres where `per` is absolute, else metres per metre of bore or journal
 * (the same number as thousandths per inch of it). A limit that nobody states is null.
 */
export interface ClearanceWindow {
  readonly kind: ClearanceKind;
  /** Uses it holds for; null for any. */
  readonly uses: readonly ClearanceUse[] | null;
  /** Material it holds for, as the sheet names it; null for any. */
  readonly material: string | null;
  readonly per: 'absolute' | 'bore' | 'journal';
  readonly low: number | null;
  readonly high: number | null;
  /** How grave it is to lie below or above. */
  readonly below: 'look again' | 'stop';
  readonly above: 'look again' | 'stop';
  /** What happens there. */
  readonly why: string;
  /** The published source, or `common practice, no source`. */
  readonly source: string;
  /** F found at the source named, M from memory: check before relying on it. */
  readonly tag: 'F' | 'M';
}

export interface WindowLimits {
  readonly lowM: number | null;
  readonly highM: number | null;
}

export interface SizesM {
  readonly boreM?: number | null;
  readonly journalM?: number | null;
}

/**
 * A window's limits [m] for an engine's sizes; null while the size it goes by is not known.
 * @throws NonPhysicalError  a bore or journal of 0 or less
 */
export function windowLimits(
  window: Pick<ClearanceWindow, 'per' | 'low' | 'high'>,
  sizes: SizesM,
): WindowLimits | null {
  if (window.per === 'absolute') return timesM(window, 1);
  const sizeM = (window.per === 'bore' ? sizes.boreM : sizes.journalM) ?? null;
  if (sizeM === null) return null;
  positive(window.per, sizeM, 'm');
  return timesM(window, sizeM);
}

function timesM({ low, high }: Pick<ClearanceWindow, 'low' | 'high'>, sizeM: number): WindowLimits {
  const times = (limit: number | null) =>
    limit === null ? null : finite('limit of the window', limit, '') * sizeM;
  return { lowM: times(low), highM: times(high) };
}

export interface ClearanceVerdict {
  readonly verdict: 'fine' | 'look again' | 'stop';
  readonly side: 'inside' | 'below' | 'above';
  /** What is missing to the nearer limit [m], above 0 below the window, below 0 above it; 0 inside. */
  readonly toWindowM: number;
}

/** Where a clearance lies in its window. The limits themselves are fine. */
export function judgeClearance(
  clearanceM: number,
  limits: WindowLimits,
  gravity: Pick<ClearanceWindow, 'below' | 'above'>,
): ClearanceVerdict {
  const value = finite('clearance', clearanceM, 'm');
  if (limits.lowM !== null && value < limits.lowM)
    return { verdict: gravity.below, side: 'below', toWindowM: limits.lowM - value };
  if (limits.highM !== null && value > limits.highM)
    return { verdict: gravity.above, side: 'above', toWindowM: limits.highM - value };
  return { verdict: 'fine', side: 'inside', toWindowM: 0 };
}

/**
 * The windows that could hold, the most particular first. What is not known yet (null) excludes nothing: more than one
 * with different limits means that use or material has to be told first.
 */
export function windowsFor(
  windows: readonly ClearanceWindow[],
  kind: ClearanceKind,
  known: { readonly use: ClearanceUse | null; readonly material: string | null },
): readonly ClearanceWindow[] {
  const fits = (window: ClearanceWindow) =>
    window.kind === kind &&
    (known.use === null || window.uses === null || window.uses.includes(known.use)) &&
    (known.material === null || window.material === null || window.material === known.material);
  const particular = ({ uses, material }: ClearanceWindow) =>
    (uses === null ? 0 : 2) + (material === null ? 0 : 1);
  return windows.filter(fits).sort((a, b) => particular(b) - particular(a));
}
