import {
  answerGearing,
  answerUse,
  answerVehicle,
  chosenUse,
  type DrawnCurves,
  drawnCurves,
  type GearingAnswer,
  type GoalId,
  type LoggedDrive,
  loggedUse,
  peakPowerRpm,
  SHAPE_NAMES,
  type ShapeName,
  type Use,
  type UseAnswer,
  type Vehicle,
  type VehicleAnswer,
  vehicleUse,
} from '../compare/index.ts';
import { InputError, sentenceOf } from '../errors.ts';
import { type RunSource, readRunFile } from '../intake/index.ts';
import type { CompareQuestion } from './compareSides.ts';

/** Which uses are asked about: one that is there, one to be laid over the builds, or all that can be chosen. */
export type UseWanted = Use | ShapeName | 'all' | null;

export interface UseWish {
  readonly use: UseWanted;
  /** Speed about which a use is dragged. */
  readonly aboveRpm?: number;
  readonly vehicle: Vehicle | null;
  /** The time that findings about the vehicle speak of. */
  readonly goal: GoalId;
}

/** Builds under uses and in a vehicle. */
export interface UseWork {
  readonly question: CompareQuestion;
  readonly curves: DrawnCurves;
  readonly uses: readonly (
    | { readonly ok: true; readonly answer: UseAnswer }
    | { readonly ok: false; readonly use: Use; readonly why: string }
  )[];
  readonly vehicle: VehicleAnswer | null;
  readonly gearing: GearingAnswer | null;
}

/** @throws InputError  a side of which only the peaks are known: a use and a vehicle need the whole curve */
export function refusePeaks({ peakSides }: CompareQuestion): void {
  const [first] = peakSides;
  if (first !== undefined)
    throw new InputError(
      `Of ${first.name} only the peaks are known; a use or a vehicle needs a curve. Name another side for it.`,
    );
}

/**
 * @throws InputError  a side of which only the peaks are known, curves without speeds in common, a vehicle that cannot move, or a use asked for by itself that
 *   the pulls cannot answer for
 */
export function answerUses(question: CompareQuestion, wish: UseWish): UseWork {
  refusePeaks(question);
  const curves = drawnCurves(question.input);
  const vehicle = wish.vehicle === null ? null : answerVehicle(wish.vehicle, curves, wish.goal);
  const uses = usesOf(curves, wish, vehicle);
  const options = wish.aboveRpm === undefined ? {} : { aboveRpm: wish.aboveRpm };
  return {
    question,
    curves,
    uses: uses.map((use) => {
      if (uses.length === 1) return { ok: true, answer: answerUse(curves, use, options) };
      try {
        return { ok: true, answer: answerUse(curves, use, options) };
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        return { ok: false, use, why: sentenceOf(error) };
      }
    }),
    vehicle,
    gearing: wish.vehicle === null ? null : answerGearing(wish.vehicle, curves.curves, wish.goal),
  };
}

function usesOf(
  curves: DrawnCurves,
  { use }: UseWish,
  vehicle: VehicleAnswer | null,
): readonly Use[] {
  const peak = peakPowerRpm(curves);
  if (use === 'all') return SHAPE_NAMES.map((name) => chosenUse(name, peak));
  if (typeof use === 'string') return [chosenUse(use, peak)];
  if (use !== null) return [use];
  // Nothing said: what the vehicle makes of the first build, the one that is known.
  return vehicle === null
    ? []
    : [vehicleUse(vehicle.vehicle.name, '1/4 mile', vehicle.builds[0]!.timeShare)];
}

/**
 * A use from a logged drive, read as any run file is.
 * @throws InputError, FormatError  it cannot be read, has no time or no engine speed
 */
export async function loggedUseFrom(
  source: RunSource,
  options: { readonly fileName: string; readonly signal?: AbortSignal },
): Promise<Use> {
  const { recording } = await readRunFile(source, { ...options, isDrive: true });
  const { fileName } = options;
  const channel = (quantity: 'time' | 'speed' | 'throttle') =>
    recording.channels.find((one) => one.quantity === quantity)?.values ?? null;
  const [timeS, speedRpm] = [channel('time'), channel('speed')];
  if (timeS === null || recording.kind === 'speed table')
    throw new InputError(`${fileName} has no time: a logged drive is a time series.`, {
      file: fileName,
    });
  if (speedRpm === null)
    throw new InputError(`${fileName} has no engine speed.`, { file: fileName });
  const drive: LoggedDrive = { name: fileName, timeS, speedRpm, throttle: channel('throttle') };
  return loggedUse(drive);
}
