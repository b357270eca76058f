import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Shop } from '../../api/types.gen.ts';
import { WindowsView } from '../../build/WindowsView.tsx';

/** The windows by which build sheets are judged. */
export function Windows({ shop }: { readonly shop: Shop }) {
  const keep = useChange((windows: Shop['windows']) => ask('PATCH /shop', { body: { windows } }), {
    done: 'The windows are changed; every sheet is judged by them.',
  });
  return <WindowsView own={shop.windows} onChange={(windows) => keep.mutate([...windows])} />;
}
