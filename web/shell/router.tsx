import { useComputedColorScheme, useMantineColorScheme } from '@mantine/core';
import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  Outlet,
  useNavigate,
} from '@tanstack/react-router';
import { useMemo } from 'react';
import { redoLatest, undoLatest } from '../api/changes.ts';
import { ServiceError, SILENT } from '../api/client.ts';
import { BuildScreen } from '../screens/build.tsx';
import { ChangesScreen } from '../screens/changes.tsx';
import { searchOf } from '../screens/compare/side-address.ts';
import { DayScreen } from '../screens/day/day.tsx';
import { EngineScreen } from '../screens/engine.tsx';
import { ShopScreen } from '../screens/shop.tsx';
import { searchOfUse } from '../screens/use/use-address.ts';
import { KeysSheet, showKeys, showSearch, useKeys } from './keys.tsx';
import { Page } from './page.tsx';
import { usePreferences } from './preferences.tsx';
import { SearchSheet } from './search.tsx';
import { Nothing, Trouble } from './states.tsx';
import { Toasts } from './toasts.tsx';

function Root() {
  const navigate = useNavigate();
  const { units, wall, change } = usePreferences();
  const { setColorScheme } = useMantineColorScheme({ keepTransitions: true });
  const scheme = useComputedColorScheme('light');
  useKeys(
    useMemo(
      () => ({
        '?': showKeys,
        '/': showSearch,
        h: () => void navigate({ to: '/' }),
        u: () => change({ units: units === 'us' ? 'metric' : 'us' }),
        d: () => setColorScheme(scheme === 'dark' ? 'light' : 'dark'),
        w: () => change({ wall: !wall }),
        'mod+z': () => void undoLatest(),
        'mod+shift+z': () => void redoLatest(),
      }),
      [navigate, units, wall, change, scheme, setColorScheme],
    ),
  );
  return (
    <>
      <Outlet />
      <KeysSheet />
      <SearchSheet />
      <Toasts />
    </>
  );
}

function Lost() {
  return (
    <Page title="Not found" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Not found' }]}>
      <Nothing title="There is no page at this address">
        It may have been removed; the list of changes can bring it back.
      </Nothing>
    </Page>
  );
}

/** A part of the page that could not be fetched: in words that a person can act on. */
const notFetched = /dynamically imported module|preload CSS|importing a module/i;

function Broken({ error }: { error: unknown }) {
  const known =
    error instanceof Error && notFetched.test(error.message)
      ? new ServiceError(SILENT, 'silent')
      : error;
  return (
    <Page title="Trouble" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Trouble' }]}>
      <Trouble error={known} retry={() => window.location.reload()} />
    </Page>
  );
}

const rootRoute = createRootRoute({ component: Root, notFoundComponent: Lost });
const under = { getParentRoute: () => rootRoute };

