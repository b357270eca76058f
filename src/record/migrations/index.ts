/** All migrations in their order. A new one is appended with the next number; a published one never changes. */
import { sql as foundation } from './0001_foundation.ts';
import { sql as plugSpecksAndFuelBatch } from './0002_plug_specks_and_fuel_batch.ts';
import { sql as frozenAdvice } from './0003_frozen_advice.ts';
import { sql as laddersOfAnySetting } from './0004_ladders_of_any_setting.ts';
import { sql as inventedShop } from './0005_invented_shop.ts';
import { sql as inertiaOfADay } from './0006_inertia_of_a_day.ts';
import { sql as buildSheets } from './0007_build_sheets.ts';
import { sql as filesOfABuild } from './0009_files_of_a_build.ts';
import { sql as comparisonsAndPartTests } from './0010_comparisons_and_part_tests.ts';
import { sql as vehiclesAndUses } from './0011_vehicles_and_uses.ts';
import { sql as mixtureOfAPull } from './0013_mixture_of_a_pull.ts';
import { sql as handOvers } from './0014_hand_overs.ts';
import { sql as search } from './0015_search.ts';
import { sql as markOfTheShop } from './0016_mark_of_the_shop.ts';
import { sql as refreshInterval } from './0017_refresh_interval.ts';
import { sql as serviceEvents } from './0018_service_events.ts';
import { sql as serviceReadings } from './0019_service_readings.ts';

export interface Migration {
  readonly name: string;
  readonly sql: string;
}

export const MIGRATIONS: readonly Migration[] = [
  { name: '0001_foundation', sql: foundation },
  { name: '0002_plug_specks_and_fuel_batch', sql: plugSpecksAndFuelBatch },
  { name: '0003_frozen_advice', sql: frozenAdvice },
  { name: '0004_ladders_of_any_setting', sql: laddersOfAnySetting },
  { name: '0005_invented_shop', sql: inventedShop },
  { name: '0006_inertia_of_a_day', sql: inertiaOfADay },
  { name: '0007_build_sheets', sql: buildSheets },
  { name: '0009_files_of_a_build', sql: filesOfABuild },
  { name: '0010_comparisons_and_part_tests', sql: comparisonsAndPartTests },
  { name: '0014_hand_overs', sql: handOvers },
  { name: '0011_vehicles_and_uses', sql: vehiclesAndUses },
  { name: '0015_search', sql: search },
  { name: '0016_mark_of_the_shop', sql: markOfTheShop },
  { name: '0013_mixture_of_a_pull', sql: mixtureOfAPull },
  { name: '0017_refresh_interval', sql: refreshInterval },
  { name: '0018_service_events', sql: serviceEvents },
  { name: '0019_service_readings', sql: serviceReadings },
];
