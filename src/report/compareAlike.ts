import type { Side, SidePull } from '../compare/index.ts';

/** A pull with how the engine was set, in words (`28 degrees of lead`); null: nobody said. */
export interface SetPull extends SidePull {
  readonly setting: string | null;
}
export interface SetSide extends Side {
  readonly pulls: readonly SetPull[];
  /** Its pulls were chosen one by one and stay together, whatever their settings. */
  readonly chosen?: boolean;
  /** Which engine it is of, where that is known: one engine's setting says nothing of another's. */
  readonly engine?: string | undefined;
}

/** Pulls of one setting on each side, and what was left out for it. */
export interface Alike {
  /** All pulls of each side; those of another setting are left out with the reason. */
  readonly sides: readonly Side[];
  /** Which pulls were taken, in a sentence for the finding. */
  readonly sentence: string;
  readonly warnings: readonly string[];
}

/** Settings of a side with the mean power of their pulls. */
type Means = ReadonlyMap<string | null, number>;

/**
 * Only pulls of one setting say how much a part or a build did. Where the sides share a setting, the shared one at
 * which all together have most mean power: chance that lifts the sum leaves the difference alone. Where they share
 * none, each side at its own strongest setting, which flatters all and is said. A side whose pulls were chosen one by
 * one keeps them.
 * @param powerW  mean power of a pull over the band
 */
export function alikePulls(
  sides: readonly SetSide[],
  powerW: (pull: SidePull, side: number) => number,
): Alike {
  const means = sides.map((side, g) => meansOf(side, (pull) => powerW(pull, g)));
  const isMixed = (g: number) => sides[g]!.chosen === true && means[g]!.size > 1;
  const own = means.map(strongest);
  const isOneEngine = new Set(sides.map(({ engine }) => engine)).size === 1;
  const common = !isOneEngine || means.some((_, g) => isMixed(g)) ? null : sharedSetting(means);
  const at = common === null ? own : own.map(() => common);
  const took = (side: SetSide, g: number) =>
    side.pulls.filter(
      ({ excludedBecause, setting }) =>
        excludedBecause === null && (isMixed(g) || setting === at[g]),
    );
  const chosen = sides.map((side, g) => ({
    ...side,
    pulls: side.pulls.map((pull) =>
      isMixed(g) || pull.setting === at[g] || pull.excludedBecause !== null
        ? pull
        : { ...pull, excludedBecause: leftOut(pull.setting, at[g]!) },
    ),
  }));
  const counts = sides.map((side, g) => {
    const count = took(side, g).length;
    const said = isMixed(g)
      ? ' as chosen'
      : at[g] === null || common !== null || side.name.includes(at[g]!)
        ? ''
        : ` at ${at[g]}`;
    return `${count} ${count === 1 ? 'pull' : 'pulls'} of ${side.name}${said}`;
  });
  const taken = listed(counts);
  if (common !== null) {
    const elsewhere = own.some((setting) => setting !== common)
      ? [
          `Compared at ${common}, which ${both(sides)} have; by its own pulls the strongest setting is ${listed(sides.map(({ name }, g) => `${own[g]} for ${name}`))}.`,
        ]
      : [];
    return {
      sides: chosen,
      sentence:
        sides.length === 1 && took(sides[0]!, 0).length === 1
          ? `Taken was ${taken}, at ${common}.`
          : `Taken were ${taken}, all at ${common}.`,
      warnings: elsewhere,
    };
  }
  if (at.every((setting) => setting === null))
    return { sides: chosen, sentence: `Taken were ${taken}.`, warnings: [] };
  const hadChoice = means.some((one, g) => one.size > 1 && !isMixed(g));
  return {
    sides: chosen,
    sentence: isOneEngine
      ? `Taken were ${taken}: ${sides.length === 2 ? 'the two' : 'they'} share no setting, so the difference of the setting is in the gain.`
      : `Taken were ${taken}: of different engines, each at a setting of its own.`,
    warnings: hadChoice
      ? [
          'Each side stands at the setting that gave most power on the day: what was lucky there counts for it.',
        ]
      : [],
  };
}

const both = (sides: readonly unknown[]) => (sides.length === 2 ? 'both' : 'all');

/** `a`, `a and b`, `a, b and c`. */
export const listed = (texts: readonly string[]) =>
  texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;

const leftOut = (setting: string | null, taken: string | null) =>
  setting === null
    ? `it does not say how the engine was set; compared at ${taken}`
    : `it was made at ${setting}; compared at ${taken ?? 'pulls that do not say'}`;

function meansOf({ pulls }: SetSide, powerW: (pull: SidePull) => number): Means {
  const sums = new Map<string | null, { sum: number; count: number }>();
  for (const pull of pulls.filter((one) => one.excludedBecause === null)) {
    const known = sums.get(pull.setting) ?? { sum: 0, count: 0 };
    sums.set(pull.setting, { sum: known.sum + powerW(pull), count: known.count + 1 });
  }
  return new Map([...sums].map(([setting, { sum, count }]) => [setting, sum / count]));
}

const strongest = (of: Means) =>
  [...of].reduce((best, next) => (next[1] > best[1] ? next : best))[0];

/** The setting that all sides have and at which they have most power together; null: none. */
function sharedSetting([first, ...others]: readonly Means[]): string | null {
  const shared = new Map(
    [...first!]
      .filter(([setting]) => setting !== null && others.every((one) => one.has(setting)))
      .map(([setting, mean]) => [
        setting,
        others.reduce((sum, one) => sum + one.get(setting)!, mean),
      ]),
  );
  return shared.size > 0 ? strongest(shared) : null;
}
