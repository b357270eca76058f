import type { Mark } from '../types.ts';
import { channelCheck } from './channels.ts';
import type { Check, CheckContext } from './context.ts';
import { coverageCheck } from './coverage.ts';
import { exhaustCheck } from './exhaust.ts';
import { lambdaCheck } from './lambda.ts';
import { oilPressureCheck } from './oilPressure.ts';
import { sweepRateCheck } from './sweepRate.ts';
import { temperatureCheck } from './temperatures.ts';
import { throttleCheck } from './throttle.ts';
import { timeCheck } from './time.ts';

const CHECKS: readonly Check[] = [
  throttleCheck,
  coverageCheck,
  sweepRateCheck,
  temperatureCheck,
  lambdaCheck,
  oilPressureCheck,
  exhaustCheck,
  channelCheck,
  timeCheck,
];

/** Every check of one pull, in the order in which a person would want to hear of it. */
export function checkPull(context: CheckContext): Mark[] {
  return CHECKS.flatMap((check) => check(context));
}
