import { InputError } from '../errors.ts';
import { ownBands } from './bands.ts';
import { DRAWS, type GroupCurves, type PreparedCurves, prepareCurves } from './curves.ts';
import { chanceBelow, lessOf, TAIL } from './means.ts';
import { figuresOf, measuresOf } from './measures.ts';
import { pairOf } from './pair.ts';
import type { CompareAnswer, CompareInput, ComparePull } from './types.ts';

/** Rises with any change of what a comparison says. */
export const COMPARE_VERSION = 4;
/** Least part of the wanted band that all pulls must cover together. */
const LEAST_COVERAGE = 0.5;

/** A comparison whose groups are fixed and whose band is still to be chosen. */
export interface PreparedCompare {
  /** The lowest and the highest speed that all pulls that count cover. */
  readonly speedsRpm: readonly [number, number];
  /**
   * The answer over a band: a few milliseconds, so that a band can be dragged.
   * @throws InputError  less than half of the band is covered by all pulls
   */
  over(bandRpm: readonly [number, number]): CompareAnswer;
}

/**
 * Two or more groups of pulls, side by side, over the speeds that all of them cover.
 * Curves must stand in one air standard with inertia put back; `reconcile` sees to that.
 * @throws InputError  fewer than two groups, a group without a pull that counts, or no speeds in common
 */
export function compareGroups(input: CompareInput): CompareAnswer {
  if (input.groups.length < 2)
    throw new InputError('A comparison needs two groups of pulls at least.');
  return prepareCompare(input).over(input.bandRpm);
}

/**
 * All of a comparison that its band does not change. One group alone is measured and compared with nothing.
 * @throws InputError  a group without a pull that counts, or no speeds in common
 */
export function prepareCompare(input: Omit<CompareInput, 'bandRpm'>): PreparedCompare {
  const counted = input.groups.map((group) =>
    group.pulls.filter((pull) => pull.excludedBecause === null),
  );
  counted.forEach((pulls, g) => {
    if (pulls.length === 0)
      throw new InputError(`${input.groups[g]!.name} has no pull that counts.`);
  });
  const all = counted.flat();
  const speedsRpm = [
    Math.max(...all.map((pull) => pull.torque.low)),
    Math.min(...all.map((pull) => pull.torque.high)),
  ] as const;
  if (!(speedsRpm[1] > speedsRpm[0])) throw new InputError('The pulls have no speeds in common.');
  const prepared = prepareCurves(input, counted, speedsRpm);
  return {
    speedsRpm,
    over: (bandRpm) => answerOver(input, counted, speedsRpm, bandRpm, prepared),
  };
}

function answerOver(
  input: Omit<CompareInput, 'bandRpm'>,
  counted: readonly (readonly ComparePull[])[],
  speedsRpm: readonly [number, number],
  wantedRpm: readonly [number, number],
  prepared: PreparedCurves,
): CompareAnswer {
  const warnings: string[] = [];
  const band = commonBand(wantedRpm, speedsRpm, warnings);
  const curves = prepared.over(band);
  const figures = curves.groups.map((group) => figuresOf(curves, group));
  const bands = ownBands(curves);
  const measures = input.groups.map(({ name }, g) => {
    const days = new Set(counted[g]!.map((pull) => pull.day)).size;
    return measuresOf(name, { pulls: counted[g]!.length, days }, bands[g]!, curves, g, figures[g]!);
  });
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
  [wantedLow, wantedHigh]: readonly [number, number],
  speedsRpm: readonly [number, number],
  warnings: string[],
): readonly [number, number] {
  const low = Math.max(wantedLow, speedsRpm[0]);
  const high = Math.min(wantedHigh, speedsRpm[1]);
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

function rankingOf(
  input: Omit<CompareInput, 'bandRpm'>,
  { groups, parts }: GroupCurves,
): CompareAnswer['ranking'] {
  const best = groups.map(() => 0);
  for (let i = 0; i < DRAWS; i++) {
    let first = 0;
    for (let g = 1; g < groups.length; g++)
      if (groups[g]!.level[i]! > groups[first]!.level[i]!) first = g;
    best[first]! += 1 / DRAWS;
  }
  const isLike = (g: number, h: number) => {
    const chance = chanceBelow(parts, lessOf(g, h, parts), 0);
    return chance >= TAIL && chance <= 1 - TAIL;
  };
  return input.groups
    .map((group, g) => ({
      name: group.name,
      chanceBest: best[g]!,
      likeIt: input.groups.filter((_, h) => h !== g && isLike(g, h)).map((other) => other.name),
      level: parts.reduce((sum, part) => sum + part.weight * part.mean[g]!, 0),
    }))
    .sort((a, b) => b.level - a.level)
    .map(({ level: _, ...rest }) => rest);
}

function dayWarnings(
  input: Omit<CompareInput, 'bandRpm'>,
  counted: readonly (readonly ComparePull[])[],
): string[] {
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
