import type { Change, CompareAnswer, GroupMeasures, PairAnswer } from '../../src/compare/types.ts';
import type { Banded } from '../../src/pull/types.ts';
import { findUnit } from '../../src/units/find.ts';
import { fromInside } from '../../src/units/quantity.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import {
  decimalsFor,
  interval,
  outside,
  plain,
  signed,
  speed,
  withUnit,
} from '../charts/numbers.ts';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
  yesNoColumn,
} from '../table/model.ts';
import { bandInWords } from './words.ts';

/** One line of the table of figures, in the words and units of whoever reads. */
export interface MeasureRow {
  readonly name: string;
  readonly unit: string;
  /** What it is, for one who does not know the word; empty where it needs none. */
  readonly means: string;
  readonly sides: readonly {
    readonly text: string;
    readonly interval: string;
    /** In the unit of the line; null: not known. */
    readonly value: Banded | null;
  }[];
  readonly change: {
    readonly text: string;
    readonly interval: string;
    readonly told: boolean;
    readonly way: 'gain' | 'loss' | 'none';
    /** In its own unit, which is that of the line where nothing else is said. */
    readonly value: Change;
    readonly unit: string;
  } | null;
}

interface Kind {
  readonly symbol: string;
  /** Null: as many as its interval is worth. */
  readonly decimals: number | null;
  of(inside: number): number;
}

const RPM: Kind = { symbol: 'rpm', decimals: 0, of: (value) => value };
const PERCENT: Kind = { symbol: '%', decimals: 1, of: (share) => 100 * share };

/** A torque over a stretch of speeds, in thousands: `lb-ft·rpm ÷ 1000`. */
const areaKind = (torque: Kind): Kind => ({
  symbol: `1000 ${torque.symbol}·rpm`,
  decimals: 0,
  of: (value) => torque.of(value) / 1000,
});

/** Power for each unit of torque as the trade quotes it: hp per lb-ft, or kW per 100 N·m. */
function ratioKind(units: UnitSystem): Kind {
  if (units === 'metric')
    return { symbol: 'kW per 100 N·m', decimals: 1, of: (value) => (value * 100) / 1000 };
  const hp = fromInside(1, findUnit('hp')!);
  const lbFt = fromInside(1, findUnit('lb-ft')!);
  return { symbol: 'hp per lb-ft', decimals: 3, of: (value) => (value * hp) / lbFt };
}

const decimalsOf = ({ low, high }: Banded, kind: Kind) =>
  kind.decimals ?? decimalsFor(kind.of(low), kind.of(high));

function cell(banded: Banded | null, kind: Kind) {
  if (banded === null)
    return { text: 'not known', interval: 'reaches past the sweep', value: null };
  const decimals = decimalsOf(banded, kind);
  const text = kind.symbol === 'rpm' ? speed(banded.value) : plain(kind.of(banded.value), decimals);
  return {
    text,
    interval: interval(kind.of(banded.low), kind.of(banded.high), decimals),
    value: outsideOf(banded, kind),
  };
}

const outsideOf = ({ value, low, high }: Banded, kind: Kind) => ({
  value: kind.of(value),
  low: kind.of(low),
  high: kind.of(high),
});

/** A change, with its unit where that is not the line's own; `better` says which way is a gain, 0 where neither is. */
function changed(
  change: Change | null,
  kind: Kind,
  better: 1 | 0,
  says = '',
): MeasureRow['change'] {
  if (change === null) return null;
  const told = change.low > 0 || change.high < 0;
  const way = !told || better === 0 ? 'none' : change.value > 0 ? 'gain' : 'loss';
  const decimals = decimalsOf(change, kind);
  return {
    text: withUnit(signed(kind.of(change.value), decimals), says),
    interval: interval(kind.of(change.low), kind.of(change.high), decimals),
    told,
    way,
    value: outsideOf(change, kind),
    unit: says === '' ? kind.symbol : says,
  };
}

