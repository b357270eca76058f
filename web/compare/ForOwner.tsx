import type { CompareAnswer } from '../../src/compare/types.ts';
import { OwnerText } from './OwnerText.tsx';
import type { CompareViewProps } from './props.ts';
import { paragraph } from './words.ts';

/** The whole finding as a paragraph that can be handed to the owner. */
export function ForOwner({
  answer,
  taken,
  units,
}: CompareViewProps & { readonly answer: CompareAnswer }) {
  return <OwnerText id="compare-owner" text={paragraph(answer, taken, units)} />;
}
