import { Button } from '@mantine/core';
import { type Plan, type PlanTick, planSentence, tickedPlan } from '../../src/build/index.ts';
import { formatQuantity } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { timeInWords } from '../shell/words.ts';
import { CareIcon, LookIcon } from '../theme/icons.tsx';
import styles from './plan.module.css';

type Ticked = ReturnType<typeof tickedPlan>;
type Section = Ticked['sections'][number];
type Item = Section['items'][number];

interface PlanViewProps {
  readonly title: string;
  readonly plan: Plan;
  readonly ticks: readonly PlanTick[];
  /** Ticks or unticks an item under the name of who is at the screen. */
  readonly onTick: (item: Item, ticked: boolean) => void;
}

/** The test plan of a day: cautions first, then what to do, to know and to have; ticked with a thumb, printed on paper. */
export function PlanView({ title, plan, ticks, onTick }: PlanViewProps) {
  const ticked = tickedPlan(plan, ticks);
  const open = ticked.openBeforeFirstStart;
  return (
    <div className={`stack ${styles.plan}`}>
      <div className="opening">
        <h1>{title}</h1>
        <div className={styles.acts}>
          <Button variant="default" onClick={() => window.print()}>
            Print
          </Button>
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
      {ticked.sections
        .filter((section) => section.items.length > 0)
        .map((section) => (
          <PlanGroup key={section.group} section={section} onTick={onTick} />
        ))}
      {ticked.refused.length > 0 && (
        <p className="quiet">
          Not followed of the shop’s own edits: {ticked.refused.map(({ why }) => why).join(' ')}
        </p>
      )}
    </div>
  );
}

function PlanGroup({ section, onTick }: { section: Section; onTick: PlanViewProps['onTick'] }) {
  const done = section.items.filter((item) => item.tick !== null && !item.hasChanged).length;
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
          {done} of {section.items.length} ticked
        </span>
      </header>
      <ul className={styles.items}>
        {section.items.map((item) => (
          <PlanLine key={item.id} item={item} onTick={onTick} />
        ))}
      </ul>
    </section>
  );
}

function PlanLine({ item, onTick }: { item: Item; onTick: PlanViewProps['onTick'] }) {
  const { units } = usePreferences();
  const checked = item.tick !== null && !item.hasChanged;
  return (
    <li>
      <label>
        <input
          type="checkbox"
          checked={checked}
          onChange={(event) => onTick(item, event.currentTarget.checked)}
        />
        <span>
          {planSentence(item, units)}
          {item.weight === 'must' && !item.isSafety && <span className="tag">must</span>}
          <small className="quiet">
            {checked && `ticked by ${item.tick!.by || 'somebody'}, ${timeInWords(item.tick!.at)}. `}
            {item.hasChanged && 'It says something else than when it was ticked. '}
            {item.source}
          </small>
        </span>
      </label>
      {item.table !== null && (
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
      )}
    </li>
  );
}
