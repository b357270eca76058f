import { useCallback, useState } from 'react';
import { SafetyLine } from '../shell/safety.tsx';
import { Answer } from './Answer.tsx';
import { Evidence } from './Evidence.tsx';
import { LeaveIn } from './LeaveIn.tsx';
import styles from './ladder.module.css';
import { Mixture } from './Mixture.tsx';
import { NextMoveCard } from './NextMove.tsx';
import { Pictures } from './Pictures.tsx';
import { PullsTable } from './PullsTable.tsx';
import type { LadderViewProps, PullDetail } from './props.ts';
import { stateOf } from './state.ts';

const NO_DETAILS: ReadonlyMap<string, PullDetail> = new Map();

/** The ladder's page for a given answer: the answer, its evidence in three pictures, the pulls, and what to do. */
export function LadderView(props: LadderViewProps) {
  const { input, answer, title, units, use, trouble = null, settling = false } = props;
  const { details = NO_DETAILS, decisions = [], onExclude } = props;
  const [evidence, setEvidence] = useState(false);
  const state = stateOf(input, answer);
  const nameOf = useCallback(
    (id: string) => {
      const order = input.pulls.find((pull) => pull.id === id)?.order;
      return details.get(id)?.name ?? (order === undefined ? id : `pull ${order + 1}`);
    },
    [input.pulls, details],
  );
  const some = <K extends 'onUse' | 'onUses' | 'onDecide' | 'onBand'>(key: K) =>
    props[key] === undefined ? {} : { [key]: props[key] };

  if (answer === null || state === 'no pulls') {
    return (
      <article className={styles.page} data-state={state}>
        <Beginning {...props} state={state} trouble={trouble} />
        {input.pulls.length > 0 && (
          <PullsTable {...{ input, units, details }} onExclude={onExclude} />
        )}
      </article>
    );
  }
  return (
    <article className={styles.page} data-state={state}>
      <Answer {...{ input, answer, state, use, settling }} onEvidence={() => setEvidence(true)} />
      <Pictures {...{ input, answer, title, units, use, nameOf }} {...some('onBand')} />
      {answer.mixture !== null && (
        <Mixture mixture={answer.mixture} fuel={props.fuel ?? null} units={units} />
      )}
      <div className={styles.below}>
        <PullsTable {...{ input, units, details }} onExclude={onExclude} />
        <div className={styles.side}>
          <NextMoveCard input={input} answer={answer} />
          <LeaveIn
            {...{ input, answer, use, decisions }}
            handOverHref={props.handOverHref}
            {...some('onUse')}
            {...some('onUses')}
            {...some('onDecide')}
          />
        </div>
      </div>
      <Evidence {...{ input, answer }} opened={evidence} onClose={() => setEvidence(false)} />
    </article>
  );
}

/** Where there is nothing to answer from yet: what to do next, in order. */
function Beginning({
  input,
  state,
  trouble,
  addPullsHref,
}: LadderViewProps & { readonly state: string }) {
  const { word, safeDirection } = input.kind;
  const isMixture = input.kind.name === 'lambda';
  const careful = safeDirection === 'lower' ? 'low' : 'high';
  const begun = isMixture ? 'a careful, rich mixture' : `a careful, ${careful} ${word}`;
  return (
    <header className={styles.answer}>
      <div className={styles.said}>
        <h1 className={styles.headline}>
          {trouble !== null
            ? 'No answer yet'
            : state === 'no pulls'
              ? 'No pulls yet'
              : 'One rung is not a ladder yet'}
        </h1>
        <p className={styles.summary}>
          {trouble ??
            (state === 'no pulls'
              ? `A ladder begins with one pull at ${begun}. Then one step at a time${isMixture ? ', leaner' : ''}, everything else held.`
              : `One more pull, a step further, tells whether the step paid. Two of the same tell how well the cell repeats.`)}
        </p>
        <ol className={styles.begin}>
          <li>{`Run the first pull at ${isMixture ? 'a rich mixture' : `a careful ${word}`} that nobody doubts.`}</li>
          <li>
            Drop its file on the test day
            {addPullsHref !== undefined && (
              <>
                {': '}
                <a href={addPullsHref}>add pulls</a>
              </>
            )}
            .
          </li>
          <li>{`Set the ${word} of each pull; the answer appears here by itself.`}</li>
        </ol>
        <SafetyLine />
      </div>
    </header>
  );
}
