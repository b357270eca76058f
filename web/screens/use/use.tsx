import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate, useSearch } from '@tanstack/react-router';
import { useMemo } from 'react';
import { isGoal } from '../../../src/compare/index.ts';
import {
  enginePageQuery,
  shopQuery,
  useMembersQuery,
  usesQuery,
  vehiclesQuery,
} from '../../api/queries.ts';
import type { SideWanted } from '../../api/types.gen.ts';
import { Sides } from '../../compare/Sides.tsx';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import type { Chosen } from '../../use/props.ts';
import { UseScreen } from '../../use/UseScreen.tsx';
import { useSideChoosing, wordsOf } from '../compare/choosing.tsx';
import { sidesFromText, sidesToText } from '../compare/side-address.ts';
import { sideWords } from '../compare/side-words.ts';
import { UseActs, VehicleActs } from './acts.tsx';

/** What it is for: builds, use and vehicle stand in the address. */
export function UseRoute() {
  const search = useSearch({ from: '/use' });
  const navigate = useNavigate();
  const { units, standard } = usePreferences();
  const sides = useMemo(() => sidesFromText(search.sides), [search.sides]);
  const members = useQuery({ ...useMembersQuery(sides, standard), enabled: sides.length > 0 });
  const shop = useQuery(shopQuery);
  const data = sides.length > 0 && !members.isError ? members.data : undefined;
  const engineId = data?.sides.find((side) => side.engineId !== null)?.engineId ?? null;
  const engine = useQuery({ ...enginePageQuery(engineId ?? ''), enabled: engineId !== null });
  const vehicles = useQuery({ ...vehiclesQuery(engineId ?? ''), enabled: engineId !== null });
  const uses = useQuery({ ...usesQuery(engineId ?? ''), enabled: engineId !== null });
  const kept = engineId === null ? [] : (vehicles.data ?? []);
  // Where nobody chose, the engine's first vehicle is what it goes into.
  const vehicleId =
    search.vehicle === undefined
      ? (kept[0]?.id ?? null)
      : (kept.find(({ id }) => id === search.vehicle)?.id ?? null);
  const goal = search.over !== undefined && isGoal(search.over) ? search.over : 'quarterMile';
  const chosen: Chosen = { use: search.use ?? null, vehicle: vehicleId, goal };

  const go = (next: readonly SideWanted[], to: Chosen) =>
    void navigate({
      to: '/use',
      search: {
        sides: sidesToText(next),
        ...(to.use === null ? {} : { use: to.use }),
        vehicle: to.vehicle ?? 'none',
        ...(to.goal === 'quarterMile' ? {} : { over: to.goal }),
      },
      replace: true,
      resetScroll: false,
    });
  const { acts: all, picker } = useSideChoosing(sides, (next) => go(next, chosen));
  const { onRemove, ...others } = all;
  // The only side stays: a page about no build says nothing.
  const acts = { ...others, ...(sides.length > 1 ? { onRemove } : {}) };
  const told = data !== undefined && !members.isPlaceholderData ? data.sides : null;
  const words = wordsOf(sides, told, shop.data);
  const error = members.error ?? vehicles.error ?? uses.error;
  const ready = data !== undefined && (engineId === null || (vehicles.isFetched && uses.isFetched));
  const name = engine.data?.engine.name;

  return (
    <Page
      title={words.length === 0 ? 'What it is for' : `What ${words[0]!.name} is for`}
      crumbs={[
        { label: 'Shop', to: '/' },
        ...(name === undefined ? [] : [{ label: name, to: `/engines/${engineId}` }]),
        { label: 'What it is for' },
      ]}
      standard={data?.standard ?? null}
    >
      {sides.length === 0 ? (
        <Nothing
          title="Which build, and for what?"
          action={<Button onClick={() => acts.onPick(null)}>Choose a build</Button>}
        >
          A bigger peak is not a better engine. Choose one build or two, a use or a vehicle, and
          this page says which one suits it, by how much and with what certainty: mean power over
          the speeds that the use visits, times, top speed, and the gearing that gives each build
          its due.
        </Nothing>
      ) : ready && data !== undefined ? (
        <UseScreen
          key={sidesToText(data.sides.map(({ wanted }) => wanted))}
          input={data.input}
          sides={data.sides.map(sideWords)}
          units={units}
          standard={data.standard}
          taken={data.taken}
          warnings={data.warnings}
          uses={engineId === null ? [] : (uses.data ?? [])}
          vehicles={kept}
          chosen={chosen}
          onChoose={(to) => go(sides, to)}
          vehicleActs={
            engineId !== null && (
              <VehicleActs
                engineId={engineId}
                vehicle={kept.find(({ id }) => id === vehicleId) ?? null}
                onKept={({ id }) => go(sides, { ...chosen, vehicle: id })}
                onRemoved={() => go(sides, { ...chosen, vehicle: null })}
              />
            )
          }
          useActs={
            engineId !== null && (
              <UseActs
                engineId={engineId}
                use={uses.data?.find(({ id }) => `kept:${id}` === chosen.use) ?? null}
                onKept={({ id }) => go(sides, { ...chosen, use: `kept:${id}` })}
                onRemoved={() => go(sides, { ...chosen, use: null })}
              />
            )
          }
          {...acts}
        />
      ) : (
        <>
          <Sides sides={words} {...acts} />
          {error !== null ? (
            <Trouble error={error} retry={() => void members.refetch()} />
          ) : (
            <Waiting what="the builds" lines={8} />
          )}
        </>
      )}
      {picker}
    </Page>
  );
}
