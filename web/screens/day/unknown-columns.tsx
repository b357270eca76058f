import { useQuery } from '@tanstack/react-query';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Understood } from '../../api/types.gen.ts';
import { mergeAnswers } from './answers.ts';
import { beginningOf } from './beginning.ts';
import { MappingSheet } from './mapping-sheet.tsx';

interface UnknownColumnsProps {
  readonly cell: { readonly id: string; readonly name: string };
  readonly file: File;
  readonly understood: Understood;
  /** The columns are named: every waiting file of this shape may be tried again. */
  readonly onNamed: (shape: string) => void;
  readonly onClose: () => void;
}

/** Where a refused file shows no speed or no torque: a person says which columns they are, and it is tried again. */
export function UnknownColumns(props: UnknownColumnsProps) {
  const { cell, file, understood, onNamed, onClose } = props;
  const { shape } = understood;
  const beginning = useQuery({
    queryKey: ['beginning', file.name, file.size, file.lastModified],
    queryFn: () => beginningOf(file),
    staleTime: Number.POSITIVE_INFINITY,
  });
  const remember = useChange(
    async (changed: Understood['answers']) => {
      // What was said of this shape before stays, since the service keeps one set of answers for each.
      const known = await ask('GET /cells/{id}/mappings', { params: { id: cell.id } });
      const before = known.find((mapping) => mapping.shape === shape)?.answers ?? {};
      return ask('PUT /cells/{id}/mappings/{shape}', {
        params: { id: cell.id, shape },
        body: { answers: mergeAnswers(before, changed) },
      });
    },
    {
      done: `Remembered for ${cell.name} and every file of this shape.`,
      after: () => onNamed(shape),
    },
  );
  return (
    <MappingSheet
      cellName={cell.name}
      beginning={beginning.data ?? null}
      understood={understood}
      saveLabel="Remember and try again"
      busy={remember.isPending}
      onSave={(changed) => remember.mutate(changed)}
      onClose={onClose}
    />
  );
}
