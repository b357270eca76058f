import { useEffect, useRef, useState } from 'react';
import { useOnLeaving } from './leaving.ts';

/** How long what is dragged must rest before it is handed to the caller [ms]. */
const REST_MS = 500;

/**
 * A value that the caller owns but that moves here first: changes show at once and go up when they have rested;
 * a new value from above replaces what was dragged, but never under the hand that still drags. `onLeaving`: what has
 * not rested yet when the page is left goes up then.
 */
export function useHandedDown<Value>(
  given: Value,
  up: ((value: Value) => void) | undefined,
  onLeaving: boolean,
) {
  const key = JSON.stringify(given);
  const [held, setHeld] = useState({ key, value: given, moving: false });
  const value = held.moving || held.key === key ? held.value : given;
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const latest = useRef({ up, key });
  const pending = useRef<(() => void) | null>(null);
  useEffect(() => {
    latest.current = { up, key };
  });
  useEffect(
    () => () => {
      clearTimeout(timer.current ?? undefined);
      if (onLeaving) pending.current?.();
    },
    [onLeaving],
  );
  useOnLeaving(() => {
    if (onLeaving) pending.current?.();
  });
  const set = (next: Value) => {
    setHeld({ key, value: next, moving: true });
    clearTimeout(timer.current ?? undefined);
    pending.current = () => {
      pending.current = null;
      latest.current.up?.(next);
    };
    timer.current = setTimeout(() => {
      setHeld({ key: latest.current.key, value: next, moving: false });
      pending.current?.();
    }, REST_MS);
  };
  return [value, set] as const;
}
