/** What the reader of a hand-over has to be careful about, in sentences. */
import type { Mark } from '../../pull/index.ts';
import type { FinalCurve, HandedCurve, HandedDay, HandedPull } from '../../report/index.ts';
import { AIR_CORRECTIONS } from '../../trade/index.ts';

/** Marks of the final curve's pulls that bear on the figures of page one, whatever their weight. */
const EVEN_AS_NOTES: ReadonlySet<Mark['kind']> = new Set(['air', 'boost', 'coverage']);
/** The same, where they are more than a note. */
const WHERE_MORE: ReadonlySet<Mark['kind']> = new Set([
  'basis',
  'calibration',
  'correction factor',
  'inertia',
  'throttle',
  'zero',
]);

/** Those of the headline figures first, then those of cells and ladders; each is said once. */
export function cautionsOf(days: readonly HandedDay[], final: FinalCurve | null): string[] {
  return [
    ...new Set([
      ...(final === null ? [] : ofFinal(days, final)),
      ...days.flatMap(({ cell, ladders }) => [
        ...cell.remarks,
        ...ladders.flatMap(({ answer }) => answer?.warnings ?? []),
      ]),
    ]),
  ];
}

function ofFinal(days: readonly HandedDay[], final: FinalCurve): string[] {
  const isIn = ({ id }: HandedPull) => final.pullIds.includes(id);
  const curves = days.flatMap(({ pulls }) =>
    pulls.filter(isIn).flatMap(({ curve }) => (curve === null ? [] : [curve])),
  );
  const factor = factorCaution(curves, final);
  const marks = curves.flatMap((curve) => curve.marks).filter(bears);
  const cells = days
    .filter(({ pulls, cell, date }) => {
      // Where the day has no date the cell's own remark says why none holds.
      const isSaid = date === null && cell.remarks.length > 0;
      return pulls.some(isIn) && cell.calibratedOn === null && !isSaid;
    })
    .map(({ cell }) => cell.name);
  return [
    ...(factor === null ? [] : [factor]),
    ...onceEach(
      marks
        .filter(({ kind }) => factor === null || kind !== 'correction factor')
        .map(({ sentence }) => sentence),
    ),
    ...cells.map(
      (cell) =>
        `The record holds no torque calibration of ${cell} for these pulls; the uncertainty stated for the cell stands in.`,
    ),
  ];
}

const bears = ({ kind, severity }: Mark): boolean =>
  EVEN_AS_NOTES.has(kind) || (WHERE_MORE.has(kind) && severity !== 'note');

/** Pulls that say the same of slightly other figures say it once, as the first of them did. */
function onceEach(sentences: readonly string[]): string[] {
  const byForm = new Map<string, string>();
  for (const sentence of sentences) {
    const form = sentence.replace(/[-−]?\d+(\.\d+)?/g, '#');
    if (!byForm.has(form)) byForm.set(form, sentence);
  }
  return [...byForm.values()];
}

/**
 * A factor past what its standard allows, with the observed peaks beside it as the standard asks. The curve is the mean of
 * pulls that were each multiplied by their own factor; those of one setting differ by thousandths, so their mean stands
 * for all.
 */
function factorCaution(
  curves: readonly HandedCurve[],
  { peakPowerW, peakTorqueNm }: FinalCurve,
): string | null {
  const isMarked = curves.some(({ marks }) =>
    marks.some(({ kind }) => kind === 'correction factor'),
  );
  const [first] = curves;
  const window = first === undefined ? null : AIR_CORRECTIONS[first.standard].validity.factor;
  const factors = curves.map(({ correctionFactor }) => correctionFactor);
  const isPast = (factor: number) => window !== null && (factor < window[0] || factor > window[1]);
  // Torque that came corrected to this very standard was multiplied by one here; then the mark speaks for itself.
  if (!isMarked || window === null || !factors.some(isPast)) return null;
  const [low, high] = [Math.min(...factors).toFixed(3), Math.max(...factors).toFixed(3)];
  const mean = factors.reduce((sum, one) => sum + one, 0) / factors.length;
  return `The correction factor of the curve, ${low === high ? low : `${low} to ${high}`}, is outside the ${window[0]} to ${window[1]} that ${first!.standard} allows; observed, the peaks are ${(peakPowerW.value / mean / 1000).toFixed(1)} kW and ${(peakTorqueNm.value / mean).toFixed(1)} N·m.`;
}
