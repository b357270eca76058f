import { Button } from '@mantine/core';
import { useState } from 'react';
import { useSheetActs, useSheetWork } from './context.ts';
import styles from './follows.module.css';
import { pathInWords } from './words.ts';

const FIRST = 10;

/** What is still to be measured, the more decisive the earlier; each leads to its field. */
export function MeasureNext() {
  const { answer } = useSheetWork();
  const { goTo } = useSheetActs();
  const [all, setAll] = useState(false);
  const list = all ? answer.measureNext : answer.measureNext.slice(0, FIRST);
  return (
    <section className={styles.next} aria-labelledby="measure-next">
      <h2 id="measure-next">Measure next</h2>
      {list.length === 0 ? (
        <p className="quiet">Everything that the checks ask for is measured.</p>
      ) : (
        <ol>
          {list.map(({ path, decides }) => (
            <li key={path}>
              <button type="button" className={styles.way} onClick={() => goTo(path)}>
                {pathInWords(path)}
              </button>
              <small className="quiet">
                decides {decides.slice(0, 2).join(', ')}
                {decides.length > 2 && ` and ${decides.length - 2} more`}
              </small>
            </li>
          ))}
        </ol>
      )}
      {answer.measureNext.length > FIRST && (
        <Button variant="default" size="compact-sm" onClick={() => setAll(!all)}>
          {all ? 'Fewer' : `All ${answer.measureNext.length}`}
        </Button>
      )}
    </section>
  );
}
