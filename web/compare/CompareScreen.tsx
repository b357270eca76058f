import { useDeferredValue, useMemo } from 'react';
import { type PreparedCompare, prepareCompare } from '../../src/compare/compare.ts';
import type { CompareAnswer } from '../../src/compare/types.ts';
import { sentenceOf } from '../../src/errors.ts';
import type { Span } from '../charts/scale.ts';
import { useHandedDown } from '../shell/handed-down.ts';
import { CompareView } from './CompareView.tsx';
import type { CompareScreenProps } from './props.ts';

/** Side by side, computing live: the band follows the hand, its answer follows as soon as the browser has it. */
export function CompareScreen(props: CompareScreenProps) {
  const { input, onBand } = props;
  const [bandRpm, setBand] = useHandedDown<Span>(props.bandRpm, onBand, false);
  const settled = useDeferredValue(bandRpm);
  const prepared = useMemo(() => tried(() => prepareCompare(input)), [input]);
  const { answer, trouble } = useMemo(() => overBand(prepared, settled), [prepared, settled]);
  return (
    <CompareView
      {...props}
      {...{ bandRpm, answer, trouble }}
      speedsRpm={prepared.value?.speedsRpm ?? null}
      settling={settled !== bandRpm}
      onBand={setBand}
    />
  );
}

type Tried<T> =
  | { readonly value: T; readonly trouble: null }
  | { readonly value: null; readonly trouble: string };

export function tried<T>(work: () => T): Tried<T> {
  try {
    return { value: work(), trouble: null };
  } catch (error) {
    return { value: null, trouble: sentenceOf(error) };
  }
}

function overBand(
  prepared: Tried<PreparedCompare>,
  bandRpm: Span,
): { answer: CompareAnswer | null; trouble: string | null } {
  if (prepared.value === null) return { answer: null, trouble: prepared.trouble };
  const { value: answer, trouble } = tried(() => prepared.value.over(bandRpm));
  return { answer, trouble };
}
