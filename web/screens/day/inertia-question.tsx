import { Button } from '@mantine/core';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { DayPage, DayPatch } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import { INERTIA_FIELD } from '../../form/specs.ts';
import { useFigures } from '../../shell/figures.tsx';
import styles from './questions.module.css';
import type { PullWithCurve } from './series.ts';

/** Whether a sweep of the day had its inertia put back, or left out, without anybody saying it for this engine. */
export function asksForInertia(
  inertiaKgM2: number | null,
  all: readonly Pick<PullWithCurve, 'curve'>[],
): boolean {
  if (inertiaKgM2 !== null) return false;
  return all.some(({ curve }) => {
    if (curve === null) return false;
    const swept = curve.span.direction === 'rising' || curve.span.direction === 'falling';
    const leftOut = swept && curve.basis.inertia === 'out';
    return leftOut || curve.marks.some((mark) => mark.kind === 'inertia');
  });
}

interface InertiaQuestionProps {
  readonly page: DayPage;
  readonly all: readonly PullWithCurve[];
}

/** Asked once for an engine on a cell: the cell's figure holds the engine that turned when it was written down. */
export function InertiaQuestion({ page, all }: InertiaQuestionProps) {
  const { day, cell, engine } = page;
  const { figure } = useFigures();
  const [open, setOpen] = useState(false);
  const done = `Remembered for ${engine.name} on ${cell.name}.`;
  const store = (body: DayPatch) => ask('PATCH /days/{id}', { params: { id: day.id }, body });
  const say = useChange(store, { done });
  if (!asksForInertia(day.inertiaKgM2, all)) return null;
  const known = cell.inertiaKgM2;
  return (
    <section className="panel" aria-label="Inertia">
      <fieldset className={styles.question}>
        <legend>
          {known === null
            ? `How much inertia turns with the crank, with ${engine.name} on ${cell.name}?`
            : `Is ${figure(known, 'inertia')} right for all that turns, with ${engine.name} on ${cell.name}?`}
        </legend>
        <p className="quiet">
          {known === null
            ? 'Until it is answered the torque that accelerated the rotating parts is missing from the curves.'
            : 'It stands with the cell, engine included. Until it is answered the curves are made with it.'}
        </p>
        <div className={styles.choices}>
          {known !== null && (
            <Button
              variant="default"
              disabled={say.isPending}
              onClick={() => say.mutate({ inertiaKgM2: known })}
            >
              It is right
            </Button>
          )}
          <Button variant="default" disabled={say.isPending} onClick={() => setOpen(true)}>
            {known === null ? 'Write it down' : 'Another figure'}
          </Button>
        </div>
      </fieldset>
      {open && (
        <ChangeSheet
          title={`All that turns with ${engine.name} on ${cell.name}`}
          fields={[
            {
              ...INERTIA_FIELD,
              required: true,
              hint: 'Engine, coupling and brake, as seen at the crank.',
            },
          ]}
          values={{ inertiaKgM2: known }}
          sendUntouched
          save={(patch) => store(patch as DayPatch)}
          done={done}
          onClose={() => setOpen(false)}
        />
      )}
    </section>
  );
}
