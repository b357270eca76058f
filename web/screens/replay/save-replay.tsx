import { Button, NativeSelect, Progress } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { ReplayWanted } from '../../../src/figures.ts';
import { framesOf } from '../../../src/replay.ts';
import { handToPerson } from '../../charts/save.ts';
import { Trouble } from '../../shell/states.tsx';
import { canCode } from './can-code.ts';
import styles from './replay.module.css';
import type { SaveWish } from './save.ts';
import { isSize, SIZE_CHOICES, SIZES, type SizeName } from './sizes.ts';

/** Fetched when something is saved: what draws without a page is as large as all of this one. */
const saving = () => import('./save.ts');

const PER_SECOND = ['25', '30', '50', '60'];

interface SaveProps {
  readonly replay: ReplayWanted;
  readonly size: SizeName;
  readonly onSize: (size: SizeName) => void;
  readonly fileName: string;
}

/** The whole replay as a file, always in real time. */
export function SaveReplay({ replay, size, onSize, fileName }: SaveProps) {
  const [perSecond, setPerSecond] = useState('30');
  const [done, setDone] = useState<{ count: number; of: number } | null>(null);
  const [trouble, setTrouble] = useState<unknown>(null);
  const running = useRef<AbortController | null>(null);
  const { width, height } = SIZES[size];
  const coder = useQuery({
    queryKey: ['video coder', width, height],
    queryFn: () => canCode({ width, height }),
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  });
  useEffect(() => () => running.current?.abort(), []);
  const { count } = framesOf(replay, Number(perSecond));

  const save = async (make: (wish: SaveWish) => Promise<{ blob: Blob; ending: string }>) => {
    const controller = new AbortController();
    running.current = controller;
    setTrouble(null);
    setDone({ count: 0, of: count });
    try {
      const { blob, ending } = await make({
        replay,
        size: { width, height },
        perSecond: Number(perSecond),
        signal: controller.signal,
        onFrame: (made, of) => setDone({ count: made, of }),
      });
      handToPerson(blob, `${fileName}-${size}.${ending}`);
    } catch (error) {
      if (!controller.signal.aborted) setTrouble(error);
    } finally {
      running.current = null;
      setDone(null);
    }
  };

  return (
    <section className="panel" aria-labelledby="save-replay">
      <header>
        <h2 id="save-replay">Save it</h2>
      </header>
      <div className={styles.choices}>
        <NativeSelect
          label="Picture"
          value={size}
          data={SIZE_CHOICES}
          disabled={done !== null}
          onChange={({ currentTarget: { value } }) => isSize(value) && onSize(value)}
        />
        <NativeSelect
          label="Pictures a second"
          value={perSecond}
          data={PER_SECOND}
          disabled={done !== null}
          onChange={(event) => setPerSecond(event.currentTarget.value)}
        />
      </div>
      {done === null ? (
        <div className="acts">
          {coder.data === true && (
            <Button
              variant="default"
              onClick={() => void save(async (wish) => (await saving()).videoOf(wish))}
            >
              Save as video
            </Button>
          )}
          <Button
            variant="default"
            onClick={() =>
              void save(async (wish) => ({
                blob: await (await saving()).framesZip(wish),
                ending: 'zip',
              }))
            }
          >
            Save {count} pictures (zip)
          </Button>
        </div>
      ) : (
        <div className={styles.progress}>
          <Progress
            value={(100 * done.count) / done.of}
            aria-label={`Drawn ${done.count} of ${done.of} pictures`}
          />
          <p className="quiet">
            Picture {done.count} of {done.of}
          </p>
          <Button variant="default" onClick={() => running.current?.abort()}>
            Stop
          </Button>
        </div>
      )}
      <p className={styles.note}>
        Saved in real time, whatever is chosen above; the finished picture stands two seconds at the
        end.
        {coder.data === false &&
          ' This browser cannot make a video of this size here; any film editor makes one of the pictures.'}
      </p>
      {trouble !== null && <Trouble error={trouble} />}
    </section>
  );
}
