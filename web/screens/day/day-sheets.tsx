import { useQuery } from '@tanstack/react-query';
import { ask } from '../../api/client.ts';
import { cellsQuery } from '../../api/queries.ts';
import type { Configuration, DayPage, DayPatch, Pull, PullPatch } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import { EditSheet } from '../../form/edit-sheet.tsx';
import type { Values } from '../../form/fields.ts';
import { CONFIGURATION_FIELDS, dayFields } from '../../form/specs.ts';
import { TYPED_PEAK_FIELDS, typedPeak } from './typed-peaks.ts';

/** Which form lies over the day, if any. */
export type DaySheet =
  | { readonly kind: 'day' | 'configuration' | 'typed' }
  | { readonly kind: 'pull'; readonly pull: Pull }
  | null;

interface DaySheetsProps {
  readonly sheet: DaySheet;
  readonly page: DayPage;
  readonly uses: readonly string[];
  readonly close: () => void;
  readonly changePull: (pull: Pull, patch: PullPatch) => void;
}

/** The forms of a test day: its facts, its configuration, what differs in a pull, a typed peak. */
export function DaySheets({ sheet, page, uses, close, changePull }: DaySheetsProps) {
  const { day, pulls } = page;
  const cells = useQuery(cellsQuery);
  const params = { id: day.id };
  const store = (body: DayPatch) => ask('PATCH /days/{id}', { params, body });
  if (sheet === null) return null;
  if (sheet.kind === 'day')
    return (
      <ChangeSheet
        title="Facts of the day"
        fields={dayFields(
          (cells.data ?? [page.cell]).map(({ id, name }) => ({ value: id, label: name })),
          uses,
        )}
        values={day}
        save={(patch) => store(patch as DayPatch)}
        done="The day is changed."
        onClose={close}
      />
    );
  if (sheet.kind === 'configuration')
    return (
      <ChangeSheet
        title="How the engine stands on the cell"
        fields={CONFIGURATION_FIELDS}
        values={day.configuration}
        save={(patch) => store({ configuration: withPatch(day.configuration, patch) })}
        done="The day is changed."
        onClose={close}
      />
    );
  if (sheet.kind === 'pull')
    return (
      <EditSheet
        title={`What differs in pull ${sheet.pull.order + 1}`}
        fields={CONFIGURATION_FIELDS}
        values={sheet.pull.configuration}
        onClose={close}
        onSave={(patch) => {
          changePull(sheet.pull, { configuration: withPatch(sheet.pull.configuration, patch) });
          close();
        }}
      />
    );
  const last = pulls.at(-1)?.peaksAre;
  return (
    <ChangeSheet
      title="Type in a peak"
      fields={TYPED_PEAK_FIELDS}
      values={{ air: last?.air ?? 'unknown', inertia: last?.inertia ?? 'unknown' }}
      sendUntouched
      saveLabel="Add the pull"
      save={(values) => ask('POST /days/{id}/pulls', { params, body: typedPeak(values) })}
      done="The peak is in the ladder."
      onClose={close}
    />
  );
}

/** The configuration with what was changed; what was emptied says nothing any more. */
function withPatch(now: Configuration, patch: Values): Configuration {
  const merged = Object.entries({ ...now, ...patch });
  return Object.fromEntries(merged.filter(([, value]) => value !== null && value !== ''));
}
