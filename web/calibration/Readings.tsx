import { Button, NativeSelect, Textarea } from '@mantine/core';
import { type ClipboardEvent, useState } from 'react';
import {
  type CalibrationAnswer,
  pastedSensor,
  pastedWeights,
} from '../../src/trade/calibration/index.ts';
import { displayUnit, formatQuantity, readNumber } from '../../src/units/index.ts';
import { Sheet } from '../form/sheet.tsx';
import { numberColumn, tableFrom, wordsColumn } from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';
import styles from './calibration.module.css';
import {
  type Draft,
  pasteTrouble,
  type Row,
  type Understood,
  withoutRow,
  withPoints,
  withRow,
} from './draft.ts';
import { decimalsFor } from './words.ts';

interface ReadingsProps {
  readonly draft: Draft;
  readonly understood: Understood;
  readonly onChange: (draft: Draft) => void;
}

/** The table of readings: typed line by line, or pasted from a spreadsheet into any cell. */
export function Readings({ draft, understood, onChange }: ReadingsProps) {
  const [pasting, setPasting] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const isSensor = draft.kind === 'sensor';
  const mass = displayUnit('mass', draft.units).symbol;
  const torque = displayUnit('torque', draft.units).symbol;
  const unit = draft.texts.unit ?? '';
  const heads = isSensor
    ? [`Reading, ${unit}`, `Reference, ${unit}`]
    : [`Weight, ${mass}`, `Reading, ${torque}`];
  /** @returns what is wrong with it; null where it now stands in the table */
  const put = (text: string): string | null => {
    const read = isSensor ? pastedSensor(text, unit) : pastedWeights(text, { mass, torque });
    if ('problems' in read) return pasteTrouble(read.problems);
    if (read.points.length === 0) return 'There is no reading in what was pasted.';
    onChange(withPoints(draft, read.points));
    return null;
  };
  const paste = (event: ClipboardEvent) => {
    const text = event.clipboardData.getData('text/plain');
    if (!/[\t\n\r]/.test(text.trim())) return;
    event.preventDefault();
    setTrouble(put(text));
  };
  const leftoverOf = (row: Row): number | null => {
    const at = understood.counted.indexOf(row.key);
    const { answer } = understood;
    if (answer === null || at < 0) return null;
    if (answer.kind === 'sensor') return answer.residuals[at]?.residual ?? null;
    const residual = answer.residuals[at]?.residualNm;
    return residual === undefined ? null : residual / displayUnit('torque', draft.units).factor;
  };
  const leftover = (row: Row) => {
    const at = understood.counted.indexOf(row.key);
    return understood.answer === null || at < 0
      ? ''
      : leftoverText(understood.answer, at, draft.units);
  };
  const table = () => {
    const typed = draft.rows.filter(({ first, second }) => first !== '' || second !== '');
    const [one, other] = isSensor
      ? (['Reading', 'Reference'] as const)
      : (['Weight', 'Reading'] as const);
    return tableFrom(typed, [
      numberColumn('No.', '', (_, at) => at + 1),
      numberColumn(one, isSensor ? unit : mass, ({ first }) => readNumber(first)),
      numberColumn(other, isSensor ? unit : torque, ({ second }) => readNumber(second)),
      ...(isSensor
        ? []
        : [
            wordsColumn<Row>('Weights going', (row) =>
              (row.way ?? understood.ways.get(row.key) ?? 'up') === 'up' ? 'on (up)' : 'off (down)',
            ),
          ]),
      numberColumn(isSensor ? 'Left over' : 'Off the line', isSensor ? unit : torque, (row) =>
        leftoverOf(row),
      ),
    ]);
  };
  return (
    <div className={styles.readings}>
      <div className={styles.scroll}>
        <TakeRow title="Readings" table={table} />
        <table className="sheet" onPaste={paste}>
          <thead>
            <tr>
              <th scope="col">No.</th>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
              {!isSensor && <th scope="col">Weights going</th>}
              <th scope="col" className="figure">
                {isSensor ? `Left over, ${unit}` : `Off the line, ${torque}`}
              </th>
              <th scope="col">
                <span className="unseen">Acts</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {draft.rows.map((row, at) => {
              const wrong = understood.rowTroubles.get(row.key);
              const isEmpty = row.first === '' && row.second === '';
              return (
                <tr key={row.key}>
                  <th scope="row">{at + 1}</th>
                  {(['first', 'second'] as const).map((which, column) => (
                    <td key={which}>
                      <input
                        className={styles.cell}
                        inputMode="decimal"
                        autoComplete="off"
                        aria-label={`${heads[column]}, line ${at + 1}`}
                        aria-invalid={wrong !== undefined && !isEmpty}
                        title={wrong}
                        value={row[which]}
                        onChange={(event) =>
                          onChange(withRow(draft, row.key, { [which]: event.currentTarget.value }))
                        }
                      />
                    </td>
                  ))}
                  {!isSensor && (
                    <td>
                      <NativeSelect
                        size="xs"
                        aria-label={`Weights going, line ${at + 1}`}
                        disabled={isEmpty}
                        value={isEmpty ? '' : (row.way ?? understood.ways.get(row.key) ?? 'up')}
                        data={[
                          ...(isEmpty ? [{ value: '', label: '' }] : []),
                          { value: 'up', label: 'on (up)' },
                          { value: 'down', label: 'off (down)' },
                        ]}
                        onChange={(event) =>
                          onChange(
                            withRow(draft, row.key, {
                              way: event.currentTarget.value === 'down' ? 'down' : 'up',
                            }),
                          )
                        }
                      />
                    </td>
                  )}
                  <td className="figure">{leftover(row)}</td>
                  <td>
                    {!isEmpty && (
                      <Button
                        variant="subtle"
                        size="compact-xs"
                        aria-label={`Take off line ${at + 1}`}
                        onClick={() => onChange(withoutRow(draft, row.key))}
                      >
                        Take off
                      </Button>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <p className={styles.notice} aria-live="polite">
        {trouble ?? [...new Set(understood.rowTroubles.values())].join(' ')}
      </p>
      <Button variant="default" size="xs" onClick={() => setPasting(true)}>
        Paste from a spreadsheet …
      </Button>
      {pasting && (
        <PasteSheet
          hint={
            isSensor
              ? 'Two columns: reading and reference. A heading may name them and say their units.'
              : 'Weight and reading in the order they were read, or weight with one column up and one column down. A heading may name them and say their units, such as “Weight (lb)”.'
          }
          put={put}
          onClose={() => setPasting(false)}
        />
      )}
    </div>
  );
}

function leftoverText(answer: CalibrationAnswer, at: number, units: Draft['units']): string {
  if (answer.kind === 'sensor')
    return (answer.residuals[at]?.residual ?? 0).toFixed(decimalsFor(answer));
  const residual = answer.residuals[at]?.residualNm ?? null;
  return formatQuantity(residual, 'torque', units, { decimals: 2, signed: true }).text;
}

function PasteSheet({
  hint,
  put,
  onClose,
}: {
  readonly hint: string;
  readonly put: (text: string) => string | null;
  readonly onClose: () => void;
}) {
  const [text, setText] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  return (
    <Sheet title="Readings from a spreadsheet" size="lg" onClose={onClose}>
      <Textarea
        data-autofocus
        label="Cells, as copied"
        description={hint}
        rows={10}
        value={text}
        error={trouble}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      <p className="quiet">They take the place of the readings in the table.</p>
      <div className={styles.foot}>
        <Button variant="default" onClick={onClose}>
          Cancel
        </Button>
        <Button
          disabled={text.trim() === ''}
          onClick={() => {
            const wrong = put(text);
            setTrouble(wrong);
            if (wrong === null) onClose();
          }}
        >
          Put in
        </Button>
      </div>
    </Sheet>
  );
}
