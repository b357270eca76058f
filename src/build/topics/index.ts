import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { COMPRESSION_CHECKS, COMPRESSION_FIGURES } from './compression.ts';

/** Every figure and check of the sheet, topic by topic. */
export const FIGURES: readonly FigureSpec[] = [...COMPRESSION_FIGURES];
export const CHECKS: readonly CheckSpec[] = [...COMPRESSION_CHECKS];