const routeTree = rootRoute.addChildren([
  createRoute({ ...under, path: '/', component: ShopScreen }),
  createRoute({ ...under, path: '/engines/$id', component: EngineScreen }),
  createRoute({
    ...under,
    path: '/engines/$id/service',
    component: lazyRouteComponent(() => import('../screens/service/service.tsx'), 'ServiceScreen'),
  }),
  createRoute({ ...under, path: '/builds/$id', component: BuildScreen }),
  createRoute({
    ...under,
    path: '/builds/$id/sheet/{-$section}',
    component: lazyRouteComponent(() => import('../screens/sheet/sheet.tsx'), 'SheetScreen'),
  }),
  createRoute({
    ...under,
    path: '/builds/$id/paper',
    component: lazyRouteComponent(() => import('../screens/sheet/paper.tsx'), 'PaperScreen'),
  }),
  createRoute({
    ...under,
    path: '/builds/$id/changes',
    component: lazyRouteComponent(() => import('../screens/sheet/since.tsx'), 'SinceScreen'),
  }),
  createRoute({
    ...under,
    path: '/builds/$id/handover',
    validateSearch: ({ made }: Record<string, unknown>): { made?: string } =>
      typeof made === 'string' ? { made } : {},
    component: lazyRouteComponent(
      () => import('../screens/handover/handover.tsx'),
      'HandOverScreen',
    ),
  }),
  createRoute({
    ...under,
    path: '/builds/$id/replay',
    validateSearch: ({
      made,
      language,
    }: Record<string, unknown>): { made?: string; language?: 'de' } => ({
      ...(typeof made === 'string' ? { made } : {}),
      ...(language === 'de' ? ({ language } as const) : {}),
    }),
    component: lazyRouteComponent(
      () => import('../screens/replay/replay.tsx'),
      'HandOverReplayScreen',
    ),
  }),
  createRoute({
    ...under,
    path: '/pulls/$id/replay',
    validateSearch: ({ beside }: Record<string, unknown>): { beside?: string } =>
      typeof beside === 'string' ? { beside } : {},
    component: lazyRouteComponent(() => import('../screens/replay/replay.tsx'), 'PullReplayScreen'),
  }),
  createRoute({
    ...under,
    path: '/verify',
    component: lazyRouteComponent(() => import('../screens/handover/verify.tsx'), 'VerifyScreen'),
  }),
  createRoute({
    ...under,
    path: '/parts',
    // A serial such as 014 may come as a number.
    validateSearch: ({ serial }: Record<string, unknown>): { serial?: string } =>
      serial === undefined || serial === '' ? {} : { serial: String(serial) },
    component: lazyRouteComponent(() => import('../screens/parts/parts.tsx'), 'PartsScreen'),
  }),
  createRoute({ ...under, path: '/days/$id', component: DayScreen }),
  createRoute({
    ...under,
    path: '/days/$id/plan',
    component: lazyRouteComponent(() => import('../screens/day/plan.tsx'), 'PlanScreen'),
  }),
  createRoute({
    ...under,
    path: '/days/$id/part-tests',
    component: lazyRouteComponent(() => import('../screens/day/part-tests.tsx'), 'PartTestsScreen'),
  }),
  createRoute({
    ...under,
    path: '/part-tests/$id',
    component: lazyRouteComponent(() => import('../screens/day/part-test.tsx'), 'PartTestScreen'),
  }),
  createRoute({
    ...under,
    path: '/days/$id/ladder',
    component: lazyRouteComponent(() => import('../screens/ladder/ladder.tsx'), 'LadderRoute'),
  }),
  createRoute({
    ...under,
    path: '/days/$id/both',
    component: lazyRouteComponent(() => import('../screens/ladder/both.tsx'), 'BothRoute'),
  }),
  createRoute({
    ...under,
    path: '/ladders/$id',
    component: lazyRouteComponent(() => import('../screens/ladder/ladder.tsx'), 'LadderByIdRoute'),
  }),
  createRoute({
    ...under,
    path: '/pulls/$id',
    component: lazyRouteComponent(() => import('../screens/pull/pull.tsx'), 'PullScreen'),
  }),
  createRoute({
    ...under,
    path: '/compare',
    validateSearch: searchOf,
    component: lazyRouteComponent(() => import('../screens/compare/compare.tsx'), 'CompareRoute'),
  }),
  createRoute({
    ...under,
    path: '/use',
    validateSearch: searchOfUse,
    component: lazyRouteComponent(() => import('../screens/use/use.tsx'), 'UseRoute'),
  }),
  createRoute({
    ...under,
    path: '/settings',
    component: lazyRouteComponent(
      () => import('../screens/settings/settings.tsx'),
      'SettingsScreen',
    ),
  }),
  createRoute({
    ...under,
    path: '/cells/$id/calibrations',
    component: lazyRouteComponent(
      () => import('../screens/cell/calibrations.tsx'),
      'CalibrationsScreen',
    ),
  }),
  createRoute({
    ...under,
    path: '/cells/$id/calibrate/$kind',
    component: lazyRouteComponent(
      () => import('../screens/cell/calibration.tsx'),
      'NewCalibrationScreen',
    ),
  }),
  createRoute({
    ...under,
    path: '/calibrations/$id',
    component: lazyRouteComponent(
      () => import('../screens/cell/calibration.tsx'),
      'CalibrationScreen',
    ),
  }),
  createRoute({ ...under, path: '/changes', component: ChangesScreen }),
]);

export const router = createRouter({
  routeTree,
  defaultErrorComponent: Broken,
  scrollRestoration: true,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
