/** What the cell's torque calibration means for a pull: the column corrected by its line, and what it leaves open. */
import type { TorqueUncertainty } from '../trade/index.ts';
import type { ChosenTorque } from './basis.ts';
import { AIR_INSTRUMENTS_REL_SD } from './cell.ts';
import type { CellSetup, Mark, PullFit } from './types.ts';

/** The newest calibration with dead weights on the day of a pull. All torques as the cell shows them, at its own sensor. */
export interface CellCalibration {
  /** `2026-01-17`. */
  readonly doneOn: string;
  /** What it shows with nothing on the arm, and reading over torque. */
  readonly zeroNm: number;
  readonly gain: number;
  /** Of a corrected reading, 95 %. */
  readonly expanded: TorqueUncertainty;
  /** Most torque that hung on the arm. */
  readonly mostNm: number;
  /** Torque is corrected by the line; else what the line says it reads wrong is in the band. */
  readonly apply: boolean;
}

/** From the column to what it would hold had the cell read right. */
export interface ColumnCorrection {
  /** Taken off first [N·m, in the column's own sense]. */
  readonly offsetNm: number;
  readonly gain: number;
}

const Z95 = 1.959963984540054;
/** Beyond what hung on the arm by this part, the line is a guess. */
const BEYOND_SHARE = 1.1;

/**
 * Column N·m for each N·m at the sensor: what a logger has multiplied it by, for air and for the ratio. A column on the
 * crank's side, or made from power, has the ratio in it; one on the brake's has not.
 */
export function columnPerSensor(
  { ratio }: ChosenTorque,
  cell: CellSetup,
  loggersFactor: number | null,
): number {
  return (cell.ratio / ratio) * (loggersFactor ?? 1);
}

/**
 * How the column is corrected. A zero that the recording itself shows with the engine at rest is newer than the
 * calibration's and stands before it. Torque of inertia that a logger has put back did not go through the sensor; it is
 * divided by the gain all the same, which is a few parts in ten thousand of torque.
 * @param restNm  what the column shows at rest; null: the recording does not show it
 */
export function columnCorrection(
  calibration: CellCalibration | null | undefined,
  restNm: number | null,
  columnPerSensorNm: number,
): ColumnCorrection {
  if (!calibration?.apply) return { offsetNm: restNm ?? 0, gain: 1 };
  return { offsetNm: restNm ?? calibration.zeroNm * columnPerSensorNm, gain: calibration.gain };
}

/** What the calibration leaves open in every torque of the pull, and in every pull made under it: sd² = constant² + (rel T)². */
export interface CalibrationSd {
  readonly relSd: number;
  /** At the crank, in the air of the column [N·m]. */
  readonly constantNm: number;
}

/**
 * The uncertainty at the crank. Uncorrected, what the cell is known to read wrong, b₀ + b₁T, stands in it as an error of
 * that size (GUM F.2.4.5 asks to correct; √(u² + b²) holds the truth at least as often as u would were it corrected). The
 * product 2b₀b₁T of an offset and a gain that err the same way is shared out so that it is exact at the pull's level and
 * never less elsewhere (b₀b₁(T²/L + L) ≥ 2b₀b₁T).
 *
 * The stated figure of a cell without a calibration holds the weather's instruments too; weights on an arm know nothing
 * of them, so they come on top.
 * @param levelNm  middle torque of the pull at the crank
 */
export function calibrationSd(
  cell: CellSetup,
  restNm: number | null,
  scale: { readonly columnPerSensorNm: number; readonly ratio: number },
  levelNm: number,
): CalibrationSd {
  const { calibration } = cell;
  if (calibration === null || calibration === undefined)
    return { relSd: cell.calibrationRelSd, constantNm: 0 };
  const crankPerSensorNm = scale.columnPerSensorNm * scale.ratio;
  const relSd = Math.hypot(calibration.expanded.fraction / Z95, AIR_INSTRUMENTS_REL_SD);
  const constantNm = (calibration.expanded.constantNm / Z95) * crankPerSensorNm;
  if (calibration.apply) return { relSd, constantNm };
  const { slope, offsetNm } = readsWrong(calibration, restNm, crankPerSensorNm);
  const both = Math.max(0, slope * offsetNm);
  return {
    relSd: Math.sqrt(relSd ** 2 + slope ** 2 + both / levelNm),
    constantNm: Math.sqrt(constantNm ** 2 + offsetNm ** 2 + both * levelNm),
  };
}

/** Shown less true torque, at the crank, as offset + slope × shown. */
function readsWrong(
  { zeroNm, gain }: CellCalibration,
  restNm: number | null,
  crankPerSensorNm: number,
): { readonly slope: number; readonly offsetNm: number } {
  return {
    slope: 1 - 1 / gain,
    offsetNm: restNm === null ? (zeroNm / gain) * crankPerSensorNm : 0,
  };
}

/** What the calibration of its cell leaves open in a pull, as one relative figure at the pull's level. */
export function calibrationRelSd({ asRecorded }: PullFit): number {
  const { torqueNm, calibration } = asRecorded;
  const levelNm = torqueNm.reduce((sum, one) => sum + one, 0) / torqueNm.length;
  return Math.hypot(calibration.relSd, calibration.constantSdNm / levelNm);
}

/** What the pull says of the calibration it was made under. */
export function calibrationMarks(
  { calibration }: CellSetup,
  restNm: number | null,
  scale: { readonly columnPerSensorNm: number; readonly ratio: number },
  levelNm: number,
): Mark[] {
  if (calibration === null || calibration === undefined) return [];
  const marks: Mark[] = [];
  const crankPerSensorNm = scale.columnPerSensorNm * scale.ratio;
  const { slope, offsetNm } = readsWrong(calibration, restNm, crankPerSensorNm);
  const wrongNm = offsetNm + slope * levelNm;
  const { doneOn, apply, gain, zeroNm, mostNm } = calibration;
  if (apply) {
    const off = restNm === null ? `less ${zeroNm.toFixed(2)} N·m at the sensor, ` : '';
    marks.push({
      kind: 'calibration',
      severity: 'note',
      sentence: `Torque was corrected by the cell's calibration of ${doneOn}: ${off}divided by ${gain.toFixed(4)}.`,
    });
  } else if (Math.abs(wrongNm) > 0.001 * levelNm)
    marks.push({
      kind: 'calibration',
      severity: 'note',
      sentence: `By its calibration of ${doneOn} the cell reads ${Math.abs(wrongNm).toFixed(1)} N·m too ${wrongNm > 0 ? 'high' : 'low'} at this torque; the curve is not corrected for it, and its band is wide enough to hold it.`,
    });
  const atSensorNm = levelNm / crankPerSensorNm;
  if (atSensorNm > BEYOND_SHARE * mostNm)
    marks.push({
      kind: 'calibration',
      severity: 'look again',
      sentence: `The calibration of ${doneOn} went up to ${mostNm.toFixed(0)} N·m at the sensor, and this pull stood at ${atSensorNm.toFixed(0)} N·m: above the heaviest weights nothing was shown.`,
    });
  return marks;
}
