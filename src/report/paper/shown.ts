/** The result of a hand-over as a picture to be shown. */
import { InputError } from '../../errors.ts';
import type { CurvesFigure, ShownWanted } from '../../figures.ts';
import type { Banded } from '../../pull/index.ts';
import { steady } from '../../signs.ts';
import type { UnitSystem } from '../../units/index.ts';
import type { HandOver } from '../handover/types.ts';
import { finalFigure } from './pictures.ts';
import { catalogueOf, type Language } from './say/index.ts';
import { Teller } from './tell.ts';

/** Sizes in which it is asked for [pixels]: a screen, a large one, a square, a tall one for a telephone. */
export const SHAPES = {
  screen: { width: 1920, height: 1080 },
  large: { width: 3840, height: 2160 },
  square: { width: 1080, height: 1080 },
  story: { width: 1080, height: 1920 },
} as const;
export type Shape = keyof typeof SHAPES;

/** @throws InputError  no pull of it has a curve */
export function shownOf(
  handOver: HandOver,
  language: Language,
  units: UnitSystem = handOver.choice.units,
): ShownWanted & { readonly figure: CurvesFigure } {
  const { final, shop, engine, build, choice } = handOver;
  if (final === null)
    throw new InputError('No pull of this hand-over has a curve, so there is nothing to show.');
  const tell = new Teller(catalogueOf(language), units);
  return {
    title: steady(`${engine.name}, ${build.name}`),
    scenario: tell.words.findings.air(choice.standard),
    headlines: headlinesOf(tell, final.peakPowerW, final.peakTorqueNm),
    figure: finalFigure(handOver, tell),
    by: steady(shop.name),
    mark: shop.mark ?? null,
  };
}

type BandedPeak = Banded & { readonly speedRpm: number };

/** Peak power and torque, each with what it is of. */
export function headlinesOf(
  tell: Teller,
  peakPowerW: BandedPeak,
  peakTorqueNm: BandedPeak,
): ShownWanted['headlines'] {
  const headline = (banded: BandedPeak, kind: 'power' | 'torque'): readonly [string, string] => {
    const [whole, interval = ''] = tell.banded(banded, kind).split(/ (?=\()/);
    return [whole!, `${tell.words.at(tell.speed(banded.speedRpm))} ${interval}`.trim()];
  };
  return [headline(peakPowerW, 'power'), headline(peakTorqueNm, 'torque')];
}
