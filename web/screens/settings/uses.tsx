import { Button } from '@mantine/core';
import { useState } from 'react';
import { mixtureHoldback } from '../../../src/ladder/uses.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Shop, UseRules } from '../../api/types.gen.ts';
import { EditSheet } from '../../form/edit-sheet.tsx';
import type { Field } from '../../form/fields.ts';
import { Heads } from '../../table/Heads.tsx';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import take from '../../table/table.module.css';
import { speed } from '../day/overlay.tsx';
import styles from './settings.module.css';

const FIELDS: readonly Field[] = [
  { key: 'name', label: 'Use', kind: 'text', required: true },
  {
    key: 'holdbackDeg',
    label: 'Least holdback, degrees',
    kind: 'number',
    required: true,
    hint: 'Below the lowest of best, highest clean rung and limit.',
    low: 0,
    high: 30,
  },
  {
    key: 'holdbackLambda',
    label: 'Least holdback, lambda',
    kind: 'number',
    hint: 'To the rich side, for ladders of lambda. Empty: no rule for mixture.',
    low: 0,
    high: 1,
  },
  {
    key: 'speedsRpm',
    label: 'Speeds at full throttle',
    kind: 'band',
    hint: 'Empty: the band of the ladder.',
  },
  {
    key: 'chancePastBest',
    label: 'Allowed chance past the best',
    kind: 'percent',
    required: true,
    low: 0,
    high: 0.5,
  },
  {
    key: 'chancePastLimit',
    label: 'Allowed chance past the limit',
    kind: 'percent',
    required: true,
    low: 0,
    high: 0.5,
  },
  { key: 'meaning', label: 'What it means, in an owner’s words', kind: 'long' },
];

const NEW_USE: UseRules = {
  name: '',
  meaning: '',
  holdbackDeg: 4,
  speedsRpm: null,
  chancePastBest: 0.025,
  chancePastLimit: 0.01,
};

/** The rules by which a setting is held back, one for each use. */
export function Uses({ shop }: { shop: Shop }) {
  const [editing, setEditing] = useState<number | 'new' | null>(null);
  const edit = useChange((uses: readonly UseRules[]) => ask('PATCH /shop', { body: { uses } }), {
    done: 'The uses are changed; every ladder follows.',
    after: () => setEditing(null),
  });
  const { uses } = shop;
  const percent = (share: number) => `${Number((share * 100).toFixed(2))} %`;
  const editedUse = editing === 'new' ? NEW_USE : editing === null ? null : uses[editing];
  return (
    <section className="panel" aria-labelledby="uses">
      <header>
        <h2 id="uses">Uses and their holdback</h2>
        <span className={take.acts}>
          <Button variant="subtle" size="compact-sm" onClick={() => setEditing('new')}>
            New use
          </Button>
          <TakeTable title="Uses and their holdback" table={() => usesTable(uses)} />
        </span>
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <Heads
            of={[
              'Use',
              'What it means',
              'Least holdback',
              'Speeds',
              'Chance past best',
              'Chance past limit',
            ]}
            acts="Acts"
          />
          <tbody>
            {uses.map((use, at) => (
              <tr key={use.name}>
                <th scope="row">{use.name}</th>
                <td className="quiet">{use.meaning}</td>
                <td>
                  {use.holdbackDeg}°{lambdaText(use)}
                </td>
                <td>
                  {use.speedsRpm === null
                    ? 'the ladder’s band'
                    : `${speed(use.speedsRpm[0])} to ${speed(use.speedsRpm[1])} rpm`}
                </td>
                <td>{percent(use.chancePastBest)}</td>
                <td>{percent(use.chancePastLimit)}</td>
                <td>
                  <div className="acts">
                    <Button
                      variant="default"
                      size="compact-xs"
                      aria-label={`Edit ${use.name}`}
                      onClick={() => setEditing(at)}
                    >
                      Edit
                    </Button>
                    <Button
                      variant="default"
                      size="compact-xs"
                      aria-label={`Remove ${use.name}`}
                      onClick={() => edit.mutate(uses.filter((_, index) => index !== at))}
                    >
                      Remove
                    </Button>
                  </div>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {editedUse && (
        <EditSheet
          title={editing === 'new' ? 'New use' : `Use: ${editedUse.name}`}
          fields={FIELDS}
          values={editedUse}
          busy={edit.isPending}
          onClose={() => setEditing(null)}
          onSave={(patch) => {
            const changed = { ...editedUse, ...patch } as UseRules;
            edit.mutate(
              editing === 'new'
                ? [...uses, changed]
                : uses.map((use) => (use === editedUse ? changed : use)),
            );
          }}
        />
      )}
    </section>
  );
}

/** The rule of mixture beside that of lead; the shipped one where the shop said nothing. */
function lambdaText({ name, holdbackLambda }: UseRules): string {
  const held = mixtureHoldback(name, holdbackLambda);
  return held === null ? '' : `, lambda ${held}`;
}

const usesTable = (uses: readonly UseRules[]): TableModel =>
  tableFrom(uses, [
    wordsColumn('Use', ({ name }) => name),
    wordsColumn('What it means', ({ meaning }) => meaning),
    numberColumn('Least holdback of lead', '°', ({ holdbackDeg }) => holdbackDeg),
    numberColumn('Least holdback of lambda', '', ({ name, holdbackLambda }) =>
      mixtureHoldback(name, holdbackLambda),
    ),
    rangeColumn(
      'Speeds',
      'rpm',
      ({ speedsRpm }) => (speedsRpm === null ? null : { low: speedsRpm[0], high: speedsRpm[1] }),
      { note: 'empty: the band of the ladder' },
    ),
    numberColumn('Chance past best', '%', ({ chancePastBest }) => chancePastBest * 100),
    numberColumn('Chance past limit', '%', ({ chancePastLimit }) => chancePastLimit * 100),
  ]);
