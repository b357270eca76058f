import { Button } from '@mantine/core';
import { useState } from 'react';
import type { CompareAnswer } from '../../src/compare/types.ts';
import { kept } from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import { copyText } from './copy.ts';
import type { CompareViewProps } from './props.ts';
import { paragraph } from './words.ts';

/** The whole finding as a paragraph that can be handed to the owner. */
export function ForOwner({
  answer,
  taken,
  units,
}: CompareViewProps & { readonly answer: CompareAnswer }) {
  const [said, setSaid] = useState<string | null>(null);
  const text = paragraph(answer, taken, units);
  const copy = () =>
    copyText(text).then(
      () => setSaid('Copied'),
      () => setSaid('Mark the text and copy it by hand'),
    );
  return (
    <section aria-labelledby="compare-owner">
      <header className={styles.head}>
        <h2 id="compare-owner" className={ladder.sectionTitle}>
          For the owner
        </h2>
        <Button
          variant="default"
          size="compact-sm"
          onClick={() => void copy()}
          onBlur={() => setSaid(null)}
        >
          <span aria-live="polite">{said ?? 'Copy the paragraph'}</span>
        </Button>
      </header>
      <p className={styles.owner}>{kept(text)}</p>
    </section>
  );
}
