import { median } from '../../numerics/index.ts';
import { channelsOf } from '../channels.ts';
import { meansBySpeed } from '../derived.ts';
import type { Mark } from '../types.ts';
import type { Check } from './context.ts';

/** Least oil pressure per 1000 rev/min [Pa], 8 psi: the trade asks for some 10. Common practice, no source. */
const LEAST_OIL_PRESSURE_PA_PER_KRPM = 55_000;
/** A sag while the speed still rises: the pump draws air, or the relief hunts. */
const SAG_SHARE = 0.15;

/** Oil pressure against speed: enough of it, and no sag where it should rise. */
export const oilPressureCheck: Check = ({ recording, span, speed, curve }) => {
  const [channel] = channelsOf(recording, 'oilPressure');
  if (channel === undefined) return [];
  const places = curve.bySpeed.speedRpm;
  const bins = meansBySpeed(channel, speed, span, places)
    .map((pressure, i) => ({ pressure, rpm: places[i]! }))
    .filter((bin): bin is { pressure: number; rpm: number } => bin.pressure !== null);
  if (bins.length < 5) return [];
  const marks: Mark[] = [];
  const smooth = bins.map(({ rpm }, i) => ({
    rpm,
    pressure: median(bins.slice(Math.max(0, i - 1), i + 2).map((bin) => bin.pressure)),
  }));
  const weakest = smooth.reduce((worst, bin) =>
    bin.pressure / bin.rpm < worst.pressure / worst.rpm ? bin : worst,
  );
  if (weakest.pressure < (LEAST_OIL_PRESSURE_PA_PER_KRPM * weakest.rpm) / 1000) {
    marks.push({
      kind: 'oil pressure',
      severity:
        weakest.pressure < (0.6 * LEAST_OIL_PRESSURE_PA_PER_KRPM * weakest.rpm) / 1000
          ? 'stop'
          : 'look again',
      sentence: `Oil pressure is ${(weakest.pressure / 1000).toFixed(0)} kPa at ${weakest.rpm.toFixed(0)} rev/min, less than the ${((LEAST_OIL_PRESSURE_PA_PER_KRPM * weakest.rpm) / 1e6).toFixed(0)} kPa that this speed asks for.`,
      fromRpm: weakest.rpm,
      toRpm: weakest.rpm,
    });
  }
  let top = smooth[0]!;
  let sag: { readonly rpm: number; readonly pressure: number; readonly from: number } | null = null;
  for (const bin of smooth) {
    if (bin.pressure > top.pressure) top = bin;
    else if (bin.pressure < (1 - SAG_SHARE) * top.pressure) {
      if (sag === null || bin.pressure < sag.pressure) sag = { ...bin, from: top.pressure };
    }
  }
  if (sag !== null) {
    marks.push({
      kind: 'oil pressure',
      severity: 'stop',
      sentence: `Oil pressure sags from ${(sag.from / 1000).toFixed(0)} to ${(sag.pressure / 1000).toFixed(0)} kPa at ${sag.rpm.toFixed(0)} rev/min while the speed rises: look for air at the pickup before the next pull.`,
      fromRpm: sag.rpm,
      toRpm: sag.rpm,
    });
  }
  return marks;
};
