import { MantineProvider } from '@mantine/core';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { pullsOf } from '../../../src/compare/compared.fixture.ts';
import { answerPartTest, partPointsOf, planPartTest } from '../../../src/compare/index.ts';
import type { CompareInput } from '../../../src/compare/types.ts';
import { PartChart, partTable } from '../../charts/PartChart.tsx';
import { sideColour } from '../SideMark.tsx';
import { partPicture } from './dots.ts';
import { PartTestView } from './PartTestView.tsx';
import { driftFigure, gainFigure, partHeadline } from './words.ts';

/** A B B A: five per cent more with the part, a tenth of a per cent less with each pull of the day. */
const [ORDER_A, ORDER_B] = [
  [0, 3, 4, 7],
  [1, 2, 5, 6],
];
const drifted = (level: number, orders: readonly number[], seed: number) =>
  orders.flatMap((order) => pullsOf(() => level * (1 - 0.001 * order), [order], seed + order));
const input: CompareInput = {
  groups: [
    { name: 'cast manifold', pulls: drifted(400, ORDER_A, 1) },
    { name: 'long runners', pulls: drifted(420, ORDER_B, 21) },
  ],
  bandRpm: [3000, 7000],
  reference: [],
  repeatabilityPercent: null,
  calibrationRelSd: {},
  worthPercent: 0.75,
};
const names = { a: 'cast manifold', b: 'long runners' };
const plan = planPartTest(1, 0.3, 'by turns', false);
const points = partPointsOf(input.groups[0]!.pulls, input.groups[1]!.pulls, input.bandRpm);
const made = (pulls: number) => answerPartTest(points.slice(0, pulls), plan, null, names);
const picture = partPicture(input, made(8), (side, at) => `${side} ${at}`);

describe('the picture of a part test', () => {
  it('has every pull in the order made, and the part as the step between two lines of one slope', () => {
    expect(picture.dots.map(({ side }) => side).join('')).toBe('abbaabba');
    const { a, b } = picture.lines!;
    // Of B over A by the two lines: the gain itself, as it was found.
    expect(100 * ((1 + b[0] / 100) / (1 + a[0] / 100) - 1)).toBeCloseTo(made(8).gain!.value, 6);
    expect(100 * ((1 + b[1] / 100) / (1 + a[1] / 100) - 1)).toBeCloseTo(made(8).gain!.value, 6);
    // Seven pulls of a tenth of a per cent down, within what 0.3 % pull to pull lets be known.
    expect(Math.abs(a[1] - a[0] + 0.7)).toBeLessThan(0.7);
  });

  it('stands about the mean of A', () => {
    const own = picture.dots.filter(({ side }) => side === 'a').map(({ percent }) => percent);
    expect(Math.abs(own.reduce((sum, value) => sum + value, 0) / own.length)).toBeLessThan(0.01);
  });

  it('draws what was made and what is still to come, and says the same as a table', () => {
    const markup = renderToStaticMarkup(
      <PartChart
        width={600}
        height={320}
        {...picture}
        planned={['b', 'a']}
        colourOf={(side, palette) => sideColour(side === 'a' ? 0 : 1, 2, palette)}
        cursor={2}
        onCursor={() => undefined}
      />,
    );
    expect(markup).not.toMatch(/NaN|Infinity|undefined/);
    expect(markup.match(/data-side="[ab]"/g)).toHaveLength(8);
    expect(markup).toContain('Next: B.');
    expect(markup).toContain('aria-valuetext="b 2, B: ');
    expect(partTable(picture.dots).rows).toHaveLength(8);
  });

  it('has no lines before there is a gain', () => {
    expect(partPicture(input, { gain: null, driftPercent: null }, () => '').lines).toBeNull();
  });
});

describe('the advice of a part test', () => {
  it('goes on with the next of the plan, then says enough', () => {
    expect(partHeadline(made(3), names)).toBe('Go on: next a pull of cast manifold');
    expect(gainFigure(made(3), names).figure).toBe('not yet');
    const end = made(8);
    expect(end.action).toBe('stop');
    expect(partHeadline(end, names)).toMatch(/^Enough: long runners gains \d\.\d/);
    expect(gainFigure(end, names).known).toBe(true);
    expect(driftFigure(end).figure).toMatch(/^−0\.\d\d/);
  });

  it('says no difference larger than x where that is the finding', () => {
    const none = {
      ...made(8),
      word: 'cannot be told from chance',
      noLargerThanPercent: 0.6,
    } as const;
    expect(partHeadline(none, names)).toMatch(/^Enough: no difference larger than 0\.6/);
  });

  it('stands first on the page, with the cautions as long as a pull is next', () => {
    const page = (pulls: number) =>
      renderToStaticMarkup(
        <MantineProvider env="test" withCssVariables={false} withGlobalClasses={false}>
          <PartTestView
            {...{ names, plan, picture }}
            answer={made(pulls)}
            pulls={[
              { id: 'p1', name: 'Pull 1', href: '/pulls/p1', aside: '', side: 'a', why: null },
              { id: 'p2', name: 'Pull 2', href: '/pulls/p2', aside: '', side: 'b', why: 'misfire' },
            ]}
            warnings={['The pulls were not made in the order of the plan.']}
            scenario="engine, build, day"
            units="us"
            compareHref="/compare"
            dayHref="/days/d1"
            onSide={() => undefined}
          />
        </MantineProvider>,
      );
    expect(page(3)).toContain('nobody in line with rotating parts');
    expect(page(8)).not.toContain('nobody in line with rotating parts');
    expect(page(8)).toContain('left out: misfire');
    expect(page(8)).toContain('not made in the order of the plan');
  });
});
