/** One line of the benchmark table: ours against a named general-purpose peer, measured in the same run. */
export interface BenchCase {
  readonly name: string;
  /** What it is measured against, with its version where it has one. */
  readonly peer: string;
  /** The target in words, as the table prints it. */
  readonly target: string;
  /**
   * Runs both sides, interleaved and repeated as the case needs. Times in milliseconds (medians);
   * `peerMs` is null where the target is absolute and no peer exists. `peakMb` where memory is a target.
   */
  run(): Promise<{
    readonly oursMs: number;
    readonly peerMs: number | null;
    readonly peakMb?: number;
    readonly met: boolean;
    readonly note?: string;
  }>;
}
