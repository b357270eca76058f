import { ROAD_CAUTION, type RunPair } from '../../src/compare/index.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
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
export function headline({ answer, vehicle, trouble, sides }: UseViewProps): string {
  const [run] = vehicle?.pairs ?? [];
  const [pair] = answer?.pairs ?? [];
  if (run !== undefined) {
    const over = differenceOf(run, 'quarterMile');
    if (over?.value != null) {
      const { value, low, high } = over.value;
      const by = withUnit(plain(Math.abs(value), 2), 's');
      return low > 0 || high < 0
        ? `${value < 0 ? run.b : run.a} is quicker over the 1/4 mile by ${by}`
        : 'Over the 1/4 mile the two cannot be told apart';
    }
  }
  if (pair !== undefined) {
    const { value } = pair.gainPercent;
    return pair.word === 'cannot be told from chance'
      ? `For ${answer!.use.name} the two cannot be told apart`
      : `For ${answer!.use.name}, ${value > 0 ? pair.b : pair.a} has ${percent(Math.abs(value))} more`;
  }
  if (vehicle !== null) {
    const quarter = vehicle.builds[0]!.figures.find(({ id }) => id === 'quarterMile')!.value;
    return quarter === null
      ? `In ${vehicle.vehicle.name}`
      : `The 1/4 mile in ${withUnit(plain(quarter.value, 2), 's')}`;
  }
  if (trouble !== null) return 'Not answered';
  return `What ${sides[0]?.name ?? 'it'} is for`;
}

export const differenceOf = (pair: RunPair, id: string) =>
  pair.differences.find((one) => one.id === id);

/** The finding without the caution, which stands once on the page. */
export const withoutCaution = (finding: string): string => finding.replace(ROAD_CAUTION, '').trim();
