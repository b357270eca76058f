import { SETTING_KINDS, type SettingName } from '../../../src/ladder/kinds.ts';
import type { Field } from '../../form/fields.ts';

/** What can be said of a ladder: which pulls are its own, and what it is judged by where that is not the shop's. */
export function ladderFields(setting: SettingName): readonly Field[] {
  const { unit, defaultStep } = SETTING_KINDS[setting];
  return [
    { key: 'name', label: 'Name', kind: 'text', required: true },
    {
      key: 'group',
      label: 'Part test',
      kind: 'text',
      nullable: true,
      hint: 'As in the table of pulls. Empty: pulls of no part test.',
    },
    setting === 'lead'
      ? {
          key: 'heldLambda',
          label: 'Only pulls at lambda target',
          kind: 'number',
          hint: 'Empty: at any; what differs is said beside the gain.',
          low: 0.4,
          high: 2,
        }
      : {
          key: 'heldLeadDeg',
          label: 'Only pulls at lead, degrees',
          kind: 'number',
          hint: 'Empty: at any; what differs is said beside the gain.',
          low: -20,
          high: 80,
        },
    {
      key: 'step',
      label: unit === 'deg' ? 'Step given out, degrees' : 'Step given out',
      kind: 'number',
      hint: setting === 'lead' ? 'Empty: the shop’s.' : `Empty: ${defaultStep}.`,
      low: defaultStep / 100,
      high: 10,
    },
    {
      key: 'worthPercent',
      label: 'Least gain worth a rung, %',
      kind: 'number',
      hint: 'Empty: the shop’s.',
      low: 0.001,
      high: 100,
    },
    {
      key: 'repeatabilityPercent',
      label: 'How well pulls repeat, %',
      kind: 'number',
      hint: 'Empty: the shop’s, or learned from the pulls.',
      low: 0,
      high: 100,
    },
  ];
}
