import { positive, possible } from '../possible.ts';
import {
  FULL_LEAD_RESEARCH_OCTANE,
  fuelTraits,
  GUESSED_RESEARCH_OCTANE,
  RETARD_DEG_PER_OCTANE,
} from './fuelTraits.ts';
import { missingOf, refusalOf, unknownFuel } from './refusal.ts';
import {
  type Chamber,
  PRACTICE,
  type Reason,
  START_CAUTION,
  type StartInput,
  type StartWindow,
} from './types.ts';

/** Lead [° before top] at full throttle where all of it is in. */
export interface SparkWindow {
  readonly lowDeg: number;
  readonly highDeg: number;
}

/** Lead that gives best torque at full throttle on gasoline, by chamber [°]: where engines of the kind end up. */
export const BEST_LEAD_DEG: Readonly<
  Record<Chamber, { readonly range: readonly [low: number, high: number]; readonly source: string }>
> = {
  'four-valve pent roof': { range: [20, 28], source: 'from memory, low confidence' },
  'two-valve fast burn': { range: [28, 34], source: PRACTICE },
  'two-valve wedge': { range: [32, 38], source: 'from memory, low confidence' },
  'two-valve hemispherical': { range: [34, 40], source: PRACTICE },
};

/** The window's top stands this far below the least best lead of the chamber [°], and it is this wide [°]. */
const BELOW_BEST_DEG = 2;
const WIDTH_DEG = 6;
/** Lead taken off for each whole unit of ratio above the fuel's limit: 3 to 6 octane a unit, the cautious end. */
const RETARD_DEG_PER_RATIO = 6;
/** Beyond the limit by more than this no lead is called cautious. */
const RATIO_BEYOND = 2;
/** Lead taken off for each metre of bore above 0.100 m: 1° for 5 mm. The wish of a large bore for more is not granted. */
const LARGE_BORE_M = 0.1;
const RETARD_DEG_PER_BORE_M = 200;
/** A window that would have to reach below this says that something does not suit the fuel. */
const LEAST_HIGH_DEG = 10;

/**
 * Window of spark lead to begin with at full throttle. Every doubt takes lead off; nothing ever adds any.
 *
 * Backing off costs little and knock costs the engine: 8° late loses a few per cent of torque (see
 * RETARD_CURVATURE_RANGE), which the ladder wins back.
 * @source  common practice and the ranges named at each constant; the reasons carry them
 * @throws NonPhysicalError  a ratio not above 1, a bore not above 0
 */
export function startingSpark(input: StartInput): StartWindow<SparkWindow> {
  const refusal = refusalOf(input);
  if (refusal !== undefined) return { state: 'none', reasons: [refusal] };
  const { aspiration, fuel, compressionRatio: ratio, chamber, boreM } = input;
  if (
    aspiration === undefined ||
    fuel === undefined ||
    ratio === undefined ||
    chamber === undefined ||
    boreM === undefined
  )
    return {
      state: 'missing',
      missing: missingOf(input, ['aspiration', 'fuel', 'compressionRatio', 'chamber', 'boreM']),
    };
  possible('compression ratio', ratio, '', ratio > 1, 'above 1');
  positive('bore', boreM, 'm');
  const traits = fuelTraits(fuel);
  if (traits === undefined) return { state: 'none', reasons: [unknownFuel(fuel.name)] };
  if (ratio > traits.ratioLimit + RATIO_BEYOND)
    return { state: 'none', reasons: [ratioTooHigh(ratio, traits.ratioLimit, fuel.name)] };

  const best = BEST_LEAD_DEG[chamber];
  const reasons: Reason[] = [
    {
      sentence: `A ${chamber} chamber makes its best torque at ${best.range[0]} to ${best.range[1]}°; the window stands below the least of them.`,
      source: best.source,
    },
  ];
  let highDeg = best.range[0] - BELOW_BEST_DEG;
  const takeOff = (deg: number, sentence: string, source: string) => {
    if (!(deg > 0)) return;
    highDeg -= deg;
    reasons.push({ sentence: `${sentence}: ${deg.toFixed(1)}° off.`, source });
  };
  takeOff(
    RETARD_DEG_PER_RATIO * (ratio - traits.ratioLimit),
    `${ratio.toFixed(1)}:1 is above the ${traits.ratioLimit.toFixed(1)}:1 that ${fuel.name} is begun with`,
    '3 to 6 octane a unit of ratio (from memory, Heywood §9.6); the limit: common practice, no source',
  );
  takeOff(
    traits.octaneRetardDeg,
    traits.isOctaneGuessed
      ? `Nobody states the octane of the gasoline in ${fuel.name}, so it is taken for ${GUESSED_RESEARCH_OCTANE} RON`
      : `${fuel.name} resists knock less than ${FULL_LEAD_RESEARCH_OCTANE} RON`,
    `${RETARD_DEG_PER_OCTANE}° an octane (0.8 to 1.5, from memory)`,
  );
  takeOff(
    RETARD_DEG_PER_BORE_M * (boreM - LARGE_BORE_M),
    `In a bore of ${(boreM * 1000).toFixed(0)} mm the flame has far to go and the last of the charge long to knock`,
    PRACTICE,
  );
  // Whole degrees, down; the small part keeps 22.0 from becoming 21.
  highDeg = Math.floor(highDeg + 1e-9);
  if (highDeg < LEAST_HIGH_DEG)
    return {
      state: 'none',
      reasons: [
        ...reasons,
        {
          sentence: `What is taken off leaves less than ${LEAST_HIGH_DEG}°: this fuel does not suit this engine; change fuel or ratio first.`,
          source: PRACTICE,
        },
      ],
    };
  return {
    state: 'window',
    window: { lowDeg: highDeg - WIDTH_DEG, highDeg },
    reasons,
    caution: START_CAUTION,
  };
}

function ratioTooHigh(ratio: number, limit: number, fuel: string): Reason {
  return {
    sentence: `${ratio.toFixed(1)}:1 is more than ${RATIO_BEYOND} above the ${limit.toFixed(1)}:1 that ${fuel} is begun with: no lead is safe to name without a knock sensor and someone who has run the like.`,
    source: PRACTICE,
  };
}
