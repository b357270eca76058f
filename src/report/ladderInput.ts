import type { LadderInput, LadderPull } from '../ladder/types.ts';
import type { Curve } from '../pull/types.ts';
import { bandBsfc, exhaustPeakK } from './pullSettings.ts';

/** One pull of a day, made ready for a ladder: what was set and seen, and what the cell recorded or the operator typed. */
export interface DayPull extends Omit<LadderPull, 'torque' | 'knock' | 'airTemperatureK'> {
  readonly curve: Curve | null;
}

/** What a ladder is judged by, whether it stands in a session file or in the shop's record. */
export interface LadderSettings extends Omit<LadderInput, 'pulls' | 'bandRpm'> {
  /** Null: chosen from the curves, see bandFromCurves. */
  readonly bandRpm: readonly [number, number] | null;
}

/** Speeds that a ladder of typed peaks stands for: it has none, so the widest that an engine turns. */
export const NO_BAND_RPM: readonly [number, number] = [500, 20_000];

/** The ladder's question from a day's pulls: plain data, the same for the command, the server and the browser. */
export function ladderInputOf(pulls: readonly DayPull[], settings: LadderSettings): LadderInput {
  const { bandRpm, ...rest } = settings;
  const band = bandRpm ?? bandFromCurves(pulls.map(({ curve }) => curve)) ?? NO_BAND_RPM;
  return { ...rest, pulls: pulls.map((pull) => ladderPullOf(pull, band)), bandRpm: band };
}

/** A day's pull as a ladder sees it. */
export function ladderPullOf<Pull extends Omit<DayPull, 'setting'>>(
  { curve, ...pull }: Pull,
  bandRpm: readonly [number, number],
) {
  return {
    ...pull,
    torque: curve?.spline ?? null,
    peakPowerW: pull.peakPowerW ?? curve?.peakPower.value ?? null,
    peakTorqueNm: pull.peakTorqueNm ?? curve?.peakTorque.value ?? null,
    knock: knockOf(curve),
    airTemperatureK: curve?.conditions.airTemperatureK ?? null,
    exhaustPeakK: exhaustPeakK(curve),
    bsfcKgPerJ: bandBsfc(curve, bandRpm),
  };
}

/** Knock in the bins of speed that hold a reading. */
function knockOf(curve: Curve | null): LadderPull['knock'] {
  if (curve === null || curve.bySpeed.knock === null) return null;
  const { speedRpm, knock } = curve.bySpeed;
  const bins = speedRpm.map((rpm, i) => ({ rpm, level: knock[i] ?? null }));
  const filled = bins.filter((bin): bin is { rpm: number; level: number } => bin.level !== null);
  return { speedRpm: filled.map(({ rpm }) => rpm), level: filled.map(({ level }) => level) };
}

/**
 * The band where nobody chose one: from the speed of peak torque to the highest speed that all curves reach, in whole
 * hundreds of rev/min. Null where there are no curves, or they share nothing above peak torque.
 */
export function bandFromCurves(
  curves: readonly (Curve | null)[],
): readonly [number, number] | null {
  const known = curves.filter((curve) => curve !== null);
  if (known.length === 0) return null;
  const peaks = known.map((curve) => curve.peakTorque.speedRpm).sort((a, b) => a - b);
  const middle = peaks[Math.floor((peaks.length - 1) / 2)]!;
  const low = Math.ceil(Math.max(middle, ...known.map((curve) => curve.spline.low)) / 100) * 100;
  const high = Math.floor(Math.min(...known.map((curve) => curve.spline.high)) / 100) * 100;
  if (high - low >= 500) return [low, high];
  const from = Math.max(...known.map((curve) => curve.spline.low));
  const to = Math.min(...known.map((curve) => curve.spline.high));
  return to - from > 0 ? [from, to] : null;
}
