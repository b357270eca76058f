import { useQuery } from '@tanstack/react-query';
import { standingQuery } from '../api/queries.ts';
import type { Findings as FindingsAnswer } from '../api/types.gen.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { Trouble, Waiting } from '../shell/states.tsx';
import { Findings } from './handover/findings.tsx';

interface BuildStandingProps {
  readonly buildId: string;
  /** Engine and build. */
  readonly title: string;
  readonly heading?: string;
}

/** What a hand-over of the build would find today: its curve, the setting left in it, what it gained, cautions. */
export function BuildStanding({ buildId, title, heading = 'As it stands' }: BuildStandingProps) {
  const { units, standard } = usePreferences();
  const standing = useQuery(standingQuery(buildId, standard, units));
  return (
    <section className="panel" aria-labelledby="standing">
      <header>
        <h2 id="standing">{heading}</h2>
      </header>
      {standing.isPending && <Waiting what="what was found" lines={6} />}
      {standing.isError && <Trouble error={standing.error} retry={() => void standing.refetch()} />}
      {standing.data && (
        <Findings
          findings={{ ...standing.data, blocks: withoutHead(standing.data.blocks) }}
          title={title}
        />
      )}
    </section>
  );
}

/**
 * The page tells already what the engine is; what was found begins behind the first subtitle. What is said small is
 * about a report on paper.
 */
function withoutHead(blocks: FindingsAnswer['blocks']): FindingsAnswer['blocks'] {
  const first = blocks.findIndex((block) => block.kind === 'heading' && block.level === 2);
  return blocks
    .slice(first + 1)
    .filter((block) => block.kind !== 'paragraph' || block.quiet !== true)
    .map((block) => (block.kind === 'heading' ? { ...block, level: 3 as const } : block));
}
