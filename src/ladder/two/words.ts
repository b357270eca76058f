import { LAMBDA, SPARK_LEAD } from '../kinds.ts';
import { settingText } from '../words.ts';
import type { Place } from './types.ts';

/** `30° at lambda 0.86`. */
export const placeText = ({ leadDeg, lambda }: Place): string =>
  `${settingText(leadDeg, SPARK_LEAD)} at lambda ${settingText(lambda, LAMBDA)}`;

export const leadText = (leadDeg: number): string => settingText(leadDeg, SPARK_LEAD);
export const lambdaText = (lambda: number): string => settingText(lambda, LAMBDA);
