import type { Mark } from '../types.ts';
import type { Check, CheckContext } from './context.ts';

const CHECKS: readonly Check[] = [];

/** Every check of one pull, in the order in which a person would want to hear of it. */
export function checkPull(context: CheckContext): Mark[] {
  return CHECKS.flatMap((check) => check(context));
}
