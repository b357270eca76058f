import { InputError } from '../errors.ts';
import { ownBands } from './bands.ts';
import { type GroupCurves, groupCurves } from './curves.ts';
import { chanceBelow, TAIL } from './means.ts';
import { figuresByDraw, measuresOf } from './measures.ts';
import { pairOf } from './pair.ts';
import type { CompareAnswer, CompareInput, ComparePull } from './types.ts';

/** Rises with any change of what a comparison says. */
export const COMPARE_VERSION = 2;
/** Least part of the wanted band that all pulls must cover together. */
const LEAST_COVERAGE = 0.5;

/**
 * Two or more groups of pulls, side by side, over the speeds that all of them cover.
 * Curves must stand in one air standard with inertia put back; `reconcile` sees to that.
 * @throws InputError  fewer than two groups, a group without a pull that counts, or no speeds in common
 */
export function compareGroups(input: CompareInput): CompareAnswer {
  if (input.groups.length < 2)
    throw new InputError('A comparison needs two groups of pulls at least.');
  const counted = input.groups.map((group) =>
    group.pulls.filter((pull) => pull.excludedBecause === null),
  );
  counted.forEach((pulls, g) => {
    if (pulls.length === 0)
      throw new InputError(`${input.groups[g]!.name} has no pull that counts.`);
  });
  const warnings: string[] = [];
  const band = commonBand(input, counted, warnings);
  const curves = groupCurves(input, counted, band);
  const figures = figuresByDraw(curves);
  const bands = ownBands(curves);
  const measures = input.groups.map((group, g) =>
    measuresOf(
      group.name,
      {
        pulls: counted[g]!.length,
        days: new Set(counted[g]!.map((pull) => pull.day)).size,
      },
      bands[g]!,
      curves,
      g,
      figures,
    ),
  );
  const pairs = counted
    .slice(1)
    .map((_, i) => pairOf(input, counted, curves, figures, measures, 0, i + 1));
  warnings.push(...dayWarnings(input, counted));
  return {
    version: COMPARE_VERSION,
    bandRpm: band,
    groups: measures,
    pairs,
    ranking: rankingOf(input, curves),
    repeatability: {
      ...overParts(curves, (part) => 100 * part.repeatSd),
      from:
        input.repeatabilityPercent !== null
          ? 'stated'
          : counted.some((pulls) => pulls.length > 1)
            ? 'pulls'
            : 'prior',
    },
    dayToDay:
      curves.dayCount < 2
        ? null
        : {
            ...overParts(curves, (part) => 100 * part.daySd),
            from: input.reference.length > 0 ? 'reference pulls' : 'prior',
          },
    warnings,
  };
}

/** The part of the wanted band that every counted pull covers. */
function commonBand(
  input: CompareInput,
  counted: readonly (readonly ComparePull[])[],
  warnings: string[],
): readonly [number, number] {
  const all = counted.flat();
  const [wantedLow, wantedHigh] = input.bandRpm;
  const low = Math.max(wantedLow, ...all.map((pull) => pull.torque.low));
  const high = Math.min(wantedHigh, ...all.map((pull) => pull.torque.high));
  const said = (from: number, to: number) => `${Math.round(from)} to ${Math.round(to)} rev/min`;
  if (!(high - low >= LEAST_COVERAGE * (wantedHigh - wantedLow)))
    throw new InputError(
      high > low
        ? `The pulls have only ${said(low, high)} in common, less than half of the band ${said(wantedLow, wantedHigh)}; choose a band that all of them cover.`
        : `The pulls have no speeds of the band ${said(wantedLow, wantedHigh)} in common.`,
    );
  if (low > wantedLow + 1 || high < wantedHigh - 1)
    warnings.push(`Compared from ${said(low, high)}: not every pull covers the whole band.`);
  return [low, high];
}

/** Weighted quantiles of a hyperparameter over the mixture. */
function overParts(
  curves: GroupCurves,
  read: (part: GroupCurves['parts'][number]) => number,
): { value: number; low: number; high: number } {
  const sorted = curves.parts
    .map((part) => ({ value: read(part), weight: part.weight }))
    .sort((a, b) => a.value - b.value);
  const total = sorted.reduce((sum, one) => sum + one.weight, 0);
  const at = (p: number) => {
    let sum = 0;
    for (const one of sorted) {
      sum += one.weight;
      if (sum >= p * total) return one.value;
    }
    return sorted.at(-1)!.value;
  };
  return { value: at(0.5), low: at(0.025), high: at(0.975) };
}

function rankingOf(input: CompareInput, curves: GroupCurves): CompareAnswer['ranking'] {
  const groups = input.groups.length;
  const everyGroup = curves.parts[0]!.mean.length;
  const best = new Array<number>(groups).fill(0);
  const level = (draw: readonly Float64Array[], g: number) => {
    let sum = 0;
    draw[g]!.forEach((value, m) => {
      const speed = curves.speedRpm[m]!;
      if (speed >= curves.bandRpm[0] - 1e-9 && speed <= curves.bandRpm[1] + 1e-9)
        sum += Math.exp(value) * speed;
    });
    return sum;
  };
  for (const draw of curves.draws) {
    const levels = input.groups.map((_, g) => level(draw, g));
    best[levels.indexOf(Math.max(...levels))]! += 1 / curves.draws.length;
  }
  const middle = input.groups.map((_, g) => level(curves.middle, g));
  const isLike = (g: number, h: number) => {
    const contrast = Array.from({ length: everyGroup }, (_, k) => (k === g ? 1 : k === h ? -1 : 0));
    const chance = chanceBelow(curves.parts, contrast, 0);
    return chance >= TAIL && chance <= 1 - TAIL;
  };
  return input.groups
    .map((group, g) => ({
      name: group.name,
      chanceBest: best[g]!,
      likeIt: input.groups.filter((_, h) => h !== g && isLike(g, h)).map((other) => other.name),
      middle: middle[g]!,
    }))
    .sort((a, b) => b.middle - a.middle)
    .map(({ middle: _, ...rest }) => rest);
}

function dayWarnings(input: CompareInput, counted: readonly (readonly ComparePull[])[]): string[] {
  const days = counted.map((pulls) => new Set(pulls.map((pull) => pull.day)));
  const isApart = days.slice(1).some((own) => ![...own].some((day) => days[0]!.has(day)));
  const out: string[] = [];
  if (isApart)
    out.push(
      input.reference.length > 0
        ? 'The groups were made on different days: their band carries how days differ, as the shop’s own reference pulls show it. More pulls do not shrink that part.'
        : 'The groups were made on different days: their band carries how days usually differ (1 to 2 % is what handbooks give). Reference pulls of an unchanged engine on several days would tell how days differ here; more pulls of these groups do not shrink that part.',
    );
  const drifting = counted.flat();
  const orders = counted.map((pulls) => pulls.map((pull) => pull.order));
  const oneDay = new Set(drifting.map((pull) => pull.day)).size === 1;
  if (oneDay && counted.length === 2 && drifting.length > 2) {
    const [a, b] = orders as [number[], number[]];
    if (Math.max(...a) < Math.min(...b) || Math.max(...b) < Math.min(...a))
      out.push(
        'All pulls of one group were made before all of the other: a drift of the day (heat soak) cannot be told from the change. One pull of the first again would tell.',
      );
  }
  return out;
}
