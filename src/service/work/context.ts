/** Everything around a pull that its reading and its curve depend on, in the terms of intake and pull. */
import type { RememberedOptions } from '../../intake/index.ts';
import type { AirStandard, CurveOptions, EngineSetup } from '../../pull/index.ts';
import type {
  Build,
  Cell,
  Engine,
  Id,
  Pull,
  PullbookRecord,
  Shop,
  TestDay,
} from '../../record/index.ts';

import { type CalibrationOfDay, calibrationOn, cellCalibration } from './calibrations.ts';

export interface DayContext {
  readonly shop: Shop;
  readonly cell: Cell;
  readonly engine: Engine;
  readonly build: Build;
  readonly day: TestDay;
  /** As it stands on the date of the day. */
  readonly calibration: CalibrationOfDay;
}

export async function contextOf(record: PullbookRecord, dayId: Id): Promise<DayContext> {
  const day = await record.days.get(dayId);
  const [shop, cell, build] = await Promise.all([
    record.shop.get(),
    record.cells.get(day.cellId),
    record.builds.get(day.buildId),
  ]);
  const [engine, calibration] = await Promise.all([
    record.engines.get(build.engineId),
    calibrationOn(record, cell, day.date),
  ]);
  return { shop, cell, build, day, engine, calibration };
}

/** What the cell and the day say of every file, before any remembered answer. */
export function readingOptions(cell: Cell, fuel: string | null): RememberedOptions {
  const known = cell.torqueIs.air !== 'unknown' || cell.torqueIs.inertia !== 'unknown';
  return {
    ...(known ? { torqueIs: cell.torqueIs } : {}),
    ...(cell.ratio === 1 ? {} : { brakeRatio: cell.ratio }),
    ...(fuel === null || fuel === '' ? {} : { fuel }),
  };
}

/** A build says only what it changed of its engine. */
export function engineSetup({ engine, build, day }: DayContext): EngineSetup {
  return {
    name: engine.name,
    cylinders: build.cylinders ?? engine.cylinders,
    displacementM3: build.displacementM3 ?? engine.displacementM3,
    strokeM: build.strokeM ?? engine.strokeM,
    compressionRatio: build.compressionRatio ?? engine.compressionRatio,
    cycle: engine.cycle,
    aspiration: engine.aspiration,
    fuel: day.fuel ?? engine.fuel,
  };
}

export interface CurveWish {
  readonly standard?: AirStandard | undefined;
  readonly correctBoosted?: boolean;
}

/** The air in which a curve is shown: as wished, else as the day or the shop usually has it. */
export const shownIn = ({ day, shop }: DayContext, wish: CurveWish) => ({
  standard: wish.standard ?? day.standard ?? shop.standard,
  correctBoosted: wish.correctBoosted ?? false,
});

export function curveOptions(context: DayContext, pull: Pull, wish: CurveWish): CurveOptions {
  const { shop, cell, day } = context;
  const lambdaTarget = pull.lambdaTarget ?? day.lambdaTarget;
  return {
    standard: shownIn(context, wish).standard,
    cell: {
      inertiaKgM2: day.inertiaKgM2 ?? cell.inertiaKgM2,
      ...(day.inertiaKgM2 === null && cell.inertiaKgM2 !== null ? { inertiaAssumed: true } : {}),
      sensorLagS: cell.sensorLagS,
      ratio: cell.ratio,
      torqueIs: cell.torqueIs,
      calibrationRelSd: cell.calibrationRelSd,
      ...cellCalibration(cell, context.calibration),
    },
    engine: engineSetup(context),
    air: {
      ...(day.airPressureAbsPa === null ? {} : { pressureAbsPa: day.airPressureAbsPa }),
      ...(day.airTemperatureK === null ? {} : { temperatureK: day.airTemperatureK }),
      ...(day.airHumidity === null ? {} : { humidity: day.airHumidity }),
    },
    ...(lambdaTarget === null ? {} : { lambdaTarget }),
    ...(day.bandRpm === null ? {} : { bandRpm: day.bandRpm }),
    ...(wish.correctBoosted === true ? { correctBoosted: true } : {}),
    ...(shop.repeatabilityPercent === null
      ? {}
      : { repeatabilityRelSd: shop.repeatabilityPercent / 100 }),
  };
}
