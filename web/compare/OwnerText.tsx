import { kept } from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import { CopyButton } from '../shell/copy-button.tsx';
import styles from './compare.module.css';

/** What was found, to be handed to the owner: a paragraph a line, with the way to the clipboard. */
export function OwnerText({ id, text }: { readonly id: string; readonly text: string }) {
  const paragraphs = text.split('\n');
  return (
    <section aria-labelledby={id}>
      <header className={styles.head}>
        <h2 id={id} className={ladder.sectionTitle}>
          For the owner
        </h2>
        <CopyButton
          text={text}
          label={paragraphs.length > 1 ? 'Copy the text' : 'Copy the paragraph'}
        />
      </header>
      <div className={styles.owner}>
        {paragraphs.map((one) => (
          <p key={one}>{kept(one)}</p>
        ))}
      </div>
    </section>
  );
}
