import type { ChosenTorque } from '../basis.ts';
import type { Points } from '../points.ts';
import type { Channel, PullSpan, Recording } from '../recording.ts';
import type { Curve, CurveOptions, Mark } from '../types.ts';

/** A blip with its times as the recording has them. */
export interface TimedBlip {
  readonly fromS: number;
  readonly toS: number;
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly sizeNm: number;
}

/** What every check of a pull is given. */
export interface CheckContext {
  readonly recording: Recording;
  readonly span: PullSpan;
  readonly speed: Channel;
  readonly chosen: ChosenTorque;
  readonly points: Points;
  readonly options: CurveOptions;
  readonly curve: Omit<Curve, 'marks'>;
  readonly blips: readonly TimedBlip[];
}

/** One check: what it saw, in plain sentences with numbers; nothing when all is well or it cannot tell. */
export type Check = (context: CheckContext) => readonly Mark[];
