import { InputError } from '../errors.ts';
import { defaultCell, findPulls, fitPull, type PullFit, type Recording } from '../pull/index.ts';
import type { PaperCurve, PaperPeaks } from '../record/index.ts';
import { torqueNm } from '../trade/index.ts';

/**
 * Standard uncertainty of a whole curve of which the paper says nothing [1]: two cells that were both looked after
 * commonly differ by 1 to 3 % (common practice, no source).
 */
const PAPER_REL_SD = 0.02;
/** How well a printed table is read at one speed, and how far a curve may bend between two typed peaks [1] (ours). */
const READING_REL_SD = 0.005;
const BETWEEN_PEAKS_REL_SD = 0.01;
const POINTS_BETWEEN_PEAKS = 40;

/** A curve from paper as a pull that can be brought to a standard, and what has to be said of it. */
export interface FittedPaper {
  readonly fit: PullFit;
  readonly relSd: number;
  readonly says: readonly string[];
}

/**
 * @throws InputError  neither a table nor peaks, peaks in an order that no engine has, speeds typed twice
 */
export function fitPaper(
  name: string,
  { basis, sdPercent, table, peaks }: PaperCurve,
): FittedPaper {
  if (table === null && peaks === null)
    throw new InputError(`${name} has neither a table of torque nor two peaks; type one of them.`);
  const rows = table ?? betweenPeaks(name, peaks!);
  const sorted = [...rows].sort((a, b) => a.speedRpm - b.speedRpm);
  const twice = sorted.find(({ speedRpm }, i) => sorted[i + 1]?.speedRpm === speedRpm);
  if (twice !== undefined)
    throw new InputError(
      `The speed ${twice.speedRpm} rev/min stands twice in the table of ${name}.`,
    );
  const recording: Recording = {
    kind: 'speed table',
    rows: sorted.length,
    channels: [
      channel(
        'speed',
        sorted.map(({ speedRpm }) => speedRpm),
      ),
      {
        ...channel(
          'torque',
          sorted.map((row) => row.torqueNm),
        ),
        basis,
      },
    ],
    lineOfRow: new Uint32Array(),
    warnings: [],
  };
  const [span] = findPulls(recording);
  if (span === undefined)
    throw new InputError(`The speeds of ${name} make no sweep; type at least six that rise.`);
  const fit = fitPull(recording, span, {
    cell: { ...defaultCell(), torqueIs: basis },
    engine: {
      name,
      cylinders: null,
      displacementM3: null,
      strokeM: null,
      compressionRatio: null,
      cycle: 4,
      aspiration: 'natural',
      fuel: '',
    },
  });
  return {
    fit: withReading(fit, table === null ? BETWEEN_PEAKS_REL_SD : READING_REL_SD),
    relSd: sdPercent === null ? PAPER_REL_SD : sdPercent / 100,
    says: [
      sdPercent === null
        ? `How sure the curve of ${name} is, its paper does not say: ${100 * PAPER_REL_SD} % (1 sd) of the whole curve was taken, as between two cells.`
        : `The curve of ${name} is taken as sure within ${sdPercent} % (1 sd) as a whole, as its paper says.`,
      ...(table === null
        ? [
            `Of ${name} only two peaks are known: between them the smoothest curve through both was taken, and beyond them nothing.`,
          ]
        : []),
    ],
  };
}

const channel = (quantity: 'speed' | 'torque', values: readonly number[]) => ({
  header: quantity,
  quantity,
  unit: null,
  values: Float64Array.from(values),
});

/**
 * Torque from its own peak to that of power: the cubic with both values, level at the one, and falling as T/n at the
 * other, where power is level.
 * @throws InputError  power does not peak above torque, or falls below what torque has there
 */
function betweenPeaks(name: string, peaks: PaperPeaks) {
  const { torqueSpeedRpm: from, powerSpeedRpm: to } = peaks;
  const atPower = torqueNm(peaks.powerW, to);
  if (!(to > from && atPower < peaks.torqueNm))
    throw new InputError(
      `The peaks of ${name} cannot be of one engine: power peaks at a higher speed than torque, and with less torque than that peak.`,
      {
        found: `${peaks.torqueNm.toFixed(0)} N·m at ${from} rev/min and ${atPower.toFixed(0)} N·m at ${to} rev/min`,
      },
    );
  const slope = (-atPower / to) * (to - from);
  return Array.from({ length: POINTS_BETWEEN_PEAKS + 1 }, (_, i) => {
    const u = i / POINTS_BETWEEN_PEAKS;
    const fall = u * u * (3 - 2 * u);
    return {
      speedRpm: from + u * (to - from),
      torqueNm: peaks.torqueNm + fall * (atPower - peaks.torqueNm) + u * u * (u - 1) * slope,
    };
  });
}

/** A printed curve has no scatter of its own: what reading it leaves open goes into its covariance. */
function withReading(fit: PullFit, relSd: number): PullFit {
  const { spline } = fit.asRecorded;
  const size = spline.coefficients.length;
  const covariance = spline.covariance.map((value, at) =>
    at % (size + 1) === 0
      ? value + (relSd * spline.coefficients[Math.floor(at / size)]!) ** 2
      : value,
  );
  return { ...fit, asRecorded: { ...fit.asRecorded, spline: { ...spline, covariance } } };
}
