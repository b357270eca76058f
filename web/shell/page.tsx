// Every screen stands on this page, so Mantine's styles go into the part that all share, before ours.
import '@mantine/core/styles.css';
import { ActionIcon, Menu, Tooltip, UnstyledButton, useMantineColorScheme } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { Fragment, type ReactNode, useEffect, useMemo } from 'react';
import { AIR_STANDARDS } from '../../src/pull/recording.ts';
import { queryClient, shopQuery } from '../api/queries.ts';
import { placeFacts, type TakenFrom, TakenFromContext } from '../table/taken-from.ts';
import { showKeys, showSearch } from './keys.tsx';
import styles from './page.module.css';
import { usePreferences } from './preferences.tsx';
import { nameOfStandard } from './words.ts';

/** One step of the way to this page. The last has no address: it is where we are. */
export interface Crumb {
  readonly label: string;
  readonly to?: string;
  /** Stands in place of the label where one can go on from here to its like. */
  readonly menu?: ReactNode;
}

interface PageProps {
  readonly title: string;
  readonly crumbs: readonly Crumb[];
  /** The standard that the page shows in when the person chose none; null hides the switch. */
  readonly standard?: string | null;
  /** What stands at the end of the scenario line, such as the band picker. */
  readonly scenario?: ReactNode;
  readonly children: ReactNode;
}

function Crumbs({ crumbs }: { crumbs: readonly Crumb[] }) {
  return (
    <nav aria-label="Where we are" className={styles.crumbs}>
      <ol>
        {crumbs.map((crumb, index) => (
          <li key={`${crumb.label}-${crumb.to ?? index}`}>
            {crumb.to === undefined ? (
              <span aria-current="page">{crumb.menu ?? crumb.label}</span>
            ) : (
              <Link to={crumb.to} activeOptions={{ exact: true }}>
                {crumb.label}
              </Link>
            )}
          </li>
        ))}
      </ol>
    </nav>
  );
}

function StandardMenu({ day }: { day: string | null }) {
  const { standard, change } = usePreferences();
  const shown = standard ?? day ?? 'SAE J1349';
  return (
    <Menu position="bottom-end">
      <Menu.Target>
        <UnstyledButton className={styles.scenario} aria-label={`Air standard: ${shown}`}>
          {nameOfStandard(shown)}
        </UnstyledButton>
      </Menu.Target>
      <Menu.Dropdown>
        <Menu.Label>Show figures in the air of</Menu.Label>
        {AIR_STANDARDS.map((name) => (
          <Menu.Item
            key={name}
            {...(name === shown ? { 'aria-current': 'true' as const, fw: 600 } : {})}
            onClick={() => change({ standard: name === day ? null : name })}
          >
            {nameOfStandard(name)}
            {name === day && ' (this day)'}
          </Menu.Item>
        ))}
      </Menu.Dropdown>
    </Menu>
  );
}

function UnitsSwitch() {
  const { units, change } = usePreferences();
  return (
    <Tooltip label="Switch units" openDelay={500}>
      <UnstyledButton
        className={styles.scenario}
        onClick={() => change({ units: units === 'us' ? 'metric' : 'us' })}
      >
        {units === 'us' ? 'US units' : 'Metric units'}
      </UnstyledButton>
    </Tooltip>
  );
}

function Tools() {
  // Mantine stops transitions by a <style> element, which a strict content security policy refuses.
  const { setColorScheme, colorScheme } = useMantineColorScheme({ keepTransitions: true });
  const dark =
    colorScheme === 'dark' ||
    (colorScheme === 'auto' && window.matchMedia('(prefers-color-scheme: dark)').matches);
  return (
    <div className={styles.tools}>
      <ActionIcon variant="subtle" aria-label="Search" onClick={showSearch}>
        <svg viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">
          <circle cx="8.5" cy="8.5" r="5.2" />
          <path d="M12.5 12.5 17 17" />
        </svg>
      </ActionIcon>
      <ActionIcon
        variant="subtle"
        aria-label={dark ? 'Light theme' : 'Dark theme'}
        onClick={() => setColorScheme(dark ? 'light' : 'dark')}
      >
        <svg viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">
          <circle cx="10" cy="10" r="6.4" />
          <path d="M10 3.6a6.4 6.4 0 0 1 0 12.8z" className={styles.half} />
        </svg>
      </ActionIcon>
      <ActionIcon variant="subtle" aria-label="Keys" onClick={showKeys}>
        <span aria-hidden="true" className={styles.question}>
          ?
        </span>
      </ActionIcon>
      <Link to="/changes">Changes</Link>
      <Link to="/settings">Settings</Link>
    </div>
  );
}

/** What a table of this page is of. */
function useTakenFromHere(crumbs: readonly Crumb[], day: string | null): TakenFrom {
  const { standard, units } = usePreferences();
  const shown = day === null ? null : (standard ?? day);
  const place = JSON.stringify(crumbs.map(({ label, to }) => ({ label, to })));
  return useMemo(() => {
    const way: { label: string; to?: string }[] = JSON.parse(place);
    return {
      place: way.map(({ label }) => label),
      about: async () => {
        const { shop } = await queryClient.ensureQueryData(shopQuery);
        return [
          ['Shop', shop.name],
          ...placeFacts(way, window.location.pathname),
          ...(shown === null ? [] : [['Air standard', nameOfStandard(shown)] as const]),
          ['Units', units === 'us' ? 'US customary' : 'metric'],
        ];
      },
    };
  }, [place, shown, units]);
}

/** The frame of every screen: where we are on the left, in which terms we look at it on the right. */
export function Page({ title, crumbs, standard = null, scenario, children }: PageProps) {
  useEffect(() => {
    document.title = title === 'Pullbook' ? title : `${title} · Pullbook`;
  }, [title]);
  const from = useTakenFromHere(crumbs, standard);
  const parts: ReactNode[] = [];
  if (standard !== null) parts.push(<StandardMenu key="standard" day={standard} />);
  parts.push(<UnitsSwitch key="units" />);
  if (scenario !== undefined) parts.push(<Fragment key="scenario">{scenario}</Fragment>);
  return (
    <>
      <a href="#main" className={styles.skip}>
        Skip to the page
      </a>
      <header className={styles.header}>
        <Crumbs crumbs={crumbs} />
        <div className={styles.right}>
          <div className={styles.terms}>
            {parts.map((part, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the order of the parts is fixed
              <Fragment key={index}>
                {index > 0 && <span aria-hidden="true">·</span>}
                {part}
              </Fragment>
            ))}
          </div>
          <Tools />
        </div>
      </header>
      <main id="main" className={styles.main} tabIndex={-1}>
        <TakenFromContext value={from}>{children}</TakenFromContext>
      </main>
    </>
  );
}
