import { smallestOnInterval } from '../../numerics/index.ts';
import { type CrankSlider, pistonPositionM, pistonPositionsM } from '../geometry/index.ts';
import { finite, notNegative, positive, within } from '../possible.ts';
import { advancedCentrelines, type Centrelines, type Lobe, lobeCentreDeg } from './events.ts';
import { type DrivenValve, valveLiftM } from './valveLift.ts';

/**
 * How far the closed valve stands from the piston at its top, along the valve's own axis: as measured (clay, or the
 * valve pushed down on a checking spring), or from the stack of parts.
 */
export type ClosedGap =
  | { readonly measuredM: number }
  | {
      /** Crown below the deck, negative when out of the hole. */
      readonly deckM: number;
      readonly gasketThicknessM: number;
      /** Lowest point of the closed valve above the head's face, square to it; negative when it hangs below. */
      readonly valveRecessM: number;
    };

export interface ValveAndPocket {
  readonly motion: DrivenValve;
  /** Between the valve's axis and the cylinder's; for a valve that leans two ways the angle between the two lines. */
  readonly valveAngleDeg: number;
  readonly headDiameterM: number;
  readonly gap: ClosedGap;
  /** Depth of the pocket below the crown along the valve's axis, under the valve's lowest edge; 0 for a flat crown. */
  readonly pocketDepthM: number;
  /** Lean of the pocket's floor; the valve's angle when left out, 0 without a pocket. */
  readonly floorAngleDeg?: number;
  /** For the clearance round the head. */
  readonly pocket?: {
    readonly diameterM: number;
    /** Axis of the pocket from the valve's at the top, positive to the side to which the opening valve moves. */
    readonly axisOffsetM: number;
  };
}

export interface ValveClearance {
  /** Along the valve's axis: how much farther the valve could open. Zero or less: it meets the piston. */
  readonly clearanceM: number;
  /** Square to the pocket's floor: what is left in clay. */
  readonly normalM: number;
  /** Crank degrees after the top of overlap; before it negative. */
  readonly crankDeg: number;
  readonly valveLiftM: number;
  /** Smallest gap round the head while it is down in its pocket, walls taken all round; null where not known or never. */
  readonly radialM: number | null;
}

/** Valve angles for which the plane picture is meant [deg]. */
export const VALVE_ANGLE_DEG = [0, 60] as const;

/** Crank degrees on either side of the top of overlap that are searched, and in which steps first. */
const SEARCHED_DEG = 90;
const SEARCH_STEPS = 90;

/*
 * In the plane of both axes, y across and z up, the valve opens along d = (sin β, −cos β); its face runs along
 * t = (cos β, sin β), so that the edge at −t is the lowest. The floor has the normal n = (−sin φ, cos φ) and sinks with
 * the piston by x. Distance of a point of the face from the floor: n·(E + d L − P) + x cos φ, and n·d = −cos(β − φ).
 * Along the valve's axis: clearance = c₀ + x cos φ / cos(β − φ) − L. With φ = β (floor of a cut pocket) x counts with
 * cos β, with φ = 0 (flat crown) with 1/cos β. A floor steeper than the valve comes nearest at the other edge:
 * n·D t = D sin(β − φ), so c₀ is less there by D tan(φ − β).
 */
interface Plane {
  readonly closedM: number;
  readonly perPistonM: number;
  readonly normalPerAxis: number;
  readonly sinValve: number;
}

function planeOf(valve: ValveAndPocket): Plane {
  const beta = (within('valve angle', valve.valveAngleDeg, '°', VALVE_ANGLE_DEG) * Math.PI) / 180;
  const depthM = notNegative('pocket depth', valve.pocketDepthM, 'm');
  const floorDeg = valve.floorAngleDeg ?? (depthM > 0 ? valve.valveAngleDeg : 0);
  const phi = (within('pocket floor angle', floorDeg, '°', VALVE_ANGLE_DEG) * Math.PI) / 180;
  return {
    closedM: closedGapM(valve, beta, phi),
    perPistonM: Math.cos(phi) / Math.cos(beta - phi),
    normalPerAxis: Math.cos(beta - phi),
    sinValve: Math.sin(beta),
  };
}

