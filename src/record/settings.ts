/**
 * The settings of two shops brought together where one is taken into another. The rule: a shop that nobody has set up
 * and that holds nothing yet takes all of them. In any other, what is blank here is filled, uses and windows that are
 * not here come in, and whatever stands here otherwise stays as it is; each of these is told. Nothing is written over.
 */
import { NEW_SHOP } from './defaults.ts';
import { isAlike } from './draft.ts';
import type { Shop, UseRules } from './types.ts';

/** What becomes of the settings, each in a few words. */
export interface SettingsTold {
  readonly taken: readonly string[];
  readonly kept: readonly string[];
  readonly renamed: readonly string[];
}
export interface SettingsMerged extends SettingsTold {
  readonly patch: Partial<Shop>;
}

const WORDS: Readonly<Record<Exclude<keyof Shop, 'uses' | 'windows' | 'invented'>, string>> = {
  name: 'the name',
  address: 'the address',
  mark: 'the mark',
  units: 'the units',
  standard: 'the air standard',
  worthPercent: 'the gain worth having',
  stepDeg: 'the step of leads',
  repeatabilityPercent: 'the stated repeatability',
  holdbackDegPer10K: 'the holdback by temperature',
  holdbackDegPerOctane: 'the holdback by octane',
};
const SINGLE = Object.keys(WORDS) as (keyof typeof WORDS)[];
/** Blank is what says nothing yet, not what somebody may have chosen. */
const CAN_BE_BLANK: readonly (keyof Shop)[] = ['name', 'address', 'mark'];

/**
 * @param from  name of the shop that it comes from
 * @param isEmpty  no engine and no cell is here
 */
export function mergedSettings(
  here: Shop,
  given: Shop,
  { from, isEmpty }: { readonly from: string; readonly isEmpty: boolean },
): SettingsMerged {
  const differing = SINGLE.filter((field) => !isAlike(here[field], given[field]));
  if (isEmpty && isAlike(here, NEW_SHOP)) {
    const lists = (['uses', 'windows'] as const).filter((of) => !isAlike(here[of], given[of]));
    return {
      patch: given,
      taken: [...differing.map((field) => WORDS[field]), ...lists.map((of) => `the ${of}`)],
      kept: [],
      renamed: [],
    };
  }
  const isBlank = (field: keyof Shop) =>
    CAN_BE_BLANK.includes(field) && isAlike(here[field], NEW_SHOP[field]);
  const filled = differing.filter(isBlank);
  const left = differing.filter(
    (field) => !isBlank(field) && !isAlike(given[field], NEW_SHOP[field]),
  );
  const uses = mergedUses(here.uses, given.uses, from);
  const windows = mergedWindows(here.windows, given.windows);
  return {
    patch: {
      ...Object.fromEntries(filled.map((field) => [field, given[field]])),
      ...(uses.all.length === here.uses.length ? {} : { uses: uses.all }),
      ...(windows.all.length === here.windows.length ? {} : { windows: windows.all }),
    },
    taken: [...filled.map((field) => WORDS[field]), ...uses.taken, ...windows.taken],
    kept: [...left.map((field) => WORDS[field]), ...windows.kept],
    renamed: uses.renamed,
  };
}

/** A use of the same name with other rules comes in under another name, because days and decisions name it. */
function mergedUses(here: readonly UseRules[], given: readonly UseRules[], from: string) {
  const all = [...here];
  const taken: string[] = [];
  const renamed: string[] = [];
  const named = (name: string) =>
    all.find((use) => use.name.toLowerCase() === name.toLowerCase()) ?? null;
  for (const use of given) {
    const standing = named(use.name);
    if (standing === null) {
      all.push(use);
      taken.push(`the use “${use.name}”`);
      continue;
    }
    const isShipped = NEW_SHOP.uses.some((shipped) => isAlike(shipped, use));
    if (isAlike(standing, use) || isShipped) continue;
    for (let n = 1; ; n += 1) {
      const name = `${use.name} (${from.slice(0, 80)}${n === 1 ? '' : ` ${n}`})`.slice(-200);
      const other = named(name);
      if (other !== null && isAlike({ ...other, name: use.name }, use)) break;
      if (other !== null) continue;
      all.push({ ...use, name });
      renamed.push(`the use “${use.name}” comes in as “${name}”`);
      break;
    }
  }
  return { all, taken, renamed };
}

function mergedWindows(here: Shop['windows'], given: Shop['windows']) {
  const all = [...here];
  const taken: string[] = [];
  const kept: string[] = [];
  for (const rule of given) {
    const of = ({ name, uses, when }: (typeof given)[number]) => [name, uses, when];
    const standing = here.find((one) => isAlike(of(one), of(rule)));
    if (standing === undefined) {
      all.push(rule);
      taken.push(`the window “${rule.name}”`);
    } else if (!isAlike(standing, rule)) kept.push(`the window “${rule.name}”`);
  }
  return { all, taken, kept };
}
