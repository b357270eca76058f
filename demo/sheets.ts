import { parseSheet, type Sheet } from '../src/build/index.ts';
import { SINGLE_SEASON } from './sheet-single.ts';
import { SIX_AS_IT_CAME, SIX_REFRESHED } from './sheet-six.ts';
import { V8_OVERHAUL } from './sheet-v8.ts';

export interface DemoSheet {
  /** Names of the engine and the build in the demo shop. */
  readonly engine: string;
  readonly build: string;
  readonly sheet: Sheet;
}

/** The build sheets of the invented shop, in agreement with what its engines and builds say of themselves. */
export function demoSheets(): readonly DemoSheet[] {
  return [
    { engine: 'Rally six', build: 'As it came in', sheet: parseSheet(SIX_AS_IT_CAME) },
    { engine: 'Rally six', build: 'Refresh 2026', sheet: parseSheet(SIX_REFRESHED) },
    { engine: 'Rescue boat V8', build: 'Overhaul 2026', sheet: parseSheet(V8_OVERHAUL) },
    { engine: 'Grass-track single', build: 'Season 2026', sheet: parseSheet(SINGLE_SEASON) },
  ];
}
