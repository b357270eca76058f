import { count, finite, notNegative, positive, within } from '../possible.ts';

/** What hangs on one throw, one rod's worth each; a part that is not there weighs 0. */
export interface ThrowParts {
  /** Big end of one rod, with its bolts and cap, weighed with the small end level. */
  readonly rodBigEndKg: number;
  /** Bearing shells of one rod. */
  readonly rodBearingsKg: number;
  readonly rodSmallEndKg: number;
  readonly pistonKg: number;
  readonly pinKg: number;
  /** Locks of one pin. */
  readonly locksKg: number;
  /** Ring set of one piston. */
  readonly ringsKg: number;
  /** Oil that stays in the passages, once a throw: usually 3 to 5 g (common practice, no source). */
  readonly oilPerThrowKg: number;
}

export interface BobweightRule {
  readonly rodsPerThrow: number;
  /** Share of the reciprocating mass that the counterweights carry, 0 to 1; overbalance is already in it. */
  readonly reciprocatingShare: number;
}

export interface Bobweight {
  readonly bobweightKg: number;
  /** Rotating mass of the throw, oil included. */
  readonly rotatingKg: number;
  /** All reciprocating mass of the throw, before the share is taken. */
  readonly reciprocatingKg: number;
}

/** Shares of reciprocating mass beyond this range are no practice known to us. */
export const RECIPROCATING_SHARE_RANGE = [0, 1] as const;

/**
 * Bobweight [kg] of one throw: all that rotates and a share of what reciprocates.
 *
 * Formula: n (big end + bearings) + oil + s n (small end + piston + pin + locks + rings), n rods, share s
 * @source   ohiocrank.com, Crankshaft balance factors (S38); onallcylinders.com 2016-03-17 (S39)
 * @throws NonPhysicalError  a negative mass, a share outside RECIPROCATING_SHARE_RANGE
 */
export function bobweight(parts: ThrowParts, rule: BobweightRule): Bobweight {
  const rods = count('rods per throw', rule.rodsPerThrow);
  const share = within(
    'reciprocating share',
    rule.reciprocatingShare,
    '',
    RECIPROCATING_SHARE_RANGE,
  );
  const rotatingKg =
    rods *
      (positive('rod big end', parts.rodBigEndKg, 'kg') +
        notNegative('rod bearings', parts.rodBearingsKg, 'kg')) +
    notNegative('oil per throw', parts.oilPerThrowKg, 'kg');
  const reciprocatingKg = rods * reciprocatingPerCylinderKg(parts);
  return { bobweightKg: rotatingKg + share * reciprocatingKg, rotatingKg, reciprocatingKg };
}

/** Reciprocating mass [kg] of one cylinder: small end, piston, pin, locks, rings. */
export function reciprocatingPerCylinderKg(parts: Omit<ThrowParts, 'oilPerThrowKg'>): number {
  return (
    positive('rod small end', parts.rodSmallEndKg, 'kg') +
    positive('piston', parts.pistonKg, 'kg') +
    notNegative('pin', parts.pinKg, 'kg') +
    notNegative('locks', parts.locksKg, 'kg') +
    notNegative('rings', parts.ringsKg, 'kg')
  );
}

/** What one throw's bobweight gains when other parts are fitted to every cylinder. */
export interface BobweightChange {
  readonly before: Bobweight;
  readonly after: Bobweight;
  readonly changeKg: number;
  /** The same, part by part; the sum is changeKg. Only parts that changed. */
  readonly byPart: readonly { readonly part: keyof ThrowParts; readonly changeKg: number }[];
  /** Unbalance [kg·m] that each throw is off by if the crank is left as it was. */
  readonly unbalancePerThrowKgM: number;
}

const ROTATING: ReadonlySet<keyof ThrowParts> = new Set(['rodBigEndKg', 'rodBearingsKg']);

/**
 * What a change of parts does to the bobweight, part by part, and to a crank that is not balanced again.
 * A crank whose throws all changed alike gets no force but a couple where its throws do not cancel in pairs;
 * `throwResidual` says which.
 */
export function bobweightChange(
  before: ThrowParts,
  after: ThrowParts,
  rule: BobweightRule,
  crankRadiusM: number,
): BobweightChange {
  const [was, is] = [bobweight(before, rule), bobweight(after, rule)];
  const byPart = (Object.keys(after) as (keyof ThrowParts)[]).flatMap((part) => {
    const weight =
      part === 'oilPerThrowKg'
        ? 1
        : rule.rodsPerThrow * (ROTATING.has(part) ? 1 : rule.reciprocatingShare);
    const changeKg = weight * (after[part] - before[part]);
    return changeKg === 0 ? [] : [{ part, changeKg }];
  });
  const changeKg = is.bobweightKg - was.bobweightKg;
  return {
    before: was,
    after: is,
    changeKg,
    byPart,
    unbalancePerThrowKgM: Math.abs(changeKg) * positive('crank radius', crankRadiusM, 'm'),
  };
}

export interface CrankThrow {
  /** Where the pin stands, from the first throw on, against or with the turning but all alike [crank degrees]. */
  readonly angleDeg: number;
  /** Where along the crank, from any one place [m]. */
  readonly positionM: number;
}

/**
 * What equal weights on all throws leave: a force (as a multiple of one throw's) and a couple about the middle of
 * the throws [m, a multiple of one throw's force]. Both 0: the throws cancel each other, the crank needs no
 * counterweight for the engine's sake, and bobweights only have to be equal.
 * Derivation: sums of unit vectors Σ e^{iφ} and Σ (z − z̄) e^{iφ}.
 */
export function throwResidual(throws: readonly CrankThrow[]): {
  readonly force: number;
  readonly coupleM: number;
} {
  count('number of throws', throws.length);
  const middleM =
    throws.reduce((sum, { positionM }) => sum + finite('throw position', positionM, 'm'), 0) /
    throws.length;
  let [fx, fy, cx, cy] = [0, 0, 0, 0];
  for (const { angleDeg, positionM } of throws) {
    const angle = (finite('throw angle', angleDeg, 'deg') * Math.PI) / 180;
    const [x, y, z] = [Math.cos(angle), Math.sin(angle), positionM - middleM];
    fx += x;
    fy += y;
    cx += z * x;
    cy += z * y;
  }
  return { force: Math.hypot(fx, fy), coupleM: Math.hypot(cx, cy) };
}
