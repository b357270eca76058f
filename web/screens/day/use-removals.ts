import type { useNavigate } from '@tanstack/react-router';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { DayPage, Pull } from '../../api/types.gen.ts';
import { dayLabel } from '../../shell/places.ts';

/** Taking a pull or the whole day out of the book; both can be taken back. */
export function useRemovals(page: DayPage, navigate: ReturnType<typeof useNavigate>) {
  const { day, build } = page;
  const removeDay = useChange(() => ask('DELETE /days/{id}', { params: { id: day.id } }), {
    done: `${dayLabel(day)} is removed with its pulls.`,
    after: () => void navigate({ to: '/builds/$id', params: { id: build.id } }),
  });
  const removePull = useChange(
    async (pull: Pull) => {
      await ask('DELETE /pulls/{id}', { params: { id: pull.id } });
      return pull;
    },
    { done: (pull) => `Pull ${pull.order + 1} is removed; its recording stays in the book.` },
  );
  return { removeDay, removePull };
}
