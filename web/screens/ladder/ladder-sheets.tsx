import { useNavigate } from '@tanstack/react-router';
import type { SettingName } from '../../../src/ladder/kinds.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Ladder, LadderPatch, NewLadder } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import { ladderFields } from './ladder-fields.ts';
import { nameOfLadder } from './ladder-words.ts';

/** Which form of a ladder lies over the page, if any. */
export type LadderSheet =
  | { readonly kind: 'new'; readonly setting: SettingName }
  | { readonly kind: 'edit'; readonly ladder: Ladder }
  | null;

const isOpen = (made: Ladder) => `${nameOfLadder(made)} is open.`;

/** Makes a ladder on a day and goes to it. */
export function useNewLadder(dayId: string) {
  const navigate = useNavigate();
  return useChange(
    (body: NewLadder) => ask('POST /days/{id}/ladders', { params: { id: dayId }, body }),
    {
      done: isOpen,
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
  const navigate = useNavigate();
  if (sheet === null) return null;
  if (sheet.kind === 'edit') {
    const { ladder } = sheet;
    return (
      <ChangeSheet
        title={nameOfLadder(ladder)}
        fields={ladderFields(ladder.setting)}
        values={ladder}
        save={(patch) =>
          ask('PATCH /ladders/{id}', { params: { id: ladder.id }, body: patch as LadderPatch })
        }
        done={(changed) => `${nameOfLadder(changed)} is changed.`}
        onClose={close}
      />
    );
  }
  const { setting } = sheet;
  return (
    <ChangeSheet
      title={setting === 'lead' ? 'New ladder of spark lead' : 'New ladder of lambda'}
      fields={ladderFields(setting)}
      values={{ name: setting === 'lead' ? 'Spark lead' : 'Lambda' }}
      saveLabel="Open the ladder"
      sendUntouched
      save={(values) =>
        ask('POST /days/{id}/ladders', { params: { id: dayId }, body: { ...values, setting } })
      }
      done={isOpen}
      after={(made) => void navigate({ to: '/ladders/$id', params: { id: made.id } })}
      onClose={close}
    />
  );
}
