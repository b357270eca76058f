import type { ReactNode } from 'react';
import type {
  DrawnCurves,
  GearingAnswer,
  GoalId,
  Use,
  UseAnswer,
  VehicleAnswer,
} from '../../src/compare/index.ts';
import type { CompareInput } from '../../src/compare/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import type { KeptUse, KeptVehicle } from '../api/types.gen.ts';
import type { SideWords } from '../compare/props.ts';

/** What was chosen; it stands in the address. */
export interface Chosen {
  /** A name of one to choose, `kept:ID`, or `vehicle`; null: the vehicle's own where there is one, else the first. */
  readonly use: string | null;
  /** Id of a kept vehicle; null: none. */
  readonly vehicle: string | null;
  /** The time by which builds are judged in a vehicle. */
  readonly goal: GoalId;
}

export interface UseProps {
  readonly sides: readonly SideWords[];
  readonly units: UnitSystem;
  readonly standard: string;
  readonly taken: string;
  readonly warnings: readonly string[];
  readonly uses: readonly KeptUse[];
  readonly vehicles: readonly KeptVehicle[];
  readonly chosen: Chosen;
  readonly onChoose: (chosen: Chosen) => void;
  readonly onSwap?: () => void;
  readonly onRemove?: (side: number) => void;
  readonly onPick?: (side: number | null) => void;
  /** Adding, changing and removing vehicles and uses. */
  readonly vehicleActs?: ReactNode;
  readonly useActs?: ReactNode;
}

export interface UseScreenProps extends UseProps {
  readonly input: CompareInput;
}

/** What a hand moves: each with its own value until it is touched. */
export interface Dragged {
  readonly aboveRpm: number | null;
  readonly shareAbove: number | null;
  readonly finalDrive: number | null;
}

export interface UseViewProps extends UseProps {
  readonly curves: DrawnCurves;
  readonly use: Use | null;
  readonly answer: UseAnswer | null;
  /** Why there is no answer for the use. */
  readonly trouble: string | null;
  readonly vehicle: VehicleAnswer | null;
  /** Why there is none for the vehicle. */
  readonly vehicleTrouble: string | null;
  readonly gearing: GearingAnswer | null;
  /** What was taken of the vehicle unsaid. */
  readonly assumed: readonly string[];
  readonly dragged: Dragged;
  /** Where the sliders stand by themselves. */
  readonly own: {
    readonly aboveRpm: number;
    readonly shareAbove: number;
    readonly finalDrive: number | null;
  };
  readonly onDrag: (dragged: Dragged) => void;
  readonly settling: boolean;
}
