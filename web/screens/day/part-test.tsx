import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate, useParams } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { dayPageQuery, partReadingQuery } from '../../api/queries.ts';
import type { DayPage, PartReading, PartTestPatch, Pull } from '../../api/types.gen.ts';
import { setting } from '../../charts/numbers.ts';
import { partPicture } from '../../compare/part/dots.ts';
import { type PartPull, PartTestView } from '../../compare/part/PartTestView.tsx';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import type { Field, Values } from '../../form/fields.ts';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { sidesToText } from '../compare/side-address.ts';
import { dayCrumbs } from './day.tsx';

/** One part test: whether to go on, after the pulls made so far. */
export function PartTestScreen() {
  const { id } = useParams({ from: '/part-tests/$id' });
  const reading = useQuery(partReadingQuery(id));
  const dayId = reading.data?.partTest.dayId;
  const day = useQuery({ ...dayPageQuery(dayId ?? ''), enabled: dayId !== undefined });
  const error = reading.error ?? day.error;
  if (error !== null || !reading.data || !day.data)
    return (
      <Page title="Part test" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Part test' }]}>
        {error === null ? (
          <Waiting what="the part test" />
        ) : (
          <Trouble error={error} retry={() => window.location.reload()} />
        )}
      </Page>
    );
  return <PartTestPage reading={reading.data} page={day.data} />;
}

function PartTestPage({
  reading,
  page,
}: {
  readonly reading: PartReading;
  readonly page: DayPage;
}) {
  const { units } = usePreferences();
  const navigate = useNavigate();
  const [editing, setEditing] = useState(false);
  const { partTest, look: answer, input } = reading;
  const params = { id: partTest.id };
  const names = { a: partTest.groupA, b: partTest.groupB };
  const name = partTest.name || `${names.b} against ${names.a}`;
  const counted = reading.pulls.filter((one) => one.counted);
  const picture = useMemo(
    () =>
      input === null
        ? null
        : partPicture(input, answer, (_, place) => nameOf(counted[place]?.pull, place)),
    [input, answer, counted],
  );
  const put = useChange(
    async ({ pull, side }: { pull: PartPull; side: 'a' | 'b' | null }) => {
      await ask('POST /part-tests/{id}/pulls', { params, body: { pullIds: [pull.id], side } });
      return side === null
        ? `${pull.name} is of neither side.`
        : `${pull.name} is of ${names[side]}.`;
    },
    { done: (sentence) => sentence },
  );
  const remove = useChange(() => ask('DELETE /part-tests/{id}', { params }), {
    done: `${name} is removed; its pulls stay.`,
    after: () => void navigate({ to: '/days/$id/part-tests', params: { id: page.day.id } }),
  });
  const group = (of: string) => ({ kind: 'group' as const, dayId: page.day.id, group: of });
  const sides = sidesToText([group(names.a), group(names.b)]);
  return (
    <Page
      title={name}
      crumbs={dayCrumbs(page, name)}
      scenario={
        <>
          <Button variant="subtle" size="compact-xs" onClick={() => setEditing(true)}>
            Edit
          </Button>
          <Button variant="subtle" size="compact-xs" onClick={() => remove.mutate(undefined)}>
            Remove
          </Button>
        </>
      }
    >
      <PartTestView
        {...{ names, answer, picture, units }}
        plan={partTest.plan}
        pulls={pullsOf(page.pulls, reading)}
        warnings={reading.warnings}
        scenario={`${page.engine.name}, ${page.build.name}, ${dayLabel(page.day)}`}
        compareHref={input === null ? null : `/compare?sides=${encodeURIComponent(sides)}`}
        dayHref={`/days/${page.day.id}`}
        onSide={(pull, side) => put.mutate({ pull, side })}
      />
      {editing && (
        <ChangeSheet
          title={`Edit ${name}`}
          fields={EDIT_FIELDS}
          values={{
            name: partTest.name,
            fromRpm: partTest.bandRpm?.[0] ?? null,
            toRpm: partTest.bandRpm?.[1] ?? null,
          }}
          sendUntouched
          save={(values) => ask('PATCH /part-tests/{id}', { params, body: edited(values) })}
          done={`${name} is changed.`}
          onClose={() => setEditing(false)}
        />
      )}
    </Page>
  );
}

const speed = (key: string, label: string): Field => ({
  key,
  label,
  kind: 'number',
  nullable: true,
  low: 200,
  high: 25_000,
});
const EDIT_FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name', kind: 'text', required: true },
  speed('fromRpm', 'Judged from, rpm (empty: as the day)'),
  speed('toRpm', 'to, rpm'),
];

/** Half a band is none: then the day's holds. */
function edited({ name, fromRpm, toRpm }: Values): PartTestPatch {
  return {
    name: String(name),
    bandRpm: typeof fromRpm === 'number' && typeof toRpm === 'number' ? [fromRpm, toRpm] : null,
  };
}

const nameOf = (pull: Pull | undefined, place: number) => `pull ${(pull?.order ?? place) + 1}`;

function pullsOf(pulls: readonly Pull[], reading: PartReading): PartPull[] {
  const own = new Map(reading.pulls.map((one) => [one.pull.id, one]));
  return [...pulls]
    .sort((a, b) => a.order - b.order)
    .map((pull) => {
      const known = own.get(pull.id);
      const lead = pull.leadDeg === null ? null : setting(pull.leadDeg, 'deg', 2);
      const elsewhere = known === undefined && pull.group !== null ? `now of ${pull.group}` : null;
      return {
        id: pull.id,
        name: `Pull ${pull.order + 1}`,
        href: `/pulls/${pull.id}`,
        aside: [lead, pull.fileName, elsewhere].filter(Boolean).join(', '),
        side: known?.side ?? null,
        why: known === undefined || known.counted ? null : (known.why ?? 'left out'),
      };
    });
}
