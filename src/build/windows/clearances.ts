import {
  SHIPPED_WINDOWS as CLEARANCE_WINDOWS,
  type ClearanceUse,
  type ClearanceWindow,
  WINDOW_SOURCES,
} from '../../trade/clearance/index.ts';
import type { WindowRule } from '../compute/windows.ts';

type Holds = Pick<WindowRule, 'uses' | 'when'>;

const FORCED = ['boosted', 'nitrous'] as const;
const forced = (uses: WindowRule['uses']): readonly Holds[] =>
  FORCED.map((aspiration) => ({ uses, when: { 'layout.aspiration': aspiration } }));

/**
 * The handbook's uses as the shop's sheets say them: a street engine is every sheet without a use of its own, and
 * boost or nitrous stands in the layout. A boosted engine under sustained load takes what is wider for its boost.
 */
const USES: Readonly<Record<ClearanceUse, readonly Holds[]>> = {
  street: [{ uses: null, when: {} }],
  'street boosted': [...forced(null), ...forced(['sustained'])],
  sustained: [{ uses: ['sustained'], when: {} }],
  race: [{ uses: ['race'], when: {} }],
  'race boosted': forced(['race']),
};

/** The handbook's materials as the sheet's choices; steel rods are all that are not aluminium. */
const MATERIALS: Readonly<Record<string, readonly WindowRule['when'][]>> = {
  cast: [{ 'pistons.material': 'cast' }, { 'pistons.material': 'hypereutectic cast' }],
  'forged 4032': [{ 'pistons.material': 'forged, high silicon' }],
  'forged 2618': [{ 'pistons.material': 'forged, low silicon' }],
  'steel rods': [{}],
  'aluminium rods': [{ 'rods.material': 'aluminium' }],
};

/** The handbook's own numbers as lines of the shop's list, one for each use and material that the sheet can say. */
function rulesOf(window: ClearanceWindow): WindowRule[] {
  const holds = window.uses === null ? USES.street : window.uses.flatMap((use) => USES[use]);
  const materials = window.material === null ? [{}] : MATERIALS[window.material]!;
  return holds.flatMap(({ uses, when }) =>
    materials.map((material) => ({
      name: window.kind,
      uses,
      when: { ...when, ...material },
      low: window.low,
      high: window.high,
      stopBelow: window.below === 'stop' ? window.low : null,
      stopAbove: window.above === 'stop' ? window.high : null,
      perM: window.per !== 'absolute',
      source: sourceOf(window),
    })),
  );
}

/** The source in words, its keys turned into addresses. */
function sourceOf({ source, tag }: ClearanceWindow): string {
  const keys = [...new Set(source.match(/S\d+/g) ?? [])];
  const named = keys.map((key) => `${key}: ${WINDOW_SOURCES[key] ?? ''}`).join('; ');
  const said = named === '' ? source : `${source}. ${named}`;
  return tag === 'M' && !/no source|memory/.test(said) ? `${said} (from memory)` : said;
}

/** All but the quench, which has lines of its own on the shop's list. */
export const CLEARANCE_RULES: readonly WindowRule[] = CLEARANCE_WINDOWS.filter(
  ({ kind }) => kind !== 'quench',
).flatMap(rulesOf);
