import {
  SHIPPED_WINDOWS as CLEARANCE_WINDOWS,
  type ClearanceUse,
  type ClearanceWindow,
  WINDOW_SOURCES,
} from '../../trade/clearance/index.ts';
import { siteOf, type WindowRule } from '../compute/windows.ts';

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
      ...citationOf(window),
    })),
  );
}

/** The source in words, each of its keys by the name of the site; the whole addresses stand beside. */
function citationOf({ source, tag }: ClearanceWindow): Pick<WindowRule, 'source' | 'addresses'> {
  const addresses = [...new Set(source.match(/S\d+/g) ?? [])].flatMap(
    (key) => WINDOW_SOURCES[key] ?? [],
  );
  const named = source.replace(/S\d+/g, (key) => {
    const address = WINDOW_SOURCES[key];
    return address === undefined ? key : siteOf(address);
  });
  const said = tag === 'M' && !/no source|memory/.test(named) ? `${named} (from memory)` : named;
  return { source: said, ...(addresses.length === 0 ? {} : { addresses }) };
}

export const CLEARANCE_RULES: readonly WindowRule[] = CLEARANCE_WINDOWS.flatMap(rulesOf);
