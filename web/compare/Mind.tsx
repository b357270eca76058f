import type { CompareAnswer } from '../../src/compare/types.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
import { Warnings } from '../ladder/Answer.tsx';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import type { CompareViewProps } from './props.ts';

const BESIDE = 2;

type MindProps = CompareViewProps & { readonly answer: CompareAnswer };

/** What makes the sides less alike: what else differed first, as it stands beside every gain. */
export const mindOf = ({ answer, warnings, units }: MindProps): readonly string[] => {
  const besides = answer.pairs.flatMap(({ besides: also }) => also ?? []);
  return [...new Set([...besides, ...warnings, ...answer.warnings])].map((one) =>
    inUnitsOf(one, units),
  );
};

/** Beside the finding: the beginnings of the first few, and the way to the rest. */
export function MindBeside(props: MindProps) {
  const all = mindOf(props);
  if (all.length === 0) return null;
  return (
    <div className={`${ladder.warnings} ${styles.mind} offPaper`}>
      <Warnings warnings={all.slice(0, BESIDE)} />
      <a href="#compare-mind" className={ladder.link}>
        {all.length > BESIDE ? `All ${all.length} in full` : 'In full'}
      </a>
    </div>
  );
}

/** All of it, in full. */
export function Mind(props: MindProps) {
  const all = mindOf(props);
  if (all.length === 0) return null;
  return (
    <section aria-labelledby="compare-mind">
      <h2 id="compare-mind" className={ladder.sectionTitle}>
        To mind
      </h2>
      <Warnings warnings={all} />
    </section>
  );
}
