import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { sentenceOf } from '../../src/errors.ts';
import { answerLadder } from '../../src/ladder/index.ts';
import type { LadderAnswer, LadderInput, UseRule } from '../../src/ladder/types.ts';
import type { Span } from '../charts/scale.ts';
import { useOnLeaving } from '../shell/leaving.ts';
import { LadderView } from './LadderView.tsx';
import type { LadderScreenProps } from './props.ts';
import { counted } from './state.ts';

/** How long a dragged band or rule must rest before it is handed to the caller [ms]. */
const REST_MS = 500;

/**
 * The ladder screen, computing live: what is dragged is shown at once, its answer follows as soon as the browser has
 * it, and the caller hears of the change when it has come to rest.
 */
export function LadderScreen(props: LadderScreenProps) {
  const { input, use: firstUse = null, onBand, onUse, onUses, onExclude } = props;
  const [bandRpm, setBand] = useHandedDown<Span>(input.bandRpm, onBand, true);
  const [uses, setUses] = useHandedDown<readonly UseRule[]>(input.uses, onUses, false);
  const [chosen, setChosen] = useState<string | null>(null);
  const use = nameIn(uses, chosen) ?? nameIn(uses, firstUse) ?? uses[0]?.name ?? null;

  const live = useMemo<LadderInput>(() => ({ ...input, bandRpm, uses }), [input, bandRpm, uses]);
  const settled = useDeferredValue(live);
  const { answer, trouble } = useMemo(() => solve(settled), [settled]);

  return (
    <LadderView
      {...props}
      input={live}
      answer={answer}
      trouble={trouble}
      settling={settled !== live}
      use={use}
      onBand={setBand}
      onUse={(name) => {
        setChosen(name);
        onUse?.(name);
      }}
      onUses={setUses}
      {...(onExclude === undefined ? {} : { onExclude })}
    />
  );
}

function solve(input: LadderInput): { answer: LadderAnswer | null; trouble: string | null } {
  if (counted(input).length === 0) return { answer: null, trouble: null };
  try {
    return { answer: answerLadder(input), trouble: null };
  } catch (error) {
    return { answer: null, trouble: sentenceOf(error) };
  }
}

const nameIn = (uses: readonly UseRule[], name: string | null) =>
  uses.find((one) => one.name === name)?.name ?? null;

/**
 * A value that the caller owns but that moves here first: changes show at once and go up when they have rested;
 * a new value from above replaces what was dragged, but never under the hand that still drags. `onLeaving`: what has
 * not rested yet when the page is left goes up then.
 */
function useHandedDown<Value>(
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
