import { useDeferredValue, useMemo, useState } from 'react';
import { sentenceOf } from '../../src/errors.ts';
import { answerLadder } from '../../src/ladder/index.ts';
import type { LadderAnswer, LadderInput, UseRule } from '../../src/ladder/types.ts';
import type { Span } from '../charts/scale.ts';
import { useHandedDown } from '../shell/handed-down.ts';
import { LadderView } from './LadderView.tsx';
import type { LadderScreenProps } from './props.ts';
import { counted } from './state.ts';

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
