import { InputError } from '../../errors.ts';
import type { DisplayKind } from '../../units/display.ts';
import { itemsOf, planSentence } from './say.ts';
import {
  NO_EDITS,
  type Plan,
  type PlanEdits,
  type PlanGroup,
  type PlanItem,
  type PlanSection,
} from './types.ts';

/** One change of a day's plan, as somebody asks for it. */
export type PlanEdit =
  | { readonly act: 'strike'; readonly itemId: string; readonly reason: string }
  | {
      readonly act: 'number';
      readonly itemId: string;
      /** Which stretch of the sentence, from 0. */
      readonly part: number;
      /** Inside units. */
      readonly value: number;
      readonly reason: string;
    }
  | { readonly act: 'restore'; readonly itemId: string }
  | {
      readonly act: 'add';
      readonly group: PlanGroup;
      readonly sentence: string;
      readonly weight: 'must' | 'should';
      readonly beforeFirstStart: boolean;
    }
  | { readonly act: 'remove'; readonly itemId: string };

/** Who changes a plan, when (ISO 8601), and a name that an item of their own gets. */
interface Editor {
  readonly by: string;
  readonly at: string;
  readonly newId: string;
}

const without = <T extends { readonly itemId: string }>(all: readonly T[], itemId: string) =>
  all.filter((one) => one.itemId !== itemId);

/**
 * The changes of a plan after one more. Pure; the plan itself stays as it was made.
 * @throws InputError where the item is not in the plan, keeps people or the engine safe, or no reason is given
 */
export function editPlan(plan: Plan, edit: PlanEdit, { by, at, newId }: Editor): PlanEdits {
  const edits = plan.edits ?? NO_EDITS;
  if (edit.act === 'add') {
    const { group, weight, beforeFirstStart } = edit;
    const sentence = edit.sentence.trim();
    if (sentence === '') throw new InputError('Say what the new item is about.');
    const id = `own.${newId}`;
    return {
      ...edits,
      own: [...edits.own, { id, group, sentence, weight, beforeFirstStart, by, at }],
    };
  }
  const { itemId } = edit;
  if (edit.act === 'remove') {
    if (!edits.own.some((one) => one.id === itemId))
      throw new InputError('Only items that were added here can be removed; strike the others.', {
        found: itemId,
      });
    return { ...edits, own: edits.own.filter((one) => one.id !== itemId) };
  }
  const item = itemIn(plan, itemId);
  if (edit.act === 'restore')
    return {
      ...edits,
      strikes: without(edits.strikes, itemId),
      numbers: without(edits.numbers, itemId),
    };
  const reason = edit.reason.trim();
  if (item.isSafety)
    throw new InputError(
      item.group === 'limits'
        ? 'A limit keeps people and the engine safe, and stays; its number is changed in the windows of the shop or on the build sheet.'
        : 'This keeps people safe, and stays.',
      { found: itemId },
    );
  if (reason === '')
    throw new InputError('Give the reason; it stands beside the item from then on.');
  if (edit.act === 'strike')
    return {
      ...edits,
      strikes: [...without(edits.strikes, itemId), { itemId, reason, by, at }],
    };
  const { part, value } = edit;
  const was = item.parts[part];
  if (was === undefined || !('quantity' in was))
    throw new InputError('There is no number at that place of the item.', { found: String(part) });
  if (!Number.isFinite(value)) throw new InputError('That is no number.', { found: String(value) });
  return {
    ...edits,
    numbers: [
      ...edits.numbers.filter((one) => one.itemId !== itemId || one.part !== part),
      { itemId, part, value, was: was.quantity.value, reason, by, at },
    ],
  };
}

function itemIn(plan: Plan, itemId: string): PlanItem {
  const found = plan.sections.flatMap(({ items }) => items).find(({ id }) => id === itemId);
  if (found === undefined) throw new InputError('This plan has no such item.', { found: itemId });
  return found;
}

/** What an event says of a change of a plan. */
export function editSummary(plan: Plan, edit: PlanEdit): string {
  const named = (id: string) => `“${shortly(nameOf(plan, id))}”`;
  switch (edit.act) {
    case 'add':
      return `added “${shortly(edit.sentence)}” to the test plan`;
    case 'remove':
      return `removed ${named(edit.itemId)} from the test plan`;
    case 'strike':
      return `struck ${named(edit.itemId)} from the test plan`;
    case 'restore':
      return `brought back ${named(edit.itemId)} in the test plan`;
    case 'number':
      return `changed a number of ${named(edit.itemId)} in the test plan`;
  }
}

