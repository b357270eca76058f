import { useQuery } from '@tanstack/react-query';
import { createContext, type ReactNode, useCallback, useContext, useEffect, useState } from 'react';
import { AIR_STANDARDS, type AirStandard } from '../../src/pull/recording.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { signChangesAs } from '../api/client.ts';
import { shopSettingsQuery } from '../api/queries.ts';

/** What belongs to the person at this screen and not to the shop; kept in this browser. */
export interface Preferences {
  /** Null: as the shop is set up. */
  readonly units: UnitSystem | null;
  /** Figures and words large enough to be read from across the cell. */
  readonly wall: boolean;
  /** Who changes are written under; empty: nobody said. */
  readonly who: string;
  /** Air standard to show everything in; null: what the test day itself names. */
  readonly standard: AirStandard | null;
}

interface PreferencesContext extends Omit<Preferences, 'units'> {
  /** The person's choice, or else the shop's. */
  readonly units: UnitSystem;
  change(next: Partial<Preferences>): void;
}

const KEY = 'pullbook.preferences';
const Context = createContext<PreferencesContext | null>(null);

function stored(): Preferences {
  const fallback: Preferences = { units: null, wall: false, who: '', standard: null };
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Preferences>;
    return {
      units: kept.units === 'metric' || kept.units === 'us' ? kept.units : null,
      wall: kept.wall === true,
      who: typeof kept.who === 'string' ? kept.who : '',
      standard: AIR_STANDARDS.find((name) => name === kept.standard) ?? null,
    };
  } catch {
    return fallback;
  }
}

export function PreferencesProvider({ children }: { children: ReactNode }) {
  const [preferences, setPreferences] = useState(stored);
  const shop = useQuery(shopSettingsQuery);
  const units = preferences.units ?? shop.data?.units ?? 'us';
  const change = useCallback((next: Partial<Preferences>) => {
    setPreferences((now) => ({ ...now, ...next }));
  }, []);
  useEffect(() => {
    signChangesAs(preferences.who);
    try {
      localStorage.setItem(KEY, JSON.stringify(preferences));
    } catch {
      // A browser that keeps nothing still works; the choice then lasts as long as the page.
    }
  }, [preferences]);
  return <Context value={{ ...preferences, units, change }}>{children}</Context>;
}

export function usePreferences(): PreferencesContext {
  const context = useContext(Context);
  if (context === null) throw new Error('usePreferences stands outside of PreferencesProvider');
  return context;
}
