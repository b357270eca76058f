import { MantineProvider } from '@mantine/core';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { pullsOf } from '../../src/compare/compared.fixture.ts';
import { compareGroups, differenceIn } from '../../src/compare/index.ts';
import type { CompareInput } from '../../src/compare/types.ts';
import { DifferenceChart } from '../charts/DifferenceChart.tsx';
import { type DifferenceRow, differenceTable, differenceUnit } from '../charts/difference-words.ts';
import { differenceOf } from '../charts/gain-segments.ts';
import { shownOf } from '../table/shown.test-data.ts';
import { LIGHT } from '../theme/palette.ts';
import { CompareView } from './CompareView.tsx';
import { measureRows } from './measure-rows.ts';
import { headline } from './words.ts';

const early = (speed: number) => 700 - 5e-5 * (speed - 4700) ** 2;
const late = (speed: number) => early(speed) * (1 + 0.12 * Math.tanh((speed - 4500) / 1700));
const input: CompareInput = {
  groups: [
    { name: 'Build 1', pulls: pullsOf(early, [0, 2, 4], 1) },
    {
      name: 'Build 2',
      pulls: pullsOf(late, [1, 3, 5], 2).map((pull, at) => ({
        ...pull,
        configuration: 'other headers',
        excludedBecause: at === 1 ? 'belt slipped' : null,
      })),
    },
    { name: 'Build 3', pulls: pullsOf(early, [6, 7, 8], 3) },
  ],
  bandRpm: [3000, 7000],
  reference: [],
  repeatabilityPercent: null,
  calibrationRelSd: {},
  worthPercent: 0.75,
};
const two: CompareInput = { ...input, groups: input.groups.slice(0, 2) };
const [ofTwo, ofThree] = [compareGroups(two), compareGroups(input)];
const [pair] = ofTwo.pairs;

const rows: DifferenceRow[] = [
  {
    letter: 'B',
    against: 'A',
    difference: differenceIn(pair!.bySpeed, 'torque'),
    crossings: pair!.crossings,
    gain: pair!.gain,
    word: pair!.word,
  },
];
const unit = differenceUnit('torque', 'us');

describe('the picture of a difference', () => {
  const markup = renderToStaticMarkup(
    <DifferenceChart
      width={700}
      height={420}
      {...{ rows, unit }}
      band={[3000, 7000]}
      full={[2500, 7500]}
      cursorRpm={6500}
      onCursor={() => undefined}
      onBand={() => undefined}
    />,
  );

  it('is grey where chance could do it, on the ramp where it can be told, and marks the crossing', () => {
    expect(markup).not.toMatch(/NaN|Infinity|undefined/);
    const tellings = [...markup.matchAll(/data-telling="(\w+)"/g)].map((found) => found[1]);
    expect(new Set(tellings)).toEqual(new Set(['gain', 'loss', 'chance']));
    expect(markup.match(/data-crossing/g)).toHaveLength(pair!.crossings.length);
    expect(markup).toContain(`stop-color="${LIGHT.gain}"`);
    expect(markup).toContain('B ahead');
  });

  it('reads all sides at the cursor, and lets the band be moved by keys', () => {
    // B less A at 6500 rev/min: 1.356 N·m a lb-ft.
    const expected = (late(6500) - early(6500)) / 1.3558;
    const [, said] = /aria-valuetext="([^"]*B less A: [^"]*)"/.exec(markup)!;
    expect(said).toMatch(/^6\s500\srpm/);
    const read = Number(/B less A: \+?([\d.]+)/.exec(said!)![1]);
    expect(Math.abs(read - expected)).toBeLessThan(6);
    expect(markup.match(/aria-label="Band (from|up to)"/g)).toHaveLength(2);
  });

  it('says the same numbers as a table', () => {
    const table = shownOf(differenceTable(rows, unit));
    expect(table.columns[2]).toBe('B less A, lb-ft');
    const over = shownOf(differenceTable(rows, differenceUnit('percent', 'us'))).rows[0]!;
    expect([over[0], over[4]]).toEqual(['over the band', pair!.word]);
    const at = table.rows.find(([, speed]) => speed === '6500')!;
    expect(at[4]).toBe('yes');
    expect(Math.abs(Number(at[2]) - (late(6500) - early(6500)) / 1.3558)).toBeLessThan(6);
  });

  it('draws a ladder’s step as any difference', () => {
    const { bySpeed } = pair!;
    expect(differenceOf({ ...bySpeed, gainPercent: bySpeed.gainPercent }).value).toEqual(
      differenceIn(bySpeed, 'percent').value,
    );
  });
});

