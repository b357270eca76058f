import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { begun } from '../../../src/compare/begun.ts';
import type { PartAnswer, PartPlan } from '../../../src/compare/index.ts';
import { inUnitsOf } from '../../../src/units/sentences.ts';
import type { UnitSystem } from '../../../src/units/types.ts';
import { ChartFrame } from '../../charts/ChartFrame.tsx';
import { kept } from '../../charts/numbers.ts';
import { PartChart, partTable } from '../../charts/PartChart.tsx';
import { Warnings } from '../../ladder/Answer.tsx';
import ladder from '../../ladder/ladder.module.css';
import { CopyButton } from '../../shell/copy-button.tsx';
import { SafetyLine } from '../../shell/safety.tsx';
import { type TableModel, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import compare from '../compare.module.css';
import { SideMark, sideColour } from '../SideMark.tsx';
import type { PartPicture } from './dots.ts';
import styles from './part.module.css';
import { driftFigure, gainFigure, madeOfPlan, partHeadline } from './words.ts';

/** A pull of the day as the part test sees it. */
export interface PartPull {
  readonly id: string;
  readonly name: string;
  readonly href: string;
  /** What is known of it beside its number: its lead, its file. */
  readonly aside: string;
  /** Null: of neither side. */
  readonly side: 'a' | 'b' | null;
  /** Why it does not count; null where it does, or is of neither side. */
  readonly why: string | null;
}

interface PartTestProps {
  readonly names: { readonly a: string; readonly b: string };
  readonly plan: PartPlan;
  readonly answer: PartAnswer;
  readonly picture: PartPicture | null;
  readonly pulls: readonly PartPull[];
  readonly warnings: readonly string[];
  readonly scenario: string;
  readonly units: UnitSystem;
  readonly compareHref: string | null;
  readonly dayHref: string;
  readonly onSide: (pull: PartPull, side: 'a' | 'b' | null) => void;
}

/** A part test while it is made: the advice first, then every pull in its order, and which side each is of. */
export function PartTestView(props: PartTestProps) {
  const { names, plan, answer, picture, units, warnings, scenario } = props;
  const [cursor, setCursor] = useState<number | null>(null);
  const finding = inUnitsOf(answer.finding, units);
  const made = picture?.dots.length ?? 0;
  const planned = answer.action === 'stop' ? [] : plan.order.slice(made);
  return (
    <article className={ladder.page}>
      <header className={ladder.answer}>
        <div className={ladder.said} data-warned={warnings.length > 0}>
          <h1 className={ladder.headline} aria-live="polite">
            {kept(partHeadline(answer, names))}
          </h1>
          <p className={ladder.summary}>
            <span className={ladder.summaryText}>{kept(finding)}</span>
          </p>
          <Warnings warnings={warnings.map((one) => inUnitsOf(one, units))} />
        </div>
        <Figures {...props} />
      </header>
      <div className={styles.work}>
        {picture !== null && picture.dots.length > 0 && (
          <ChartFrame
            title="Pull by pull"
            subtitle="Dashed: the day’s drift through either side; the part is the step between them."
            scenario={`${scenario}: ${names.b} (B) against ${names.a} (A)`}
            table={() => partTable(picture.dots)}
            className={styles.canvas!}
          >
            {(box) => (
              <PartChart
                {...box}
                {...picture}
                planned={planned}
                colourOf={(side, palette) => sideColour(side === 'a' ? 0 : 1, 2, palette)}
                cursor={cursor}
                onCursor={setCursor}
              />
            )}
          </ChartFrame>
        )}
        <Pulls {...props} />
      </div>
      {answer.action === 'go on' && <SafetyLine />}
      <section aria-labelledby="part-plan" className={styles.plan}>
        <h2 id="part-plan" className={ladder.sectionTitle}>
          The plan
        </h2>
        <p>{kept(plan.sentence)}</p>
        <p className={ladder.quiet}>
          {`Order: ${plan.order.map((side) => side.toUpperCase()).join(' ')}`}
        </p>
        <CopyButton text={finding} label="Copy the finding" />
      </section>
    </article>
  );
}

function Figures({ names, plan, answer }: PartTestProps) {
  const gain = gainFigure(answer, names);
  const drift = driftFigure(answer);
  const next = answer.next;
  return (
    <dl className={ladder.questions}>
      <div className={ladder.question}>
        <dt>{begun(`${names.b} over ${names.a}, mean power`)}</dt>
        <dd>
          <span className={ladder.figure} data-unknown={!gain.known}>
            {gain.figure}
          </span>
          <span className={ladder.aside}>{gain.aside}</span>
        </dd>
      </div>
      <div className={ladder.question}>
        <dt>Next pull</dt>
        <dd>
          <span className={ladder.figure} data-unknown={next === null}>
            {answer.action === 'stop' ? 'none' : next === null ? 'either' : next.toUpperCase()}
          </span>
          <span className={ladder.aside}>
            {next !== null && <b>{`${next === 'a' ? names.a : names.b}; `}</b>}
            {madeOfPlan(answer, plan.blocks)}
          </span>
        </dd>
      </div>
      <div className={ladder.question}>
        <dt>Drift of the day</dt>
        <dd>
          <span className={ladder.figure} data-unknown={!drift.known}>
            {drift.figure}
          </span>
          <span className={ladder.aside}>{drift.aside}</span>
        </dd>
      </div>
    </dl>
  );
}

const pullsTable = (pulls: readonly PartPull[], names: PartTestProps['names']): TableModel =>
  tableFrom(pulls, [
    wordsColumn('Pull', ({ name }) => name),
    wordsColumn('Known of it', ({ aside }) => aside),
    wordsColumn('Side', ({ side }) => side?.toUpperCase() ?? 'neither'),
    wordsColumn('Part', ({ side }) => (side === null ? null : names[side])),
    wordsColumn('Left out because', ({ why }) => why),
  ]);

/** Every pull of the day in the order made, each with the side that it is of. */
function Pulls({ names, pulls, answer, onSide, compareHref, dayHref }: PartTestProps) {
  const fresh = pulls.filter(({ side }) => side === null);
  return (
    <section aria-labelledby="part-pulls">
      <header className={compare.head}>
        <h2 id="part-pulls" className={ladder.sectionTitle}>
          Which pull is of which
        </h2>
        <span className={`${styles.links} offPaper`}>
          <a href={dayHref}>Drop run files on the day</a>
          {compareHref !== null && <a href={compareHref}>Side by side</a>}
          {pulls.length > 0 && (
            <TakeTable title="Pulls of the part test" table={() => pullsTable(pulls, names)} />
          )}
        </span>
      </header>
      {pulls.length === 0 && (
        <p className={ladder.quiet}>
          No pull of this day yet. Make the first one, drop its file on the day, then say here which
          part was in.
        </p>
      )}
      {fresh.length > 0 && answer.next !== null && (
        <p className={ladder.quiet}>
          {`By the plan the next pull is ${answer.next.toUpperCase()}, ${names[answer.next]}.`}
        </p>
      )}
      <ol className={styles.pulls}>
        {pulls.map((pull) => (
          <li key={pull.id} data-out={pull.why !== null}>
            <span className={styles.pullName}>
              <a href={pull.href}>{pull.name}</a>
              <small>{pull.why === null ? pull.aside : `left out: ${pull.why}`}</small>
            </span>
            <SegmentedControl
              size="xs"
              aria-label={`${pull.name} is of`}
              data={[
                { value: 'a', label: 'A' },
                { value: 'b', label: 'B' },
                { value: 'none', label: 'neither' },
              ]}
              value={pull.side ?? 'none'}
              onChange={(value) => onSide(pull, value === 'a' || value === 'b' ? value : null)}
            />
          </li>
        ))}
      </ol>
      <p className={ladder.quiet}>
        {(['a', 'b'] as const).map((side, at) => (
          <span key={side} className={styles.key}>
            <SideMark side={at} count={2} />
            {names[side]}
          </span>
        ))}
      </p>
    </section>
  );
}
