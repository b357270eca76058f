import type { CompareSide, ShopSummary, SidePull, SideWanted } from '../../api/types.gen.ts';
import type { PullWords, SideWords } from '../../compare/props.ts';
import { dayLabel } from '../../shell/places.ts';
import { count, dateInWords } from '../../shell/words.ts';

/** A side as it stands above the picture. */
export const sideWords = (side: CompareSide): SideWords => {
  const href = hrefOf(side.wanted);
  return {
    name: side.name,
    aside: side.known === 'peaks' ? 'known by its peaks alone' : asideOf(side),
    ...(href === null ? {} : { href }),
    pulls: side.pulls.map(pullWords),
  };
};

function pullWords(pull: SidePull, at: number): PullWords {
  return {
    key: pull.pullId ?? `${at}`,
    name: pull.label,
    setting: pull.setting,
    why: pull.counted ? null : (pull.why ?? 'left out'),
    ...(pull.pullId === null ? {} : { href: `/pulls/${pull.pullId}` }),
  };
}

const distinct = (texts: readonly (string | null)[]): string[] => [
  ...new Set(texts.filter((text) => text !== null)),
];

/** `3 pulls at 28 degrees of lead, 14 May 2026`. */
function asideOf({ pulls, wanted }: CompareSide): string {
  if (wanted.kind === 'paper') return 'typed from paper';
  const used = pulls.filter(({ counted }) => counted);
  const settings = distinct(used.map(({ setting }) => setting));
  const days = distinct(used.map(({ date, day }) => (date === null ? day : dateInWords(date))));
  const at = settings.length === 1 ? ` at ${settings[0]}` : '';
  const when = days.length > 2 ? `${days.length} days` : days.join(' and ');
  return [`${count(used.length, 'pull')}${at}`, when].filter(Boolean).join(', ');
}

function hrefOf(wanted: SideWanted): string | null {
  switch (wanted.kind) {
    case 'build':
    case 'left':
      return `/builds/${wanted.buildId}`;
    case 'day':
    case 'group':
      return `/days/${wanted.dayId}`;
    case 'rung':
    case 'ladder':
      return `/ladders/${wanted.ladderId}`;
    case 'engine':
      return `/engines/${wanted.engineId}`;
    default:
      return null;
  }
}

/** What a side is called before the service has read it, as far as the shop's list tells. */
export function nameOfWanted(wanted: SideWanted, shop: ShopSummary | undefined): string {
  if (wanted.name !== undefined) return wanted.name;
  const engineOf = (id: string) => shop?.engines.find((one) => one.id === id)?.name;
  const buildOf = (id: string) => {
    const engine = shop?.engines.find(({ builds }) => builds.some((one) => one.id === id));
    return engine && `${engine.name}, ${engine.builds.find((one) => one.id === id)!.name}`;
  };
  const dayOf = (id: string) => {
    const day = shop?.latestDays.find((one) => one.id === id);
    return day && `${day.engineName}, ${dayLabel(day)}`;
  };
  switch (wanted.kind) {
    case 'engine':
      return engineOf(wanted.engineId) ?? 'an engine';
    case 'build':
      return buildOf(wanted.buildId) ?? 'a build';
    case 'left':
      return `${buildOf(wanted.buildId) ?? 'a build'} as left`;
    case 'day':
      return dayOf(wanted.dayId) ?? 'a test day';
    case 'group':
      return `${dayOf(wanted.dayId) ?? 'a test day'}, ${wanted.group}`;
    case 'rung':
      return `a rung at ${wanted.setting}`;
    case 'ladder':
      return 'a ladder';
    case 'pulls':
      return count(wanted.pullIds.length, 'chosen pull');
    case 'paper':
      return 'a curve from paper';
  }
}
