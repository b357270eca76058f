import type {
  ComparedObject,
  CompareObject,
  PeaksObject,
  RankingObject,
} from '../../report/index.ts';
import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';
import { peakText } from './curve.ts';

/** Every how many of the compared speeds a line of the table. */
const EVERY = 4;

/** All that a comparison says, for a person: how more than two rank, then each over the first. */
export function showCompared(
  objects: readonly ComparedObject[],
  system: UnitSystem,
  columns: number,
): string {
  const ranking = objects.find((object) => 'ranking' in object);
  const others = objects.filter(
    (object): object is CompareObject | PeaksObject => !('ranking' in object),
  );
  return [
    ...(ranking === undefined ? [] : [showRanking(ranking, system, columns)]),
    ...others.map((object) =>
      'known' in object
        ? showPeaks(object, system, columns)
        : showCompare(object, system, columns, ranking === undefined),
    ),
    ...notes(objects, system, columns),
  ].join('\n');
}

/** What is doubtful, each once. */
function notes(objects: readonly ComparedObject[], system: UnitSystem, columns: number): string[] {
  const all = [...new Set(objects.flatMap(({ warnings }) => warnings))];
  return all.length === 0
    ? []
    : [
        all
          .map((warning) => wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  '))
          .join(''),
      ];
}

function showRanking(
  { ranking, fromRpm, toRpm }: RankingObject,
  system: UnitSystem,
  columns: number,
) {
  const band = `Mean power from ${Math.round(fromRpm)} to ${Math.round(toRpm)} rev/min, the strongest first:`;
  return [
    wrapped(inUnitsOf(band, system), columns),
    table(
      [
        { title: '' },
        { title: 'chance it is the strongest', align: 'right' },
        { title: 'cannot be told from' },
      ],
      ranking.map(({ name, chanceBest, likeIt }) => [name, chance(chanceBest), likeIt.join(', ')]),
      '  ',
    ),
  ].join('');
}

function showPeaks({ finding }: PeaksObject, system: UnitSystem, columns: number): string {
  return wrapped(inUnitsOf(finding, system), columns);
}

/** Two sides for a person: the finding first, then gain by speed, crossings, peaks, what was left out. */
function showCompare(
  object: CompareObject,
  system: UnitSystem,
  columns: number,
  saysLeftOut: boolean,
): string {
  const { a, b, band, peaks } = object;
  const air = object.standard === 'none' ? 'as observed' : object.standard;
  return [
    wrapped(inUnitsOf(object.finding, system), columns),
    '\n',
    `  ${plain(b)} over ${plain(a)}, ${air}\n`,
    `  mean power ${Math.round(band.fromRpm)} to ${Math.round(band.toRpm)} rpm  ${signed(band.gainPercent)} % (${signed(band.lowPercent)} to ${signed(band.highPercent)}): ${band.word}\n`,
    `  chance that ${plain(b)} is ahead: ${chance(object.chanceAhead)}\n`,
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
    ...(saysLeftOut
      ? object.leftOut.map(({ side, pull, why }) =>
          wrapped(`left out of ${side}: ${pull}, ${why}`, columns, '  '),
        )
      : []),
  ].join('');
}

function signed(percent: number): string {
  const text = percent.toFixed(1);
  return percent > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** Per cent, as far as a chance is worth saying. */
function chance(share: number): string {
  if (share > 0.99) return 'over 99 %';
  return share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`;
}
