import type { CompareAnswer } from '../../src/compare/types.ts';
import ladder from '../ladder/ladder.module.css';
import { count, kept } from '../shell/words.ts';
import styles from './compare.module.css';
import type { CompareViewProps, PullWords } from './props.ts';
import { SideMark } from './SideMark.tsx';
import { daysInWords, repeatInWords } from './words.ts';

/** What each side was made of, and how well pulls and days agree here. */
export function MadeOf(props: CompareViewProps & { readonly answer: CompareAnswer }) {
  const { answer, sides, daysFrom } = props;
  return (
    <>
      <section aria-labelledby="compare-made">
        <h2 id="compare-made" className={ladder.sectionTitle}>
          What the sides were made of
        </h2>
        {sides.map((side, at) => {
          const used = side.pulls.filter(({ why }) => why === null);
          const out = side.pulls.filter(({ why }) => why !== null);
          const days = answer.groups[at]?.days ?? 1;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a side is its place
            <div key={at} className={styles.made}>
              <SideMark side={at} count={sides.length} />
              <div>
                <p>
                  <b>{side.name}</b>
                  {side.pulls.length === 0
                    ? `: ${side.aside}. `
                    : `: ${count(used.length, 'pull')}${days > 1 ? ` of ${count(days, 'day')}` : ''}. `}
                  {used.map((pull, i) => (
                    <span key={pull.key}>
                      {i > 0 && ', '}
                      <PullName pull={pull} />
                      {pull.setting !== null && ` (${pull.setting})`}
                    </span>
                  ))}
                </p>
                {out.length > 0 && (
                  <details className={styles.out}>
                    <summary>{`${count(out.length, 'pull')} left out`}</summary>
                    <ul>
                      {out.map((pull) => (
                        <li key={pull.key}>
                          <PullName pull={pull} />
                          {`: ${kept(pull.why ?? '')}`}
                        </li>
                      ))}
                    </ul>
                  </details>
                )}
              </div>
            </div>
          );
        })}
      </section>
      <section aria-labelledby="compare-known">
        <h2 id="compare-known" className={ladder.sectionTitle}>
          How well it can be known
        </h2>
        <dl className={styles.known}>
          <dt>Pull to pull, 1 sd</dt>
          <dd>{repeatInWords(answer)}</dd>
          <dt>Day to day, 1 sd</dt>
          <dd>{daysInWords(answer, daysFrom)}</dd>
        </dl>
      </section>
    </>
  );
}

const PullName = ({ pull }: { readonly pull: PullWords }) =>
  pull.href === undefined ? pull.name : <a href={pull.href}>{pull.name}</a>;
