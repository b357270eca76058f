import { Button, NumberInput, SegmentedControl, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import { useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { dayPageQuery, partPreviewQuery, shopSettingsQuery } from '../../api/queries.ts';
import type { DayPage, PartWanted, Shop } from '../../api/types.gen.ts';
import styles from '../../compare/part/part.module.css';
import { Page } from '../../shell/page.tsx';
import { SafetyLine } from '../../shell/safety.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { kept } from '../../shell/words.ts';
import { dayCrumbs } from './day.tsx';
import { PartTestsOfDay } from './part-tests-of-day.tsx';

const CRUMB = 'Part tests';

/** Fair tests of a part on a day: those that are made, and the plan of the next. */
export function PartTestsScreen() {
  const { id } = useParams({ from: '/days/$id/part-tests' });
  const day = useQuery(dayPageQuery(id));
  const shop = useQuery(shopSettingsQuery);
  const error = day.error ?? shop.error;
  if (error !== null || !day.data || !shop.data)
    return (
      <Page title={CRUMB} crumbs={[{ label: 'Shop', to: '/' }, { label: CRUMB }]}>
        {error === null ? (
          <Waiting what="the part tests" />
        ) : (
          <Trouble error={error} retry={() => window.location.reload()} />
        )}
      </Page>
    );
  return (
    <Page title="A fair test of a part" crumbs={dayCrumbs(day.data, CRUMB)}>
      <div className="stack">
        <div>
          <h1>A fair test of a part</h1>
          <p className="lede">
            Pulls with the part and without it in turns, on one day, in an order fixed beforehand:
            so neither the afternoon’s air nor a hot engine is taken for the part, and nobody stops
            when the number pleases.
          </p>
        </div>
        <PartTestsOfDay dayId={id} />
        <Plan page={day.data} shop={shop.data} />
      </div>
    </Page>
  );
}

type Order = NonNullable<PartWanted['order']>;
const ORDERS: readonly { readonly value: Order; readonly label: string }[] = [
  { value: 'by turns', label: 'By turns: A B B A' },
  { value: 'A/B/A', label: 'A, then B, then A' },
  { value: 'randomised', label: 'Drawn by lot' },
];
const WHY: Readonly<Record<Order, string>> = {
  'by turns':
    'Looked at after every pair of pulls, so it can end early. The part is changed often.',
  'A/B/A':
    'The part is changed twice only. Looked at once, at its end; eight pulls of each at most.',
  randomised:
    'As by turns, each pair’s order drawn. Only for settings that have already run clean: a lot must never put an unproven one first.',
};

/** What is wanted, and beside it what that takes, at every keystroke. */
function Plan({ page, shop }: { readonly page: DayPage; readonly shop: Shop }) {
  const navigate = useNavigate();
  const dayId = page.day.id;
  const [gainPercent, setGain] = useState<number | ''>(shop.worthPercent);
  const [groupA, setA] = useState('old part');
  const [groupB, setB] = useState('new part');
  const [order, setOrder] = useState<Order>('by turns');
  const [own, setOwn] = useState<number | ''>('');
  const [seed] = useState(() => Math.floor(Math.random() * 2 ** 31));
  const wanted: PartWanted | null =
    gainPercent === '' || groupA.trim() === '' || groupB.trim() === ''
      ? null
      : {
          gainPercent,
          order,
          groupA: groupA.trim(),
          groupB: groupB.trim(),
          seed,
          ...(own === '' ? {} : { repeatabilityPercent: own }),
        };
  const [asked] = useDebouncedValue(wanted, 250);
  const preview = useQuery({
    ...partPreviewQuery(dayId, asked ?? { gainPercent: 1 }),
    enabled: asked !== null,
  });
  const start = useChange(
    (asked: PartWanted) =>
      ask('POST /days/{id}/part-tests', {
        params: { id: dayId },
        body: { ...asked, name: `${asked.groupB} against ${asked.groupA}` },
      }),
    {
      done: 'The part test is planned; it is kept with the day.',
      after: ({ id }) => void navigate({ to: '/part-tests/$id', params: { id } }),
    },
  );
  const repeatability = preview.data?.repeatability;
  return (
    <section className="panel" aria-labelledby="part-plan-new">
      <header>
        <h2 id="part-plan-new">Plan a test</h2>
      </header>
      <div className={styles.form}>
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (wanted !== null) start.mutate(wanted);
          }}
        >
          <NumberInput
            label="Gain worth seeing, % of mean power"
            description="A smaller one takes more pulls: half the gain, about four times as many."
            min={0.05}
            max={50}
            step={0.25}
            decimalScale={2}
            value={gainPercent}
            onChange={(value) => setGain(typeof value === 'number' && value > 0 ? value : '')}
          />
          <TextInput
            label="A, what it is held against"
            value={groupA}
            onChange={(event) => setA(event.currentTarget.value)}
          />
          <TextInput
            label="B, what is tried"
            value={groupB}
            onChange={(event) => setB(event.currentTarget.value)}
          />
          <div>
            <p id="part-order" className={styles.label}>
              In which order
            </p>
            <SegmentedControl
              fullWidth
              aria-labelledby="part-order"
              data={ORDERS.map((one) => ({ ...one }))}
              value={order}
              onChange={(value) => setOrder(value as Order)}
            />
            <p className={`quiet ${styles.why}`}>{WHY[order]}</p>
          </div>
          <NumberInput
            label="Pull-to-pull scatter of this cell, 1 sd in %"
            description={kept(
              repeatability?.sentence ?? 'Empty: as the pulls of this cell show it.',
            )}
            placeholder={repeatability === undefined ? '' : repeatability.percent.value.toFixed(2)}
            min={0.02}
            max={10}
            step={0.05}
            decimalScale={2}
            value={own}
            onChange={(value) => setOwn(typeof value === 'number' && value > 0 ? value : '')}
          />
          <Button
            type="submit"
            disabled={wanted === null || preview.isError}
            loading={start.isPending}
          >
            Start the test
          </Button>
        </form>
        <div className={styles.preview} aria-live="polite">
          {asked === null && <p className="quiet">Say the gain and both names first.</p>}
          {preview.isLoading && <Waiting what="how many pulls it takes" />}
          {preview.isError && asked !== null && <Trouble error={preview.error} />}
          {preview.data && !preview.isError && asked !== null && (
            <>
              <p className={styles.many}>
                {`${preview.data.plan.order.length} pulls${preview.data.plan.isAba ? '' : ' at most'}`}
              </p>
              <p>{kept(preview.data.plan.sentence)}</p>
              <ol className={styles.order} aria-label="Order of the pulls">
                {preview.data.plan.order.map((side, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a pull of the plan is its place
                  <li key={at} data-side={side}>
                    {side.toUpperCase()}
                  </li>
                ))}
              </ol>
              {order === 'randomised' && preview.data.whyNotProven !== null && (
                <p className="look">{preview.data.whyNotProven}</p>
              )}
              <p className="quiet">
                All on one day: what a day adds to every pull then falls out. Between days more
                pulls do not help.
              </p>
            </>
          )}
          <SafetyLine />
        </div>
      </div>
    </section>
  );
}
