import { useCallback, useEffect, useState } from 'react';

export interface Clock {
  readonly timeS: number;
  readonly isPlaying: boolean;
  /** From the beginning where it had come to the end. */
  readonly play: () => void;
  readonly pause: () => void;
  /** Stops it there. */
  readonly seek: (timeS: number) => void;
}

/** Time that runs from 0 to `endS` at `rate` times its pace. @param starts  at once */
export function useClock(endS: number, rate: number, starts: boolean): Clock {
  const [timeS, setTimeS] = useState(0);
  const [isPlaying, setPlaying] = useState(starts);
  useEffect(() => {
    if (!isPlaying) return;
    let last: number | null = null;
    let asked = requestAnimationFrame(function step(now) {
      // A page that was out of sight goes on where it stopped.
      const passedS = last === null ? 0 : Math.min(0.25, (now - last) / 1000);
      last = now;
      setTimeS((was) => Math.min(endS, was + passedS * rate));
      asked = requestAnimationFrame(step);
    });
    return () => cancelAnimationFrame(asked);
  }, [isPlaying, endS, rate]);
  useEffect(() => {
    if (timeS >= endS) setPlaying(false);
  }, [timeS, endS]);
  const play = useCallback(() => {
    setTimeS((was) => (was >= endS ? 0 : was));
    setPlaying(true);
  }, [endS]);
  const seek = useCallback(
    (to: number) => {
      setPlaying(false);
      setTimeS(Math.min(endS, Math.max(0, to)));
    },
    [endS],
  );
  return { timeS, isPlaying, play, pause: () => setPlaying(false), seek };
}

interface PlayerKeys extends Pick<Clock, 'seek' | 'timeS'> {
  readonly toggle: () => void;
  readonly durationS: number;
}

/** What has keys of its own. */
const OWN = 'button, a, select, textarea, input:not([type=range]), [role=dialog]';

/** Space and arrows, wherever on the page the person is. */
export function usePlayerKeys({ toggle, seek, timeS, durationS }: PlayerKeys): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const isOwn = event.target instanceof Element && event.target.closest(OWN) !== null;
      if (isOwn || event.altKey || event.ctrlKey || event.metaKey) return;
      const stepS = event.shiftKey ? 1 : 0.1;
      if (event.key === ' ') toggle();
      else if (event.key === 'ArrowLeft') seek(timeS - stepS);
      else if (event.key === 'ArrowRight') seek(timeS + stepS);
      else if (event.key === 'Home') seek(0);
      else if (event.key === 'End') seek(durationS);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  });
}

/** The person asked their machine for little movement: nothing starts by itself. */
export const wantsStillness = (): boolean =>
  window.matchMedia('(prefers-reduced-motion: reduce)').matches;
