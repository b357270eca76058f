import { afrFromLambda } from '../fuel/index.ts';
import { possible } from '../possible.ts';
import { fuelTraits } from './fuelTraits.ts';
import { missingOf, refusalOf, unknownFuel } from './refusal.ts';
import {
  PRACTICE,
  type Reason,
  START_CAUTION,
  type StartInput,
  type StartWindow,
} from './types.ts';

/** Mixture at full throttle; low is the rich end. The ratios are of the fuel or blend itself. */
export interface MixtureWindow {
  readonly lowLambda: number;
  readonly highLambda: number;
  readonly lowAfr: number;
  readonly highAfr: number;
}

/** Richer by this much lambda where the ratio is above what the fuel is begun with. */
const RICHER_BY = 0.02;

/**
 * Window of mixture to begin with at full throttle, on the rich side of best power; a blend's stands between those of its
 * parts by mass. A ratio above the fuel's limit makes it richer, an unknown one does not hold it up.
 * @source  common practice; best power of gasoline at lambda 0.86 to 0.90 from memory (Heywood §15.3.1), NACA TR 189
 *   found most power at air to fuel 12.5 to 14.3
 * @throws NonPhysicalError  a ratio not above 1
 */
export function startingMixture(input: StartInput): StartWindow<MixtureWindow> {
  const refusal = refusalOf(input);
  if (refusal !== undefined) return { state: 'none', reasons: [refusal] };
  const { aspiration, fuel, compressionRatio: ratio } = input;
  if (aspiration === undefined || fuel === undefined)
    return { state: 'missing', missing: missingOf(input, ['aspiration', 'fuel']) };
  if (ratio !== undefined) possible('compression ratio', ratio, '', ratio > 1, 'above 1');
  const traits = fuelTraits(fuel);
  if (traits === undefined) return { state: 'none', reasons: [unknownFuel(fuel.name)] };
  const reasons: Reason[] = [
    {
      sentence: `${fuel.name.charAt(0).toUpperCase()}${fuel.name.slice(1)} is begun with on the rich side of its best power, where a few per cent of torque buy a cooler, quieter burn.`,
      source: PRACTICE,
    },
  ];
  const isHigh = ratio !== undefined && ratio > traits.ratioLimit;
  if (isHigh)
    reasons.push({
      sentence: `${ratio.toFixed(1)}:1 is above the ${traits.ratioLimit.toFixed(1)}:1 that ${fuel.name} is begun with: ${RICHER_BY} lambda richer.`,
      source: PRACTICE,
    });
  const [lowLambda, highLambda] = traits.lambda.map((lambda) =>
    Number((lambda - (isHigh ? RICHER_BY : 0)).toFixed(3)),
  ) as [number, number];
  return {
    state: 'window',
    window: {
      lowLambda,
      highLambda,
      lowAfr: afrFromLambda(lowLambda, fuel),
      highAfr: afrFromLambda(highLambda, fuel),
    },
    reasons,
    caution: START_CAUTION,
  };
}
