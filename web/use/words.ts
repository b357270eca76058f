import { FIGURES, type GoalId, ROAD_CAUTION, type RunPair } from '../../src/compare/index.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { percent, plain, withUnit } from '../charts/numbers.ts';
import type { UseViewProps } from './props.ts';

/** What was found, a paragraph each: the use, the vehicle, its gearing. */
export function paragraphs({ answer, vehicle, gearing, taken, units }: UseViewProps): string {
  const all = [
    ...(answer?.pairs.map(({ finding }) => finding) ?? []),
    ...(vehicle === null ? [] : [vehicle.finding]),
    ...(vehicle === null || gearing === null ? [] : [gearing.finding]),
    ...(taken === '' ? [] : [taken]),
  ];
  return all.length === 1 && taken !== '' ? '' : all.map((one) => inUnitsOf(one, units)).join('\n');
}

/** What is read from across the shop. */
export function headline({ answer, vehicle, trouble, sides, chosen }: UseViewProps): string {
  const [run] = vehicle?.pairs ?? [];
  const [pair] = answer?.pairs ?? [];
  if (run !== undefined) {
    const over = differenceOf(run, chosen.goal);
    if (over?.value != null) {
      const { value, low, high } = over.value;
      const by = withUnit(plain(Math.abs(value), 2), 's');
      return low > 0 || high < 0
        ? `${value < 0 ? run.b : run.a} is quicker ${overGoal(chosen.goal)} by ${by}`
        : `The two cannot be told apart ${overGoal(chosen.goal)}`;
    }
  }
  if (pair !== undefined) {
    const { value } = pair.gainPercent;
    return pair.word === 'cannot be told from chance'
      ? `For ${answer!.use.name} the two cannot be told apart`
      : `For ${answer!.use.name}, ${value > 0 ? pair.b : pair.a} has ${percent(Math.abs(value))} more`;
  }
  if (vehicle !== null) {
    const time = vehicle.builds[0]!.figures.find(({ id }) => id === chosen.goal)!.value;
    return time === null
      ? `In ${vehicle.vehicle.name}`
      : `${goalName(chosen.goal)} in ${withUnit(plain(time.value, 2), 's')}`;
  }
  if (trouble !== null) return 'Not answered';
  return `What ${sides[0]?.name ?? 'it'} is for`;
}

/** Stretches named in the other system's units are left out: each has its like. */
export const isFor = (id: string, units: UnitSystem): boolean =>
  !(units === 'us' ? /kmh$/ : /mph$/).test(id);

/** `1/4 mile`, `0 to 60 mph`. */
export const goalName = (goal: GoalId): string => FIGURES.find(({ id }) => id === goal)!.name;

/** `over the 1/4 mile`, `from 0 to 60 mph`. */
const overGoal = (goal: GoalId): string =>
  goal.includes('-') ? `from ${goalName(goal)}` : `over the ${goalName(goal)}`;

export const differenceOf = (pair: RunPair, id: string) =>
  pair.differences.find((one) => one.id === id);

/** The finding without the caution, which stands once on the page. */
export const withoutCaution = (finding: string): string => finding.replace(ROAD_CAUTION, '').trim();
