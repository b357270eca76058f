/** Comparisons that the pages of the shop offer. */
import type { Build, DayPage, EnginePage, ShopSummary } from '../../api/types.gen.ts';
import { type CompareSearch, sidesToText } from './side-address.ts';
import { choicesOfDay } from './side-choices.ts';

/** Builds against the first of them. */
export const buildsSearch = (...ids: readonly string[]): CompareSearch => ({
  sides: sidesToText(ids.map((buildId) => ({ kind: 'build', buildId }))),
});

/** Builds of an engine with pulls, in the order they were written down. */
export const testedBuilds = ({
  builds,
  days,
}: Pick<EnginePage, 'builds' | 'days'>): readonly Build[] =>
  builds.filter(({ id }) => days.some((day) => day.buildId === id && day.pullCount > 0));

/** The tested build before one of an engine's; null where it is the first. */
export function lastBefore(id: string, page: Pick<EnginePage, 'builds' | 'days'>): Build | null {
  const at = page.builds.findIndex((build) => build.id === id);
  return testedBuilds({ ...page, builds: page.builds.slice(0, at) }).at(-1) ?? null;
}

/** The lowest and the highest rung of a day's first ladder that has two; null where none has. */
export function settingsSearch(page: DayPage): CompareSearch | null {
  for (const { id } of page.ladders) {
    const rungs = choicesOfDay(page)
      .map(({ side }) => side)
      .filter((side) => side.kind === 'rung' && side.ladderId === id);
    const [low, high] = [rungs[0], rungs.at(-1)];
    if (low !== undefined && high !== undefined && low !== high)
      return { sides: sidesToText([low, high]) };
  }
  return null;
}

/** Engines whose last two tested builds can be compared. */
export function readyPairs({ engines }: ShopSummary) {
  return engines.flatMap((engine) => {
    const [before, after] = engine.builds.filter(({ pullCount }) => pullCount > 0).slice(-2);
    return before === undefined || after === undefined
      ? []
      : [
          {
            label: `${engine.name}: ${before.name} against ${after.name}`,
            search: buildsSearch(before.id, after.id),
          },
        ];
  });
}
