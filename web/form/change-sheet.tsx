import { useChange } from '../api/changes.ts';
import { EditSheet, type EditSheetProps } from './edit-sheet.tsx';
import type { Values } from './fields.ts';

interface ChangeSheetProps<T> extends Omit<EditSheetProps, 'busy' | 'onSave'> {
  /** Hands what was filled in to the service. */
  readonly save: (values: Values) => Promise<T>;
  /** Said when it is done, with a way back. */
  readonly done: string | ((result: T) => string);
  /** After it is done and the form is closed. */
  readonly after?: (result: T) => void;
}

/** A form over the page whose values are stored when it is saved; it closes when they are, and stays where they are refused. */
export function ChangeSheet<T>({ save, done, after, ...sheet }: ChangeSheetProps<T>) {
  const change = useChange(save, {
    done,
    after: (result) => {
      sheet.onClose();
      after?.(result);
    },
  });
  return (
    <EditSheet {...sheet} busy={change.isPending} onSave={(values) => change.mutate(values)} />
  );
}
