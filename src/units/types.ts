/** What a unit measures. Torque and energy are kept apart although both are newton metres. */
export type Dimension =
  | 'time'
  | 'rotationalSpeed'
  | 'torque'
  | 'power'
  | 'pressure'
  | 'temperature'
  | 'massFlow'
  | 'volumeFlow'
  | 'fraction'
  | 'angle'
  | 'inertia'
  | 'volume'
  | 'length'
  | 'area'
  | 'mass'
  | 'density'
  | 'specificConsumption'
  | 'specificEnergy'
  | 'speed'
  | 'acceleration'
  | 'force'
  | 'stiffness'
  | 'unbalance'
  | 'count';

/**
 * One unit at the edge of the product. Inside value = outside value × factor + offset.
 * Inside is SI, except: rotational speed in rev/min, angle in crank degrees (the trade's own base).
 */
export interface Unit {
  /** The way we print it: `lb-ft`, `N·m`, `°F`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly offset: number;
  /** Where the factor comes from: its definition or the published source. */
  readonly source: string;
  /** Set where the spelling itself says so (`psig`, `kPa abs`). */
  readonly pressureReference?: 'gauge' | 'absolute';
}

/** Which family of units a person wants to see. */
export type UnitSystem = 'us' | 'metric';
