import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { BALANCE_CHECKS, BALANCE_FIGURES } from './balance.ts';
import { CAM_CHECKS, CAM_FIGURES } from './cam.ts';
import { COMPRESSION_CHECKS, COMPRESSION_FIGURES } from './compression.ts';
import { FASTENER_CHECKS, FASTENER_FIGURES } from './fasteners.ts';
import { FIRST_SETTINGS_FIGURES } from './firstSettings.ts';
import { FIT_CHECKS, FIT_FIGURES } from './fits.ts';
import { WARM_CHECKS, WARM_FIGURES } from './fitsWarm.ts';
import { FLOW_CHECKS, FLOW_FIGURES } from './flow.ts';
import { FUEL_SYSTEM_CHECKS, FUEL_SYSTEM_FIGURES } from './fuelSystem.ts';
import { INDUCTION_CHECKS, INDUCTION_FIGURES } from './induction.ts';
import { LIFT_CURVE_FIGURES } from './liftCurve.ts';
import { MOTION_CHECKS, MOTION_FIGURES } from './motion.ts';
import { OILING_CHECKS } from './oiling.ts';
import { PISTON_TO_VALVE_CHECKS, PISTON_TO_VALVE_FIGURES } from './pistonToValve.ts';
import { TUNING_CHECKS, TUNING_FIGURES } from './tuning.ts';
import { VALVE_TRAIN_CHECKS, VALVE_TRAIN_FIGURES } from './valveTrain.ts';

/** Every figure and check of the sheet, topic by topic. */
export const FIGURES: readonly FigureSpec[] = [
  ...COMPRESSION_FIGURES,
  ...MOTION_FIGURES,
  ...BALANCE_FIGURES,
  ...CAM_FIGURES,
  ...FLOW_FIGURES,
  ...INDUCTION_FIGURES,
  ...FUEL_SYSTEM_FIGURES,
  ...TUNING_FIGURES,
  ...FIRST_SETTINGS_FIGURES,
  ...FIT_FIGURES,
  ...WARM_FIGURES,
  ...LIFT_CURVE_FIGURES,
  ...VALVE_TRAIN_FIGURES,
  ...PISTON_TO_VALVE_FIGURES,
  ...FASTENER_FIGURES,
];
export const CHECKS: readonly CheckSpec[] = [
  ...COMPRESSION_CHECKS,
  ...MOTION_CHECKS,
  ...BALANCE_CHECKS,
  ...CAM_CHECKS,
  ...FLOW_CHECKS,
  ...INDUCTION_CHECKS,
  ...FUEL_SYSTEM_CHECKS,
  ...TUNING_CHECKS,
  ...OILING_CHECKS,
  ...FIT_CHECKS,
  ...WARM_CHECKS,
  ...VALVE_TRAIN_CHECKS,
  ...PISTON_TO_VALVE_CHECKS,
  ...FASTENER_CHECKS,
];
