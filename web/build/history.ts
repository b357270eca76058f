/** What was done to a sheet, step by step, and the way back and forth. Keystrokes in one field are one step. */
export interface History<T> {
  readonly now: T;
  readonly past: readonly T[];
  readonly future: readonly T[];
  /** What the last step changed; the next one of the same name joins it. */
  readonly last: string | null;
}

const MOST_STEPS = 200;

export const begin = <T>(now: T): History<T> => ({ now, past: [], future: [], last: null });

/** @param name  what is changed; null for a step that stands alone */
export function step<T>(history: History<T>, now: T, name: string | null): History<T> {
  if (now === history.now) return history;
  const joins = name !== null && name === history.last;
  const past = joins ? history.past : [...history.past, history.now].slice(-MOST_STEPS);
  return { now, past, future: [], last: name };
}

export function back<T>({ now, past, future, last }: History<T>): History<T> {
  const before = past.at(-1);
  if (before === undefined) return { now, past, future, last };
  return { now: before, past: past.slice(0, -1), future: [now, ...future], last: null };
}

export function forth<T>({ now, past, future, last }: History<T>): History<T> {
  const [next, ...others] = future;
  if (next === undefined) return { now, past, future, last };
  return { now: next, past: [...past, now], future: others, last: null };
}
