import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { AIR_STANDARDS, QUANTITIES, type TorqueBasis } from '../../../src/pull/recording.ts';
import { findUnit, fromInside } from '../../../src/units/index.ts';
import { traceQuery } from '../../api/queries.ts';
import type { RememberedOptions, Trace, Understood } from '../../api/types.gen.ts';
import { Sheet } from '../../form/sheet.tsx';
import { nameOfStandard } from '../../shell/words.ts';
import { type TableModel, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeRow } from '../../table/TakeTable.tsx';
import { type ColumnDraft, changedAnswers, draftsOf, hasBasis, hasStrangeUnit } from './answers.ts';
import styles from './mapping-sheet.module.css';
import { QUANTITY_WORDS } from './quantity-words.ts';

interface MappingSheetProps {
  readonly cellName: string;
  /** A pull of the file, whose samples show what stands under each header; none where the file was refused. */
  readonly pullId?: string;
  /** The first lines of a file that was refused. */
  readonly beginning?: string | null;
  readonly understood: Understood;
  readonly saveLabel?: string;
  readonly busy: boolean;
  readonly onSave: (changed: RememberedOptions) => void;
  readonly onClose: () => void;
}

/** Few samples are enough to recognise a channel. */
const SAMPLES = 60;
const LEAVE_OUT = 'leave out';

