import type { SidePeak } from '../compare/index.ts';
import { InputError } from '../errors.ts';
import type { PaperCurve } from '../record/index.ts';
import type { ReadSide } from './compareSides.ts';

/**
 * A side typed from paper: by its table where it has one, else by its peaks.
 * @throws InputError  neither a table nor a peak, or torque with inertia out
 */
export function paperSide(name: string, paper: PaperCurve): ReadSide {
  const { basis, table, peaks } = paper;
  if (basis.inertia === 'out')
    throw new InputError(
      `The torque of ${name} was taken in a sweep with inertia out of it, and paper does not say how fast: it cannot be brought to what the engine gives.`,
    );
  const standard = basis.air === 'observed' ? 'none' : basis.air === 'unknown' ? null : basis.air;
  const relSd = paper.sdPercent === null ? null : paper.sdPercent / 100;
  const warnings =
    basis.inertia === 'in'
      ? []
      : [`Whether inertia is in the torque of ${name} nobody has said; it was taken to be.`];
  const side = { name, pulls: [], warnings, standard, bandRpm: null };
  if (table !== null) return { ...side, typed: { name, points: table, standard, relSd } };
  const peak = (value: number | null, speedRpm: number | null): SidePeak | null =>
    value === null ? null : { value, relSd, speedRpm, speedSdRpm: null };
  const [power, torque] = [
    peak(peaks?.powerW ?? null, peaks?.powerSpeedRpm ?? null),
    peak(peaks?.torqueNm ?? null, peaks?.torqueSpeedRpm ?? null),
  ];
  if (power === null && torque === null)
    throw new InputError(`${name} has neither a table of torque nor a peak; type one of them.`);
  return {
    ...side,
    peaks: { name, peakPowerW: power, peakTorqueNm: torque, standard, curve: null },
  };
}
