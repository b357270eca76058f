import type { UnitSystem } from '../../../src/units/types.ts';
import type { ServiceEvent, ServiceReading } from '../../api/types.gen.ts';
import {
  numberColumn,
  quantityColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';

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
