import type { ReactNode } from 'react';
import type { Figure, Verdict } from '../../src/build/index.ts';
import { Background, ValueText } from './Answered.tsx';
import { useSheetWork } from './context.ts';
import { EngineLine } from './EngineLine.tsx';
import { CheckItem } from './Follows.tsx';
import styles from './follows.module.css';
import { MeasureNext } from './MeasureNext.tsx';
import { VerdictMark } from './Verdict.tsx';
import { HEADLINES, outOfWindow, verdictCounts } from './words.ts';

const VERDICTS: readonly Verdict[] = ['stop', 'look again', 'fine', 'not known'];

interface OverviewProps {
  readonly uses: readonly string[];
  /** Photos and files of the build. */
  readonly files?: ReactNode;
}

/** The whole sheet on one page: how it stands, the engine in figures, what is out of its window, what to measure next. */
export function Overview({ uses, files }: OverviewProps) {
  const { answer } = useSheetWork();
  const counts = verdictCounts(answer.checks);
  const wrong = outOfWindow(answer.checks);
  const byId = new Map<string, Figure>(
    [...answer.checks, ...answer.figures].map((one) => [one.id, one]),
  );
  const headlines = HEADLINES.flatMap((id) => byId.get(id) ?? []).filter(
    (figure) => figure.value !== null,
  );
  return (
    <div className={styles.overview}>
      <div className="stack">
        <EngineLine uses={uses} />
        <p className={styles.counts}>
          {VERDICTS.map((verdict) => (
            <VerdictMark key={verdict} verdict={verdict} count={counts[verdict]} />
          ))}
        </p>
        {headlines.length > 0 && (
          <section className="panel" aria-labelledby="engine-figures">
            <header>
              <h2 id="engine-figures">The engine in figures</h2>
            </header>
            <ul className={styles.headlines}>
              {headlines.map((figure) => (
                <li key={figure.id}>
                  <small className="quiet">{figure.label}</small>
                  <ValueText answer={figure} />
                  <Background answer={figure} />
                </li>
              ))}
            </ul>
          </section>
        )}
        <section className="panel" aria-labelledby="out-of-window">
          <header>
            <h2 id="out-of-window">Out of its window</h2>
          </header>
          {wrong.length === 0 ? (
            <p className="quiet">
              Nothing that was measured stands out of its window
              {counts['not known'] > 0 && `; ${counts['not known']} checks are not known yet`}.
            </p>
          ) : (
            <ul className={styles.checks}>
              {wrong.map((check) => (
                <CheckItem key={check.id} check={check} named />
              ))}
            </ul>
          )}
        </section>
        {files}
      </div>
      <MeasureNext />
    </div>
  );
}
