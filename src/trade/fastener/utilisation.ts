import { count, notNegative, positive, possible } from '../possible.ts';

/**
 * Shares of the proof load that preloads are usually set to: 75 % where the joint is taken apart again (S53, restating
 * Shigley), 90 % where it stays (Shigley eq. 8-31, from memory).
 */
export const PRELOAD_SHARE_OF_PROOF = { reused: 0.75, permanent: 0.9 } as const;

export interface Utilisation {
  readonly stressPa: number;
  /** Preload over proof load: above 1 the bolt has taken a lasting stretch. */
  readonly shareOfProof: number;
  /** What is left up to the proof load [N]; negative past it. */
  readonly toProofN: number;
}

/** How far a load uses a bolt up. */
export function utilisation(loadN: number, stressAreaM2: number, proofPa: number): Utilisation {
  const area = positive('stress area', stressAreaM2, 'm²');
  const proofN = area * positive('proof stress', proofPa, 'Pa');
  const load = notNegative('load', loadN, 'N');
  return { stressPa: load / area, shareOfProof: load / proofN, toProofN: proofN - load };
}

/** Allowances for a rod's bolts (from memory, low confidence): bending of the cap, and clamp over load. */
export const ROD_BENDING_FACTOR = 1.3;
export const ROD_CLAMP_MARGIN_RANGE = [1.5, 2] as const;

export interface RodBoltMargin {
  readonly clampN: number;
  /** Separating force with the bending allowance. */
  readonly loadN: number;
  /** Clamp over load; null at no load. */
  readonly margin: number | null;
  /** Preload of each bolt that reaches the wanted margin. */
  readonly neededPreloadPerBoltN: number;
}

/**
 * Clamp of a rod's cap against the force that parts it at top dead centre on the exhaust stroke.
 * @param rod.separatingForceN   inertia of all above the parting line, of the whole rod [N]
 * @param rod.wantedMargin       clamp over load wanted; ROD_CLAMP_MARGIN_RANGE is usual
 */
export function rodBoltMargin(rod: {
  readonly preloadPerBoltN: number;
  readonly separatingForceN: number;
  readonly bolts?: number;
  readonly bendingFactor?: number;
  readonly wantedMargin?: number;
}): RodBoltMargin {
  const { bolts = 2, bendingFactor = ROD_BENDING_FACTOR, wantedMargin = 1.5 } = rod;
  count('number of rod bolts', bolts);
  possible('bending factor', bendingFactor, '', bendingFactor >= 1, '1 or more');
  const clampN = bolts * notNegative('preload', rod.preloadPerBoltN, 'N');
  const loadN = bendingFactor * notNegative('separating force', rod.separatingForceN, 'N');
  return {
    clampN,
    loadN,
    margin: loadN > 0 ? clampN / loadN : null,
    neededPreloadPerBoltN: (positive('wanted margin', wantedMargin, '') * loadN) / bolts,
  };
}
