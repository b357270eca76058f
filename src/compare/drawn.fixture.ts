import { DRAWS } from './curves.ts';
import type { DrawnCurve } from './drawn.ts';

/**
 * A curve of which only its table is known, off by nothing that anybody knows.
 * @param speedRpm  evenly spaced
 */
export function drawnAlone(
  name: string,
  speedRpm: readonly number[],
  torqueNm: ArrayLike<number>,
): DrawnCurve {
  const none = new Float64Array(speedRpm.length);
  return {
    name,
    speedRpm,
    torqueNm: Float64Array.from(torqueNm),
    logOff: Array.from({ length: DRAWS }, () => none),
  };
}
