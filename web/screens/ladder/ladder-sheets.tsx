import { useNavigate } from '@tanstack/react-router';
import type { SettingName } from '../../../src/ladder/index.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Ladder, LadderPatch, NewLadder } from '../../api/types.gen.ts';
import { EditSheet } from '../../form/edit-sheet.tsx';
import { ladderFields } from './ladder-fields.ts';
import { nameOfLadder } from './ladder-words.ts';

/** Which form of a ladder lies over the page, if any. */
export type LadderSheet =
  | { readonly kind: 'new'; readonly setting: SettingName }
  | { readonly kind: 'edit'; readonly ladder: Ladder }
  | null;

/** Makes a ladder on a day and goes to it. */
export function useNewLadder(dayId: string) {
  const navigate = useNavigate();
  return useChange(
    (body: NewLadder) => ask('POST /days/{id}/ladders', { params: { id: dayId }, body }),
    {
      done: (made) => `${nameOfLadder(made)} is open.`,
      after: (made) => void navigate({ to: '/ladders/$id', params: { id: made.id } }),
    },
  );
}

interface LadderSheetsProps {
  readonly sheet: LadderSheet;
  readonly dayId: string;
  readonly close: () => void;
}

/** The forms of a ladder: a new one, and which pulls are its own. */
export function LadderSheets({ sheet, dayId, close }: LadderSheetsProps) {
  const make = useNewLadder(dayId);
  const edit = useChange(
    ({ id, body }: { id: string; body: LadderPatch }) =>
      ask('PATCH /ladders/{id}', { params: { id }, body }),
    { done: (ladder) => `${nameOfLadder(ladder)} is changed.`, after: close },
  );
  if (sheet === null) return null;
  if (sheet.kind === 'edit')
    return (
      <EditSheet
        title={nameOfLadder(sheet.ladder)}
        fields={ladderFields(sheet.ladder.setting)}
        values={sheet.ladder}
        busy={edit.isPending}
        onClose={close}
        onSave={(patch) => edit.mutate({ id: sheet.ladder.id, body: patch as LadderPatch })}
      />
    );
  const { setting } = sheet;
  return (
    <EditSheet
      title={setting === 'lead' ? 'New ladder of spark lead' : 'New ladder of lambda'}
      fields={ladderFields(setting)}
      values={{ name: setting === 'lead' ? 'Spark lead' : 'Lambda' }}
      saveLabel="Open the ladder"
      sendUntouched
      busy={make.isPending}
      onClose={close}
      onSave={(values) => make.mutate({ ...(values as NewLadder), setting })}
    />
  );
}
