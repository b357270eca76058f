import { finite, positive, possible, within } from '../possible.ts';

/** Temperature at which parts are measured unless said [K]: 20 °C, as ISO 1 has it. */
export const MEASURING_TEMPERATURE_K = 293.15;
/** Temperatures that this arithmetic is meant for [K]: a cold start to a valve's head. */
export const PART_TEMPERATURE_RANGE_K = [230, 1200] as const;
/** Expansions outside this range are no metal of an engine [1/K]. */
export const EXPANSION_RANGE_PER_K = [0, 40e-6] as const;

/** A length or a diameter, and how warm it gets. */
export interface WarmPart {
  readonly lengthM: number;
  readonly expansionPerK: number;
  /** Mean temperature of the part when warm [K]. */
  readonly temperatureK: number;
}

/**
 * What a part grows [m] between measuring and warm: L α ΔT.
 * @validity  PART_TEMPERATURE_RANGE_K; an even temperature, free to grow
 */
export function thermalGrowthM(part: WarmPart, measuredAtK = MEASURING_TEMPERATURE_K): number {
  const rise =
    within('temperature of the part', part.temperatureK, 'K', PART_TEMPERATURE_RANGE_K) -
    within('measuring temperature', measuredAtK, 'K', PART_TEMPERATURE_RANGE_K);
  return (
    positive('length of the part', part.lengthM, 'm') *
    within('expansion', part.expansionPerK, '1/K', EXPANSION_RANGE_PER_K) *
    rise
  );
}

/** A diameter, in the words of a clearance. */
export interface WarmDiameter {
  readonly diameterM: number;
  readonly expansionPerK: number;
  readonly temperatureK: number;
}

/**
 * Clearance on diameter [m] when warm: piston in bore, journal in housing. Below 0 is interference.
 *
 * A hole grows as if it were filled. In a bearing the steel-backed shell follows its housing, so the housing's material
 * counts; a piston's skirt is seldom at its crown's temperature: take the skirt's.
 */
export function warmClearanceM(
  hole: WarmDiameter,
  inside: WarmDiameter,
  measuredAtK = MEASURING_TEMPERATURE_K,
): number {
  const warm = (part: WarmDiameter) =>
    part.diameterM + thermalGrowthM({ ...part, lengthM: part.diameterM }, measuredAtK);
  return warm(hole) - warm(inside);
}

/** A part of the chain that sets the lash. */
export interface LashPart extends WarmPart {
  readonly name: string;
  /** Lash at the valve gained for each metre this part grows: above 0 opens, below 0 closes. */
  readonly opensBy: number;
}

export interface LashChange {
  /** Lash at the valve gained from measuring to warm [m]; below 0 it closes up. */
  readonly changeM: number;
  readonly byPart: readonly { readonly name: string; readonly changeM: number }[];
}

/** What warmth does to the lash at the valve, part by part. */
export function lashChange(
  parts: readonly LashPart[],
  measuredAtK = MEASURING_TEMPERATURE_K,
): LashChange {
  const byPart = parts.map((part) => ({
    name: part.name,
    changeM: finite('weight of the part', part.opensBy, '') * thermalGrowthM(part, measuredAtK),
  }));
  return { changeM: byPart.reduce((sum, { changeM }) => sum + changeM, 0), byPart };
}

/**
 * The chain of an engine with pushrods, all along the valve's direction, from the camshaft up.
 *
 * Derivation: heights over the cam are y_p of the pushrod's top, y_f of the rocker's pivot, y_v of the valve's tip; R the
 * rocker's ratio. The pushrod holds the rocker's valve end at y_f + R (y_f − y_p), so lash at the valve is
 * R (y_f − y_p) + y_f − y_v, with y_f = block + pivot and y_v = block + seat + valve.
 */
export function pushrodChain(chain: {
  readonly rockerRatio: number;
  /** Cam to deck. */
  readonly block: WarmPart;
  /** Deck to the rocker's pivot, head and stand. */
  readonly pivot: WarmPart;
  /** Deck to the valve's seat; null where it lies in the deck. */
  readonly seat: WarmPart | null;
  /** Seat to tip. */
  readonly valve: WarmPart;
  /** Cam to the pushrod's top: lifter and pushrod. */
  readonly pushrod: WarmPart;
}): readonly LashPart[] {
  const ratio = positive('rocker ratio', chain.rockerRatio, '');
  const seat: readonly LashPart[] =
    chain.seat === null ? [] : [{ ...chain.seat, name: 'seat', opensBy: -1 }];
  return [
    { ...chain.block, name: 'block', opensBy: ratio },
    { ...chain.pivot, name: 'pivot', opensBy: ratio + 1 },
    ...seat,
    { ...chain.valve, name: 'valve', opensBy: -1 },
    { ...chain.pushrod, name: 'pushrod', opensBy: -ratio },
  ];
}

/** Lash to set cold [m] for a lash wanted hot. @throws NonPhysicalError  when it would have to be below 0 */
export function coldLashM(hotLashM: number, change: LashChange): number {
  const cold = finite('hot lash', hotLashM, 'm') - change.changeM;
  return possible(
    'cold lash',
    cold,
    'm',
    cold >= 0,
    '0 or more: the valve would not shut when cold',
  );
}

const IN_M = 0.0254;
/**
 * What is added to the hot lash to set it cold, by rule of thumb [m].
 * @source  a camshaft maker's chart as reprinted by chevyhardcore.com, “Cold lash vs. hot lash”; for that maker's usual
 *          pushrod engines, a first setting only: measure one valve hot and cold
 */
export const COLD_LASH_CHART = [
  { block: 'iron', head: 'iron', addM: 0.002 * IN_M },
  { block: 'iron', head: 'aluminium', addM: -0.006 * IN_M },
  { block: 'aluminium', head: 'aluminium', addM: -0.012 * IN_M },
] as const;
