import { useState } from 'react';
import type { ShopSummary, SideWanted } from '../../api/types.gen.ts';
import type { SideWords } from '../../compare/props.ts';
import { letterOf } from '../../compare/words.ts';
import { SidePicker } from './side-picker.tsx';
import { nameOfWanted, sideWords } from './side-words.ts';

interface Choosing {
  readonly acts: {
    readonly onSwap: () => void;
    readonly onRemove: (at: number) => void;
    readonly onPick: (at: number | null) => void;
  };
  /** What can be picked, over the page; null while nothing is asked. */
  readonly picker: React.ReactNode;
}

/**
 * Changing the sides of a page that holds them in its address: the first moved to the end, one left out, one picked anew
 * or added.
 */
export function useSideChoosing(
  sides: readonly SideWanted[],
  go: (next: readonly SideWanted[]) => void,
): Choosing {
  const [picking, setPicking] = useState<number | 'more' | null>(null);
  return {
    acts: {
      onSwap: () => go([...sides.slice(1), ...sides.slice(0, 1)]),
      onRemove: (at) => go(sides.filter((_, side) => side !== at)),
      onPick: (at) => setPicking(at ?? 'more'),
    },
    picker: picking !== null && (
      <SidePicker
        letter={letterOf(picking === 'more' ? sides.length : picking)}
        onClose={() => setPicking(null)}
        onPick={(side) => {
          setPicking(null);
          go(
            picking === 'more'
              ? [...sides, side]
              : sides.map((one, at) => (at === picking ? side : one)),
          );
        }}
      />
    ),
  };
}

/** The sides in words: as the service told them, or while it has not, by the names they are asked for with. */
export function wordsOf(
  sides: readonly SideWanted[],
  told: readonly Parameters<typeof sideWords>[0][] | null,
  shop: ShopSummary | undefined,
): readonly SideWords[] {
  return told === null
    ? sides.map((side) => ({ name: nameOfWanted(side, shop), aside: '', pulls: [] }))
    : told.map(sideWords);
}
