import { Button, FileButton, Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { refresh, sayDone } from '../../api/changes.ts';
import { addressOf } from '../../api/client.ts';
import { putFile } from '../../api/put-file.ts';
import { shopQuery } from '../../api/queries.ts';
import type { ShopFileLook } from '../../api/types.gen.ts';
import { FileName } from '../../shell/FileName.tsx';
import { Trouble } from '../../shell/states.tsx';
import { timeInWords } from '../../shell/words.ts';

const bringsAnything = ({ fresh, settings }: ShopFileLook) =>
  Object.keys(fresh).length + settings.taken.length + settings.renamed.length > 0;

type Given = { readonly file: File; readonly look: ShopFileLook | null };

/** The shop to another machine, and what came from one: looked at first, taken in as one change. */
export function AnotherMachine() {
  const shop = useQuery(shopQuery);
  const [engine, setEngine] = useState('');
  const [given, setGiven] = useState<Given | null>(null);
  const [error, setError] = useState<unknown>(null);
  const [isTaking, setTaking] = useState(false);
  const look = async (file: File | null) => {
    if (file === null) return;
    setError(null);
    setGiven({ file, look: null });
    try {
      setGiven({
        file,
        look: await putFile('POST /take/look', undefined, file, { name: file.name }),
      });
    } catch (trouble) {
      setGiven(null);
      setError(trouble);
    }
  };
  const take = async ({ file }: Given) => {
    setTaking(true);
    setError(null);
    try {
      await putFile('POST /take', undefined, file, { name: file.name });
      setGiven(null);
      await refresh();
      await sayDone('It is taken in.');
    } catch (trouble) {
      setError(trouble);
    } finally {
      setTaking(false);
    }
  };
  const seen = given?.look ?? null;
  return (
    <section className="panel" aria-labelledby="another-machine">
      <header>
        <h2 id="another-machine">To and from another machine</h2>
      </header>
      <p className="quiet">
        One file with everything under it: builds, sheets, photos, test days, run files as they
        came, decisions; with the whole shop also its name, uses and windows. What stands here is
        never written over, and what is taken in can be taken back as one change.
      </p>
      <Group align="end" my="sm">
        <NativeSelect
          label="Take along"
          value={engine}
          onChange={(event) => setEngine(event.currentTarget.value)}
          data={[
            { value: '', label: 'The whole shop' },
            ...(shop.data?.engines ?? []).map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <Button
          component="a"
          variant="default"
          href={addressOf('/export', {}, engine === '' ? {} : { engine })}
          download
        >
          Export
        </Button>
        <FileButton accept=".zip,application/zip" onChange={(file) => void look(file)}>
          {(props) => (
            <Button variant="default" {...props}>
              Look at a file …
            </Button>
          )}
        </FileButton>
      </Group>
      {error !== null && <Trouble error={error} />}
      {given !== null && (
        <div role="status">
          <p>
            <FileName name={given.file.name} />
            {seen === null
              ? ': being read …'
              : `: ${seen.shop}, exported ${timeInWords(seen.madeAt)}.`}
          </p>
          {seen !== null && <p>{seen.sentence}</p>}
          {seen !== null && seen.conflicts.length > 1 && (
            <ul>
              {seen.conflicts.slice(0, 20).map(({ sentence }) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          )}
          <Group>
            {seen !== null && seen.conflicts.length === 0 && bringsAnything(seen) && (
              <Button loading={isTaking} onClick={() => void take(given)}>
                Take it in
              </Button>
            )}
            <Button variant="subtle" onClick={() => setGiven(null)}>
              Leave it
            </Button>
          </Group>
        </div>
      )}
    </section>
  );
}
