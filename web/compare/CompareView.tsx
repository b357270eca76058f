import { Button } from '@mantine/core';
import { inUnitsOf } from '../../src/units/sentences.ts';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import { Finding } from './Finding.tsx';
import { ForOwner } from './ForOwner.tsx';
import { MadeOf } from './MadeOf.tsx';
import { Measures } from './Measures.tsx';
import { Mind } from './Mind.tsx';
import { Pictures } from './Pictures.tsx';
import type { CompareViewProps } from './props.ts';
import { Sides } from './Sides.tsx';
import { bandInWords } from './words.ts';

/** Side by side for a given answer: the sides, the finding, two pictures, the figures, and what they stand on. */
export function CompareView(props: CompareViewProps) {
  const { answer, trouble, units, speedsRpm, onBand } = props;
  if (answer === null)
    return (
      <article className={ladder.page}>
        <Sides {...props} />
        <header className={ladder.answer}>
          <div className={ladder.said}>
            <h1 className={ladder.headline}>Not comparable as they stand</h1>
            <p className={ladder.summary} role="alert">
              {inUnitsOf(trouble ?? '', units)}
            </p>
            {speedsRpm !== null && onBand !== undefined && (
              <p>
                <Button variant="default" size="xs" onClick={() => onBand(speedsRpm)}>
                  {`Compare from ${bandInWords(speedsRpm)}, which all cover`}
                </Button>
              </p>
            )}
          </div>
        </header>
      </article>
    );
  return (
    <article className={ladder.page}>
      <Sides {...props} />
      <Finding {...props} answer={answer} />
      {props.undrawn}
      <Pictures {...props} answer={answer} />
      <div className={styles.below}>
        <Measures {...props} answer={answer} />
        <div className={ladder.side}>
          <ForOwner {...props} answer={answer} />
          <Mind {...props} answer={answer} />
          <MadeOf {...props} answer={answer} />
        </div>
      </div>
    </article>
  );
}
