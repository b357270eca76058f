import type { Side, SidePull } from '../compare/index.ts';

interface SetPull extends SidePull {
  readonly setting: number | null;
}
interface SetSide extends Side {
  readonly pulls: readonly SetPull[];
}

/** Pulls of one setting on each side, and what was left out for it. */
export interface Alike {
  readonly sides: readonly Side[];
  /** Which pulls were taken, in a sentence for the finding. */
  readonly sentence: string;
  readonly warnings: readonly string[];
}

/**
 * Only pulls of one setting say how much a part or a build did. Where the sides share a setting, the shared one at
 * which both together have most mean power: chance that lifts the sum leaves the difference alone. Where they share
 * none, each side at its own strongest setting, which flatters both and is said.
 * @param powerW  mean power of a pull over the band
 */
export function alikePulls(
  sides: readonly SetSide[],
  powerW: (pull: SidePull, side: number) => number,
): Alike {
  const means = sides.map(({ pulls }, g) => {
    const sums = new Map<number | null, { sum: number; count: number }>();
    for (const pull of pulls.filter((one) => one.excludedBecause === null)) {
      const known = sums.get(pull.setting) ?? { sum: 0, count: 0 };
      sums.set(pull.setting, { sum: known.sum + powerW(pull, g), count: known.count + 1 });
    }
    return new Map([...sums].map(([setting, { sum, count }]) => [setting, sum / count]));
  });
  const strongest = (of: ReadonlyMap<number | null, number>) =>
    [...of].reduce((best, next) => (next[1] > best[1] ? next : best))[0];
  const own = means.map(strongest);
  const [first, ...others] = means;
  const shared = new Map(
    [...first!]
      .filter(([setting]) => setting !== null && others.every((one) => one.has(setting)))
      .map(([setting, mean]) => [
        setting,
        others.reduce((sum, one) => sum + one.get(setting)!, mean),
      ]),
  );
  const common = shared.size > 0 ? strongest(shared) : null;
  const at = common === null ? own : own.map(() => common);
  const chosen = sides.map((side, g) => ({
    ...side,
    pulls: side.pulls.filter(({ setting }) => setting === at[g]),
  }));
  const counts = chosen.map(({ name, pulls }, g) => {
    const count = pulls.filter(({ excludedBecause }) => excludedBecause === null).length;
    const said = at[g] === null || common !== null ? '' : ` at ${at[g]} degrees`;
    return `${count} ${count === 1 ? 'pull' : 'pulls'} of ${name}${said}`;
  });
  const taken = counts.join(' and ');
  if (common !== null) {
    const elsewhere = own.some((setting) => setting !== common)
      ? [
          `Compared at ${common} degrees, which both have; by its own pulls the strongest setting is ${sides.map(({ name }, g) => `${own[g]} degrees for ${name}`).join(' and ')}.`,
        ]
      : [];
    return {
      sides: chosen,
      sentence: `Taken were ${taken}, all at ${common} degrees of lead.`,
      warnings: elsewhere,
    };
  }
  if (at.every((setting) => setting === null))
    return { sides: chosen, sentence: `Taken were ${taken}.`, warnings: [] };
  const hadChoice = means.some((one) => one.size > 1);
  return {
    sides: chosen,
    sentence: `Taken were ${taken}: the two share no setting, so the difference of the setting is in the gain.`,
    warnings: hadChoice
      ? [
          'Each side stands at the setting that gave most power on the day: what was lucky there counts for it.',
        ]
      : [],
  };
}
