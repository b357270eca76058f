/** How the engine went through its speeds: its own time, from the first row of the pull. */
export interface Pace {
  /** Rising, from 0 [s]. */
  readonly timeS: readonly number[];
  readonly speedRpm: readonly number[];
}

/** How far a curve is drawn at a moment, and where the engine stands. */
export interface Reached {
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly atRpm: number;
}

/** Seconds from the first to the last row of the pull. */
export const durationOf = ({ timeS }: Pace): number => timeS.at(-1)!;

/**
 * The speeds that were passed up to a moment, whichever way the sweep went, and the speed at it. Never shrinks: a
 * sweep that slips back keeps what it has drawn.
 */
export function reachedAt({ timeS, speedRpm }: Pace, atS: number): Reached {
  let [fromRpm, toRpm] = [speedRpm[0]!, speedRpm[0]!];
  let atRpm = speedRpm[0]!;
  for (let i = 1; i < timeS.length && timeS[i - 1]! < atS; i++) {
    const part = Math.min(1, (atS - timeS[i - 1]!) / (timeS[i]! - timeS[i - 1]!));
    atRpm = speedRpm[i - 1]! + part * (speedRpm[i]! - speedRpm[i - 1]!);
    fromRpm = Math.min(fromRpm, atRpm);
    toRpm = Math.max(toRpm, atRpm);
  }
  return { fromRpm, toRpm, atRpm };
}
