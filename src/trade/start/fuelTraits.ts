import type { Fuel } from '../fuel/index.ts';

/** How a pure fuel is begun with at full throttle. All common practice, no source, unless a line says otherwise. */
export interface FuelTraits {
  /** Compression ratio that the usual lead is begun with; above it lead is taken off. */
  readonly ratioLimit: number;
  /** Degrees taken off for knock resistance below 95 RON. */
  readonly octaneRetardDeg: number;
  /** Whether its octane had to be guessed. */
  readonly isOctaneGuessed: boolean;
  /** Lambda to begin with, the rich end first. */
  readonly lambda: readonly [rich: number, lean: number];
}

/** Octane that gasoline of unknown grade is taken for: the poorest sold. */
export const GUESSED_RESEARCH_OCTANE = 91;
/** Octane at which no lead is taken off. */
export const FULL_LEAD_RESEARCH_OCTANE = 95;
/** Degrees of lead one research octane is worth: 0.8 to 1.5, of which the cautious end (from memory, Heywood §9.6). */
export const RETARD_DEG_PER_OCTANE = 1.5;
/** Least by which RON stands above the posted (R+M)/2. */
const RESEARCH_OVER_POSTED = 4;

const KNOWN: Readonly<Record<string, Omit<FuelTraits, 'octaneRetardDeg' | 'isOctaneGuessed'>>> = {
  ethanol: { ratioLimit: 12, lambda: [0.78, 0.86] },
  methanol: { ratioLimit: 12, lambda: [0.7, 0.8] },
  propane: { ratioLimit: 11, lambda: [0.85, 0.91] },
  methane: { ratioLimit: 12, lambda: [0.85, 0.91] },
  'natural gas': { ratioLimit: 12, lambda: [0.85, 0.91] },
};

/** Liquids with less oxygen than this by mass are begun with as gasoline. */
const OXYGENATE = 0.2;

/** Traits of a fuel or, weighted by mass, of a blend; undefined where nothing cautious can be said of a part. */
export function fuelTraits(fuel: Fuel): FuelTraits | undefined {
  if (fuel.parts === undefined) return pureTraits(fuel);
  const parts = fuel.parts.filter(({ massShare }) => massShare > 0);
  const traits = parts.map((part) => fuelTraits(part.fuel));
  if (traits.some((one) => one === undefined)) return undefined;
  const mean = (of: (one: FuelTraits) => number) =>
    traits.reduce((sum, one, i) => sum + parts[i]!.massShare * of(one!), 0);
  return {
    ratioLimit: mean((one) => one.ratioLimit),
    octaneRetardDeg: mean((one) => one.octaneRetardDeg),
    isOctaneGuessed: traits.some((one) => one!.isOctaneGuessed),
    lambda: [mean((one) => one.lambda[0]), mean((one) => one.lambda[1])],
  };
}

function pureTraits(fuel: Fuel): FuelTraits | undefined {
  const known = Object.hasOwn(KNOWN, fuel.name) ? KNOWN[fuel.name]! : undefined;
  if (known !== undefined) return { ...known, octaneRetardDeg: 0, isOctaneGuessed: false };
  if (fuel.densityOf === 'gas' || fuel.composition.oxygen >= OXYGENATE) return undefined;
  const stated = researchOctane(fuel);
  const octane = stated ?? GUESSED_RESEARCH_OCTANE;
  return {
    ratioLimit: 10,
    octaneRetardDeg: RETARD_DEG_PER_OCTANE * Math.max(0, FULL_LEAD_RESEARCH_OCTANE - octane),
    isOctaneGuessed: stated === undefined,
    // Best power lies at 0.86 to 0.90 (from memory, Heywood §15.3.1); the window stands at its rich side.
    lambda: [0.82, 0.87],
  };
}

function researchOctane({ octane }: Fuel): number | undefined {
  if (octane?.research !== undefined) return octane.research;
  if (octane?.antiKnockIndex !== undefined) return octane.antiKnockIndex + RESEARCH_OVER_POSTED;
  return undefined;
}
