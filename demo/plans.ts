import { type Plan, type PlanEdit, tickedPlan } from '../src/build/index.ts';

/** What the people of the invented shop did with the test plan of one of its days. */
interface DemoPlan {
  readonly engine: string;
  readonly day: string;
  readonly who: string;
  readonly madeAt: string;
  readonly edits: readonly PlanEdit[];
  /** One after another, a few minutes apart from `from` on. */
  readonly ticked: readonly {
    readonly who: string;
    readonly from: string;
    readonly groups: readonly string[];
  }[];
}

const MINUTES_APART = 3;

export const DEMO_PLANS: readonly DemoPlan[] = [
  {
    engine: 'Rally six',
    day: 'Run-in and first pulls',
    who: 'Odile, bench 1',
    madeAt: '2026-04-08T06:40:00.000Z',
    edits: [
      {
        act: 'strike',
        itemId: 'consumables.gaskets',
        reason: 'only the rocker cover comes off today, and its gasket is new',
      },
      {
        act: 'add',
        group: 'preRun',
        sentence: 'The heater hoses are looped, since the matrix stays in the car.',
        weight: 'must',
        beforeFirstStart: true,
      },
    ],
    ticked: [
      { who: 'Odile, bench 1', from: '2026-04-08T07:05:00.000Z', groups: ['preRun'] },
      {
        who: 'the operator',
        from: '2026-04-08T08:30:00.000Z',
        groups: ['safety', 'limits', 'warmUp', 'firstSettings'],
      },
      { who: 'the operator', from: '2026-04-08T09:40:00.000Z', groups: ['runIn'] },
    ],
  },
];

/** Items of the groups that stand, each with the minute at which it was done. */
export function ticksOf(
  plan: Plan,
  { from, groups }: DemoPlan['ticked'][number],
): { readonly itemId: string; readonly at: string }[] {
  return tickedPlan(plan, [])
    .open.filter(({ group }) => groups.includes(group))
    .map(({ id }, i) => ({
      itemId: id,
      at: new Date(Date.parse(from) + i * MINUTES_APART * 60_000).toISOString(),
    }));
}
