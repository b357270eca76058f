/** The test plan of a day, as it was ticked. */
import {
  labelsOf,
  type PlanTable,
  planSentence,
  type TickedItem,
  tickedPlan,
} from '../../build/index.ts';
import type { HandedDay } from '../handover/types.ts';
import { type Block, right, type Tick } from './blocks.ts';
import type { Teller } from './tell.ts';

export function planBlocks(
  { plan, ...day }: Pick<HandedDay, 'plan' | 'name' | 'date'>,
  tell: Teller,
): Block[] {
  const say = tell.words.plan;
  if (plan === null) return [];
  const ticked = tickedPlan(plan.plan, plan.ticks);
  return [
    { kind: 'heading', level: 2, text: say.title(tell.day(day)) },
    { kind: 'paragraph', text: say.made(tell.date(plan.madeAt)), quiet: true },
    ...ticked.sections.flatMap(({ title, items }): Block[] => {
      const shared = sharedBy(items, tell);
      return [
        { kind: 'heading', level: 3, text: tell.told(title) },
        ...(shared === null ? [] : [{ kind: 'paragraph', text: shared, quiet: true } as const]),
        { kind: 'ticks', items: items.map((item) => tickOf(item, shared !== null, tell)) },
        ...items.flatMap(({ table }) => (table === null ? [] : [tableOf(table, tell)])),
      ];
    }),
  ];
}

/** What an item says by speed; its last column says what it is. */
const tableOf = ({ columns, rows }: PlanTable, tell: Teller): Block => ({
  kind: 'table',
  caption: tell.told(columns.at(-1)!.label),
  columns: columns.map(({ label, shown }) => right(tell.headed(tell.told(label), shown))),
  rows: rows.map((row) => row.map((value, i) => tell.number(value, columns[i]!.shown))),
});

const isDone = ({ tick, hasChanged, struck }: TickedItem): boolean =>
  tick !== null && !hasChanged && struck === null;

/** What holds for every item of a section, said once: who did all of it on one day, or that nothing was ticked. */
function sharedBy(items: readonly TickedItem[], tell: Teller): string | null {
  const say = tell.words.plan;
  if (items.some(({ struck }) => struck !== null)) return null;
  if (items.every(({ tick }) => tick === null)) return say.open;
  const said = new Set(
    items.map((item) =>
      isDone(item) ? say.ticked(item.tick!.by, tell.date(item.tick!.at)) : say.open,
    ),
  );
  return said.size === 1 ? [...said][0]! : null;
}

function tickOf(item: TickedItem, isShared: boolean, tell: Teller): Tick {
  const say = tell.words.plan;
  const { tick, hasChanged, struck } = item;
  const hour = (iso: string) => `${iso.slice(11, 16)} UTC`;
  const by =
    struck !== null
      ? say.struck(struck.by, struck.reason)
      : tick === null
        ? isShared
          ? ''
          : say.open
        : hasChanged
          ? say.changed
          : isShared
            ? hour(tick.at)
            : say.ticked(tick.by, `${tell.date(tick.at)}, ${hour(tick.at)}`);
  const state = struck !== null ? 'struck' : isDone(item) ? 'done' : 'open';
  return { state, text: itemSaid(item, tell), by };
}

const ISO_DAY = /\b\d{4}-\d{2}-\d{2}\b/g;

/** An item as it is read; a line that somebody added stays in their words. */
function itemSaid(item: TickedItem, tell: Teller): string {
  const sentence = planSentence(item, tell.units).trim();
  if (item.added !== null) return sentence;
  // Labels have commas of their own, and each is told by itself.
  const toMeasure = item.measure.map((path) => labelsOf([path]));
  return tell.told(
    sentence
      .replace(
        `: ${toMeasure.join(', ')}.`,
        () => `: ${toMeasure.map((label) => tell.told(label)).join('; ')}.`,
      )
      .replace(ISO_DAY, (day) => tell.date(day)),
  );
}
