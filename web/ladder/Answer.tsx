import type { LadderAnswer, LadderInput } from '../../src/ladder/types.ts';
import { estimate, interval, kept, percent, setting, settingDecimals } from '../charts/numbers.ts';
import { LookIcon } from '../theme/icons.tsx';
import styles from './ladder.module.css';
import type { LadderState } from './state.ts';
import { bestInWords, moveInWords, worthInWords } from './words.ts';

interface AnswerProps {
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  readonly state: LadderState;
  readonly use: string | null;
  readonly onEvidence: () => void;
  readonly settling: boolean;
}

/** The answer first: one sentence, then the three questions with figures that can be read from across the room. */
export function Answer({ input, answer, state, use, onEvidence, settling }: AnswerProps) {
  return (
    <header className={styles.answer} data-settling={settling}>
      <div className={styles.said} data-warned={answer.warnings.length > 0}>
        <h1 className={styles.headline} aria-live="polite">
          {answer.headline}
        </h1>
        <p className={styles.summary}>
          <span className={styles.summaryText}>{`${kept(answer.summary)} `}</span>
          <button type="button" className={styles.link} onClick={onEvidence}>
            Why we say this
          </button>
        </p>
        <Warnings warnings={answer.warnings} />
      </div>
      <Questions {...{ input, answer, state, use }} />
    </header>
  );
}

/** Each warning: an icon, its first words strong, the rest plain. */
export function Warnings({ warnings }: { readonly warnings: readonly string[] }) {
  if (warnings.length === 0) return null;
  return (
    <ul className={styles.warnings}>
      {warnings.map(kept).map((warning) => {
        const colon = warning.indexOf(':');
        const word = colon > 0 && colon < 40 ? warning.slice(0, colon) : null;
        return (
          <li key={warning}>
            <LookIcon />
            <span>
              {word === null ? (
                warning
              ) : (
                <>
                  <strong>{word}</strong>
                  {warning.slice(colon)}
                </>
              )}
            </span>
          </li>
        );
      })}
    </ul>
  );
}

function Questions({
  input,
  answer,
  state,
  use,
}: Pick<AnswerProps, 'input' | 'answer' | 'state' | 'use'>) {
  const { kind } = input;
  const [best, bestAside] = bestInWords(answer.best, kind);
  const limit = answer.limit?.value == null ? null : answer.limit;
  const names = input.uses.map((rule) => rule.name);
  return (
    <dl className={styles.questions}>
      <div className={styles.question}>
        <dt>{limit === null ? 'Where is the best' : 'Where are best and limit'}</dt>
        <dd className={styles.leaves}>
          <div>
            <span className={styles.figure} data-unknown={answer.best.value === null}>
              {best}
            </span>
            <span className={styles.aside}>
              <b>best</b>
              {bestAside}
            </span>
          </div>
          {limit !== null && (
            <div>
              <span className={styles.figure}>{estimate(limit.value, kind.unit)}</span>
              <span className={styles.aside}>
                <b>limit</b>
                {limit.low === null && limit.high === null
                  ? ''
                  : ` ${interval(limit.low, limit.high, settingDecimals(kind.unit))}`}
              </span>
            </div>
          )}
        </dd>
      </div>
      <div className={styles.question}>
        <dt>Is another step worth it</dt>
        <dd>
          <span className={styles.figure} data-words="">
            {moveInWords(answer.next, kind.unit)}
          </span>
          <span className={styles.aside}>{worthInWords(answer.next)}</span>
        </dd>
      </div>
      <div className={styles.question}>
        <dt>What to leave in it</dt>
        <dd className={styles.leaves}>
          {names.length === 0 && (
            <div className={styles.leave}>
              <span className={styles.figure} data-unknown="true">
                no rule yet
              </span>
              <span className={styles.aside}>{`no use has a holdback for ${kind.word}`}</span>
            </div>
          )}
          {names.map((name) => {
            const one = answer.uses[name];
            const value = one?.value ?? null;
            return (
              <div key={name} className={styles.leave} data-chosen={name === use}>
                <span className={styles.figure} data-unknown={value === null}>
                  {value === null
                    ? state === 'no rule'
                      ? 'no rule'
                      : 'not yet'
                    : setting(value, kind.unit, 2)}
                </span>
                <span className={styles.aside}>
                  <b>{name}</b>
                  {value === null || one?.givesUpPercent == null
                    ? ''
                    : ` gives up ${percent(one.givesUpPercent)}`}
                </span>
              </div>
            );
          })}
        </dd>
      </div>
    </dl>
  );
}
