import { positive, possible } from '../possible.ts';

export type ThreadForm = 'metric' | 'inch';

export interface Thread {
  readonly form: ThreadForm;
  readonly majorM: number;
  readonly pitchM: number;
}

/**
 * How many pitches the diameter of the stress area lies under the major one. The two families take the mean of pitch
 * and root diameter with different roots.
 * @source  ISO 898-1 (As = π/4 ((d2 + d3)/2)², d2 = d − 0.6495 P, d3 = d − 1.2269 P); ASME B1.1 (0.9743/n)
 */
const UNDER_MAJOR_PITCHES: Readonly<Record<ThreadForm, number>> = { metric: 0.9382, inch: 0.9743 };

/**
 * Tensile stress area [m²] of a thread: π/4 (d − c P)², c of its family.
 * @throws NonPhysicalError  a pitch that leaves no core
 */
export function tensileAreaM2({ form, majorM, pitchM }: Thread): number {
  positive('thread diameter', majorM, 'm');
  positive('thread pitch', pitchM, 'm');
  possible('thread pitch', pitchM, 'm', pitchM < majorM / 2, 'less than half the diameter');
  return roundAreaM2(majorM - UNDER_MAJOR_PITCHES[form] * pitchM);
}

/** Area [m²] of a round section. */
export function roundAreaM2(diameterM: number): number {
  return (Math.PI / 4) * positive('diameter', diameterM, 'm') ** 2;
}

const IN_M = 0.0254;
const inch = (id: string, majorIn: number, perInch: number) =>
  ({ id, form: 'inch', majorM: majorIn * IN_M, pitchM: IN_M / perInch }) as const;
const metric = (id: string, majorMm: number, pitchMm: number) =>
  ({ id, form: 'metric', majorM: majorMm / 1000, pitchM: pitchMm / 1000 }) as const;

/** Threads that engines are held together with. */
export const THREADS: readonly (Thread & { readonly id: string })[] = [
  inch('1/4-20', 1 / 4, 20),
  inch('1/4-28', 1 / 4, 28),
  inch('5/16-18', 5 / 16, 18),
  inch('5/16-24', 5 / 16, 24),
  inch('3/8-16', 3 / 8, 16),
  inch('3/8-24', 3 / 8, 24),
  inch('7/16-14', 7 / 16, 14),
  inch('7/16-20', 7 / 16, 20),
  inch('1/2-13', 1 / 2, 13),
  inch('1/2-20', 1 / 2, 20),
  inch('9/16-12', 9 / 16, 12),
  inch('9/16-18', 9 / 16, 18),
  inch('5/8-11', 5 / 8, 11),
  inch('5/8-18', 5 / 8, 18),
  inch('3/4-10', 3 / 4, 10),
  inch('3/4-16', 3 / 4, 16),
  metric('M6×1', 6, 1),
  metric('M7×1', 7, 1),
  metric('M8×1.25', 8, 1.25),
  metric('M8×1', 8, 1),
  metric('M9×1', 9, 1),
  metric('M10×1.5', 10, 1.5),
  metric('M10×1.25', 10, 1.25),
  metric('M11×1.5', 11, 1.5),
  metric('M11×1.25', 11, 1.25),
  metric('M12×1.75', 12, 1.75),
  metric('M12×1.5', 12, 1.5),
  metric('M12×1.25', 12, 1.25),
  metric('M14×2', 14, 2),
  metric('M14×1.5', 14, 1.5),
  metric('M16×2', 16, 2),
  metric('M16×1.5', 16, 1.5),
  metric('M18×2.5', 18, 2.5),
  metric('M20×2.5', 20, 2.5),
];
