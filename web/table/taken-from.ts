import { createContext, useContext } from 'react';
import type { About } from '../../src/units/export/table.ts';

/** What a table of this page is of, for the file that it is taken as. */
export interface TakenFrom {
  /** Names on the way to the page, the page's own last. */
  readonly place: readonly string[];
  /** Shop, engine, build, day, air standard, as far as the page has them; asked for when a table is taken. */
  readonly about: () => Promise<readonly About[]>;
}

const NOWHERE: TakenFrom = { place: [], about: async () => [] };

export const TakenFromContext = createContext<TakenFrom>(NOWHERE);
export const useTakenFrom = (): TakenFrom => useContext(TakenFromContext);

/** What a step of the way to a page is, by its address. */
const KINDS: readonly (readonly [start: string, what: string])[] = [
  ['/engines/', 'Engine'],
  ['/builds/', 'Build'],
  ['/days/', 'Test day'],
  ['/pulls/', 'Pull'],
  ['/ladders/', 'Ladder'],
  ['/cells/', 'Cell'],
];

/** The way to a page as facts. A page below a build or a day is a page, whatever its address begins with. */
export function placeFacts(
  crumbs: readonly { readonly label: string; readonly to?: string }[],
  path: string,
): About[] {
  return crumbs.flatMap(({ label, to }): About[] => {
    const address = to ?? path;
    if (address === '/') return [];
    const kind = KINDS.find(([start]) => new RegExp(`^${start}[^/]+/?$`).test(address));
    return [[kind?.[1] ?? 'Page', label]];
  });
}
