import { median } from '../numerics/index.ts';
import {
  AIR_CORRECTIONS,
  type AirState,
  moistAirDensityKgPerM3,
  vapourPressureFromHumidityPa,
} from '../trade/index.ts';
import { channelsOf, finiteIn, isUnchanging } from './channels.ts';
import { AIR_STANDARDS, type AirStandard, type PullSpan, type Recording } from './recording.ts';
import type { Aspiration, FitOptions, Mark, PullAir } from './types.ts';

/** What a reading must lie in to be the air of any test cell; outside it is a filler or a broken sensor. */
const POSSIBLE = {
  temperatureK: [233, 343],
  pressureAbsPa: [60_000, 115_000],
  humidity: [0, 1.05],
} as const;
type Reading = keyof typeof POSSIBLE;
const QUANTITY_OF = {
  temperatureK: 'airTemperature',
  pressureAbsPa: 'barometer',
  humidity: 'humidity',
} as const;
const NAME_OF = {
  temperatureK: 'inlet air temperature',
  pressureAbsPa: 'air pressure',
  humidity: 'humidity',
} as const;
/** Humidity where nothing says: half. From 0 to 100 % at 25 °C the factor moves by 3.6 %, so it is said. */
const ASSUMED_HUMIDITY = 0.5;

/**
 * Air and factors of a pull: medians of its channels over the pull's rows, else what the options say. One
 * factor a pull: air moves little in ten seconds, its sensors jitter more than it does, and one factor makes
 * a change of standard a mere ratio. Air that does move within the pull is marked by the check of drifting
 * channels.
 */
export function airOf(recording: Recording, span: PullSpan, options: FitOptions): PullAir {
  const marks: Mark[] = [];
  const temperatureK = reading(recording, span, 'temperatureK', options, marks);
  const pressureAbsPa = reading(recording, span, 'pressureAbsPa', options, marks);
  let humidity = reading(recording, span, 'humidity', options, marks);
  const factors = Object.fromEntries(AIR_STANDARDS.map((name) => [name, null])) as Record<
    AirStandard,
    number | null
  >;
  factors.none = 1;
  if (temperatureK === null || pressureAbsPa === null) {
    return {
      temperatureK,
      pressureAbsPa,
      humidity,
      humidityAssumed: false,
      factors,
      densityKgPerM3: null,
      marks,
    };
  }
  const humidityAssumed = humidity === null;
  humidity ??= ASSUMED_HUMIDITY;
  const air: AirState = {
    pressureAbsPa,
    temperatureK,
    vapourPressurePa: vapourPressureFromHumidityPa(temperatureK, humidity),
  };
  for (const name of AIR_STANDARDS) factors[name] = AIR_CORRECTIONS[name].factor(air);
  const densityKgPerM3 = moistAirDensityKgPerM3(air);
  return {
    temperatureK,
    pressureAbsPa,
    humidity,
    humidityAssumed,
    factors,
    densityKgPerM3,
    marks,
  };
}

function reading(
  recording: Recording,
  span: PullSpan,
  which: Reading,
  { air }: FitOptions,
  marks: Mark[],
): number | null {
  const [low, high] = POSSIBLE[which];
  for (const channel of channelsOf(recording, QUANTITY_OF[which])) {
    const all = finiteIn(channel, span);
    const values = all.filter((value) => value >= low && value <= high);
    if (all.length === 0) continue;
    if (values.length < all.length / 2) {
      marks.push({
        kind: 'air',
        severity: 'look again',
        sentence: `The ${NAME_OF[which]} in "${channel.header}" cannot be that of any air, so it was not used.`,
      });
      continue;
    }
    if (which === 'temperatureK' && isUnchanging(values)) {
      marks.push({
        kind: 'stuck channel',
        severity: 'look again',
        sentence: `The inlet air temperature did not move by one digit over the whole pull: the sensor may be stuck, and every degree it is off is 0.2 % of torque.`,
      });
    }
    return median(values);
  }
  const given = air?.[which];
  if (given === undefined) return null;
  if (given >= low && given <= high) return given;
  marks.push({
    kind: 'air',
    severity: 'look again',
    sentence: `The ${NAME_OF[which]} that was given cannot be that of any air, so it was not used.`,
  });
  return null;
}

/** What the standard asked for has to say about this pull's air, with numbers. */
export function correctionMarks(
  air: PullAir,
  standard: AirStandard,
  aspiration: Aspiration,
): Mark[] {
  if (standard === 'none' || air.temperatureK === null || air.pressureAbsPa === null) return [];
  const assumed: Mark[] = air.humidityAssumed
    ? [
        {
          kind: 'air',
          severity: 'note',
          sentence:
            'No humidity was recorded; 50 % was taken, which may be off by 1 % of torque on a warm day.',
        },
      ]
    : [];
  const state: AirState = {
    pressureAbsPa: air.pressureAbsPa,
    temperatureK: air.temperatureK,
    vapourPressurePa: vapourPressureFromHumidityPa(
      air.temperatureK,
      air.humidity ?? ASSUMED_HUMIDITY,
    ),
  };
  const found = AIR_CORRECTIONS[standard].check(state, { aspiration });
  return [
    ...assumed,
    ...found.map(
      ({ kind, sentence }): Mark => ({
        kind: kind === 'factor' ? 'correction factor' : kind === 'aspiration' ? 'boost' : 'air',
        severity: kind === 'factor' ? 'look again' : 'note',
        sentence,
      }),
    ),
  ];
}
