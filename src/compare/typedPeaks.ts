import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { InputError } from '../errors.ts';
import type { AirStandard } from '../trade/index.ts';
import { powerW, torqueNm } from '../trade/power.ts';
import { DAY_MEDIAN, PAPER_CELL_REL_SD, PAPER_SPEED_SD_RPM } from './priors.ts';
import { whatPeaksSay } from './typedWords.ts';
import type { GroupMeasures, GroupPeak } from './types.ts';

/*
 * A side of which only the peaks are known. Two things can be said without a curve: how the peaks differ, and what no
 * curve with these peaks can do, for at every speed ω
 *
 *   T(ω) ≤ min(T_peak, P_peak / ω).
 *
 * Everything between the peaks stays unknown, and with it the gain over a band; only its upper end follows.
 */

/** One peak of a side. */
export interface SidePeak {
  readonly value: number;
  /** Relative sd; null: the paper does not say. */
  readonly relSd: number | null;
  /** Null: the paper does not say where. */
  readonly speedRpm: number | null;
  readonly speedSdRpm: number | null;
}

/** A side by its peaks, measured or typed. At least one of them is known. */
export interface PeakSide {
  readonly name: string;
  readonly peakPowerW: SidePeak | null;
  readonly peakTorqueNm: SidePeak | null;
  /** The air standard of its figures; null: nobody said. */
  readonly standard: AirStandard | null;
  /** Its curve, where it was measured; torque with the relative sd of all that may be off. */
  readonly curve: {
    readonly speedRpm: readonly number[];
    readonly torqueNm: readonly number[];
    readonly relSd: readonly number[];
  } | null;
}

/** How a peak differs, B less A, in its own unit and in per cent; intervals 95 %. */
export interface PeakChange {
  readonly a: number;
  readonly b: number;
  readonly unit: 'W' | 'N·m';
  readonly change: { readonly value: number; readonly low: number; readonly high: number };
  readonly percent: { readonly value: number; readonly low: number; readonly high: number };
  /** `usual`: a paper does not say how far it may be off, and what is usual between cells and days was taken. */
  readonly from: 'stated' | 'usual';
  readonly word: 'more' | 'less' | 'cannot be told from chance';
  readonly chanceMore: number;
  readonly movedRpm: { readonly value: number; readonly low: number; readonly high: number } | null;
}

export interface PeaksAnswer {
  readonly a: string;
  readonly b: string;
  readonly power: PeakChange | null;
  readonly torque: PeakChange | null;
  /** What B gains over A at the speeds of the typed side's peaks, where the other side has a curve. */
  readonly points: readonly {
    readonly speedRpm: number;
    readonly torqueANm: number;
    readonly torqueBNm: number;
    readonly gainPercent: number;
    readonly lowPercent: number;
    readonly highPercent: number;
  }[];
  /** Speeds at which the measured side is ahead of any curve that has the other's peaks, beyond chance. */
  readonly aheadAnyway: readonly {
    readonly side: 'a' | 'b';
    readonly fromRpm: number;
    readonly toRpm: number;
  }[];
  /**
   * The most that the typed side can have over the measured one in mean power of the band [%], 95 % one-sided; null
   * where neither has a curve or a peak is missing.
   */
  readonly most: { readonly side: 'a' | 'b'; readonly percent: number } | null;
  readonly finding: string;
  readonly warnings: readonly string[];
}

/** Of figures on paper of which nothing is said. */
const USUAL_REL_SD = Math.hypot(PAPER_CELL_REL_SD, DAY_MEDIAN);
const Z = 1.959964;
const ONE_SIDED = 1.644854;
/** More than this many sds beyond what its own other peak allows, a typed peak is a slip of the pen. */
const IMPOSSIBLE = 3;

const relSdOf = (peak: SidePeak) => peak.relSd ?? USUAL_REL_SD;

