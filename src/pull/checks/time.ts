import type { Mark } from '../types.ts';
import type { Check } from './context.ts';

/** What is wrong with the rows' times: repeated stamps, gaps, values that a slow source held. */
export const timeCheck: Check = ({ points, chosen }) => {
  const { duplicates, held, longestStepS, usualStepS } = points.torqueTrack;
  if (points.track === null) return [];
  const marks: Mark[] = [];
  if (duplicates > 0) {
    marks.push({
      kind: 'other',
      severity: 'note',
      sentence: `${duplicates} ${duplicates === 1 ? 'row carries' : 'rows carry'} a time that does not move on; ${duplicates === 1 ? 'it was' : 'they were'} left out.`,
    });
  }
  if (longestStepS > Math.max(0.4, 6 * usualStepS)) {
    const at = points.timeS.findIndex(
      (t, i) => i > 0 && t - points.timeS[i - 1]! > 0.9 * longestStepS,
    );
    const where =
      at > 0
        ? ` between ${points.speedRpm[at - 1]!.toFixed(0)} and ${points.speedRpm[at]!.toFixed(0)} rev/min`
        : '';
    marks.push({
      kind: 'other',
      severity: 'look again',
      sentence: `The recording has a gap of ${longestStepS.toFixed(1)} s${where}; the curve bridges it with a wide band.`,
    });
  }
  if (held > 1.5) {
    marks.push({
      kind: 'other',
      severity: 'note',
      sentence: `"${chosen.channel.header}" moves only every ${held.toFixed(0)} rows: a slow source was logged faster than it speaks, and each reading counts once.`,
    });
  }
  return marks;
};
