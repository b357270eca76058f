import type { PartSerial, ShopSummary } from '../api/types.gen.ts';
import { nameOfLadder } from '../screens/ladder/ladder-words.ts';
import { dateInWords } from './words.ts';

/** A page one can go to, with the words it is found by. */
export interface Place {
  readonly label: string;
  readonly beside: string;
  readonly to: string;
  /** Of a part. */
  readonly serial?: string;
  readonly words: string;
}

/** How a test day is called where it has no name of its own. */
export function dayLabel(day: { readonly name: string; readonly date: string | null }): string {
  if (day.name !== '' && day.date !== null) return `${day.name}, ${dateInWords(day.date)}`;
  if (day.name !== '') return day.name;
  return day.date === null ? 'Test day' : dateInWords(day.date);
}

/** All pages of a shop by name, and its parts by serial. */
export function placesOf(shop: ShopSummary, parts: readonly PartSerial[] = []): Place[] {
  const places: Place[] = [];
  for (const engine of shop.engines) {
    places.push({
      label: engine.name,
      beside: engine.owner === '' ? 'engine' : `engine, ${engine.owner}`,
      to: `/engines/${engine.id}`,
      words: `${engine.name} ${engine.serial} ${engine.owner} engine`,
    });
    for (const build of engine.builds)
      places.push({
        label: `${engine.name}, ${build.name}`,
        beside: 'build',
        to: `/builds/${build.id}`,
        words: `${engine.name} ${engine.owner} ${build.name} build`,
      });
  }
  for (const day of shop.latestDays) {
    const label = dayLabel(day);
    places.push({
      label: `${day.engineName}, ${label}`,
      beside: 'test day',
      to: `/days/${day.id}`,
      words: `${day.engineName} ${day.buildName} ${label} ${day.date ?? ''} test day`,
    });
    for (const ladder of day.ladders)
      places.push({
        label: `${day.engineName}, ${label}`,
        beside: nameOfLadder(ladder),
        to: `/ladders/${ladder.id}`,
        words: `${day.engineName} ${day.buildName} ${label} ${day.date ?? ''} ${nameOfLadder(ladder)} ${ladder.setting} ladder`,
      });
  }
  places.push({
    label: 'Parts',
    beside: 'all with a serial',
    to: '/parts',
    words: 'parts serials',
  });
  for (const { serial, name } of parts)
    places.push({
      label: `${serial}, ${name}`,
      beside: 'part',
      to: '/parts',
      serial,
      words: `${serial} ${name} part`,
    });
  return places;
}

/** Those places that have every word somewhere in their name. */
export function findPlaces(places: readonly Place[], words: string): Place[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return places.filter((place) => {
    const have = place.words.toLowerCase();
    return wanted.every((word) => have.includes(word));
  });
}
