import type { LadderAnswer, LadderInput } from '../../src/ladder/types.ts';
import { kept, setting } from '../charts/numbers.ts';
import { SafetyLine } from '../shell/safety.tsx';
import styles from './ladder.module.css';
import { moveInWords, worthInWords } from './words.ts';

/** What to do next, what it may bring and why; with the usual cautions wherever that is a pull. */
export function NextMoveCard({
  input,
  answer,
}: {
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
}) {
  const { next, highestClean } = answer;
  const { unit } = input.kind;
  const isPull = next.action !== 'stop';
  return (
    <section aria-labelledby="ladder-next" className={styles.next}>
      <h2 id="ladder-next" className={styles.sectionTitle}>
        {isPull
          ? `Next: ${moveInWords(next, unit).replace(/^./, (letter) => letter.toLowerCase())}`
          : 'Next: stop here'}
      </h2>
      <p>{kept(next.why)}</p>
      <p className={styles.quiet}>
        {`${capital(worthInWords(next))}.`}
        {isPull && highestClean !== null && (
          <>
            {` Highest rung that ran clean: ${setting(highestClean, unit, 2)}.`}
            {answer.limitWatched
              ? ''
              : ' Listen, read the plugs or record knock, and note it with the pull.'}
          </>
        )}
      </p>
      {isPull && <SafetyLine />}
    </section>
  );
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
