import { StrictMode, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { LadderScreen } from '../../web/ladder/LadderScreen.tsx';
import type { DecisionNote } from '../../web/ladder/props.ts';
import { Theme } from '../../web/theme/Theme.tsx';
import { CompareGallery } from './compare.tsx';
import { DAYS } from './days.ts';
import { detailsOf } from './details.ts';

/**
 * For looking at the ladder screen, and at side by side, while working on them; no part of the built app.
 * `?day=knock&size=wall&units=metric`, `?sides=3`
 */
const query = new URLSearchParams(location.search);

function Gallery() {
  const name = query.get('day') ?? 'finished';
  const [input, setInput] = useState(() => (DAYS[name] ?? DAYS.finished!)());
  const [decisions, setDecisions] = useState<readonly DecisionNote[]>([]);
  return (
    <>
      <nav
        aria-label="States"
        style={{
          display: 'flex',
          flexWrap: 'wrap',
          padding: '0.8rem 2rem',
          borderBottom: '1px solid var(--pb-line)',
        }}
      >
        {Object.keys(DAYS).map((day) => (
          <a key={day} href={`?day=${day}`} style={{ marginRight: '1rem', color: 'inherit' }}>
            {day}
          </a>
        ))}
      </nav>
      <main style={{ padding: '1.25rem clamp(1rem, 2vw, 2rem) 3rem' }}>
        <LadderScreen
          input={input}
          title={{
            ladder: 'Spark ladder',
            scenario: 'Rally six, build 2, 14 May',
            standard: 'SAE J1349',
          }}
          units={query.get('units') === 'metric' ? 'metric' : 'us'}
          details={detailsOf(input)}
          decisions={decisions}
          onBand={(bandRpm) => setInput((now) => ({ ...now, bandRpm }))}
          onUses={(uses) => setInput((now) => ({ ...now, uses }))}
          onExclude={(id, because) =>
            setInput((now) => ({
              ...now,
              pulls: now.pulls.map((pull) =>
                pull.id === id ? { ...pull, excludedBecause: because } : pull,
              ),
            }))
          }
          onDecide={async ({ advised, ...decision }) =>
            setDecisions((now) => [
              ...now,
              {
                ...decision,
                id: String(now.length),
                when: '14 May',
                advice: { value: advised, why: '', evidence: null },
              },
            ])
          }
        />
      </main>
    </>
  );
}

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <Theme size={query.get('size') === 'wall' ? 'wall' : 'normal'}>
      {query.has('sides') ? <CompareGallery query={query} /> : <Gallery />}
    </Theme>
  </StrictMode>,
);
