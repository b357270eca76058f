/** What the engine drives, in inside units. Made by `readVehicle` from what a person wrote. */
export interface Vehicle {
  readonly name: string;
  /** All that moves: with driver, fuel and load. */
  readonly massKg: number;
  /** All wheels together, about their axles. */
  readonly wheelInertiaKgM2: number;
  /** What turns with the crank in the vehicle: crank, flywheel, clutch or the converter's pump. */
  readonly engineInertiaKgM2: number;
  /** Turns of the gearbox's input to one of its output, first gear first. */
  readonly gears: readonly number[];
  readonly finalDrive: number;
  /** Rolling radius at standstill. */
  readonly tyreRadiusM: number;
  /** The radius grows by this part a (m/s)²: growth goes with the square of speed. */
  readonly tyreGrowthS2PerM2: number;
  /** Part of the gearbox's input torque that reaches the wheels, by gear. */
  readonly efficiency: readonly number[];
  /** Torque at the driven axle that turning alone costs, whatever is carried. */
  readonly dragTorqueNm: number;
  readonly coupling: Clutch | Converter;
  /** Drag coefficient times frontal area. */
  readonly dragAreaM2: number;
  /** Rolling resistance as a part of weight. */
  readonly rollingResistance: number;
  /** Null: nothing said of the tyres' grip, so nothing limits the force. */
  readonly traction: Traction | null;
  readonly shift: Shift;
  readonly airDensityKgPerM3: number;
  /** Rise over run; 0.05 is 5 % uphill. */
  readonly grade: number;
  /** How far the vehicle rolls before the clock of a timed distance begins. */
  readonly rolloutM: number;
}

/** Slipped by the driver at one engine speed until the gearbox catches up, then locked. */
export interface Clutch {
  readonly kind: 'clutch';
  readonly launchRpm: number;
  /** Most torque it carries; null: more than the engine has. */
  readonly capacityNm: number | null;
}

/**
 * A torque converter by its curves over speed ratio (turbine over pump): torque ratio, and capacity (pump torque over
 * the square of its speed) as a part of that at stall.
 */
export interface Converter {
  readonly kind: 'converter';
  /** The pump takes `stallTorqueNm` at `stallRpm` with the turbine held. */
  readonly stallRpm: number;
  readonly stallTorqueNm: number;
  readonly curve: readonly {
    readonly speedRatio: number;
    readonly torqueRatio: number;
    readonly capacity: number;
  }[];
  /** Engine speed held against the brakes at the start; null: as high as the converter lets it. */
  readonly launchRpm: number | null;
}

export interface Traction {
  /** Force along the road over load on the driven wheels, at most. */
  readonly coefficient: number;
  readonly driven: 'rear' | 'front' | 'all';
  /** Part of the weight on the driven wheels at standstill; 1 for all. */
  readonly drivenShare: number;
  readonly centreHeightM: number;
  readonly wheelbaseM: number;
}

export interface Shift {
  /** By gear, the last left out; null: at the best speeds. */
  readonly speedsRpm: readonly number[] | null;
  /** Time without drive at each shift. */
  readonly timeS: number;
  /** Highest speed the engine may turn; null: the highest that was swept. */
  readonly limitRpm: number | null;
}

/** Torque at full throttle over evenly spaced speeds, as measured; nothing is known outside. */
export interface TorqueTable {
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly torqueNm: ArrayLike<number>;
}
