import {
  PLAN_GROUPS,
  type PlanEdit,
  type PlanItem,
  planSentence,
  shortly,
} from '../../src/build/index.ts';
import { displayUnit, type UnitSystem } from '../../src/units/index.ts';
import { EditSheet } from '../form/edit-sheet.tsx';
import type { Field, Values } from '../form/fields.ts';

/** What somebody is about to do to the plan. */
export type Editing =
  | { readonly act: 'strike' | 'number'; readonly item: PlanItem }
  | { readonly act: 'add' };

interface PlanEditingProps {
  readonly editing: Editing;
  readonly units: UnitSystem;
  readonly onEdit: (edits: readonly PlanEdit[]) => void;
  readonly onClose: () => void;
}

const REASON: Field = {
  key: 'reason',
  label: 'Why',
  kind: 'text',
  required: true,
  hint: 'It stands beside the item, with your name and the time.',
};
const YES_NO = [
  { value: 'no', label: 'no' },
  { value: 'yes', label: 'yes' },
];
const ADD: readonly Field[] = [
  { key: 'sentence', label: 'What', kind: 'long', required: true },
  {
    key: 'group',
    label: 'Under',
    kind: 'choice',
    choices: PLAN_GROUPS.map(([value, label]) => ({ value, label })),
  },
  {
    key: 'weight',
    label: 'It',
    kind: 'choice',
    choices: [
      { value: 'should', label: 'should be done' },
      { value: 'must', label: 'must be done' },
    ],
  },
  { key: 'before', label: 'Before the first start', kind: 'choice', choices: YES_NO },
];

/** The form over a plan: strike an item, change its numbers, add one. */
export function PlanEditing({ editing, units, onEdit, onClose }: PlanEditingProps) {
  if (editing.act === 'add')
    return (
      <EditSheet
        title="Add to the plan of this day"
        fields={ADD}
        values={{ sentence: '', group: 'preRun', weight: 'should', before: 'no' }}
        sendUntouched
        saveLabel="Add"
        onClose={onClose}
        onSave={({ sentence, group, weight, before }) =>
          onEdit([
            { act: 'add', sentence, group, weight, beforeFirstStart: before === 'yes' } as PlanEdit,
          ])
        }
      />
    );
  const { item } = editing;
  const named = shortly(planSentence(item, units));
  if (editing.act === 'strike')
    return (
      <EditSheet
        title={`Strike: ${named}`}
        fields={[REASON]}
        values={{}}
        saveLabel="Strike"
        onClose={onClose}
        onSave={({ reason }) =>
          onEdit([{ act: 'strike', itemId: item.id, reason: String(reason) }])
        }
      />
    );
  const numbers = changeableNumbers(item);
  return (
    <EditSheet
      title={`Change a number: ${named}`}
      fields={[...numbers.map(({ part }, i) => numberField(item, part, i)), REASON]}
      values={Object.fromEntries(numbers.map(({ part, value }) => [`part${part}`, value]))}
      saveLabel="Change"
      onClose={onClose}
      onSave={(patch) => onEdit(numberEdits(item, patch))}
    />
  );
}

/** The numbers of an item that may stand otherwise for a day. */
export function changeableNumbers(item: PlanItem): { part: number; value: number }[] {
  return item.parts.flatMap((part, i) =>
    // A difference of temperatures has no field of its own to be typed in.
    'quantity' in part && part.quantity.isDifference !== true
      ? [{ part: i, value: part.quantity.value }]
      : [],
  );
}

function numberField(item: PlanItem, part: number, index: number): Field {
  const { shown } = (item.parts[part] as { quantity: { shown: Field['shown'] } }).quantity;
  return {
    key: `part${part}`,
    label: index === 0 ? 'Number' : `Number ${index + 1}`,
    kind: 'quantity',
    required: true,
    shown: shown!,
    dimension: displayUnit(shown!, 'metric').dimension,
  };
}

const numberEdits = (item: PlanItem, { reason, ...values }: Values): readonly PlanEdit[] =>
  Object.entries(values).map(([key, value]) => ({
    act: 'number',
    itemId: item.id,
    part: Number(key.slice('part'.length)),
    value: value as number,
    reason: String(reason),
  }));
