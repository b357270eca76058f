import { quantile } from '../../numerics/index.ts';
import { channelsOf, finiteIn, finiteOf, isUnchanging } from '../channels.ts';
import type { Check } from './context.ts';

/** Less than this is not full throttle, allowing for a sensor that was not set to its stops. */
const FULL_THROTTLE = 0.97;

/** Throttle that was not fully open over the pull. Air standards hold for full throttle only. */
export const throttleCheck: Check = ({ recording, span }) => {
  const [channel] = channelsOf(recording, 'throttle');
  if (channel === undefined) return [];
  const values = finiteIn(channel, span);
  if (values.length === 0) return [];
  // A channel that never moves in the whole file is typed or dead and says nothing.
  if (isUnchanging(finiteOf(channel))) return [];
  const opened = quantile(values, 0.5);
  if (opened >= FULL_THROTTLE) return [];
  return [
    {
      kind: 'throttle',
      severity: 'look again',
      sentence: `The throttle stood at ${(100 * opened).toFixed(0)} % over the pull and not fully open; air standards hold for full throttle only.`,
    },
  ];
};