/** A measured group as a side by its peaks, with its curve; `prepareCompare` measures one group alone too. */
export function peakSideOf(group: GroupMeasures, standard: AirStandard): PeakSide {
  const sdOf = ({ low, high }: { low: number; high: number }) => (high - low) / (2 * Z);
  const peak = ({ value, speedRpm }: GroupPeak): SidePeak => ({
    value: value.value,
    relSd: sdOf(value) / value.value,
    speedRpm: speedRpm.value,
    speedSdRpm: sdOf(speedRpm),
  });
  const { speedRpm, torqueNm, lowNm, highNm } = group.curve;
  // Beside other groups the curve's band leaves out the day that they share; its peak's does not.
  const least = sdOf(group.peakTorqueNm.value) / group.peakTorqueNm.value.value;
  return {
    name: group.name,
    peakPowerW: peak(group.peakPowerW),
    peakTorqueNm: peak(group.peakTorqueNm),
    standard,
    curve: {
      speedRpm,
      torqueNm,
      relSd: highNm.map((high, m) => Math.max(least, Math.log(high / lowNm[m]!) / (2 * Z))),
    },
  };
}

/**
 * Two sides, one or both of which are known by their peaks alone.
 * @param bandRpm  the band that a comparison of curves would stand on
 * @throws InputError  a side without a peak, figures not above zero, peaks that no engine can have together, two
 *                     different air standards, or no peak that both sides have
 */
export function comparePeaks(
  a: PeakSide,
  b: PeakSide,
  bandRpm: readonly [number, number],
): PeaksAnswer {
  for (const side of [a, b]) checkSide(side);
  if (a.standard !== null && b.standard !== null && a.standard !== b.standard)
    throw new InputError(
      `${a.name} stands in ${a.standard} and ${b.name} in ${b.standard}; typed figures cannot be brought over, so compare in the standard of the typed side.`,
    );
  const power = changeOf(a.peakPowerW, b.peakPowerW, 'W');
  const torque = changeOf(a.peakTorqueNm, b.peakTorqueNm, 'N·m');
  if (power === null && torque === null)
    throw new InputError(
      `Of ${a.name} only the peak ${a.peakPowerW === null ? 'torque' : 'power'} is known and of ${b.name} only the peak ${b.peakPowerW === null ? 'torque' : 'power'}: there is nothing to compare; type the other peak of one of them.`,
    );
  const ahead = [...aheadOf('a', a, b), ...aheadOf('b', b, a)];
  const answer: Omit<PeaksAnswer, 'finding'> = {
    a: a.name,
    b: b.name,
    power,
    torque,
    points: [...pointsOf(a, b, 'b'), ...pointsOf(b, a, 'a')].sort(
      (one, other) => one.speedRpm - other.speedRpm,
    ),
    aheadAnyway: ahead,
    most: mostOf(a, b, bandRpm),
    warnings: warningsOf(a, b),
  };
  return { ...answer, finding: whatPeaksSay(answer, bandRpm) };
}

/** Figures above zero, and peaks that one engine can have together. */
function checkSide({ name, peakPowerW: power, peakTorqueNm: torque }: PeakSide): void {
  if (power === null && torque === null)
    throw new InputError(`Of ${name} neither peak torque nor peak power is known.`);
  for (const peak of [power, torque])
    if (peak !== null && !(peak.value > 0 && (peak.speedRpm === null || peak.speedRpm > 0)))
      throw new InputError(`A peak of ${name} and its speed must be above zero.`);
  if (!power?.speedRpm || !torque?.speedRpm) return;
  // P = T·ω falls where T·ω does: below the torque peak power still rises.
  const slack = IMPOSSIBLE * Math.hypot(speedSdOf(power), speedSdOf(torque));
  if (power.speedRpm < torque.speedRpm - slack)
    throw new InputError(
      `${name} has its peak power at ${power.speedRpm} rev/min, below its peak torque at ${torque.speedRpm} rev/min; no engine has. Look whether the two speeds are swapped.`,
    );
  const sd = Math.hypot(relSdOf(power), relSdOf(torque));
  const atPower = torqueNm(power.value, power.speedRpm);
  if (Math.log(atPower / torque.value) > IMPOSSIBLE * sd)
    throw new InputError(
      `${name} cannot have both peaks: ${(power.value / 1000).toFixed(1)} kW at ${power.speedRpm} rev/min takes ${atPower.toFixed(0)} N·m, more than its peak torque of ${torque.value.toFixed(0)} N·m. Look at the units.`,
    );
  const atTorque = powerW(torque.value, torque.speedRpm);
  if (Math.log(atTorque / power.value) > IMPOSSIBLE * sd)
    throw new InputError(
      `${name} cannot have both peaks: ${torque.value.toFixed(0)} N·m at ${torque.speedRpm} rev/min is ${(atTorque / 1000).toFixed(1)} kW, more than its peak power of ${(power.value / 1000).toFixed(1)} kW. Look at the units.`,
    );
}

