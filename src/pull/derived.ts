import { median, quantile } from '../numerics/index.ts';
import {
  airFlowFromFuelKgPerS,
  bmepPa,
  bsfcKgPerJ,
  findFuel,
  meanPistonSpeedMPerS,
  powerW,
  volumetricEfficiency,
} from '../trade/index.ts';
import { channelsOf, finiteOf } from './channels.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import type { DerivedCurves, EngineSetup } from './types.ts';

/** Mean of a channel in bins of speed around each place of a grid, null where a bin holds nothing. */
export function meansBySpeed(
  channel: Channel,
  speed: Channel,
  { firstRow, lastRow }: PullSpan,
  places: readonly number[],
): (number | null)[] {
  const sums = new Float64Array(places.length);
  const counts = new Float64Array(places.length);
  const step = places.length > 1 ? places[1]! - places[0]! : 1;
  for (let row = firstRow; row <= lastRow; row++) {
    const value = channel.values[row]!;
    const rpm = speed.values[row]!;
    if (!Number.isFinite(value) || !Number.isFinite(rpm)) continue;
    const bin = Math.round((rpm - places[0]!) / step);
    if (bin < 0 || bin >= places.length) continue;
    sums[bin]! += value;
    counts[bin]!++;
  }
  return places.map((_, i) => (counts[i]! > 0 ? sums[i]! / counts[i]! : null));
}

/**
 * A channel as a curve over the grid: bin means, gaps filled along straight lines, lightly smoothed; null if
 * mostly gaps.
 */
function overGrid(
  channel: Channel | undefined,
  speed: Channel,
  span: PullSpan,
  places: readonly number[],
): number[] | null {
  if (channel === undefined) return null;
  const bins = meansBySpeed(channel, speed, span, places);
  const known = bins.flatMap((value, i) => (value === null ? [] : [i]));
  if (known.length < Math.max(2, places.length / 3)) return null;
  const filled = places.map((_, i) => {
    const after = known.find((k) => k >= i);
    const before = known.findLast((k) => k <= i);
    if (before === undefined) return bins[after!]!;
    if (after === undefined || after === before) return bins[before]!;
    return bins[before]! + ((i - before) / (after - before)) * (bins[after]! - bins[before]!);
  });
  return filled.map((value, i) => {
    const [left, right] = [filled[i - 1] ?? value, filled[i + 1] ?? value];
    return 0.25 * left + 0.5 * value + 0.25 * right;
  });
}

/** A fuel or air flow that flows: some cells log a dead channel of zeros. */
function flowing(channel: Channel | undefined): Channel | undefined {
  if (channel === undefined) return undefined;
  const finite = finiteOf(channel);
  return finite.length > 0 && quantile(finite, 0.9) > 0 ? channel : undefined;
}

/**
 * BMEP, brake specific fuel consumption, volumetric efficiency and mean piston speed on the grid of a curve;
 * null where the engine's sheet or the channels do not allow one. BMEP is of the torque given, and is scaled
 * with it. Fuel and air are what flowed on the day, so BSFC and volumetric efficiency are taken against
 * observed power and the day's air before the inlet: correcting power and not fuel would flatter an engine on
 * a bad day.
 * @param loggersFactor from observed to the torque given, where the logger had corrected it; null: not known
 */
export function derivedCurves(
  recording: Recording,
  span: PullSpan,
  speed: Channel,
  engine: EngineSetup,
  torque: { readonly speedRpm: readonly number[]; readonly torqueNm: readonly number[] },
  loggersFactor: number | null,
  airDensityKgPerM3: number | null,
): DerivedCurves {
  const { displacementM3, strokeM, cycle } = engine;
  const places = torque.speedRpm;
  const fuel = overGrid(flowing(channelsOf(recording, 'fuelFlow')[0]), speed, span, places);
  const measuredAir = overGrid(flowing(channelsOf(recording, 'airFlow')[0]), speed, span, places);
  // Fuel times lambda is air only where one lambda speaks for the whole engine.
  const lambdas = channelsOf(recording, 'lambda');
  const lambda = lambdas.length === 1 ? overGrid(lambdas[0], speed, span, places) : null;
  const burned = findFuel(engine.fuel);
  const air =
    measuredAir ??
    (fuel !== null && lambda !== null && burned !== undefined
      ? fuel.map((flow, i) => airFlowFromFuelKgPerS(flow, lambda[i]!, burned.stoichiometricAfr))
      : null);
  const observedW =
    loggersFactor === null
      ? null
      : places.map((rpm, i) => powerW(torque.torqueNm[i]! / loggersFactor, rpm));
  return {
    bmepPa:
      displacementM3 === null
        ? null
        : torque.torqueNm.map((torqueNm) => bmepPa(torqueNm, displacementM3, cycle)),
    bsfcKgPerJ:
      fuel === null || observedW === null || !observedW.every((watts) => watts > 0)
        ? null
        : fuel.map((flow, i) => bsfcKgPerJ(flow, observedW[i]!)),
    volumetricEfficiency:
      air === null || displacementM3 === null || airDensityKgPerM3 === null
        ? null
        : air.map((airFlowKgPerS, i) =>
            volumetricEfficiency({
              airFlowKgPerS,
              densityKgPerM3: airDensityKgPerM3,
              displacementM3,
              speedRpm: places[i]!,
              cycle,
            }),
          ),
    pistonSpeedMPerS:
      strokeM === null ? null : places.map((rpm) => meanPistonSpeedMPerS(strokeM, rpm)),
  };
}

/** The lambda channel of the leanest bank, never a mean of banks. */
export function leanestBank(recording: Recording): Channel | undefined {
  const lambdas = channelsOf(recording, 'lambda');
  return lambdas.reduce<Channel | undefined>((leanest, channel) => {
    const finite = finiteOf(channel);
    if (finite.length === 0) return leanest;
    if (leanest === undefined) return channel;
    return median(finite) > median(finiteOf(leanest)) ? channel : leanest;
  }, undefined);
}
