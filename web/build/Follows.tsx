import { memo } from 'react';
import { type Check, type Figure, type SectionSpec, sectionOf } from '../../src/build/index.ts';
import { inUnitsOf } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { TakeHead } from '../table/TakeTable.tsx';
import { Background, FieldLinks, ValueText } from './Answered.tsx';
import { useSheetActs, useSheetWork } from './context.ts';
import styles from './follows.module.css';
import { followsTable } from './sheet-tables.ts';
import { VerdictMark } from './Verdict.tsx';
import { WindowBar } from './WindowBar.tsx';
import { checksOf, figuresOf, inNeedOrder, placesOf } from './words.ts';

/** What follows from the sheet in one section: checks, worst first, then figures, then what is not known yet. */
export function Follows({ section }: { readonly section: SectionSpec }) {
  const { answer } = useSheetWork();
  const { units } = usePreferences();
  const checks = inNeedOrder(checksOf(answer, section.id));
  const figures = figuresOf(answer, section.id);
  const judged = checks.filter((check) => check.verdict !== 'not known');
  const known = figures.filter((figure) => figure.value !== null || figure.problem !== null);
  const open = [...checks, ...figures].filter(
    (one) => !judged.includes(one as Check) && !known.includes(one),
  );
  return (
    <aside className={styles.follows} aria-label="What follows" id="follows">
      <TakeHead title="What follows" table={() => followsTable([...judged, ...known], units)}>
        <h2>What follows</h2>
      </TakeHead>
      {checks.length + figures.length === 0 && (
        <p className="quiet">Nothing is computed from this section alone; other sections use it.</p>
      )}
      {judged.length > 0 && (
        <ul className={styles.checks}>
          {judged.map((check) => (
            <CheckItem key={check.id} check={check} />
          ))}
        </ul>
      )}
      {known.length > 0 && (
        <ul className={styles.figures}>
          {known.map((figure) => (
            <FigureItem key={figure.id} figure={figure} />
          ))}
        </ul>
      )}
      {open.length > 0 && (
        <section aria-label="Not known yet">
          <h3>Not known yet</h3>
          <ul className={styles.open}>
            {open.map((one) => (
              <li key={`${'verdict' in one ? 'check' : 'figure'} ${one.id}`}>
                {one.label}
                <small className="quiet">
                  {one.missing.length > 0 ? (
                    <>
                      wants <FieldLinks paths={one.missing} section={section.id} />
                    </>
                  ) : (
                    (one.notes[0]?.sentence ?? 'No window is set for it.')
                  )}
                </small>
              </li>
            ))}
          </ul>
        </section>
      )}
    </aside>
  );
}

/** Answers that stay the same stay the same objects, and what shows them is not drawn again. */
const FigureItem = memo(function FigureItem({ figure }: { readonly figure: Figure }) {
  return (
    <li>
      <div className={styles.figure}>
        <span>{figure.label}</span>
        <ValueText answer={figure} />
      </div>
      {figure.problem !== null && <p className="stop">{figure.problem}</p>}
      <Background answer={figure} />
    </li>
  );
});

/** One check: verdict, value in its window, and what would bring it right. */
export const CheckItem = memo(function CheckItem({
  check,
  named = false,
}: {
  readonly check: Check;
  readonly named?: boolean;
}) {
  const { layout, href, go } = useSheetActs();
  const { units } = usePreferences();
  const worst = check.worst === null ? undefined : placesOf(check, layout)[check.worst];
  return (
    <li>
      <div className={styles.figure}>
        <span>
          <VerdictMark verdict={check.verdict} /> <strong>{check.label}</strong>
          {worst !== undefined && <span className="quiet"> worst at {worst}</span>}
        </span>
        {check.problem === null && <ValueText answer={check} />}
      </div>
      {named && (
        <a
          className={styles.where}
          href={href(check.section)}
          onClick={(event) => {
            if (event.metaKey || event.ctrlKey) return;
            event.preventDefault();
            go(check.section);
          }}
        >
          {sectionOf(check.section)?.title}
        </a>
      )}
      <WindowBar check={check} />
      {check.problem !== null && <p className="stop">{inUnitsOf(check.problem, units)}</p>}
      {check.remedy !== null && <p>{inUnitsOf(check.remedy, units)}</p>}
      <Background answer={check} {...(check.window === null ? {} : { window: check.window })} />
    </li>
  );
});
