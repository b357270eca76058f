import { useEffect, useRef } from 'react';

/** What must still be done when the page goes away or is hidden, in the order it was asked for. */
const tasks = new Set<() => void>();

function leave(): void {
  for (const task of tasks) task();
}

if (typeof window !== 'undefined') {
  // A phone may end a hidden page without another word, so hidden counts as left.
  window.addEventListener('pagehide', leave);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') leave();
  });
}

/**
 * Does a task when the page is closed, left for another address or hidden. Tasks of the parts inside run before those
 * of what holds them, so that a value on its way up arrives. What it sends must be sent with `keepalive`.
 */
export function useOnLeaving(task: () => void): void {
  const latest = useRef(task);
  useEffect(() => {
    latest.current = task;
  });
  useEffect(() => {
    const run = () => latest.current();
    tasks.add(run);
    return () => {
      tasks.delete(run);
    };
  }, []);
}
