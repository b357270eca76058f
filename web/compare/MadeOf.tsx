import type { CompareAnswer } from '../../src/compare/types.ts';
import ladder from '../ladder/ladder.module.css';
import { count } from '../shell/words.ts';
import styles from './compare.module.css';
import type { CompareViewProps } from './props.ts';
import { SideMark } from './SideMark.tsx';
import { daysInWords, repeatInWords } from './words.ts';

/** What each side was made of, and how well pulls and days agree here. */
export function MadeOf(props: CompareViewProps & { readonly answer: CompareAnswer }) {
  const { answer, input, sides } = props;
  return (
    <>
      <section aria-labelledby="compare-made">
        <h2 id="compare-made" className={ladder.sectionTitle}>
          What the sides were made of
        </h2>
        {input.groups.map((group, at) => {
          const words = sides[at];
          const used = group.pulls.filter((pull) => pull.excludedBecause === null);
          const out = group.pulls.filter((pull) => pull.excludedBecause !== null);
          const days = answer.groups[at]?.days ?? 1;
          const link = (id: string) => {
            const pull = words?.pulls.get(id);
            const name = pull?.name ?? id;
            return pull?.href === undefined ? name : <a href={pull.href}>{name}</a>;
          };
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a side is its place
            <div key={at} className={styles.made}>
              <SideMark side={at} count={input.groups.length} />
              <div>
                <p>
                  <b>{group.name}</b>
                  {`: ${count(used.length, 'pull')}${days > 1 ? ` of ${count(days, 'day')}` : ''}. `}
                  {used.map((pull, i) => (
                    <span key={pull.id}>
                      {i > 0 && ', '}
                      {link(pull.id)}
                      {words?.pulls.get(pull.id)?.setting != null &&
                        ` (${words.pulls.get(pull.id)!.setting})`}
                    </span>
                  ))}
                </p>
                {out.length > 0 && (
                  <p className={ladder.quiet}>
                    {'Left out: '}
                    {out.map((pull, i) => (
                      <span key={pull.id}>
                        {i > 0 && '; '}
                        {link(pull.id)}
                        {`, ${pull.excludedBecause}`}
                      </span>
                    ))}
                  </p>
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
          <dd>{daysInWords(answer)}</dd>
        </dl>
      </section>
    </>
  );
}
