import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { Fragment, useMemo } from 'react';
import { inUnitsOf, type UnitSystem } from '../../../src/units/index.ts';
import { membersQuery, shopQuery, shopSettingsQuery } from '../../api/queries.ts';
import type { BandRpm, CompareMembers, ShopSummary, SideWanted } from '../../api/types.gen.ts';
import { CompareScreen } from '../../compare/CompareScreen.tsx';
import type { CompareProps, QuickBand, SideWords } from '../../compare/props.ts';
import { Sides } from '../../compare/Sides.tsx';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { kept } from '../../shell/words.ts';
import { useSideChoosing, wordsOf } from './choosing.tsx';
import { KeepComparison } from './keep.tsx';
import { readyPairs } from './ready.ts';
import { bandFromText, bandToText, sidesFromText, sidesToText } from './side-address.ts';
import { sideWords } from './side-words.ts';

/** Side by side: the sides and the band stand in the address, so that a comparison can be bookmarked and sent on. */
export function CompareRoute() {
  const search = useSearch({ from: '/compare' });
  const navigate = useNavigate();
  const { standard } = usePreferences();
  const sides = useMemo(() => sidesFromText(search.sides), [search.sides]);
  const band = bandFromText(search.band);
  const members = useQuery({ ...membersQuery(sides, standard), enabled: sides.length > 1 });
  const shop = useQuery(shopQuery);
  const data = sides.length > 1 && !members.isError ? members.data : undefined;

  const go = (next: readonly SideWanted[], at: BandRpm | null, replace = false) =>
    void navigate({
      to: '/compare',
      search: { sides: sidesToText(next), ...(at === null ? {} : { band: bandToText(at) }) },
      replace,
      resetScroll: false,
    });
  const { acts, picker } = useSideChoosing(sides, (next) => go(next, band));
  const told = data !== undefined && !members.isPlaceholderData ? data.sides : null;
  const words = wordsOf(sides, told, shop.data);

  return (
    <Page
      title={words.length < 2 ? 'Side by side' : words.map(({ name }) => name).join(' against ')}
      crumbs={[{ label: 'Shop', to: '/' }, { label: 'Side by side' }]}
      standard={data?.standard ?? null}
    >
      {sides.length < 2 ? (
        <Beginning sides={words} shop={shop.data} {...acts} />
      ) : data !== undefined ? (
        <CompareWork
          key={sidesToText(data.sides.map(({ wanted }) => wanted))}
          {...{ data, band }}
          acts={{ ...acts, acts: <KeepComparison {...{ sides, band, standard }} /> }}
          onBand={(next) => go(sides, next, true)}
        />
      ) : (
        <div className="stack">
          <Sides sides={words} {...acts} />
          {members.isError ? (
            <Trouble error={members.error} retry={() => void members.refetch()} />
          ) : (
            <Waiting what="the sides" lines={8} />
          )}
        </div>
      )}
      {picker}
    </Page>
  );
}

type Acts = Pick<CompareProps, 'onSwap' | 'onRemove' | 'onPick' | 'acts'>;

function CompareWork({
  data,
  band,
  acts,
  onBand,
}: {
  readonly data: CompareMembers;
  readonly band: BandRpm | null;
  readonly acts: Acts;
  readonly onBand: (band: BandRpm) => void;
}) {
  const { units } = usePreferences();
  const shop = useQuery(shopSettingsQuery);
  const sides = data.sides.map(sideWords);
  if (data.input === null)
    return (
      <div className="stack">
        <Sides sides={sides} {...acts} />
        <h1>No two sides have a curve</h1>
        <PeaksAlone {...{ data, units, acts }} saysWarnings />
      </div>
    );
  // Sides known by their peaks have no curve to draw, so the picture counts without them.
  const drawn = data.sides.flatMap(({ known }, at) => (known === 'curve' ? [at] : []));
  const ofDrawn = {
    ...acts,
    onRemove: (at: number) => acts.onRemove?.(drawn[at]!),
    onPick: (at: number | null) => acts.onPick?.(at === null ? null : drawn[at]!),
  };
  const quickBands: QuickBand[] = [
    { name: 'as on the day', band: data.input.bandRpm },
    ...(shop.data?.uses ?? []).flatMap(({ name, speedsRpm }) =>
      speedsRpm === null ? [] : [{ name, band: speedsRpm }],
    ),
  ];
  return (
    <CompareScreen
      input={data.input}
      bandRpm={band ?? data.input.bandRpm}
      sides={drawn.map((at) => sides[at]!)}
      units={units}
      standard={data.standard}
      taken={data.taken}
      warnings={data.warnings}
      daysFrom={data.dayToDay.sentence}
      quickBands={quickBands}
      onBand={(next) => onBand([Math.round(next[0]), Math.round(next[1])])}
      undrawn={data.peaks.length > 0 && <PeaksAlone {...{ data, units, acts }} />}
      {...ofDrawn}
    />
  );
}

/** What can be said of sides that are known by their peaks alone, each with the first side. */
function PeaksAlone({
  data,
  units,
  acts,
  saysWarnings = false,
}: {
  readonly data: CompareMembers;
  readonly units: UnitSystem;
  readonly acts: Acts;
  readonly saysWarnings?: boolean;
}) {
  const alone = data.sides.flatMap(({ known, name }, at) =>
    known === 'curve' ? [] : [{ name, at }],
  );
  return (
    <section className="panel" aria-labelledby="peaks-alone">
      <header>
        <h2 id="peaks-alone">Known by their peaks alone</h2>
        <span className="acts">
          {alone.map(({ name, at }) => (
            <Fragment key={name}>
              <Button variant="subtle" size="compact-xs" onClick={() => acts.onPick?.(at)}>
                {`change ${name}`}
              </Button>
              {data.sides.length > 2 && (
                <Button variant="subtle" size="compact-xs" onClick={() => acts.onRemove?.(at)}>
                  {`leave out ${name}`}
                </Button>
              )}
            </Fragment>
          ))}
        </span>
      </header>
      {data.peaks.map(({ a, b, finding }) => (
        <p key={`${a} ${b}`}>{kept(inUnitsOf(finding, units))}</p>
      ))}
      {saysWarnings && (
        <ul className="marks">
          {data.warnings.map((warning) => (
            <li key={warning} className="quiet">
              {kept(inUnitsOf(warning, units))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Where fewer than two sides are chosen: what this page is for, and the way on. */
function Beginning({
  sides,
  shop,
  ...acts
}: { readonly sides: readonly SideWords[]; readonly shop: ShopSummary | undefined } & Acts) {
  const [only] = sides;
  const ready = shop === undefined || only !== undefined ? [] : readyPairs(shop);
  return (
    <div className="stack">
      {only !== undefined && <Sides sides={sides} {...acts} />}
      <Nothing
        title={only === undefined ? 'Put two builds side by side' : `${only.name} against what?`}
        action={
          <Button onClick={() => acts.onPick?.(null)}>
            {only === undefined ? 'Choose the first side' : 'Choose the second side'}
          </Button>
        }
      >
        A side is a build, a test day, one rung of a ladder, what was left in an engine, chosen
        pulls, or a curve typed from paper. The first side is what the others are held against: the
        build before, the part that was in. What was gained is judged over the speeds that count, by
        all pulls of each side, and says how sure it is.
      </Nothing>
      {ready.length > 0 && (
        <section className="panel" aria-labelledby="compare-ready">
          <header>
            <h2 id="compare-ready">Ready to be compared</h2>
          </header>
          <ul className="marks">
            {ready.map(({ label, search }) => (
              <li key={label}>
                <Link to="/compare" search={search}>
                  {label}
                </Link>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}