/** The table of a file's headers: what each was taken for, and the place to say otherwise. */
export function MappingSheet(props: MappingSheetProps) {
  const { cellName, pullId, beginning = null, understood, busy, onSave, onClose } = props;
  const before = useMemo(() => draftsOf(understood), [understood]);
  const [drafts, setDrafts] = useState(before);
  const samples = useQuery({
    ...traceQuery(pullId ?? '', SAMPLES, true, null),
    enabled: pullId !== undefined,
  });
  const change = (at: number, to: Partial<ColumnDraft>) =>
    setDrafts(drafts.map((draft, index) => (index === at ? { ...draft, ...to } : draft)));
  const changed = changedAnswers(before, drafts);
  const strange = drafts.filter((draft, at) => hasStrangeUnit(draft, before[at]!));
  return (
    <Sheet onClose={onClose} title={`Headers of ${understood.fileName}`} size="90rem">
      <p className="quiet">
        What you change is remembered for {cellName} and every file with these headers. The file
        itself never changes.
      </p>
      {beginning !== null && (
        <pre className={styles.beginning} title="How the file begins">
          {beginning}
        </pre>
      )}
      <div className={styles.scroll}>
        <TakeRow title={`Headers of ${understood.fileName}`} table={() => headersTable(drafts)} />
        <table className="sheet">
          <thead>
            <tr>
              <th scope="col">Header in the file</th>
              {pullId !== undefined && <th scope="col">Values on the way</th>}
              <th scope="col">Read as</th>
              <th scope="col">Unit</th>
              <th scope="col">Bank</th>
              <th scope="col">Cylinder</th>
              <th scope="col">Air</th>
              <th scope="col">Inertia</th>
            </tr>
          </thead>
          <tbody>
            {drafts.map((draft, at) => (
              <tr key={draft.header} data-changed={draft !== before[at] || undefined}>
                <th scope="row" className={styles.header}>
                  {draft.header}
                </th>
                {pullId !== undefined && (
                  <td className={`quiet ${styles.values}`}>{previewOf(samples.data, draft)}</td>
                )}
                <td>
                  <select
                    aria-label={`${draft.header} is read as`}
                    value={draft.ignore ? LEAVE_OUT : draft.quantity}
                    onChange={({ currentTarget: { value } }) =>
                      change(
                        at,
                        value === LEAVE_OUT
                          ? { ignore: true }
                          : { ignore: false, quantity: value as ColumnDraft['quantity'] },
                      )
                    }
                  >
                    {QUANTITIES.map((quantity) => (
                      <option key={quantity} value={quantity}>
                        {QUANTITY_WORDS[quantity]}
                      </option>
                    ))}
                    <option value={LEAVE_OUT}>leave out</option>
                  </select>
                </td>
                {(['unit', 'bank', 'cylinder'] as const).map((key) => (
                  <td key={key}>
                    <input
                      type="text"
                      className={styles[key]}
                      aria-invalid={key === 'unit' && strange.includes(draft)}
                      aria-label={`${key} of ${draft.header}`}
                      value={draft[key]}
                      onChange={(event) => change(at, { [key]: event.currentTarget.value })}
                    />
                  </td>
                ))}
                {hasBasis(draft.quantity) && !draft.ignore ? (
                  <BasisCells draft={draft} change={(basis) => change(at, { basis })} />
                ) : (
                  <>
                    <td />
                    <td />
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {strange.length > 0 && (
        <p role="alert" className="stop">
          {strange.map(({ unit, header }) => `“${unit}” of ${header}`).join(', ')}: no unit that is
          known here, such as lb-ft, N·m, hp, kW, rpm, °F, psi.
        </p>
      )}
      <Group justify="flex-end" mt="md" gap="sm">
        <Button variant="default" onClick={onClose}>
          Cancel
        </Button>
        <Button
          loading={busy}
          disabled={changed.mapping === undefined || strange.length > 0}
          onClick={() => onSave(changed)}
        >
          {props.saveLabel ?? 'Remember'}
        </Button>
      </Group>
    </Sheet>
  );
}

function BasisCells(props: { draft: ColumnDraft; change: (basis: TorqueBasis) => void }) {
  const { draft, change } = props;
  const basis = draft.basis ?? { air: 'unknown', inertia: 'unknown' };
  return (
    <>
      <td>
        <select
          aria-label={`Air of ${draft.header}`}
          value={basis.air}
          onChange={(event) =>
            change({ ...basis, air: event.currentTarget.value as TorqueBasis['air'] })
          }
        >
          <option value="unknown">not known</option>
          <option value="observed">as observed</option>
          {AIR_STANDARDS.filter((name) => name !== 'none').map((name) => (
            <option key={name} value={name}>
              corrected to {nameOfStandard(name)}
            </option>
          ))}
        </select>
      </td>
      <td>
        <select
          aria-label={`Inertia of ${draft.header}`}
          value={basis.inertia}
          onChange={(event) =>
            change({ ...basis, inertia: event.currentTarget.value as TorqueBasis['inertia'] })
          }
        >
          <option value="unknown">not known</option>
          <option value="out">not put back</option>
          <option value="in">put back by the logger</option>
        </select>
      </td>
    </>
  );
}

/** Three values from the start, the middle and the end of a channel, in the unit it was read in. */
export function previewOf(
  trace: Trace | null | undefined,
  { header, quantity }: Pick<ColumnDraft, 'header' | 'quantity'>,
): string {
  if (trace === null || trace === undefined) return '';
  const channel = trace.channels.find((one) => one.header === header);
  // Time is the axis of the samples and no channel beside them.
  if (channel === undefined) return quantity === 'time' ? threeOf(trace.timeS ?? [], (s) => s) : '';
  const unit = channel.unit === null ? undefined : findUnit(channel.unit);
  return threeOf(channel.low, (value) => (unit ? fromInside(value, unit) : value));
}

function threeOf(values: readonly (number | null)[], shown: (value: number) => number): string {
  if (values.length === 0) return '';
  return [0, Math.round((values.length - 1) / 2), values.length - 1]
    .map((at) => values[at] ?? null)
    .map((value) => (value === null ? '–' : String(Number(shown(value).toPrecision(5)))))
    .join('  ');
}

const headersTable = (drafts: readonly ColumnDraft[]): TableModel =>
  tableFrom(drafts, [
    wordsColumn('Header in the file', ({ header }) => header),
    wordsColumn('Read as', ({ ignore, quantity }) =>
      ignore ? 'left out' : QUANTITY_WORDS[quantity],
    ),
    wordsColumn('Unit', ({ unit }) => unit),
    wordsColumn('Bank', ({ bank }) => bank),
    wordsColumn('Cylinder', ({ cylinder }) => cylinder),
  ]);
