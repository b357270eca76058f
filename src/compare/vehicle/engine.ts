import { InputError } from '../../errors.ts';
import type { TorqueTable } from './types.ts';

/** The engine as a vehicle's run asks for it. */
export interface Engine {
  /** Lowest and highest speed of the table [rev/min]. */
  readonly fromRpm: number;
  readonly toRpm: number;
  /**
   * Torque at full throttle [N·m]. Below the table that of its lowest speed is held, above it that of its highest: a
   * run says how long it stood below, and never goes above.
   */
  torqueNm(speedRpm: number): number;
}

/**
 * Natural cubic spline through a torque table: smooth to its second derivative, so that a solver's steps stay long.
 * @throws InputError  fewer than four points, or speeds that do not rise
 */
export function engineOf({ fromRpm, toRpm, torqueNm }: TorqueTable): Engine {
  const n = torqueNm.length;
  if (n < 4 || !(toRpm > fromRpm))
    throw new InputError('A torque curve needs four speeds at least, the lowest first.');
  const step = (toRpm - fromRpm) / (n - 1);
  const bend = secondDerivatives(torqueNm, step);
  const place = step * step;
  return {
    fromRpm,
    toRpm,
    torqueNm: (speedRpm) => {
      if (!(speedRpm > fromRpm)) return torqueNm[0]!;
      if (speedRpm >= toRpm) return torqueNm[n - 1]!;
      const at = (speedRpm - fromRpm) / step;
      const i = Math.min(n - 2, Math.floor(at));
      const b = at - i;
      const a = 1 - b;
      return (
        a * torqueNm[i]! +
        b * torqueNm[i + 1]! +
        ((a * a * a - a) * bend[i]! + (b * b * b - b) * bend[i + 1]!) * (place / 6)
      );
    },
  };
}

/** Second derivatives at evenly spaced knots, zero at both ends: the tridiagonal system (1, 4, 1) by elimination. */
function secondDerivatives(y: ArrayLike<number>, step: number): Float64Array {
  const n = y.length;
  const bend = new Float64Array(n);
  const pivot = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    const right = (6 * (y[i - 1]! - 2 * y[i]! + y[i + 1]!)) / (step * step);
    pivot[i] = 1 / (4 - (i > 1 ? pivot[i - 1]! : 0));
    bend[i] = (right - (i > 1 ? bend[i - 1]! : 0)) * pivot[i]!;
  }
  for (let i = n - 3; i > 0; i--) bend[i]! -= pivot[i]! * bend[i + 1]!;
  return bend;
}
