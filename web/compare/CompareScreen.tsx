import { useDeferredValue, useMemo } from 'react';
import { compareGroups } from '../../src/compare/compare.ts';
import type { CompareAnswer, CompareInput } from '../../src/compare/types.ts';
import { sentenceOf } from '../../src/errors.ts';
import type { Span } from '../charts/scale.ts';
import { useHandedDown } from '../shell/handed-down.ts';
import { CompareView } from './CompareView.tsx';
import type { CompareProps } from './props.ts';

/** Side by side, computing live: the band follows the hand, its answer follows as soon as the browser has it. */
export function CompareScreen(props: CompareProps) {
  const { input, onBand } = props;
  const [bandRpm, setBand] = useHandedDown<Span>(input.bandRpm, onBand, false);
  const live = useMemo<CompareInput>(() => ({ ...input, bandRpm }), [input, bandRpm]);
  const settled = useDeferredValue(live);
  const { answer, trouble } = useMemo(() => solve(settled), [settled]);
  return (
    <CompareView
      {...props}
      input={live}
      answer={answer}
      trouble={trouble}
      settling={settled !== live}
      onBand={setBand}
    />
  );
}

function solve(input: CompareInput): { answer: CompareAnswer | null; trouble: string | null } {
  try {
    return { answer: compareGroups(input), trouble: null };
  } catch (error) {
    return { answer: null, trouble: sentenceOf(error) };
  }
}
