/** The tables of a service record as tables that leave. */
import type { DisplayKind, UnitSystem } from '../../../src/units/index.ts';
import type { ServiceEvent, ServiceReading, ServiceRecord } from '../../api/types.gen.ts';
import { leavingAs } from '../../build/sheet-tables.ts';
import {
  type ColumnOf,
  numberColumn,
  quantityColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';

export const dueTable = ({ due }: ServiceRecord): TableModel =>
  tableFrom(due, [
    wordsColumn('What', ({ sentence }) => sentence),
    wordsColumn('State', ({ state }) => state),
    wordsColumn('Date', ({ on }) => on),
  ]);

export const runTable = ({ builds }: ServiceRecord): TableModel =>
  tableFrom(builds, [
    wordsColumn('Build', ({ name }) => name),
    wordsColumn('Assembled', ({ assembledOn }) => assembledOn),
    numberColumn('Pulls', '', ({ pulls }) => pulls),
    numberColumn(
      'Pulls whose time is not known',
      '',
      ({ pullsOfUnknownTime }) => pullsOfUnknownTime,
    ),
    numberColumn('At full throttle', 's', (build) =>
      build.pulls === build.pullsOfUnknownTime ? null : build.fullThrottleS,
    ),
    numberColumn('Hours since refresh, by its sheet', 'h', ({ hoursS }) =>
      hoursS === null ? null : hoursS / 3600,
    ),
    wordsColumn('Power over its days', ({ drift }) => drift.sentence),
  ]);

/** Mean of the cylinders at each build, with the lowest and highest of them, in the unit of the row. */
export function conditionTable(
  { condition: { builds, measures } }: ServiceRecord,
  units: UnitSystem,
): TableModel {
  type Measure = (typeof measures)[number];
  const of = ({ shown }: Measure, value: number | null | undefined) =>
    value === null || value === undefined
      ? null
      : leavingAs(shown as DisplayKind | null, units).of(value);
  return tableFrom(measures, [
    wordsColumn('Measured', ({ label }) => label),
    wordsColumn('Unit', ({ shown }) => leavingAs(shown as DisplayKind | null, units).symbol),
    ...builds.flatMap(({ name, on }, at): ColumnOf<Measure>[] => {
      const head = on === null ? name : `${name}, ${on}`;
      return [
        numberColumn(head, null, (one) => of(one, one.readings[at]?.mean)),
        rangeColumn(`${head}, lowest and highest`, null, (one) => {
          const reading = one.readings[at];
          return reading == null
            ? null
            : { low: of(one, reading.low), high: of(one, reading.high) };
        }),
      ];
    }),
  ]);
}

const hours = <Row extends { readonly hoursS: number | null }>() =>
  numberColumn<Row>('Engine hours', 'h', ({ hoursS }) => (hoursS === null ? null : hoursS / 3600), {
    decimals: 1,
  });

export const eventsTable = (events: readonly ServiceEvent[]): TableModel =>
  tableFrom(events, [
    wordsColumn('Done on', ({ doneOn }) => doneOn),
    wordsColumn('Kind', ({ kind }) => kind),
    wordsColumn('What was done', ({ what }) => what),
    wordsColumn('Parts', ({ parts }) => parts),
    hours(),
    wordsColumn('Who', ({ who }) => who),
  ]);

/** A column for each cylinder of each measure, so that each figure stands with its unit. */
export function readingsTable(readings: readonly ServiceReading[], units: UnitSystem): TableModel {
  const cylinders = Math.max(
    0,
    ...readings.map(({ leakDown, crankingGaugePa }) =>
      Math.max(leakDown?.length ?? 0, crankingGaugePa?.length ?? 0),
    ),
  );
  const places = Array.from({ length: cylinders }, (_, at) => at);
  return tableFrom(readings, [
    wordsColumn('Read on', ({ readOn }) => readOn),
    hours<ServiceReading>(),
    ...places.map((at) =>
      quantityColumn<ServiceReading>(
        `Leak-down, cylinder ${at + 1}`,
        'percent',
        units,
        ({ leakDown }) => leakDown?.[at],
      ),
    ),
    quantityColumn('Leak-down gauge, ±', 'percent', units, ({ leakDownError }) => leakDownError),
    ...places.map((at) =>
      quantityColumn<ServiceReading>(
        `Cranking compression, cylinder ${at + 1}`,
        'gaugePressure',
        units,
        ({ crankingGaugePa }) => crankingGaugePa?.[at],
      ),
    ),
    quantityColumn(
      'Compression gauge, ±',
      'gaugePressure',
      units,
      ({ crankingErrorPa }) => crankingErrorPa,
    ),
    wordsColumn('Note', ({ note }) => note),
  ]);
}
