import { Button, NativeSelect } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { addressOf, refusalOf } from '../../api/client.ts';
import { saveDrawing } from '../../charts/index.ts';
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
  const save = async (as: 'svg' | 'png') => {
    setTrouble(null);
    try {
      const answer = await fetch(href);
      const text = await answer.text();
      if (!answer.ok) throw refusalOf(answer.status, text);
      await saveDrawing(text, `hand-over-${madeAt.slice(0, 10)}-${shape}`, as);
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
      <img
        key={href}
        className={styles.shown}
        src={href}
        alt="The result with its figures and curve, as it will be saved"
        onError={(event) => {
          event.currentTarget.hidden = true;
        }}
      />
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
      {trouble !== null && <Trouble error={trouble} />}
    </section>
  );
}
