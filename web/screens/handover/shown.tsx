import { Button, NativeSelect } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { addressOf, refusalOf } from '../../api/client.ts';
import { imageAddress, lettersAsDataUrl, saveDrawing, withLetters } from '../../charts/index.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble } from '../../shell/states.tsx';
import { SIZE_CHOICES } from '../replay/sizes.ts';
import styles from './handover.module.css';

interface ShownProps {
  readonly id: string;
  readonly buildId: string;
  readonly madeAt: string;
  readonly language: 'en' | 'de';
}

/** The result as a picture to be shown, with the shop's mark: looked at small, saved in its size. */
export function Shown({ id, buildId, madeAt, language }: ShownProps) {
  const { units } = usePreferences();
  const [shape, setShape] = useState('screen');
  const [trouble, setTrouble] = useState<unknown>(null);
  const href = addressOf('/handovers/{id}/picture', { id }, { shape, language, units });
  const drawing = useQuery({
    queryKey: ['hand-overs', id, 'picture', shape, language, units],
    queryFn: () => drawnAt(href),
    placeholderData: keepPreviousData,
  });
  // A picture in a picture has no letters of the page; it carries its own, as the saved one does.
  const letters = useQuery({
    queryKey: ['letters'],
    queryFn: lettersAsDataUrl,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const shown = useMemo(
    () =>
      drawing.data === undefined || letters.data === undefined
        ? null
        : imageAddress(withLetters(drawing.data, letters.data)),
    [drawing.data, letters.data],
  );
  const save = async (as: 'svg' | 'png') => {
    setTrouble(null);
    try {
      await saveDrawing(await drawnAt(href), `hand-over-${madeAt.slice(0, 10)}-${shape}`, as);
    } catch (error) {
      setTrouble(error);
    }
  };
  return (
    <section className="panel" aria-labelledby="show-it">
      <header>
        <h2 id="show-it">Show it</h2>
      </header>
      <NativeSelect
        label="Picture"
        value={shape}
        data={SIZE_CHOICES}
        onChange={(event) => setShape(event.currentTarget.value)}
      />
      {shown !== null && (
        <img
          className={styles.shown}
          src={shown}
          alt="The result with its figures and curve, as it will be saved"
        />
      )}
      <div className="acts">
        <Button variant="default" onClick={() => void save('png')}>
          Save as PNG
        </Button>
        <Button variant="default" onClick={() => void save('svg')}>
          Save as SVG
        </Button>
        <Button
          variant="default"
          renderRoot={(props) => (
            <Link
              to="/builds/$id/replay"
              params={{ id: buildId }}
              search={{ made: id, ...(language === 'de' ? { language } : {}) }}
              {...props}
            />
          )}
        >
          Replay
        </Button>
      </div>
      {(trouble ?? drawing.error) !== null && <Trouble error={trouble ?? drawing.error} />}
    </section>
  );
}

async function drawnAt(address: string): Promise<string> {
  const answer = await fetch(address);
  const text = await answer.text();
  if (!answer.ok) throw refusalOf(answer.status, text);
  return text;
}
