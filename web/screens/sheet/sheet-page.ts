import { useQuery } from '@tanstack/react-query';
import { buildQuery, enginePageQuery, sheetQuery, shopSettingsQuery } from '../../api/queries.ts';
import type { Build } from '../../api/types.gen.ts';

/** The build of a sheet, its engine, the shop's rules, and the build before it. */
export function useSheetPage(id: string) {
  const build = useQuery(buildQuery(id));
  const page = useQuery({
    ...enginePageQuery(build.data?.engineId ?? ''),
    enabled: build.data !== undefined,
  });
  const shop = useQuery(shopSettingsQuery);
  const builds = page.data?.builds ?? [];
  const before = buildBefore(builds, id);
  const earlier = useQuery({ ...sheetQuery(before?.id ?? ''), enabled: before !== null });
  return {
    build: build.data,
    engine: page.data?.engine,
    shop: shop.data,
    before,
    earlier: before === null ? null : earlier.data,
    error: build.error ?? page.error ?? shop.error ?? earlier.error,
    crumbs: [
      { label: 'Shop', to: '/' },
      ...(page.data
        ? [{ label: page.data.engine.name, to: `/engines/${page.data.engine.id}` }]
        : []),
      ...(build.data ? [{ label: build.data.name, to: `/builds/${id}` }] : []),
    ],
  };
}

/** Builds stand in the order they were begun; the one before this is what it is compared with. */
function buildBefore(builds: readonly Build[], id: string): Build | null {
  const at = builds.findIndex((one) => one.id === id);
  return at > 0 ? builds[at - 1]! : null;
}
