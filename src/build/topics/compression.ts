import {
  type ClearanceParts,
  chamberForRatioM3,
  clearanceVolume,
  compressionRatio,
  crownForRatioM3,
  quenchM,
  sweptVolumeM3,
} from '../../trade/geometry/index.ts';
import { eachOf, firstOf, ifThere, meanOf, type Need, once, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { boreM, boresM, byPlace, decksM, orNone, strokeM, sweptM3 } from './basics.ts';

/** Gasket bore [m]; where nobody measured it, the cylinder's own, which makes the ratio a little high. */
const gasketBoreM: Need<number> = firstOf(one('deck.gasketBore'), boreM);

const topLand: Need<{ diameterM: number; depthM: number }> = (ask) => {
  const { diameterM, depthM } = ask.all({
    diameterM: one('pistons.topLandDiameter'),
    depthM: one('pistons.topLandHeight'),
  });
  return { diameterM, depthM };
};

const PARTS = {
  bores: boresM,
  chambers: eachOf('heads.chamberVolume'),
  decks: decksM,
  gasketBore: gasketBoreM,
  gasketThickness: one('deck.gasketThickness'),
  dome: orNone('pistons.domeVolume'),
  dish: orNone('pistons.dishVolume'),
  land: ifThere(topLand),
} as const;

/** Parts of the clearance volume of each cylinder; null where one of its own is not measured. */
const partsOf: Need<readonly (ClearanceParts | null)[]> = once((ask) => {
  const parts = ask.all(PARTS);
  return parts.bores.map((bore, i) => {
    const chamber = parts.chambers[i] ?? null;
    const deck = parts.decks[i] ?? null;
    if (bore === null || chamber === null || deck === null) return null;
    return {
      boreM: bore,
      chamberM3: chamber,
      domeM3: parts.dome,
      dishM3: parts.dish,
      deckM: deck,
      gasket: { boreM: parts.gasketBore, thicknessM: parts.gasketThickness },
      ...(parts.land === null ? {} : { topLand: parts.land }),
    };
  });
});

/** Clearance volume above each piston [m³]. */
export const clearancesM3: Need<readonly (number | null)[]> = once((ask) =>
  partsOf(ask).map((parts) => (parts === null ? null : clearanceVolume(parts).totalM3)),
);

/** Compression ratio of each cylinder. */
export const ratios: Need<readonly (number | null)[]> = once((ask) =>
  byPlace(ask.all({ swept: sweptM3, clearance: clearancesM3 }), (at) =>
    compressionRatio(at.swept, at.clearance),
  ),
);

/** What a part would have to be for the wanted ratio, by cylinder. */
const forWantedRatio =
  (
    solve: (parts: ClearanceParts, strokeM: number, ratio: number) => number,
  ): Need<readonly (number | null)[]> =>
  (ask) => {
    const { stroke, ratio } = ask.all({
      stroke: strokeM,
      ratio: one('intent.compressionRatio'),
      parts: partsOf,
    });
    return partsOf(ask).map((parts) => (parts === null ? null : solve(parts, stroke, ratio)));
  };

export const COMPRESSION_FIGURES: readonly FigureSpec[] = [
  {
    id: 'displacement',
    section: 'crank',
    label: 'Displacement',
    shown: 'displacement',
    how: 'π/4 × bore² × stroke of each cylinder, added up. Geometry.',
    compute: (ask) => {
      const { bore, stroke } = ask.all({ bore: boreM, stroke: strokeM });
      return sweptVolumeM3(bore, stroke) * ask.layout.cylinders;
    },
  },
  {
    id: 'clearanceVolume',
    section: 'deck',
    label: 'Clearance volume',
    shown: 'smallVolume',
    per: 'cylinder',
    how: 'Chamber + dish − dome + deck + gasket + gap round the top land, the last where it was measured. Geometry.',
    compute: clearancesM3,
  },
  {
    id: 'compressionRatio',
    section: 'deck',
    label: 'Compression ratio',
    shown: 'ratio',
    decimals: 2,
    per: 'cylinder',
    how: '(Swept + clearance) ÷ clearance. Geometry.',
    compute: ratios,
  },
  {
    id: 'chamberForRatio',
    section: 'deck',
    label: 'Chamber that gives the wanted ratio',
    shown: 'smallVolume',
    per: 'cylinder',
    how: 'Swept ÷ (wanted − 1), less all the other parts. Geometry.',
    compute: forWantedRatio(chamberForRatioM3),
  },
  {
    id: 'crownForRatio',
    section: 'deck',
    label: 'Dish (or dome, if negative) that gives the wanted ratio',
    shown: 'smallVolume',
    per: 'cylinder',
    how: 'Swept ÷ (wanted − 1), less all the other parts. Geometry.',
    compute: forWantedRatio(crownForRatioM3),
  },
];

export const COMPRESSION_CHECKS: readonly CheckSpec[] = [
  {
    id: 'quench',
    section: 'deck',
    label: 'Quench, cold',
    shown: 'bore',
    per: 'cylinder',
    how: 'Piston below deck + compressed gasket. At speed the rod stretches and the piston rocks: it gets smaller.',
    window: 'quench',
    compute: (ask) => {
      const { decks, gasket } = ask.all({ decks: decksM, gasket: one('deck.gasketThickness') });
      return decks.map((deck) => (deck === null ? null : quenchM(deck, gasket)));
    },
    remedy: {
      low: 'A thicker gasket, or less off the deck.',
      high: 'A thinner gasket, or the deck cut down; look at the ratio that follows.',
    },
    weight: 3,
  },
  {
    id: 'ratioSpread',
    section: 'deck',
    label: 'Spread of ratio between cylinders',
    shown: 'ratio',
    decimals: 2,
    how: 'Largest less smallest compression ratio.',
    window: 'ratioSpread',
    compute: (ask) => {
      const known = ratios(ask).filter((ratio): ratio is number => ratio !== null);
      return Math.max(...known) - Math.min(...known);
    },
    remedy: { low: '', high: 'Even out chambers and decks.' },
    weight: 1,
  },
];

/** Mean compression ratio. */
export const meanRatio: Need<number> = meanOf(ratios);