function nameOf(plan: Plan, id: string): string {
  const own = plan.edits?.own.find((one) => one.id === id);
  if (own !== undefined) return own.sentence;
  const item = plan.sections.flatMap(({ items }) => items).find((one) => one.id === id);
  return item === undefined ? id : planSentence(item, 'metric');
}

const SHORT = 60;
/** The beginning of a sentence, at whole words. */
export const shortly = (sentence: string): string =>
  sentence.length <= SHORT ? sentence : `${sentence.slice(0, SHORT).replace(/\s+\S*$/, '')} …`;

/** A number that somebody put in the place of that of the plan. */
export interface ChangedNumber {
  readonly part: number;
  /** Inside units, as the plan was made. */
  readonly was: number;
  readonly shown: DisplayKind;
  readonly decimals?: number;
  readonly isDifference?: true;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

export interface EditedItem extends PlanItem {
  /** Who struck it, when and why; null: it stands. */
  readonly struck: { readonly reason: string; readonly by: string; readonly at: string } | null;
  readonly changed: readonly ChangedNumber[];
  /** Who added it, and when; null: it followed from the sheet. */
  readonly added: { readonly by: string; readonly at: string } | null;
}

export type EditedSection = Omit<PlanSection, 'items'> & { readonly items: readonly EditedItem[] };

/** The sections of a plan with the changes of its day: struck items stay to be seen, those of the day's own stand last. */
export function editedSections(plan: Plan): readonly EditedSection[] {
  const { strikes, numbers, own } = plan.edits ?? NO_EDITS;
  const edited = (item: PlanItem): EditedItem => {
    // Whatever a file says, what keeps people safe is neither struck nor changed.
    if (item.isSafety) return { ...item, struck: null, changed: [], added: null };
    const parts = [...item.parts];
    const changed: ChangedNumber[] = [];
    for (const { itemId, part, value, reason, by, at } of numbers) {
      const was = item.parts[part];
      if (itemId !== item.id || was === undefined || !('quantity' in was)) continue;
      parts[part] = { quantity: { ...was.quantity, value } };
      const { value: before, ...shown } = was.quantity;
      changed.push({ part, was: before, ...shown, reason, by, at });
    }
    return {
      ...item,
      parts,
      changed,
      struck: strikes.find(({ itemId }) => itemId === item.id) ?? null,
      added: null,
    };
  };
  return plan.sections.map((section) => ({
    ...section,
    items: [
      ...section.items.map(edited),
      ...own
        .filter(({ group }) => group === section.group)
        .map(({ id, sentence, weight, beforeFirstStart, by, at }) => ({
          ...itemsOf(section.group)(id, [{ text: sentence }], {
            weight,
            beforeFirstStart,
            source: 'added for this day',
          }),
          struck: null,
          changed: [],
          added: { by, at },
        })),
    ],
  }));
}

/**
 * A plan made anew with what the day had changed in the last one. A number is carried along only where the new plan
 * still says what it was changed from.
 */
export function withEditsOf(plan: Plan, last: Plan | null): Plan {
  const edits = last?.edits;
  if (edits === undefined) return plan;
  const items = new Map(plan.sections.flatMap((section) => section.items).map((i) => [i.id, i]));
  const stands = ({ itemId }: { readonly itemId: string }) => items.get(itemId)?.isSafety === false;
  const numbers = edits.numbers.filter((one) => {
    const part = items.get(one.itemId)?.parts[one.part];
    return (
      stands(one) &&
      part !== undefined &&
      'quantity' in part &&
      Math.abs(part.quantity.value - one.was) <= 1e-9 * Math.abs(one.was)
    );
  });
  const dropped = edits.numbers.filter((one) => !numbers.includes(one));
  return {
    ...plan,
    edits: { strikes: edits.strikes.filter(stands), numbers, own: edits.own },
    notCarried: dropped.map(({ itemId }) => shortly(nameOf(last!, itemId))),
  };
}
