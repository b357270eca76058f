import { Button, Checkbox } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { dayPageQuery, enginePageQuery, shopQuery } from '../../api/queries.ts';
import type { Pull, SideWanted } from '../../api/types.gen.ts';
import { setting } from '../../charts/numbers.ts';
import { Sheet } from '../../form/sheet.tsx';
import { FindList } from '../../shell/find-list.tsx';
import search from '../../shell/search.module.css';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { PaperSide } from './paper-side.tsx';
import styles from './picker.module.css';
import { recentSides, rememberSide } from './recent.ts';
import { sidesFromText, sidesToText } from './side-address.ts';
import {
  type Choice,
  choicesOfBuild,
  choicesOfDay,
  findSources,
  type Source,
  sourcesOf,
} from './side-choices.ts';

const SHOWN = 12;

interface PickerProps {
  /** Which side is chosen: `B`. */
  readonly letter: string;
  readonly onPick: (side: SideWanted) => void;
  readonly onClose: () => void;
}

/** Chooses one side: first the build or the day, then which of its pulls. */
export function SidePicker({ letter, onPick, onClose }: PickerProps) {
  const [source, setSource] = useState<Source | 'paper' | null>(null);
  const pick = (side: SideWanted, label: string) => {
    rememberSide({ text: sidesToText([side]), label });
    onPick(side);
  };
  return (
    <Sheet onClose={onClose} title={`Side ${letter}`} size="lg">
      {source === null ? (
        <Sources choose={setSource} pick={pick} />
      ) : source === 'paper' ? (
        <PaperSide back={() => setSource(null)} pick={pick} />
      ) : (
        <Choices source={source} back={() => setSource(null)} pick={pick} />
      )}
    </Sheet>
  );
}

type Pick = (side: SideWanted, label: string) => void;

function Sources({
  choose,
  pick,
}: {
  readonly choose: (source: Source | 'paper') => void;
  readonly pick: Pick;
}) {
  const shop = useQuery(shopQuery);
  const sources = shop.data ? sourcesOf(shop.data) : [];
  const recent = recentSides();
  return (
    <>
      <FindList
        id="side-found"
        label="Words of a build or a test day"
        placeholder="Engine, build, owner, date …"
        find={(words) => findSources(sources, words).slice(0, SHOWN)}
        keyOf={({ key }) => key}
        textOf={(source) => source}
        onPick={choose}
        none={(words) =>
          shop.isPending
            ? 'Fetching the shop …'
            : words === ''
              ? 'No build of the shop has a pull yet. Open a test day and drop its run files in.'
              : 'No build or day with pulls has these words in its name.'
        }
        first={
          recent.length > 0 && (
            <section aria-label="Picked lately" className={styles.recent}>
              <span className="quiet">Lately:</span>
              {recent.map(({ text, label }) => (
                <Button
                  key={text}
                  variant="default"
                  size="compact-sm"
                  onClick={() => {
                    const [side] = sidesFromText(text);
                    if (side !== undefined) pick(side, label);
                  }}
                >
                  {label}
                </Button>
              ))}
            </section>
          )
        }
      />
      <Button variant="subtle" size="compact-sm" mt="sm" onClick={() => choose('paper')}>
        Type a curve from paper …
      </Button>
    </>
  );
}

function Choices({
  source,
  back,
  pick,
}: {
  readonly source: Source;
  readonly back: () => void;
  readonly pick: Pick;
}) {
  const isDay = source.kind === 'day';
  const day = useQuery({ ...dayPageQuery(source.id), enabled: isDay });
  const engine = useQuery({ ...enginePageQuery(source.engineId), enabled: !isDay });
  const error = day.error ?? engine.error;
  const choices = isDay
    ? day.data && choicesOfDay(day.data)
    : engine.data && choicesOfBuild(source, engine.data.days);
  const name = ({ label }: Choice) =>
    label === 'All its pulls' || label === 'The whole day'
      ? source.label
      : `${source.label}, ${label}`;
  return (
    <>
      <Button variant="subtle" size="compact-sm" onClick={back}>
        ← Another build or day
      </Button>
      <h3 className={styles.source}>{source.label}</h3>
      {error !== null && <Trouble error={error} />}
      {choices === undefined && error === null && <Waiting what="its pulls" />}
      <ul className={styles.choices} aria-label="Which pulls">
        {choices?.map((choice, at) => (
          <li key={`${choice.label}${choice.beside}`}>
            <button
              type="button"
              {...(at === 0 ? { 'data-autofocus': true } : {})}
              onClick={() => pick(choice.side, name(choice))}
            >
              <span>{choice.label}</span>
              <span className={search.kind}>{choice.beside}</span>
            </button>
          </li>
        ))}
      </ul>
      {isDay && day.data !== undefined && day.data.pulls.length > 0 && (
        <ChosenPulls
          pulls={day.data.pulls}
          take={(pullIds) => pick({ kind: 'pulls', pullIds }, `${source.label}, chosen pulls`)}
        />
      )}
    </>
  );
}

/** Some pulls of a day by hand: all of them count, whatever their setting. */
function ChosenPulls({
  pulls,
  take,
}: {
  readonly pulls: readonly Pull[];
  readonly take: (ids: readonly string[]) => void;
}) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const known = [...pulls].sort((a, b) => a.order - b.order);
  return (
    <details className={styles.byHand}>
      <summary>Chosen pulls</summary>
      {known.map((pull) => (
        <Checkbox
          key={pull.id}
          size="xs"
          label={[
            `Pull ${pull.order + 1}`,
            pull.leadDeg === null ? null : setting(pull.leadDeg, 'deg', 2),
            pull.fileName,
            pull.excludedBecause === null ? null : `left out: ${pull.excludedBecause}`,
          ]
            .filter(Boolean)
            .join(', ')}
          disabled={pull.excludedBecause !== null || pull.aborted}
          checked={ticked.has(pull.id)}
          onChange={(event) => {
            const next = new Set(ticked);
            if (event.currentTarget.checked) next.add(pull.id);
            else next.delete(pull.id);
            setTicked(next);
          }}
        />
      ))}
      <Button
        size="xs"
        mt="xs"
        disabled={ticked.size === 0}
        onClick={() => take(known.filter(({ id }) => ticked.has(id)).map(({ id }) => id))}
      >
        Take these
      </Button>
    </details>
  );
}
