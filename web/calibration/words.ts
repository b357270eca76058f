import {
  type CalibrationAnswer,
  type DeadWeightsAnswer,
  type Due,
  type SensorAnswer,
  torqueUncertaintyNm,
} from '../../src/trade/calibration/index.ts';
import { quantityText } from '../../src/units/index.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { count, dateInWords } from '../shell/words.ts';

const torque = (value: number, units: UnitSystem, decimals = 2) =>
  quantityText(value, 'torque', units, { decimals });
const percent = (share: number, decimals = 2) => `${(100 * share).toFixed(decimals)} %`;

/** What a calibration with weights says, one sentence each, the most important first. */
export function weightsInWords(answer: DeadWeightsAnswer, units: UnitSystem): readonly string[] {
  const { gain, zeroNm, hysteresisNm, zeroReturnNm, nonLinearityNm, repeatabilityNm } = answer;
  const most = answer.rangeNm[1];
  const [low, high] = [most / 3, most].map((at) => {
    const half = torqueUncertaintyNm(answer.expanded, at);
    return `± ${torque(half, units)} (${percent(half / at)}) at ${torque(at, units, 0)}`;
  });
  const off = gain - 1;
  return [
    Math.abs(off) < 5e-5
      ? 'The cell reads true to 0.01 %.'
      : `The cell reads ${percent(Math.abs(off))} too ${off > 0 ? 'high' : 'low'}, and shows ${torque(zeroNm, units)} with nothing on the arm.`,
    `A torque read through this line lies within ${low} and ${high}, 95 times in 100.`,
    whatDecides(answer),
    hysteresisNm === null
      ? 'Read in one direction only, so what hangs is not known: take the weights off one by one as well.'
      : `Going down it reads up to ${torque(Math.abs(hysteresisNm), units)} ${hysteresisNm > 0 ? 'more' : 'less'} than going up (hysteresis).`,
    zeroReturnNm === null
      ? null
      : `Back at nothing it shows ${torque(Math.abs(zeroReturnNm), units)} ${zeroReturnNm >= 0 ? 'more' : 'less'} than before.`,
    `It bends off the line by ${torque(Math.abs(nonLinearityNm), units)} at most.`,
    repeatabilityNm === null
      ? 'No weight was hung twice in one direction, so how well it repeats is not known by itself; it is in the scatter about the line.'
      : `The same weight again reads within ${torque(repeatabilityNm, units)} (standard deviation).`,
  ].filter((one) => one !== null);
}

/** Which part of the uncertainty is the largest at the heaviest weights, and what would make it smaller. */
function whatDecides({ standard, armRelative, rangeNm }: DeadWeightsAnswer): string {
  const arm = armRelative * rangeNm[1];
  const rest = Math.sqrt(
    Math.max(0, standard.constantNm ** 2 + (standard.fraction * rangeNm[1]) ** 2 - arm ** 2),
  );
  return arm > rest
    ? 'Most of that is the arm and the weights themselves: a measured length, weighed weights or local gravity would narrow it.'
    : 'Most of that is how the readings scatter about the line: more rounds, or a freer arm and load cell, would narrow it.';
}

/** `12.3 °C`; a pure number of a sensor in its own unit. */
const own = (value: number, unit: string, decimals: number) => `${value.toFixed(decimals)} ${unit}`;

export function sensorInWords(
  answer: SensorAnswer,
  { unit, points }: { readonly unit: string; readonly points: readonly unknown[] },
): readonly string[] {
  const decimals = decimalsFor(answer);
  const { offset, gain, uncertainty, largestResidual } = answer;
  const line =
    points.length === 1
      ? `It reads ${own(Math.abs(offset), unit, decimals)} too ${offset > 0 ? 'low' : 'high'} here; one point says nothing of its gain.`
      : `Truth is ${gain.toFixed(4)} times the reading ${offset < 0 ? 'less' : 'plus'} ${own(Math.abs(offset), unit, decimals)}.`;
  return [
    line,
    uncertainty === null
      ? 'Three points or more would say how far a corrected reading can be trusted.'
      : `A corrected reading lies within ± ${own(uncertainty, unit, decimals)}, 95 times in 100; the largest point off the line is ${own(Math.abs(largestResidual), unit, decimals)}.`,
    'This is written down and falls due; readings of pulls are not changed by it.',
  ];
}

/** Decimals that show the answer's spread. */
export function decimalsFor({ residuals }: SensorAnswer): number {
  const span = Math.max(...residuals.map(({ reading }) => Math.abs(reading)), 1e-9);
  return Math.min(4, Math.max(0, 3 - Math.floor(Math.log10(span))));
}

/** One line for a list: what the cell reads, how far it can be trusted. */
export function inShort(answer: CalibrationAnswer, units: UnitSystem, unit: string | null): string {
  if (answer.kind === 'sensor') {
    const { uncertainty } = answer;
    const decimals = decimalsFor(answer);
    return uncertainty === null
      ? `off by ${own(answer.offset, unit ?? '', decimals)}`
      : `corrected within ± ${own(uncertainty, unit ?? '', decimals)}`;
  }
  const most = answer.rangeNm[1];
  const half = torqueUncertaintyNm(answer.expanded, most);
  const off = answer.gain - 1;
  return `reads ${percent(Math.abs(off))} ${off >= 0 ? 'high' : 'low'}; within ± ${percent(half / most)} at ${torque(most, units, 0)}`;
}

export type DueWord = 'past due' | 'due soon' | 'holds' | 'no due day';
const SOON_DAYS = 30;

export function dueWord(due: Due | null): DueWord {
  if (due === null) return 'no due day';
  if (due.isDue) return 'past due';
  return due.daysLeft <= SOON_DAYS ? 'due soon' : 'holds';
}

/** `15 January 2027, in 50 days`. */
export function dueInWords(due: Due | null): string {
  if (due === null) return 'does not fall due';
  const { dueIso, daysLeft } = due;
  const when =
    daysLeft === 0
      ? 'this day'
      : daysLeft > 0
        ? `in ${count(daysLeft, 'day')}`
        : `${count(-daysLeft, 'day')} ago`;
  return `${dateInWords(dueIso)}, ${when}`;
}