const speedSdOf = (peak: SidePeak) => peak.speedSdRpm ?? PAPER_SPEED_SD_RPM;

/** The sides are of different cells or days, so what may be off in each stands in the difference. */
function changeOf(
  a: SidePeak | null,
  b: SidePeak | null,
  unit: PeakChange['unit'],
): PeakChange | null {
  if (a === null || b === null) return null;
  const log = Math.log(b.value / a.value);
  const sd = Math.hypot(relSdOf(a), relSdOf(b));
  const scaled = (scale: number) => (z: number) => scale * Math.expm1(log + z * sd);
  const banded = (at: (z: number) => number) => ({ value: at(0), low: at(-Z), high: at(Z) });
  const speedSd = Math.hypot(speedSdOf(a), speedSdOf(b));
  return {
    a: a.value,
    b: b.value,
    unit,
    change: banded(scaled(a.value)),
    percent: banded(scaled(100)),
    from: a.relSd === null || b.relSd === null ? 'usual' : 'stated',
    word: Math.abs(log) <= Z * sd ? 'cannot be told from chance' : log > 0 ? 'more' : 'less',
    chanceMore: normalCdf(log / sd, 0, 1),
    movedRpm:
      a.speedRpm === null || b.speedRpm === null
        ? null
        : {
            value: b.speedRpm - a.speedRpm,
            low: b.speedRpm - a.speedRpm - Z * speedSd,
            high: b.speedRpm - a.speedRpm + Z * speedSd,
          },
  };
}

/** The curve at a speed, by straight lines; null outside of it. */
function curveAt(
  curve: NonNullable<PeakSide['curve']>,
  speedRpm: number,
): { torqueNm: number; relSd: number } | null {
  const { speedRpm: x } = curve;
  const after = x.findIndex((value) => value >= speedRpm);
  if (after < 0 || speedRpm < x[0]!) return null;
  const i = Math.max(1, after);
  const u = (speedRpm - x[i - 1]!) / (x[i]! - x[i - 1]!);
  const between = (values: readonly number[]) => values[i - 1]! + u * (values[i]! - values[i - 1]!);
  return { torqueNm: between(curve.torqueNm), relSd: between(curve.relSd) };
}

/** What is known of a typed side at its own peaks, against the other's curve there. */
function pointsOf(other: PeakSide, typed: PeakSide, typedIs: 'a' | 'b'): PeaksAnswer['points'] {
  const { curve } = other;
  if (curve === null || typed.curve !== null) return [];
  return [typed.peakTorqueNm, typed.peakPowerW].flatMap((peak) => {
    if (peak === null || peak.speedRpm === null) return [];
    const measured = curveAt(curve, peak.speedRpm);
    if (measured === null) return [];
    const own = peak === typed.peakPowerW ? torqueNm(peak.value, peak.speedRpm) : peak.value;
    const sd = Math.hypot(measured.relSd, relSdOf(peak));
    const [torqueANm, torqueBNm] =
      typedIs === 'b' ? [measured.torqueNm, own] : [own, measured.torqueNm];
    const log = Math.log(torqueBNm / torqueANm);
    const gain = (z: number) => 100 * Math.expm1(log + z * sd);
    return [
      {
        speedRpm: peak.speedRpm,
        torqueANm,
        torqueBNm,
        gainPercent: gain(0),
        lowPercent: gain(-Z),
        highPercent: gain(Z),
      },
    ];
  });
}

