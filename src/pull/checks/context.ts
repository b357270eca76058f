import type { ChosenTorque } from '../basis.ts';
import type { Points } from '../points.ts';
import type { Channel, PullSpan, Recording } from '../recording.ts';
import type { FitOptions, Mark, PullFit, TimedBlip } from '../types.ts';

/** What every check of a pull is given. */
export interface CheckContext {
  readonly recording: Recording;
  readonly span: PullSpan;
  readonly speed: Channel;
  readonly chosen: ChosenTorque;
  readonly points: Points;
  readonly options: FitOptions;
  readonly curve: PullFit['asRecorded'];
  readonly blips: readonly TimedBlip[];
}

/** One check: what it saw, in plain sentences with numbers; nothing when all is well or it cannot tell. */
export type Check = (context: CheckContext) => readonly Mark[];
