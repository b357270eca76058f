import type { Composition } from './composition.ts';

/** Knock ratings; each is there only where somebody states it. */
export interface Octane {
  readonly research?: number;
  readonly motor?: number;
  /** (R + M)/2, what pumps in North America post. */
  readonly antiKnockIndex?: number;
}

/** One part of a blend, by both measures. */
export interface BlendPart {
  readonly fuel: Fuel;
  readonly volumeShare: number;
  readonly massShare: number;
}

/** A fuel as the cell needs to know it. */
export interface Fuel {
  readonly name: string;
  /** Mass of air to mass of fuel that burns it exactly. */
  readonly stoichiometricAfr: number;
  /** At 15 to 20 °C; a batch differs by a few per cent. */
  readonly densityKgPerM3: number;
  readonly lowerHeatingJPerKg: number;
  readonly source: string;
  /** Elements by mass. */
  readonly composition: Composition;
  /** Which state the density is of; a gas and a liquid have no common volume. */
  readonly densityOf: 'liquid' | 'gas';
  /** Heat that evaporating takes; left out of gases and where nobody states it. */
  readonly latentHeatJPerKg?: number;
  readonly octane?: Octane;
  /** What a user of the figures should know. */
  readonly note?: string;
  /** The parts, where it is a blend. */
  readonly parts?: readonly BlendPart[];
}
