import { Button, FileButton } from '@mantine/core';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { Trouble } from '../../shell/states.tsx';
import styles from './settings.module.css';

/** The shop's own mark, as it stands on hand-overs and pictures: chosen, shown, taken off. */
export function Mark({ mark }: { readonly mark: string | null }) {
  const [trouble, setTrouble] = useState<unknown>(null);
  const change = useChange((next: string | null) => ask('PATCH /shop', { body: { mark: next } }), {
    done: 'The mark of the shop is changed.',
  });
  const take = (file: File | null) => {
    if (file === null) return;
    setTrouble(null);
    asDataUrl(file).then((text) => change.mutate(text), setTrouble);
  };
  return (
    <div className={styles.mark}>
      {mark === null ? (
        <span className="quiet">
          No mark yet. A PNG or SVG picture of at most 200 kB stands on hand-overs and pictures.
        </span>
      ) : (
        <img src={mark} alt="Mark of the shop" className={styles.markPicture} />
      )}
      <div className="acts">
        <FileButton accept="image/png,image/svg+xml" onChange={take}>
          {(props) => (
            <Button variant="default" size="compact-sm" loading={change.isPending} {...props}>
              {mark === null ? 'Choose a mark' : 'Another mark'}
            </Button>
          )}
        </FileButton>
        {mark !== null && (
          <Button variant="subtle" size="compact-sm" onClick={() => change.mutate(null)}>
            Take the mark off
          </Button>
        )}
      </div>
      {trouble !== null && <Trouble error={trouble} />}
    </div>
  );
}

function asDataUrl(file: File): Promise<string> {
  return new Promise((give, refuse) => {
    const reader = new FileReader();
    reader.onload = () => give(String(reader.result));
    reader.onerror = () => refuse(new Error(`${file.name} cannot be read.`));
    reader.readAsDataURL(file);
  });
}
