import { Button, FileButton } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { type DragEvent, useState } from 'react';
import { putFile } from '../../api/put-file.ts';
import type { Verified } from '../../api/types.gen.ts';
import { FileName, plainName } from '../../shell/FileName.tsx';
import { Facts } from '../../shell/figures.tsx';
import { Page } from '../../shell/page.tsx';
import { Trouble } from '../../shell/states.tsx';
import { count } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { type TableModel, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeRow } from '../../table/TakeTable.tsx';
import { CheckIcon, LookIcon, StopIcon } from '../../theme/icons.tsx';
import styles from './handover.module.css';
import { madeAtInWords } from './made-list.tsx';
import { SignedWith } from './signed-with.tsx';

/** Holds a bundle or a report against the recordings in it; nothing of it is stored. */
export function VerifyScreen() {
  const verify = useMutation({
    mutationFn: (file: File) => putFile('POST /verify', undefined, file, { name: file.name }),
  });
  const [over, setOver] = useState(false);
  const take = (file: File | null | undefined) => {
    if (file) verify.mutate(file);
  };
  const dragged = (event: DragEvent) => {
    if (!event.dataTransfer.types.includes('Files')) return;
    // Without this the browser would leave the page and show the file.
    event.preventDefault();
    setOver(event.type === 'dragenter' || event.type === 'dragover');
    if (event.type === 'drop') take(event.dataTransfer.files[0]);
  };
  return (
    <Page
      title="Check a hand-over"
      crumbs={[{ label: 'Shop', to: '/' }, { label: 'Check a hand-over' }]}
    >
      <div className="stack">
        <div>
          <h1>Check a hand-over</h1>
          <p className="lede">
            Every figure is computed again from the recordings in the file. Nothing of it is stored
            in this book.
          </p>
        </div>
        <section
          className={styles.drop}
          aria-label="File to check"
          data-over={over || undefined}
          onDragEnter={dragged}
          onDragOver={dragged}
          onDragLeave={dragged}
          onDrop={dragged}
        >
          <span>
            <strong>Drop a bundle (zip) or a report (PDF) here</strong>{' '}
            <span className="quiet">from this shop or any other.</span>
          </span>
          <FileButton accept=".zip,.pdf,application/zip,application/pdf" onChange={take}>
            {(props) => <Button {...props}>Choose a file</Button>}
          </FileButton>
        </section>
        {verify.isPending && (
          <p role="status">
            Computing <FileName name={verify.variables.name} /> again from its recordings …
          </p>
        )}
        {verify.isError && <Trouble error={verify.error} />}
        {verify.data && <Verdict verified={verify.data} />}
        <section className="panel" aria-labelledby="what-it-proves">
          <header>
            <h2 id="what-it-proves">What this proves, and what it cannot</h2>
          </header>
          <p className={styles.key}>
            It proves that nothing was changed since the file was signed, and that the figures
            follow from the recordings in it. It cannot say that the recordings are true: that rests
            on the shop whose key signed it.
          </p>
          <SignedWith />
        </section>
      </div>
    </Page>
  );
}

const HEADLINE: Readonly<Record<Verified['verdict'], string>> = {
  follows: 'Every figure follows from the recordings',
  changed: 'It was changed after it was made',
  'does not follow': 'Figures do not follow from the recordings',
  'other version': 'Another version of Pullbook computed it',
  'cannot be computed': 'It cannot be computed again',
};

function Verdict({ verified }: { verified: Verified }) {
  const { verdict, sentence, problems, unheld, differences, held, signedBy, isOurs } = verified;
  return (
    <section className="panel" aria-live="polite" aria-labelledby="verdict">
      <div className={styles.verdict}>
        {verdict === 'follows' ? (
          <CheckIcon />
        ) : verdict === 'other version' ? (
          <span className="look">
            <LookIcon />
          </span>
        ) : (
          <span className="stop">
            <StopIcon />
          </span>
        )}
        <div>
          <h2 id="verdict">
            {verdict === 'other version' && held > 0 && differences.length === 0
              ? 'Every figure follows, but not every file could be compared'
              : HEADLINE[verdict]}
          </h2>
          <p>{sentence}</p>
        </div>
      </div>
      <Facts
        rows={[
          ['File', <FileName key="file" name={verified.file} />],
          ['Engine', plainName(verified.engine)],
          ['Build', plainName(verified.build)],
          ['Made', madeAtInWords(verified.madeAt)],
          ['Made with', plainName(verified.madeWith)],
          ['Signed', signedInWords(signedBy, isOurs)],
        ]}
      />
      {problems.length + unheld.length > 0 && (
        <ul className={styles.problems}>
          {[...problems, ...unheld].map(({ where, sentence: said }) => (
            <li key={`${where} ${said}`}>{plainName(said)}</li>
          ))}
        </ul>
      )}
      {differences.length > 0 && <Differences differences={differences} />}
    </section>
  );
}

function signedInWords(signedBy: Verified['signedBy'], isOurs: boolean): string {
  if (signedBy === null) return 'by nobody';
  return isOurs ? `by this shop, ${signedBy.name}` : `not by this shop, but with ${signedBy.name}`;
}

function Differences({ differences }: Pick<Verified, 'differences'>) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section className={styles.scroll} tabIndex={0} aria-label="What differs">
      <TakeRow title="What differs" table={() => differencesTable(differences)} />
      <table className="sheet">
        <caption className={styles.caption}>{count(differences.length, 'difference')}</caption>
        <Heads of={['Where', 'It says', 'The recordings give']} />
        <tbody>
          {differences.map(({ where, place, says, follows }) => (
            <tr key={where}>
              <th scope="row" className={styles.where} title={plainName(where)}>
                {plainName(place)}
              </th>
              <td className={styles.where}>{valueInWords(says)}</td>
              <td className={styles.where}>{valueInWords(follows)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const differencesTable = (differences: Verified['differences']): TableModel => {
  const whole = (value: unknown) =>
    typeof value === 'string' ? value : value == null ? null : JSON.stringify(value);
  return tableFrom(differences, [
    wordsColumn('Where', ({ where }) => where),
    wordsColumn(
      'It says',
      ({ says }) => whole(says),
      'as in handover.json; each name says its unit',
    ),
    wordsColumn('The recordings give', ({ follows }) => whole(follows), 'in the same unit'),
  ]);
};

const LONGEST = 200;

/** A value of the document as it stands there; a whole branch shortened. */
function valueInWords(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return plainName(text.length > LONGEST ? `${text.slice(0, LONGEST)} …` : text);
}