/** Every figure of the sides, with what changed from the first to the one of the pair. */
export function measureRows(
  { groups, bandRpm }: CompareAnswer,
  pair: PairAnswer,
  units: UnitSystem,
): MeasureRow[] {
  const power: Kind = { ...outside('power', units), decimals: null };
  const torque: Kind = { ...outside('torque', units), decimals: null };
  const ratio = ratioKind(units);
  const wide = bandRpm[1] - bandRpm[0];
  const area = areaKind(torque);
  const times = (banded: Banded): Banded => ({
    value: banded.value * wide,
    low: banded.low * wide,
    high: banded.high * wide,
  });
  const row = (
    name: string,
    means: string,
    kind: Kind,
    read: (group: GroupMeasures) => Banded | null,
    change: MeasureRow['change'],
  ): MeasureRow => ({
    name,
    unit: kind.symbol,
    means,
    sides: groups.map((group) => cell(read(group), kind)),
    change,
  });
  const band = bandInWords(bandRpm);
  const gain = changed(pair.gain, { symbol: '%', decimals: 1, of: (value) => value }, 1, '%');
  return [
    row('Mean power', band, power, (one) => one.meanPowerW, gain),
    row(
      'Mean torque',
      band,
      torque,
      (one) => one.meanTorqueNm,
      changed(pair.meanTorqueChangeNm, torque, 1),
    ),
    row(
      'Area under the torque curve',
      band,
      area,
      (one) => times(one.meanTorqueNm),
      changed(times(pair.meanTorqueChangeNm), area, 1),
    ),
    row(
      'Peak power',
      edgeOf(groups, (one) => one.peakPowerW.atEdge),
      power,
      (one) => one.peakPowerW.value,
      changed(pair.peakPowerChangeW, power, 1),
    ),
    row(
      'Peak power at',
      '',
      RPM,
      (one) => one.peakPowerW.speedRpm,
      changed(pair.peakPowerMovedRpm, RPM, 0),
    ),
    row(
      'Peak torque',
      edgeOf(groups, (one) => one.peakTorqueNm.atEdge),
      torque,
      (one) => one.peakTorqueNm.value,
      changed(pair.peakTorqueChangeNm, torque, 1),
    ),
    row(
      'Peak torque at',
      '',
      RPM,
      (one) => one.peakTorqueNm.speedRpm,
      changed(pair.peakTorqueMovedRpm, RPM, 0),
    ),
    row(
      'Useful width, torque',
      'speeds with 90 % of peak torque or more',
      RPM,
      (one) => one.torqueWidthRpm,
      changed(pair.torqueWidthChangeRpm, RPM, 1),
    ),
    row(
      'Useful width, power',
      'speeds with 90 % of peak power or more',
      RPM,
      (one) => one.powerWidthRpm,
      changed(pair.powerWidthChangeRpm, RPM, 1),
    ),
    row(
      'Flatness',
      'least torque in the band as a part of the most',
      PERCENT,
      (one) => one.flatness,
      changed(pair.flatnessChange, PERCENT, 1, 'points'),
    ),
    row(
      'Peak power per peak torque',
      'higher: made by speed; lower: made by pull',
      ratio,
      (one) => one.powerPerTorqueRadPerS,
      changed(pair.powerPerTorqueChangeRadPerS, ratio, 0),
    ),
  ];
}

function edgeOf(
  groups: readonly GroupMeasures[],
  atEdge: (group: GroupMeasures) => boolean,
): string {
  return groups.some(atEdge) ? 'at the end of a sweep: the true peak may lie beyond' : '';
}

/** The same as a table that leaves: the unit of each line in a column of its own. */
export const measuresTable = (
  rows: readonly MeasureRow[],
  names: readonly string[],
  pairName: string,
): TableModel =>
  tableFrom(rows, [
    wordsColumn('Figure', ({ name }) => name),
    wordsColumn('Unit', ({ unit }) => unit),
    wordsColumn('What it is', ({ means }) => means),
    ...names.flatMap((name, at): ColumnOf<MeasureRow>[] => [
      numberColumn(name, null, ({ sides }) => sides[at]?.value?.value),
      rangeColumn(`${name}, 95 %`, null, ({ sides }) => sides[at]?.value),
    ]),
    wordsColumn('Unit of the change', ({ change }) => change?.unit),
    numberColumn(pairName, null, ({ change }) => change?.value.value),
    rangeColumn(`${pairName}, 95 %`, null, ({ change }) => change?.value),
    yesNoColumn('Told from chance', ({ change }) => change?.told),
  ]);
