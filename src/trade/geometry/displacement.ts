import { count, positive } from '../possible.ts';

/** Volume [m³] that one piston sweeps: π/4 B² S. */
export function sweptVolumeM3(boreM: number, strokeM: number): number {
  return (Math.PI / 4) * positive('bore', boreM, 'm') ** 2 * positive('stroke', strokeM, 'm');
}

/**
 * Displacement [m³] of an engine whose cylinders share bore and stroke. Cylinders bored each to its own size are added
 * up from `sweptVolumeM3`.
 */
export function engineDisplacementM3(boreM: number, strokeM: number, cylinders: number): number {
  return sweptVolumeM3(boreM, strokeM) * count('number of cylinders', cylinders);
}

/** Bore over stroke; above 1 the engine is "oversquare". */
export function boreStrokeRatio(boreM: number, strokeM: number): number {
  return positive('bore', boreM, 'm') / positive('stroke', strokeM, 'm');
}

/** Rod length, centre to centre, over stroke. Half of what books call l/r. */
export function rodRatio(rodLengthM: number, strokeM: number): number {
  return positive('rod length', rodLengthM, 'm') / positive('stroke', strokeM, 'm');
}
