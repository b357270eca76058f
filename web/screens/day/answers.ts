import type { TorqueBasis } from '../../../src/pull/recording.ts';
import { findUnit } from '../../../src/units/index.ts';
import type { ColumnAnswer, RememberedOptions, Understood } from '../../api/types.gen.ts';

/** Two sets of answers as one; the later answer to the same thing counts. */
export function mergeAnswers(first: RememberedOptions, then: RememberedOptions): RememberedOptions {
  const mapping = { ...first.mapping, ...then.mapping };
  return {
    ...first,
    ...then,
    ...(Object.keys(mapping).length === 0 ? {} : { mapping }),
  };
}

/** One header of a file as the table of headers shows and edits it; empty text: as the file says. */
export interface ColumnDraft {
  readonly header: string;
  readonly quantity: ColumnAnswer['quantity'];
  readonly ignore: boolean;
  readonly unit: string;
  readonly bank: string;
  readonly cylinder: string;
  readonly basis: TorqueBasis | null;
}

/** The headers of a file with what is understood of each, those a person left out included. */
export function draftsOf(understood: Understood): readonly ColumnDraft[] {
  const drafts = understood.channels
    .filter((channel) => channel.derivedFrom === null)
    .map(
      (channel): ColumnDraft => ({
        header: channel.header,
        quantity: channel.quantity as ColumnAnswer['quantity'],
        ignore: false,
        unit: channel.unit ?? '',
        bank: channel.bank === null ? '' : String(channel.bank),
        cylinder: channel.cylinder === null ? '' : String(channel.cylinder),
        basis: channel.basis,
      }),
    );
  const known = new Set(drafts.map((draft) => draft.header));
  const left = Object.entries(understood.answers.mapping ?? {}).filter(
    ([header, answer]) => answer.ignore === true && !known.has(header),
  );
  return [
    ...drafts,
    ...left.map(
      ([header, answer]): ColumnDraft => ({
        header,
        quantity: answer.quantity,
        ignore: true,
        unit: answer.unit ?? '',
        bank: '',
        cylinder: '',
        basis: null,
      }),
    ),
  ];
}

/** What a changed draft says to the service. Only what has a meaning for its quantity goes along. */
export function answerOf(draft: ColumnDraft): ColumnAnswer {
  const whole = (text: string) => (/^\d+$/.test(text.trim()) ? Number(text) : undefined);
  const bank = whole(draft.bank);
  const cylinder = whole(draft.cylinder);
  return {
    quantity: draft.quantity,
    ...(draft.ignore ? { ignore: true } : {}),
    ...(draft.unit.trim() === '' ? {} : { unit: draft.unit.trim() }),
    ...(bank === undefined ? {} : { bank }),
    ...(cylinder === undefined ? {} : { cylinder }),
    ...(draft.basis !== null && hasBasis(draft.quantity) ? { basis: draft.basis } : {}),
  };
}

/** Torque and power are observed or corrected, with inertia in or out; nothing else is. */
export function hasBasis(quantity: ColumnAnswer['quantity']): boolean {
  return quantity === 'torque' || quantity === 'power';
}

/** A unit that a person wrote and nobody knows; what the file itself says is taken as it is. */
export function hasStrangeUnit(draft: ColumnDraft, before: ColumnDraft): boolean {
  const unit = draft.unit.trim();
  return !draft.ignore && unit !== '' && unit !== before.unit && findUnit(unit) === undefined;
}

/** The answers for those headers that a person changed. */
export function changedAnswers(
  before: readonly ColumnDraft[],
  now: readonly ColumnDraft[],
): RememberedOptions {
  const mapping: Record<string, ColumnAnswer> = {};
  now.forEach((draft, at) => {
    if (JSON.stringify(draft) !== JSON.stringify(before[at]))
      mapping[draft.header] = answerOf(draft);
  });
  return Object.keys(mapping).length === 0 ? {} : { mapping };
}
