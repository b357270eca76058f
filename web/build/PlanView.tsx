import { Button } from '@mantine/core';
import { useState } from 'react';
import {
  type ChangedNumber,
  type Plan,
  type PlanEdit,
  type PlanTick,
  planSentence,
  shortly,
  tickedPlan,
} from '../../src/build/index.ts';
import { formatQuantity, quantityText, type UnitSystem } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { timeInWords } from '../shell/words.ts';
import { type TableModel, tableFrom, wordsColumn, yesNoColumn } from '../table/model.ts';
import { TakeRow, TakeTable } from '../table/TakeTable.tsx';
import { CareIcon, LookIcon } from '../theme/icons.tsx';
import { changeableNumbers, type Editing, PlanEditing } from './PlanEditing.tsx';
import styles from './plan.module.css';
import { planItemTable } from './sheet-tables.ts';

type Ticked = ReturnType<typeof tickedPlan>;
type Section = Ticked['sections'][number];
type Item = Section['items'][number];

interface PlanViewProps {
  readonly title: string;
  readonly plan: Plan;
  readonly ticks: readonly PlanTick[];
  /** Ticks or unticks an item under the name of who is at the screen. */
  readonly onTick: (item: Item, ticked: boolean) => void;
  /** Changes the plan of this day; left out: it is only read. */
  readonly onEdit?: (edits: readonly PlanEdit[]) => void;
}

interface Acts {
  readonly onTick: PlanViewProps['onTick'];
  /** Null: the plan is only read. */
  readonly begin: ((editing: Editing) => void) | null;
  readonly edit: (edit: PlanEdit) => void;
}

/** The test plan of a day: cautions first, then what to do, to know and to have; ticked with a thumb, printed on paper. */
export function PlanView({ title, plan, ticks, onTick, onEdit }: PlanViewProps) {
  const { units } = usePreferences();
  const [editing, setEditing] = useState<Editing | null>(null);
  const ticked = tickedPlan(plan, ticks);
  const open = ticked.openBeforeFirstStart;
  const acts: Acts = {
    onTick,
    begin: onEdit === undefined ? null : setEditing,
    edit: (edit) => onEdit?.([edit]),
  };
  return (
    <div className={`stack ${styles.plan}`}>
      <div className="opening">
        <h1>{title}</h1>
        <div className={styles.acts}>
          {acts.begin !== null && (
            <Button variant="default" onClick={() => setEditing({ act: 'add' })}>
              Add an item
            </Button>
          )}
          <Button variant="default" onClick={() => window.print()}>
            Print
          </Button>
          <TakeTable title={title} table={() => planTable(ticked.sections, units)} />
        </div>
      </div>
      <p role="status" className={open.length > 0 ? `${styles.standing} look` : styles.standing}>
        {open.length > 0 ? (
          <>
            <LookIcon /> {open.length} {open.length === 1 ? 'thing is' : 'things are'} still open
            before the first start
          </>
        ) : (
          'Everything that must be done before the first start is ticked.'
        )}
      </p>
      {(plan.notCarried ?? []).length > 0 && (
        <p className="look">
          <LookIcon /> Numbers changed in the last plan were left behind, since the sheet now says
          others: {plan.notCarried!.map((name) => `“${name}”`).join(', ')}.
        </p>
      )}
      {ticked.sections
        .filter((section) => section.items.length > 0)
        .map((section) => (
          <PlanGroup key={section.group} section={section} acts={acts} />
        ))}
      {editing !== null && (
        <PlanEditing
          editing={editing}
          units={units}
          onClose={() => setEditing(null)}
          onEdit={(edits) => {
            onEdit?.(edits);
            setEditing(null);
          }}
        />
      )}
    </div>
  );
}

/** Every line of the plan, a row each; what was struck says why. */
const planTable = (sections: readonly Section[], units: UnitSystem): TableModel =>
  tableFrom(
    sections.flatMap((section) => section.items.map((item) => ({ section, item }))),
    [
      wordsColumn('Part of the plan', ({ section }) => section.title),
      wordsColumn('Item', ({ item }) => planSentence(item, units)),
      wordsColumn('Weight', ({ item }) => item.weight),
      yesNoColumn('Before the first start', ({ item }) => item.beforeFirstStart),
      wordsColumn('Ticked by', ({ item }) => item.tick?.by),
      wordsColumn('Ticked', ({ item }) => item.tick?.at),
      wordsColumn('Struck because', ({ item }) => item.struck?.reason),
      wordsColumn('From', ({ item }) => item.source),
    ],
  );

