import { finite, notNegative, positive, possible } from '../possible.ts';
import { sweptVolumeM3 } from './displacement.ts';

/** The opening of the head gasket: round with its compressed thickness, or a volume as its maker gives it. */
export type GasketOpening =
  | { readonly boreM: number; readonly thicknessM: number }
  | { readonly volumeM3: number };

/** One cylinder's parts of the clearance volume. Each is 0 or more, except the deck. */
export interface ClearanceParts {
  readonly boreM: number;
  /** Measured in the head with plug and valves in. */
  readonly chamberM3: number;
  readonly domeM3?: number;
  readonly dishM3?: number;
  readonly valveReliefsM3?: number;
  /** How far the flat of the crown stands below the block's deck at the top; negative: out of the hole. */
  readonly deckM: number;
  readonly gasket: GasketOpening;
  /** The gap round the crown down to the top ring; left out where nobody counts it. */
  readonly topLand?: { readonly diameterM: number; readonly depthM: number };
}

export interface ClearanceVolume {
  readonly chamberM3: number;
  /** Dish and reliefs less the dome: negative for a piston whose dome is larger. */
  readonly crownM3: number;
  /** Negative when the piston stands out of the hole. */
  readonly deckM3: number;
  readonly gasketM3: number;
  readonly creviceM3: number;
  readonly totalM3: number;
}

/**
 * Volume [m³] above one piston at its top, part by part.
 *
 * Formula: chamber + dish + reliefs − dome + π/4 B² deck + gasket + π/4 (B² − Dp²) land depth
 *
 * A piston that stands p out of the hole takes π/4 Dp² p from the gasket's opening and leaves a gap of land depth − p in
 * the bore: together π/4 (B² − Dp²) depth − π/4 B² p, the same sum, so one formula serves both sides of the deck.
 * @throws NonPhysicalError  a part is negative or not a number, or nothing is left above the piston
 */
export function clearanceVolume(parts: ClearanceParts): ClearanceVolume {
  const area = (Math.PI / 4) * positive('bore', parts.boreM, 'm') ** 2;
  const chamberM3 = notNegative('chamber volume', parts.chamberM3, 'm³');
  const crownM3 =
    notNegative('dish volume', parts.dishM3 ?? 0, 'm³') +
    notNegative('valve relief volume', parts.valveReliefsM3 ?? 0, 'm³') -
    notNegative('dome volume', parts.domeM3 ?? 0, 'm³');
  const deckM3 = area * finite('deck clearance', parts.deckM, 'm');
  const gasketM3 = gasketVolumeM3(parts.gasket);
  const creviceM3 = parts.topLand === undefined ? 0 : creviceVolumeM3(parts.boreM, parts.topLand);
  const totalM3 = chamberM3 + crownM3 + deckM3 + gasketM3 + creviceM3;
  positive('clearance volume', totalM3, 'm³');
  return { chamberM3, crownM3, deckM3, gasketM3, creviceM3, totalM3 };
}

/** Volume [m³] of a gasket's opening: π/4 Bg² t, or as given. */
export function gasketVolumeM3(gasket: GasketOpening): number {
  if ('volumeM3' in gasket) return notNegative('gasket volume', gasket.volumeM3, 'm³');
  const thicknessM = notNegative('gasket thickness', gasket.thicknessM, 'm');
  return (Math.PI / 4) * positive('gasket bore', gasket.boreM, 'm') ** 2 * thicknessM;
}

/** Volume [m³] of the gap round the crown down to the top ring: π/4 (B² − Dp²) h. */
export function creviceVolumeM3(
  boreM: number,
  land: { readonly diameterM: number; readonly depthM: number },
): number {
  const diameterM = positive('top land diameter', land.diameterM, 'm');
  possible('top land diameter', diameterM, 'm', diameterM <= boreM, `at most the bore, ${boreM} m`);
  return (
    (Math.PI / 4) * (boreM ** 2 - diameterM ** 2) * notNegative('top land depth', land.depthM, 'm')
  );
}

/** Compression ratio: (swept + clearance) / clearance. */
export function compressionRatio(sweptM3: number, clearanceM3: number): number {
  return (
    1 + positive('swept volume', sweptM3, 'm³') / positive('clearance volume', clearanceM3, 'm³')
  );
}

/** Clearance volume [m³] that gives a ratio: swept / (ratio − 1). */
export function clearanceForRatioM3(sweptM3: number, ratio: number): number {
  possible('compression ratio', ratio, '', ratio > 1, 'more than 1');
  return positive('swept volume', sweptM3, 'm³') / (ratio - 1);
}

/**
 * Chamber volume [m³] that would reach a ratio with all other parts as they are.
 * @throws NonPhysicalError  when no chamber is small enough: the other parts alone are more than the ratio allows
 */
export function chamberForRatioM3(parts: ClearanceParts, strokeM: number, ratio: number): number {
  const chamberM3 = parts.chamberM3 + lackingM3(parts, strokeM, ratio);
  return possible(
    `chamber volume for ${ratio}:1`,
    chamberM3,
    'm³',
    chamberM3 > 0,
    'more than 0: the other parts alone hold too much',
  );
}

/**
 * Net crown volume [m³] (dish and reliefs less dome) that would reach a ratio: positive asks for a dish, negative for a
 * dome.
 */
export function crownForRatioM3(parts: ClearanceParts, strokeM: number, ratio: number): number {
  return clearanceVolume(parts).crownM3 + lackingM3(parts, strokeM, ratio);
}

/** Deck clearance [m] that would reach a ratio; negative: out of the hole. Look at the quench it leaves. */
export function deckForRatioM(parts: ClearanceParts, strokeM: number, ratio: number): number {
  return parts.deckM + lackingM3(parts, strokeM, ratio) / ((Math.PI / 4) * parts.boreM ** 2);
}

/** What the clearance volume lacks of the one wanted; negative when it has too much. */
function lackingM3(parts: ClearanceParts, strokeM: number, ratio: number): number {
  const wantedM3 = clearanceForRatioM3(sweptVolumeM3(parts.boreM, strokeM), ratio);
  return wantedM3 - clearanceVolume(parts).totalM3;
}
