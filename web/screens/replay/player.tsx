import { Button, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { ReplayWanted } from '../../../src/figures.ts';
import { STILL_S } from '../../../src/replay.ts';
import { plain } from '../../charts/numbers.ts';
import { ReplayPicture, readingsAt } from '../../print/replay.tsx';
import { useClock, usePlayerKeys, wantsStillness } from './clock.ts';
import styles from './replay.module.css';
import { SaveReplay } from './save-replay.tsx';
import { SIZES, type SizeName } from './sizes.ts';

const RATES = [
  { value: '0.5', label: 'Half' },
  { value: '1', label: 'Real time' },
  { value: '2', label: 'Double' },
];

interface PlayerProps {
  readonly replay: ReplayWanted;
  /** What the files are called, without ending. */
  readonly fileName: string;
}

/** Plays a curve in its own time, or twice or half as fast, and saves it in its own. */
export function Player({ replay, fileName }: PlayerProps) {
  const [size, setSize] = useState<SizeName>(() => (window.innerWidth < 600 ? 'story' : 'screen'));
  const [rate, setRate] = useState('1');
  const [starts] = useState(() => !wantsStillness());
  const clock = useClock(replay.durationS + STILL_S, Number(rate), starts);
  const { timeS, isPlaying } = clock;
  const { durationS } = replay;
  const sizes = SIZES[size];
  const toggle = () => (isPlaying ? clock.pause() : clock.play());
  usePlayerKeys({ toggle, seek: clock.seek, timeS, durationS });
  const words = readingsAt(replay, timeS)
    .map(({ name, value }) => `${name} ${value}`)
    .join('; ');
  return (
    <div className={styles.player}>
      <div
        className={styles.stage}
        style={{
          aspectRatio: `${sizes.width} / ${sizes.height}`,
          maxWidth: `calc(62vh * ${sizes.width / sizes.height})`,
        }}
        aria-hidden="true"
      >
        <ReplayPicture replay={replay} size={sizes} timeS={timeS} />
      </div>
      <div className={styles.controls}>
        <Button onClick={toggle} w="6.5rem">
          {isPlaying ? 'Pause' : timeS >= durationS + STILL_S ? 'Again' : 'Play'}
        </Button>
        <input
          type="range"
          className={styles.slider}
          aria-label="Time of the pull"
          aria-valuetext={words}
          min={0}
          max={durationS}
          step={0.1}
          value={Math.min(timeS, durationS)}
          onChange={(event) => clock.seek(Number(event.currentTarget.value))}
        />
        <span className={styles.time}>
          {plain(Math.min(timeS, durationS), 1)} of {plain(durationS, 1)} s
        </span>
        <SegmentedControl aria-label="Speed" value={rate} onChange={setRate} data={RATES} />
      </div>
      <ul className={styles.told}>
        {replay.told.map((line) => (
          <li key={line}>{line}</li>
        ))}
        <li>
          Space plays and pauses, the arrow keys go a tenth of a second on or back, with Shift a
          whole one.
        </li>
      </ul>
      <SaveReplay {...{ replay, size, fileName }} onSize={setSize} />
    </div>
  );
}