function closedGapM(
  { gap, pocketDepthM, headDiameterM }: ValveAndPocket,
  beta: number,
  phi: number,
) {
  const diameterM = positive('valve head diameter', headDiameterM, 'm');
  if ('measuredM' in gap) return finite('measured valve gap', gap.measuredM, 'm');
  const abovePistonM =
    finite('deck clearance', gap.deckM, 'm') +
    notNegative('gasket thickness', gap.gasketThicknessM, 'm') +
    finite('valve recess', gap.valveRecessM, 'm');
  const atLowEdgeM = abovePistonM / Math.cos(beta) + pocketDepthM;
  return atLowEdgeM - diameterM * Math.tan(Math.max(0, phi - beta));
}

/** Clearance [m] along the valve's axis between closed valve and piston at its top, pocket included. */
export function closedValveClearanceM(valve: ValveAndPocket): number {
  return planeOf(valve).closedM;
}

/** Clearance [m] along the valve's axis at a crank angle after the top of overlap (before it negative). */
export function valveClearanceAtM(
  slider: CrankSlider,
  valve: ValveAndPocket,
  lobe: Lobe,
  centrelines: Centrelines,
  crankDeg: number,
): number {
  const plane = planeOf(valve);
  return (
    plane.closedM +
    pistonPositionM(slider, crankDeg) * plane.perPistonM -
    valveLiftM(valve.motion, crankDeg - lobeCentreDeg(lobe, centrelines))
  );
}

/**
 * Smallest clearance between a valve and the piston through overlap, searched 90° either side of the top.
 *
 * A rigid picture at rest: running, rod and train stretch, the crown rocks and the valve may float; that is what the
 * shop's window is for. The head counts as a flat disc, the floor as a plane.
 * @param centrelines  where the lobes have their largest lift, the cam as it stands
 * @throws NonPhysicalError  a value that cannot be, named
 */
export function pistonToValve(
  slider: CrankSlider,
  valve: ValveAndPocket,
  lobe: Lobe,
  centrelines: Centrelines,
): ValveClearance {
  const plane = planeOf(valve);
  const centreDeg = finite('lobe centreline', lobeCentreDeg(lobe, centrelines), '°');
  const positionM = pistonPositionsM(slider);
  const clearanceAt = (crankDeg: number) =>
    plane.closedM +
    positionM(crankDeg) * plane.perPistonM -
    valveLiftM(valve.motion, crankDeg - centreDeg);
  const { x, value } = smallestOnInterval(clearanceAt, -SEARCHED_DEG, SEARCHED_DEG, SEARCH_STEPS);
  return {
    clearanceM: value,
    normalM: value * plane.normalPerAxis,
    crankDeg: x,
    valveLiftM: valveLiftM(valve.motion, x - centreDeg),
    radialM: radialClearanceM(positionM, valve, plane, clearanceAt),
  };
}

/** The pocket moves across under the head by x sin β as the piston sinks; only while the head is in it does that count. */
function radialClearanceM(
  positionM: (crankDeg: number) => number,
  { pocket, pocketDepthM, headDiameterM }: ValveAndPocket,
  { sinValve }: Plane,
  clearanceAt: (crankDeg: number) => number,
): number | null {
  if (pocket === undefined) return null;
  const playM = (positive('pocket diameter', pocket.diameterM, 'm') - headDiameterM) / 2;
  const offsetM = finite('pocket axis offset', pocket.axisOffsetM, 'm');
  const { value } = smallestOnInterval(
    (crankDeg) =>
      clearanceAt(crankDeg) < pocketDepthM
        ? playM - Math.abs(offsetM - positionM(crankDeg) * sinValve)
        : Number.POSITIVE_INFINITY,
    -SEARCHED_DEG,
    SEARCHED_DEG,
    SEARCH_STEPS,
  );
  return value === Number.POSITIVE_INFINITY ? null : value;
}

export interface AdvanceRow {
  /** Crank degrees by which the cam is moved ahead of where it stands; negative: retarded. */
  readonly advanceDeg: number;
  readonly intake: ValveClearance;
  readonly exhaust: ValveClearance;
}

/** The smallest clearances with the cam moved by each of some crank degrees. */
export function pistonToValveByAdvance(
  slider: CrankSlider,
  valves: { readonly intake: ValveAndPocket; readonly exhaust: ValveAndPocket },
  centrelines: Centrelines,
  advancesDeg: readonly number[],
): AdvanceRow[] {
  return advancesDeg.map((advanceDeg) => {
    const moved = advancedCentrelines(centrelines, advanceDeg);
    return {
      advanceDeg,
      intake: pistonToValve(slider, valves.intake, 'intake', moved),
      exhaust: pistonToValve(slider, valves.exhaust, 'exhaust', moved),
    };
  });
}
