import { answerPartTest, type PartAnswer, type PartPlan, partPointsOf } from '../compare/index.ts';
import type { CompareQuestion } from './compareSides.ts';

/**
 * A part test of two sides brought together, after the pulls made.
 * @param statedPercent  the cell's pull-to-pull sd that the shop states [%], or null
 */
export function readPartTest(
  { input, taken }: CompareQuestion,
  plan: PartPlan,
  statedPercent: number | null,
): PartAnswer {
  const [a, b] = input.groups;
  const splines = input.groups.flatMap(({ pulls }) =>
    pulls.filter(({ excludedBecause }) => excludedBecause === null).map(({ torque }) => torque),
  );
  const band = [
    Math.max(input.bandRpm[0], ...splines.map(({ low }) => low)),
    Math.min(input.bandRpm[1], ...splines.map(({ high }) => high)),
  ] as const;
  const names = { a: taken.sides[0]!.name, b: taken.sides[1]!.name };
  return answerPartTest(partPointsOf(a!.pulls, b!.pulls, band), plan, statedPercent, names);
}

/** A part test of which one side has no pull yet. */
export function partNotBegun(
  plan: PartPlan,
  repeatabilityPercent: number,
  made: { readonly a: number; readonly b: number },
): PartAnswer {
  const left = { ...made };
  const next = plan.order.find((side) => left[side]-- <= 0) ?? null;
  return {
    by: 'blocks',
    pulls: made,
    gain: null,
    chanceAhead: null,
    word: 'not known yet',
    noLargerThanPercent: null,
    driftPercent: null,
    repeatabilityPercent,
    blocks: [],
    action: 'go on',
    next,
    finding: `Nothing is said before both sides have pulls.${next === null ? '' : ` Next: a pull of ${next.toUpperCase()}.`}`,
    warnings: [],
  };
}