function PlanGroup({ section, acts }: { section: Section; acts: Acts }) {
  const standing = section.items.filter((item) => item.struck === null);
  const done = standing.filter((item) => item.tick !== null && !item.hasChanged).length;
  return (
    <section
      className="panel"
      aria-labelledby={`plan-${section.group}`}
      data-safety={section.group === 'safety' || undefined}
    >
      <header>
        <h2 id={`plan-${section.group}`}>
          {section.group === 'safety' && <CareIcon />} {section.title}
        </h2>
        <span className="quiet">
          {done} of {standing.length} ticked
        </span>
      </header>
      <ul className={styles.items}>
        {section.items.map((item) =>
          item.struck === null ? (
            <PlanLine key={item.id} item={item} acts={acts} />
          ) : (
            <StruckLine key={item.id} item={item} acts={acts} />
          ),
        )}
      </ul>
    </section>
  );
}

/** It stays to be seen: who reads the plan later sees what was left out, by whom and why. */
function StruckLine({ item, acts }: { item: Item; acts: Acts }) {
  const { units } = usePreferences();
  const { reason, by, at } = item.struck!;
  return (
    <li className={styles.struck}>
      <div className={styles.row}>
        <span>
          <s>{planSentence(item, units)}</s>
          <small>
            struck by {by || 'somebody'}, {timeInWords(at)}: {reason}
          </small>
        </span>
        {acts.begin !== null && (
          <LineAct
            name="Bring back"
            of={planSentence(item, units)}
            act={() => acts.edit({ act: 'restore', itemId: item.id })}
          />
        )}
      </div>
    </li>
  );
}

function LineAct({ name, of, act }: { name: string; of: string; act: () => void }) {
  return (
    <Button
      className={styles.act}
      variant="subtle"
      size="compact-sm"
      aria-label={`${name}: ${shortly(of)}`}
      onClick={act}
    >
      {name}
    </Button>
  );
}

function LineActs({ item, acts }: { item: Item; acts: Acts }) {
  const { units } = usePreferences();
  const { begin } = acts;
  if (begin === null || item.isSafety) return null;
  const of = planSentence(item, units);
  if (item.added !== null)
    return (
      <LineAct name="Remove" of={of} act={() => acts.edit({ act: 'remove', itemId: item.id })} />
    );
  return (
    <>
      {changeableNumbers(item).length > 0 && (
        <LineAct name="Change number" of={of} act={() => begin({ act: 'number', item })} />
      )}
      {item.changed.length > 0 && (
        <LineAct
          name="As it was"
          of={of}
          act={() => acts.edit({ act: 'restore', itemId: item.id })}
        />
      )}
      <LineAct name="Strike" of={of} act={() => begin({ act: 'strike', item })} />
    </>
  );
}

/** Who did it and when, who changed or added it, and where it is from. */
function LineWords({ item, checked }: { item: Item; checked: boolean }) {
  const { units } = usePreferences();
  const was = ({ was: value, shown, decimals }: ChangedNumber) =>
    quantityText(value, shown, units, decimals === undefined ? {} : { decimals });
  return (
    <>
      {checked && (
        <small>
          ticked by {item.tick!.by || 'somebody'}, {timeInWords(item.tick!.at)}
        </small>
      )}
      {item.changed.map((one) => (
        <small key={one.part}>
          {was(one)} in the plan; changed by {one.by || 'somebody'}, {timeInWords(one.at)}:{' '}
          {one.reason}
        </small>
      ))}
      <small className="quiet">
        {item.hasChanged && 'It says something else than when it was ticked. '}
        {item.added === null
          ? item.source
          : `added by ${item.added.by || 'somebody'}, ${timeInWords(item.added.at)}`}
      </small>
    </>
  );
}

function PlanLine({ item, acts }: { item: Item; acts: Acts }) {
  const { units } = usePreferences();
  const checked = item.tick !== null && !item.hasChanged;
  return (
    <li>
      <div className={styles.row}>
        <label>
          <input
            type="checkbox"
            checked={checked}
            onChange={(event) => acts.onTick(item, event.currentTarget.checked)}
          />
          <span>
            {planSentence(item, units)}
            {item.weight === 'must' && !item.isSafety && <span className="tag">must</span>}
            <LineWords item={item} checked={checked} />
          </span>
        </label>
        <span className={styles.lineActs}>
          <LineActs item={item} acts={acts} />
        </span>
      </div>
      {item.table !== null && (
        <div className={styles.ownTable}>
          <TakeRow
            title={planSentence(item, units)}
            table={() => planItemTable(item.table!, units)}
          />
          <table className="sheet">
            <thead>
              <tr>
                {item.table.columns.map(({ label, shown }) => (
                  <th key={label} scope="col" className="figure">
                    {label}, {formatQuantity(0, shown, units).unit}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {item.table.rows.map((row) => (
                <tr key={row.join()}>
                  {row.map((value, i) => {
                    const { label, shown } = item.table!.columns[i]!;
                    return (
                      <td key={label} className="figure">
                        {formatQuantity(value, shown, units).text}
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </li>
  );
}
