import { MantineProvider } from '@mantine/core';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { answerTwo } from '../../src/ladder/two/index.ts';
import { twoDay } from '../../test/truth/two-cell.ts';
import { PlaneMap } from '../charts/PlaneMap.tsx';
import { planeTable } from '../charts/plane-words.ts';
import { shownOf } from '../table/shown.test-data.ts';
import { BothView } from './BothView.tsx';

const { input } = twoDay({ mixture: 'regression', seed: 2, size: [3, 3] });
const pulls = input.pulls.map((pull, i) => (i === 8 ? { ...pull, knockHeard: true } : pull));
const answer = answerTwo({ ...input, pulls });

describe('lead and lambda on the screen', () => {
  it('draws every pull by what was seen of it, the ridge, and the next', () => {
    const svg = renderToStaticMarkup(
      <PlaneMap width={600} height={400} answer={answer} left={null} cursor={null} />,
    );
    expect(svg.match(/data-dot="clean"/g)).toHaveLength(8);
    expect(svg.match(/data-dot="limit"/g)).toHaveLength(1);
    expect(svg).toContain('data-ridge');
    expect(svg.includes('data-next')).toBe(answer.next.at !== null);
    expect(svg).toContain(
      `data-unknown="${answer.map.known.flat().filter((known) => !known).length}"`,
    );
  });

  it('says the same in a table, and not known where that is so', () => {
    const { columns, rows } = shownOf(planeTable(answer));
    for (const row of rows) expect(row).toHaveLength(columns.length);
    expect(columns.slice(3, 5)).toEqual([
      expect.stringMatching(/^given up at [\d.]+°, %$/),
      expect.stringMatching(/^given up at [\d.]+°, known within ±, %$/),
    ]);
    expect(rows.flat()).toContain('–');
  });

  it('shows lambda with air to fuel, the tables with units, and both systems of units', () => {
    for (const [units, symbol] of [
      ['metric', 'kW'],
      ['us', 'hp'],
    ] as const) {
      const html = renderToStaticMarkup(
        <MantineProvider>
          <BothView
            input={input}
            answer={answer}
            load="60 % load"
            title={{ ladder: 'Lead and lambda', scenario: 'x', standard: 'SAE J1349' }}
            units={units}
            fuel={{ name: 'gasoline', stoichiometricAfr: 14.7 }}
            use={null}
            nameOf={(id) => id}
            csvOf={(use) => `/table?use=${use}`}
          />
        </MantineProvider>,
      );
      expect(html).toContain(`Mean power, ${symbol}`);
      expect(html).toContain('air to gasoline');
      expect(html).toContain('by speed at 60 % load, for');
      expect(html).toContain('reached a limit');
    }
  });
});