/** The most torque at a speed that the peaks of a side allow, and how far that may be off. */
function mostTorque(typed: PeakSide, speedRpm: number): { torqueNm: number; relSd: number } | null {
  const { peakTorqueNm: torque, peakPowerW: power } = typed;
  const byTorque = torque && { torqueNm: torque.value, relSd: relSdOf(torque) };
  const byPower = power && { torqueNm: torqueNm(power.value, speedRpm), relSd: relSdOf(power) };
  if (byTorque === null || byPower === null) return byTorque ?? byPower;
  return byTorque.torqueNm < byPower.torqueNm ? byTorque : byPower;
}

function aheadOf(side: 'a' | 'b', own: PeakSide, typed: PeakSide): PeaksAnswer['aheadAnyway'] {
  const { curve } = own;
  if (curve === null || typed.curve !== null) return [];
  const out: { side: 'a' | 'b'; fromRpm: number; toRpm: number }[] = [];
  let isOpen = false;
  curve.speedRpm.forEach((speedRpm, m) => {
    const most = mostTorque(typed, speedRpm)!;
    const sd = Math.hypot(curve.relSd[m]!, most.relSd);
    const isAhead = Math.log(curve.torqueNm[m]! / most.torqueNm) > Z * sd;
    if (isAhead && isOpen) out.at(-1)!.toRpm = speedRpm;
    else if (isAhead) out.push({ side, fromRpm: speedRpm, toRpm: speedRpm });
    isOpen = isAhead;
  });
  return out;
}

function mostOf(a: PeakSide, b: PeakSide, bandRpm: readonly [number, number]): PeaksAnswer['most'] {
  if ((a.curve === null) === (b.curve === null)) return null;
  const [own, typed] = a.curve === null ? [b, a] : [a, b];
  if (typed.peakPowerW === null || typed.peakTorqueNm === null) return null;
  const curve = own.curve!;
  let [measured, most, relSd, count] = [0, 0, 0, 0];
  curve.speedRpm.forEach((speedRpm, m) => {
    if (speedRpm < bandRpm[0] - 1e-9 || speedRpm > bandRpm[1] + 1e-9) return;
    measured += powerW(curve.torqueNm[m]!, speedRpm);
    most += powerW(mostTorque(typed, speedRpm)!.torqueNm, speedRpm);
    relSd += curve.relSd[m]!;
    count++;
  });
  if (count < 2) return null;
  const off = Math.max(relSdOf(typed.peakPowerW), relSdOf(typed.peakTorqueNm));
  const sd = Math.hypot(relSd / count, off);
  return {
    side: typed === a ? 'a' : 'b',
    percent: 100 * Math.expm1(Math.log(most / measured) + ONE_SIDED * sd),
  };
}

function warningsOf(a: PeakSide, b: PeakSide): string[] {
  const out: string[] = [];
  for (const { name, peakPowerW, peakTorqueNm, standard } of [a, b]) {
    if ([peakPowerW, peakTorqueNm].some((peak) => peak !== null && peak.relSd === null))
      out.push(
        `The paper of ${name} does not say how far its figures may be off: ${(100 * USUAL_REL_SD).toFixed(1)} % (1 sd) is taken, as is usual between cells and days.`,
      );
    if (standard === null)
      out.push(
        `In which air the figures of ${name} stand is not known. Standards differ by up to 5 %, and that is not in the intervals.`,
      );
  }
  return out;
}
