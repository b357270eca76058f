import { Button } from '@mantine/core';
import { useState } from 'react';
import { kept } from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import { copyText } from './copy.ts';

/** What was found, to be handed to the owner: a paragraph a line, with the way to the clipboard. */
export function OwnerText({ id, text }: { readonly id: string; readonly text: string }) {
  const [said, setSaid] = useState<string | null>(null);
  const paragraphs = text.split('\n');
  const copy = () =>
    copyText(text).then(
      () => setSaid('Copied'),
      () => setSaid('Mark the text and copy it by hand'),
    );
  return (
    <section aria-labelledby={id}>
      <header className={styles.head}>
        <h2 id={id} className={ladder.sectionTitle}>
          For the owner
        </h2>
        <Button
          variant="default"
          size="compact-sm"
          onClick={() => void copy()}
          onBlur={() => setSaid(null)}
        >
          <span aria-live="polite">
            {said ?? (paragraphs.length > 1 ? 'Copy the text' : 'Copy the paragraph')}
          </span>
        </Button>
      </header>
      <div className={styles.owner}>
        {paragraphs.map((one) => (
          <p key={one}>{kept(one)}</p>
        ))}
      </div>
    </section>
  );
}
