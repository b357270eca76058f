import { SegmentedControl, TextInput, useMantineColorScheme } from '@mantine/core';
import type { ReactNode } from 'react';
import { usePreferences } from '../../shell/preferences.tsx';
import styles from './settings.module.css';

/** What belongs to this browser alone. */
export function ThisScreen() {
  const { units, wall, who, standard, change } = usePreferences();
  const { colorScheme, setColorScheme } = useMantineColorScheme({ keepTransitions: true });
  return (
    <section className="panel" aria-labelledby="this-screen">
      <header>
        <h2 id="this-screen">This screen</h2>
        <span className="quiet">kept in this browser</span>
      </header>
      <div className={styles.rows}>
        <Row label="Your name">
          <TextInput
            aria-label="Your name"
            placeholder="stands beside what you change"
            value={who}
            onChange={(event) => change({ who: event.currentTarget.value })}
            w={260}
          />
        </Row>
        <Row label="Units">
          <SegmentedControl
            aria-label="Units"
            value={units}
            onChange={(value) => change({ units: value === 'metric' ? 'metric' : 'us' })}
            data={[
              { value: 'us', label: 'US' },
              { value: 'metric', label: 'Metric' },
            ]}
          />
        </Row>
        <Row label="Theme">
          <SegmentedControl
            aria-label="Theme"
            value={colorScheme}
            onChange={(value) => setColorScheme(value)}
            data={[
              { value: 'light', label: 'Light' },
              { value: 'dark', label: 'Dark' },
              { value: 'auto', label: 'As the system' },
            ]}
          />
        </Row>
        <Row label="Size">
          <SegmentedControl
            aria-label="Size"
            value={wall ? 'wall' : 'desk'}
            onChange={(value) => change({ wall: value === 'wall' })}
            data={[
              { value: 'desk', label: 'Desk' },
              { value: 'wall', label: 'Wall, read from across the cell' },
            ]}
          />
        </Row>
        {standard !== null && (
          <Row label="Air standard">
            <button
              type="button"
              className={styles.link}
              onClick={() => change({ standard: null })}
            >
              Everything is shown in {standard === 'none' ? 'observed air' : standard}; show each
              day in its own again
            </button>
          </Row>
        )}
      </div>
    </section>
  );
}

function Row({ label, children }: { label: string; children: ReactNode }) {
  return (
    <div className={styles.row}>
      <span className="quiet">{label}</span>
      {children}
    </div>
  );
}
