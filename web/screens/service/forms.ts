import { displayUnit } from '../../../src/units/display.ts';
import { fromInside, toInside } from '../../../src/units/quantity.ts';
import type { UnitSystem } from '../../../src/units/types.ts';
import type { Engine, ServiceEvent, ServiceReading } from '../../api/types.gen.ts';
import type { Field, Values } from '../../form/fields.ts';
import { today } from '../../shell/words.ts';
import { cylindersOf, textOfCylinders } from './words.ts';

const HOUR_S = 3600;
const times = (value: unknown, factor: number) =>
  typeof value === 'number' ? value * factor : null;
/** Only what was filled in, under the names and in the units of the record. */
function body(
  values: Values,
  names: Readonly<Record<string, (value: unknown) => readonly [string, unknown]>>,
) {
  return Object.fromEntries(
    Object.entries(values).map(([key, value]) => names[key]?.(value) ?? [key, value]),
  );
}

export const INTERVAL_FIELDS: readonly Field[] = [
  { key: 'hours', label: 'Running hours', kind: 'number', low: 0.1, high: 100_000 },
  { key: 'refreshAfterPulls', label: 'Pulls', kind: 'number', low: 1, high: 100_000 },
  { key: 'minutes', label: 'Minutes at full throttle', kind: 'number', low: 0.1, high: 100_000 },
  {
    key: 'refreshAfterMonths',
    label: 'Months',
    kind: 'number',
    low: 1,
    high: 1200,
    hint: 'Whichever comes first counts; leave empty what plays no part.',
  },
];
export const intervalValues = (engine: Engine): Values => ({
  hours: times(engine.refreshAfterS, 1 / HOUR_S),
  refreshAfterPulls: engine.refreshAfterPulls,
  minutes: times(engine.refreshAfterThrottleS, 1 / 60),
  refreshAfterMonths: engine.refreshAfterMonths,
});
export const intervalBody = (values: Values) =>
  body(values, {
    hours: (value) => ['refreshAfterS', times(value, HOUR_S)],
    minutes: (value) => ['refreshAfterThrottleS', times(value, 60)],
  });

const HOURS: Field = {
  key: 'hours',
  label: 'Engine hours then',
  kind: 'number',
  low: 0,
  high: 1_000_000,
  hint: 'As its meter or log says.',
};

export const EVENT_FIELDS: readonly Field[] = [
  { key: 'doneOn', label: 'Done on', kind: 'date', required: true },
  {
    key: 'kind',
    label: 'What it is',
    kind: 'choice',
    choices: [
      { value: 'refresh', label: 'a refresh: hours and pulls begin anew' },
      { value: 'work', label: 'other work' },
    ],
  },
  HOURS,
  { key: 'what', label: 'What was done', kind: 'long' },
  { key: 'parts', label: 'Parts', kind: 'long' },
];
export const eventValues = (event: ServiceEvent | null): Values =>
  event === null
    ? { doneOn: today(), kind: 'refresh' }
    : { ...event, hours: times(event.hoursS, 1 / HOUR_S) };
export const eventBody = (values: Values) =>
  body(values, { hours: (value) => ['hoursS', times(value, HOUR_S)] });

export function readingFields(units: UnitSystem): readonly Field[] {
  const pressure = displayUnit('gaugePressure', units).symbol;
  return [
    { key: 'readOn', label: 'Read on', kind: 'date', required: true },
    HOURS,
    {
      key: 'leak',
      label: 'Leak-down by cylinder, %',
      kind: 'text',
      hint: 'From cylinder 1 on, such as 4, 5, 4, 6; a dash for one that was not read.',
    },
    { key: 'leakError', label: 'Gauge may be off by ±, %', kind: 'number', low: 0.01, high: 100 },
    { key: 'cranking', label: `Cranking compression by cylinder, ${pressure}`, kind: 'text' },
    {
      key: 'crankingError',
      label: `Gauge may be off by ±, ${pressure}`,
      kind: 'number',
      low: 0.001,
      high: 1000,
    },
    { key: 'note', label: 'Note', kind: 'long', hint: 'Warm or cold, throttle, which gauge.' },
  ];
}
export function readingValues(reading: ServiceReading | null, units: UnitSystem): Values {
  if (reading === null) return { readOn: today() };
  const pressure = displayUnit('gaugePressure', units);
  const { crankingErrorPa } = reading;
  return {
    readOn: reading.readOn,
    hours: times(reading.hoursS, 1 / HOUR_S),
    leak: textOfCylinders(reading.leakDown, 'percent', units),
    leakError: times(reading.leakDownError, 100),
    cranking: textOfCylinders(reading.crankingGaugePa, 'gaugePressure', units),
    crankingError:
      crankingErrorPa === null ? null : Number(fromInside(crankingErrorPa, pressure).toFixed(3)),
    note: reading.note,
  };
}
export function readingBody(values: Values, units: UnitSystem) {
  const pressure = displayUnit('gaugePressure', units);
  return body(values, {
    hours: (value) => ['hoursS', times(value, HOUR_S)],
    leak: (value) => ['leakDown', cylindersOf(String(value), 'percent', units)],
    leakError: (value) => ['leakDownError', times(value, 0.01)],
    cranking: (value) => ['crankingGaugePa', cylindersOf(String(value), 'gaugePressure', units)],
    crankingError: (value) => [
      'crankingErrorPa',
      typeof value === 'number' ? toInside(value, pressure) : null,
    ],
  });
}
