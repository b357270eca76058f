import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { PlanEdit } from '../../../src/build/index.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { dayPageQuery, planQuery, sheetQuery } from '../../api/queries.ts';
import { PlanView } from '../../build/PlanView.tsx';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { ToSheet } from '../sheet/to-sheet.tsx';
import { dayCrumbs } from './day.tsx';
import styles from './plan.module.css';

/** The test plan of a day: made from the build sheet, kept as it was made, ticked by whoever does it. */
export function PlanScreen() {
  const { id } = useParams({ from: '/days/$id/plan' });
  const day = useQuery(dayPageQuery(id));
  const kept = useQuery(planQuery(id));
  const buildId = day.data?.build.id;
  const isWithoutPlan = buildId !== undefined && kept.data?.planId === null;
  const sheet = useQuery({ ...sheetQuery(buildId ?? ''), enabled: isWithoutPlan });
  const make = useChange(() => ask('POST /days/{id}/plan', { params: { id } }), {
    done: 'The test plan is made from the build sheet.',
  });
  const tick = useChange(({ planId, itemId, ticked }: Tick) =>
    ask('POST /plans/{id}/ticks', { params: { id: planId }, body: { itemId, ticked } }),
  );
  const edit = useChange(
    async ({ planId, edits }: { planId: string; edits: readonly PlanEdit[] }) => {
      for (const body of edits)
        await ask('POST /plans/{id}/edits', { params: { id: planId }, body });
    },
    { done: 'The plan of this day is changed.' },
  );
  const error = day.error ?? kept.error ?? sheet.error;
  const isWaiting = isWithoutPlan && sheet.data === undefined;
  if (error !== null || day.data === undefined || kept.data === undefined || isWaiting)
    return (
      <Page title="Test plan" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Test plan' }]}>
        {error === null ? (
          <Waiting what="the test plan" />
        ) : (
          <Trouble error={error} retry={() => window.location.reload()} />
        )}
      </Page>
    );
  const { engine, build } = day.data;
  const { planId, plan, ticks } = kept.data;
  const title = `Test plan: ${engine.name}, ${dayLabel(day.data.day)}`;
  return (
    <Page title={title} crumbs={dayCrumbs(day.data, 'Test plan')}>
      {planId === null || plan === null ? (
        <Nothing
          title="No plan yet"
          action={
            sheet.data?.sheet == null ? (
              <ToSheet buildId={build.id}>Begin the sheet first</ToSheet>
            ) : (
              <Button onClick={() => make.mutate(undefined)}>Make the plan</Button>
            )
          }
        >
          It follows from{' '}
          <Link to="/builds/$id/sheet/{-$section}" params={{ id: build.id }}>
            the sheet of {build.name}
          </Link>
          : cautions, limits, warm-up, run-in, first settings, what to have at hand. It stays as it
          was made, so that what is ticked is what was read.
        </Nothing>
      ) : (
        <>
          <PlanView
            title={title}
            plan={plan}
            ticks={ticks}
            onTick={(item, ticked) => tick.mutate({ planId, itemId: item.id, ticked })}
            onEdit={(edits) => edit.mutate({ planId, edits })}
          />
          <div className={`offPaper ${styles.again}`}>
            <Button variant="default" onClick={() => make.mutate(undefined)}>
              Make it again from the sheet
            </Button>
            <p className="quiet">
              What was struck, changed or added here goes along; ticks begin anew, since the sheet
              may say something else now.
            </p>
          </div>
        </>
      )}
    </Page>
  );
}

interface Tick {
  readonly planId: string;
  readonly itemId: string;
  readonly ticked: boolean;
}
