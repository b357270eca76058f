/** What stood at each pull of a day, in a ladder's own setting: what was set, or what was read with its error. */
import type { SettingName } from '../ladder/index.ts';
import type { Curve } from '../pull/types.ts';

/** Both settings of a pull, as set and as read. */
export interface SetAt {
  readonly leadDeg: number;
  readonly lambdaTarget: number | null;
  readonly lambdaMeasured: number | null;
  readonly lambdaErrorSd: number | null;
  readonly jets: string | null;
  readonly loadPercent: number | null;
  readonly curve: Curve | null;
}

/** Sd of lambda as a wideband sensor reads it in a pull, where nobody said (common practice, no source). */
export const LAMBDA_READ_SD = 0.008;

export interface LambdaAt {
  readonly lambda: number;
  /** 0 where it was set. */
  readonly sd: number;
}

/**
 * Lambda at each pull. A reading that was typed counts first; where jets set the mixture, or nobody set a target, what
 * the recording read over the band; else the target, which is what was set. Pulls of one set of jets at one load burnt one
 * mixture: each counts at the mean of their readings. NaN: not known.
 */
export function lambdasOf(
  pulls: readonly SetAt[],
  bandRpm: readonly [number, number] | null,
): readonly LambdaAt[] {
  const each = pulls.map((pull): LambdaAt => {
    const read = pull.lambdaMeasured ?? recordedLambda(pull.curve, bandRpm);
    const isRead = pull.lambdaMeasured !== null || pull.jets !== null || pull.lambdaTarget === null;
    if (isRead && read !== null) return { lambda: read, sd: pull.lambdaErrorSd ?? LAMBDA_READ_SD };
    return { lambda: pull.lambdaTarget ?? Number.NaN, sd: 0 };
  });
  return each.map((own, i) => {
    const { jets, loadPercent } = pulls[i]!;
    if (jets === null || !(own.sd > 0)) return own;
    const alike = each.filter(
      (one, j) => pulls[j]!.jets === jets && pulls[j]!.loadPercent === loadPercent && one.sd > 0,
    );
    const mean = alike.reduce((sum, { lambda }) => sum + lambda, 0) / alike.length;
    // To the fourth place: what a mean of readings is worth, and alike for all of one rung.
    return { lambda: Number(mean.toFixed(4)), sd: own.sd };
  });
}

/** Mean of the lambda channel over the band; null: there is none. */
export function recordedLambda(
  curve: Curve | null,
  bandRpm: readonly [number, number] | null,
): number | null {
  const lambda = curve?.bySpeed.lambda ?? null;
  if (curve === null || lambda === null) return null;
  return meanOver(curve.bySpeed.speedRpm, lambda, bandRpm);
}

/** Fuel for power over the band [kg/J]; null: no fuel flow was recorded. */
export function bandBsfc(
  curve: Curve | null,
  bandRpm: readonly [number, number] | null,
): number | null {
  const bsfc = curve?.derived.bsfcKgPerJ ?? null;
  return curve === null || bsfc === null ? null : meanOver(curve.speedRpm, bsfc, bandRpm);
}

/** Hottest cylinder's exhaust anywhere in the sweep [K]; null: not recorded. */
export function exhaustPeakK(curve: Curve | null): number | null {
  const known = (curve?.bySpeed.exhaustTemperatureK ?? []).filter((value) => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}

function meanOver(
  speedRpm: readonly number[],
  values: readonly (number | null)[],
  bandRpm: readonly [number, number] | null,
): number | null {
  const [low, high] = bandRpm ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const inside = values.filter(
    (value, i): value is number => value !== null && speedRpm[i]! >= low && speedRpm[i]! <= high,
  );
  return inside.length === 0 ? null : inside.reduce((sum, value) => sum + value, 0) / inside.length;
}

/** Two settings closer than this were meant to be one. */
const SAME = 1e-6;

/**
 * What the pulls step, where nobody said: lead if it took two values or more, lambda if only that did.
 */
export function steppedSetting(pulls: readonly SetAt[]): SettingName {
  const differs = (of: (pull: SetAt) => number | string | null) =>
    new Set(pulls.map(of).filter((value) => value !== null)).size > 1;
  if (differs(({ leadDeg }) => leadDeg)) return 'lead';
  return differs(({ lambdaTarget, lambdaMeasured, jets }) => lambdaMeasured ?? jets ?? lambdaTarget)
    ? 'lambda'
    : 'lead';
}

/**
 * Why a pull is no rung of a ladder of lambda: another lead stood in it than in most of the pulls. Null: it is one.
 */
export function heldLead(pulls: readonly SetAt[]): (pull: SetAt) => string | null {
  const counts = new Map<number, number>();
  for (const { leadDeg } of pulls) counts.set(leadDeg, (counts.get(leadDeg) ?? 0) + 1);
  const held = [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
  return ({ leadDeg }) =>
    Math.abs(leadDeg - held) < SAME
      ? null
      : `its lead is ${leadDeg}°, and this ladder of lambda holds ${held}°`;
}

/** Why a pull is no rung of a ladder, which is of full throttle; null: it was one. */
export const belowFullThrottle = ({ loadPercent }: Pick<SetAt, 'loadPercent'>): string | null =>
  loadPercent === null || loadPercent >= 100
    ? null
    : `it was made at ${loadPercent} % load, and a ladder is of full throttle`;
