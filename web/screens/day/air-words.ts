import type { AirStandard, Curve } from '../../api/types.gen.ts';
import { nameOfStandard } from '../../shell/words.ts';

/** In which air curves stand that were asked for in `standard`: never claims a correction that was not made. */
export function airInWords(
  curves: readonly Pick<Curve, 'basis' | 'standard'>[],
  standard: AirStandard,
): string {
  const unknown = curves.filter((curve) => curve.basis.air === 'unknown').length;
  if (curves.length > 0 && unknown === curves.length)
    return 'As recorded, not corrected: nobody has said what the torque column holds.';
  const others =
    unknown === 0
      ? ''
      : `; ${unknown} of them as recorded, since nobody has said what the torque column holds`;
  return standard === 'none'
    ? `As observed, in the air of the day${others}.`
    : `In the air of ${nameOfStandard(standard)}${others}.`;
}
