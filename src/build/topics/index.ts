import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { BALANCE_CHECKS, BALANCE_FIGURES } from './balance.ts';
import { CAM_CHECKS, CAM_FIGURES } from './cam.ts';
import { COMPRESSION_CHECKS, COMPRESSION_FIGURES } from './compression.ts';
import { MOTION_CHECKS, MOTION_FIGURES } from './motion.ts';

/** Every figure and check of the sheet, topic by topic. */
export const FIGURES: readonly FigureSpec[] = [
  ...COMPRESSION_FIGURES,
  ...MOTION_FIGURES,
  ...BALANCE_FIGURES,
  ...CAM_FIGURES,
];
export const CHECKS: readonly CheckSpec[] = [
  ...COMPRESSION_CHECKS,
  ...MOTION_CHECKS,
  ...BALANCE_CHECKS,
  ...CAM_CHECKS,
];
