import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { addressOf } from '../../api/client.ts';
import { cellsQuery, shopSettingsQuery } from '../../api/queries.ts';
import { Page } from '../../shell/page.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { SignedWith } from '../handover/signed-with.tsx';
import { AnotherMachine } from './another-machine.tsx';
import { Cells } from './cells.tsx';
import { ShopRules } from './shop-rules.tsx';
import { ThisScreen } from './this-screen.tsx';
import { Uses } from './uses.tsx';
import { Windows } from './windows.tsx';

/** What holds for this screen, for the shop, for each use and for each cell. */
export function SettingsScreen() {
  const shop = useQuery(shopSettingsQuery);
  const cells = useQuery(cellsQuery);
  const error = shop.error ?? cells.error;
  return (
    <Page title="Settings" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Settings' }]}>
      <div className="stack">
        <h1>Settings</h1>
        <ThisScreen />
        {error !== null && (
          <Trouble
            error={error}
            retry={() => {
              void shop.refetch();
              void cells.refetch();
            }}
          />
        )}
        {error === null && (shop.isPending || cells.isPending) && <Waiting what="the settings" />}
        {shop.data && <ShopRules shop={shop.data} />}
        {shop.data && <Uses shop={shop.data} />}
        {cells.data && <Cells cells={cells.data} />}
        {shop.data && <Windows shop={shop.data} />}
        <section className="panel" aria-labelledby="hand-overs">
          <header>
            <h2 id="hand-overs">Hand-overs</h2>
          </header>
          <SignedWith />
          <p>
            <Link to="/verify">Check a hand-over</Link>{' '}
            <span className="quiet">of this shop or any other against its own recordings.</span>
          </p>
        </section>
        <AnotherMachine />
        <section className="panel" aria-labelledby="copy">
          <header>
            <h2 id="copy">A copy of the book</h2>
          </header>
          <p>
            <a href={addressOf('/backup')} download>
              Save a whole copy
            </a>{' '}
            <span className="quiet">
              made while the book stays in use. The command “pullbook restore” brings it back.
            </span>
          </p>
        </section>
      </div>
    </Page>
  );
}