const shown = (of: CompareInput, more: object) =>
  renderToStaticMarkup(
    <MantineProvider env="test" withCssVariables={false} withGlobalClasses={false}>
      <CompareView
        bandRpm={of.bandRpm}
        answer={compareGroups(of)}
        trouble={null}
        settling={false}
        speedsRpm={[2500, 7500]}
        sides={of.groups.map(({ name, pulls }) => ({
          name,
          aside: '',
          pulls: pulls.map(({ id, excludedBecause }) => ({
            key: id,
            name: id,
            setting: '30°',
            why: excludedBecause,
          })),
        }))}
        units="us"
        standard="SAE J1349"
        taken="Taken were all."
        warnings={[]}
        daysFrom="All pulls were made on one day."
        quickBands={[]}
        {...more}
      />
    </MantineProvider>,
  )
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('side by side', () => {
  it('says the finding first, then what else differed, what was left out and why', () => {
    const said = shown(two, {});
    const line = headline(ofTwo, 'us').replace(/\s+/g, ' ');
    expect(line).toMatch(/^Build 2 gains above \d+ rpm, gives up below \d+ rpm$/);
    expect(said.indexOf(line)).toBeGreaterThan(0);
    expect(said.indexOf(line)).toBeLessThan(said.indexOf('other headers'));
    expect(said).toContain('1 pull left out pull 3: belt slipped');
    expect(said).toContain('All pulls were made on one day.');
    expect(said).toContain('Taken were all.');
  });

  it('ranks more than two, and names those that cannot be told apart', () => {
    const said = shown(input, {});
    expect(said).toContain('Build 2 gives most from 3 000 to 7 000 rpm');
    const [best, ...others] = ofThree.ranking;
    expect(best!.likeIt).toEqual([]);
    for (const { likeIt } of others) expect(likeIt).toHaveLength(1);
    expect(said).toContain('told from every other');
  });

  it('turns the figures into the units of whoever reads', () => {
    const figure = (units: 'us' | 'metric') =>
      Number(
        measureRows(ofTwo, pair!, units).find(({ name }) => name === 'Peak power')!.sides[0]!.text,
      );
    expect(figure('us') / figure('metric')).toBeCloseTo(1 / 0.7457, 1);
    const ratio = measureRows(ofTwo, pair!, 'us').at(-1)!;
    expect(ratio.unit).toBe('hp per lb-ft');
    // hp = lb-ft × rpm / 5252 (the trade's own constant).
    const { peakPowerW, peakTorqueNm } = ofTwo.groups[0]!;
    expect(Number(ratio.sides[0]!.text)).toBeCloseTo(
      peakPowerW.value.value / 745.7 / (peakTorqueNm.value.value / 1.35582),
      2,
    );
  });

  it('says why sides cannot be compared', () => {
    const said = shown(two, { answer: null, trouble: 'Inertia is out of one and in the other.' });
    expect(said).toContain('Not comparable as they stand');
    expect(said).toContain('Inertia is out of one');
    expect(said).not.toContain('which all cover');
  });

  it('offers the speeds that all cover where the band is not', () => {
    const more = { answer: null, trouble: 'Too narrow.', onBand: () => undefined };
    expect(shown(two, more)).toContain('Compare from 2 500 to 7 500 rpm, which all cover');
  });
});
