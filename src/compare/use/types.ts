/** A stretch of engine speed in a use. */
export interface UsePoint {
  readonly speedRpm: number;
  /** Part of the time; of all points together 1. */
  readonly share: number;
  /** Torque asked there as a part of what full throttle gives, 0 to 1. */
  readonly load: number;
}

/** What the engine is for, as a distribution of engine speeds and loads. */
export interface Use {
  readonly name: string;
  readonly from: 'chosen' | 'typed' | 'log' | 'vehicle';
  /** By speed, rising. */
  readonly points: readonly UsePoint[];
  /** Why it looks so, and where that comes from. */
  readonly reason: string;
  readonly notes: readonly string[];
}
