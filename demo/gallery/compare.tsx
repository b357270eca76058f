import { useState } from 'react';
import { pullsOf } from '../../src/compare/compared.fixture.ts';
import type { CompareInput } from '../../src/compare/types.ts';
import { CompareScreen } from '../../web/compare/CompareScreen.tsx';
import type { SideWords } from '../../web/compare/props.ts';

/** Common practice, no source: a later build with larger heads, cam and intake; and one that is all but the first. */
const early = (speed: number) => 742 - 5.2e-5 * (speed - 4700) ** 2;
const TRUTHS = [
  early,
  (speed: number) => early(speed) * (1 + 0.165 * Math.tanh((speed - 4500) / 1700)),
  (speed: number) => early(speed) * 1.003,
];
const CASES: Readonly<Record<string, readonly number[]>> = {
  2: [0, 1],
  3: [0, 1, 2],
  none: [0, 2],
};

function inputOf(name: string): CompareInput {
  const truths = CASES[name] ?? CASES[2]!;
  return {
    groups: truths.map((truth, g) => ({
      name: `Build ${truth + 1}`,
      pulls: pullsOf(TRUTHS[truth]!, [g, g + 3, g + 6], 3 + g).map((pull, i) => ({
        ...pull,
        id: `${g} ${pull.id}`,
        configuration: g === 1 ? 'headers with 50 mm primaries' : null,
        excludedBecause: g === 1 && i === 1 ? 'belt slipped' : null,
      })),
    })),
    bandRpm: [3000, 7200],
    reference: [],
    repeatabilityPercent: null,
    calibrationRelSd: {},
    worthPercent: 0.75,
  };
}

export function CompareGallery({ query }: { readonly query: URLSearchParams }) {
  const [input, setInput] = useState(() => inputOf(query.get('sides') ?? '2'));
  const [bandRpm, setBand] = useState<readonly [number, number]>(input.bandRpm);
  const sides = input.groups.map(
    ({ name, pulls }): SideWords => ({
      name,
      aside: `${pulls.length} pulls at 30°, 14 May 2026`,
      pulls: pulls.map(({ id, excludedBecause }) => ({
        key: id,
        name: id.slice(2),
        setting: '30°',
        why: excludedBecause,
      })),
    }),
  );
  return (
    <main style={{ padding: '1.25rem clamp(1rem, 2vw, 2rem) 3rem' }}>
      <CompareScreen
        input={input}
        bandRpm={bandRpm}
        sides={sides}
        units={query.get('units') === 'metric' ? 'metric' : 'us'}
        standard="SAE J1349"
        taken="Taken were 3 pulls of each, all at 30 degrees of lead."
        warnings={[]}
        daysFrom="All pulls were made on one day."
        quickBands={[
          { name: 'street', band: [2500, 4500] },
          { name: 'circuit', band: [5000, 7200] },
        ]}
        onBand={setBand}
        onSwap={() => setInput((now) => ({ ...now, groups: [...now.groups].reverse() }))}
        onPick={() => undefined}
        onRemove={(at) =>
          setInput((now) => ({ ...now, groups: now.groups.filter((_, g) => g !== at) }))
        }
      />
    </main>
  );
}
