import type { CompareObject } from '../../report/index.ts';
import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';
import { peakText } from './curve.ts';

/** Every how many of the compared speeds a line of the table. */
const EVERY = 4;

/** A comparison for a person: the finding first, then gain by speed, crossings, peaks, what is doubtful. */
export function showCompare(object: CompareObject, system: UnitSystem, columns: number): string {
  const { a, b, band, peaks } = object;
  const air = object.standard === 'none' ? 'as observed' : object.standard;
  return [
    wrapped(inUnitsOf(object.finding, system), columns),
    '\n',
    `  ${plain(b)} over ${plain(a)}, ${air}\n`,
    `  mean power ${Math.round(band.fromRpm)} to ${Math.round(band.toRpm)} rpm  ${signed(band.gainPercent)} % (${signed(band.lowPercent)} to ${signed(band.highPercent)}): ${band.word}\n`,
    `  pull to pull ${object.repeatabilityPercent.toFixed(2)} %${object.dayToDayPercent === null ? '' : `, day to day ${object.dayToDayPercent.toFixed(1)} %`} (1 sd)\n\n`,
    table(
      [
        { title: 'rpm', align: 'right' },
        { title: 'gain %', align: 'right' },
        { title: '95 %, all speeds together' },
        { title: '' },
      ],
      object.bySpeed
        .filter((_, m) => m % EVERY === 0)
        .map((at) => [
          at.speedRpm.toFixed(0),
          signed(at.gainPercent),
          `${signed(at.lowPercent)} to ${signed(at.highPercent)}`,
          at.lowPercent > 0 ? 'gain' : at.highPercent < 0 ? 'loss' : 'cannot be told',
        ]),
      '  ',
    ),
    ...object.crossings.map(
      ({ speedRpm, lowRpm, highRpm }) =>
        `  the curves cross at ${speedRpm.toFixed(0)} rpm (${lowRpm.toFixed(0)} to ${highRpm.toFixed(0)})\n`,
    ),
    '\n',
    table(
      [{ title: '' }, { title: 'peak torque' }, { title: 'peak power' }],
      (['a', 'b'] as const).map((side) => [
        object[side],
        peakText(peaks[side].torque, 'torque', system),
        peakText(peaks[side].power, 'power', system),
      ]),
      '  ',
    ),
    ...object.warnings.map((warning) =>
      wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  '),
    ),
  ].join('');
}

function signed(percent: number): string {
  const text = percent.toFixed(1);
  return percent > 0 && Number(text) !== 0 ? `+${text}` : text;
}
