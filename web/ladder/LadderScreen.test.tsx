import { MantineProvider } from '@mantine/core';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import { dayOfKind, type KindOfDay } from '../../demo/kinds-of-day.ts';
import { answerLadder } from '../../src/ladder/index.ts';
import type { LadderInput } from '../../src/ladder/types.ts';
import { ANSWER, INPUT } from './fixture.test-data.ts';
import { LadderScreen } from './LadderScreen.tsx';
import { LadderView } from './LadderView.tsx';
import type { LadderScreenProps } from './props.ts';

const title = { ladder: 'Spark ladder', scenario: 'engine, build, day', standard: 'SAE J1349' };
const text = (markup: string) =>
  markup
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#x27;/g, '’')
    .replace(/\s+/g, ' ')
    .replace(/ :/g, ':');

function screen(input: LadderInput, more: Partial<LadderScreenProps> = {}): string {
  return renderToStaticMarkup(
    <MantineProvider env="test" withCssVariables={false} withGlobalClasses={false}>
      <LadderScreen input={input} title={title} units="us" {...more} />
    </MantineProvider>,
  );
}

function view(more: object): string {
  return renderToStaticMarkup(
    <MantineProvider env="test" withCssVariables={false} withGlobalClasses={false}>
      <LadderView input={INPUT} answer={ANSWER} title={title} units="us" use="bursts" {...more} />
    </MantineProvider>,
  );
}

const dayOf = (kind: KindOfDay, seed: number) => simulateCurveDay(dayOfKind(kind, seed)).input;

describe('the ladder screen on simulated days', () => {
  it.each([
    ['plain', 3],
    ['unfinished', 7],
    ['knock in the way', 6],
    ['repeat', 4],
  ] as const)('%s: says what the computation says', (kind, seed) => {
    const input = dayOf(kind, seed);
    const answer = answerLadder(input);
    const said = text(screen(input));
    expect(said).toContain(answer.headline);
    for (const warning of answer.warnings)
      expect(said).toContain(warning.replaceAll(' %', '\u202f%').slice(0, 60));
    for (const { name } of input.uses) {
      const value = answer.uses[name]!.value;
      expect(said).toContain(value === null ? 'not yet' : `${value}°`);
    }
  });

  it('shows the cautions wherever a pull is next, and only there', () => {
    const caution = 'nobody in line with rotating parts';
    for (const [kind, seed] of [
      ['plain', 3],
      ['unfinished', 7],
      ['knock in the way', 6],
    ] as const) {
      const input = dayOf(kind, seed);
      const isPull = answerLadder(input).next.action !== 'stop';
      expect(text(screen(input)).includes(caution), kind).toBe(isPull);
    }
    expect(text(screen({ ...INPUT, pulls: [] }))).toContain(caution);
  });

  it('tells what to do where there are no pulls', () => {
    const said = text(screen({ ...INPUT, pulls: [] }, { addPullsHref: '/days/1' }));
    expect(said).toContain('No pulls yet');
    expect(said).toContain('Run the first pull at a careful lead');
  });

  it('shows what was advised when it was decided, and where the ladder now says something else', () => {
    const input = dayOf('plain', 3);
    const { best, uses } = answerLadder(input);
    const now = uses.bursts!.value!;
    const evidence = {
      standard: 'SAE J1349',
      bandRpm: [4000, 6000] as const,
      pulls: 5,
      best,
      limit: null,
      limitWatched: false,
      use: { ...uses.bursts!, chancePastBest: 0.012 },
      curveVersion: 7,
      ladderVersion: 8,
    };
    const decided = (value: number) => ({
      ...{
        id: String(value),
        use: 'bursts',
        setting: 20,
        who: 'Ann',
        when: '14 May',
        why: 'careful',
      },
      advice: { value, why: 'Two below the best of that day.', evidence },
    });
    const same = text(screen(input, { decisions: [decided(now)] }));
    expect(same).toContain(`Advised then: ${now}° Two below the best of that day.`);
    expect(same).toContain('chance past the best 1.2');
    expect(same).toContain('curves as of version 7, ladder as of version 8');
    const moved = text(screen(input, { decisions: [decided(now - 3)] }));
    expect(moved).toContain(`Advised then: ${now - 3}°; now: ${now}°`);
  });

  it('shows a refusal as a sentence, not as an answer', () => {
    const input = dayOf('plain', 3);
    const said = text(screen({ ...input, bandRpm: [5000, 5000] }));
    expect(said).toContain('No answer yet');
    expect(said).toContain('5000');
    expect(said).not.toContain('What to leave in it');
  });
});

describe('the page for a given answer', () => {
  it('keeps pulls that are left out on the page, with their reason', () => {
    const pulls = INPUT.pulls.map((pull, at) =>
      at === 1 ? { ...pull, excludedBecause: 'belt slipped' } : pull,
    );
    const markup = view({ input: { ...INPUT, pulls }, onExclude: () => {} });
    expect(text(markup)).toContain('left out: belt slipped');
    expect(markup).toContain('data-out="true"');
    expect(text(markup)).toContain('take back in');
  });

  it('says knock, aborted pulls and differences in words', () => {
    const pulls = INPUT.pulls.map((pull, at) =>
      at === 5 ? { ...pull, knockHeard: 4300, aborted: true, configuration: 'open headers' } : pull,
    );
    const said = text(view({ input: { ...INPUT, pulls } }));
    expect(said).toContain('knock heard at 4 300 rpm');
    expect(said).toContain('aborted');
    expect(said).toContain('1 more');
  });

  it('says no rule for a boosted engine, never a setting', () => {
    const uses = Object.fromEntries(
      Object.entries(ANSWER.uses).map(([name, use]) => [
        name,
        { ...use, value: null, why: 'No rule.' },
      ]),
    );
    const said = text(
      view({
        input: { ...INPUT, aspiration: 'boosted' },
        answer: { ...ANSWER, uses, summary: '' },
      }),
    );
    expect(said).toContain('no rule');
    expect(said.slice(0, said.indexOf('Pulls'))).not.toContain('26°');
    expect(said).not.toContain('gives up');
  });

  it('offers a decision only where somebody takes it', () => {
    expect(text(view({}))).not.toContain('record it');
    expect(text(view({ onDecide: async () => {} }))).toContain('Leave 26° for bursts: record it');
  });

  it('turns typed peaks into words by step, without a map', () => {
    const pulls = INPUT.pulls.map((pull) => ({ ...pull, torque: null, peakPowerW: 300_000 }));
    const steps = ANSWER.steps.map((step) => ({
      ...step,
      bySpeed: {
        speedRpm: [],
        gainPercent: [],
        lowPercent: [],
        highPercent: [],
        chancePercent: [],
        toldFromChance: [],
      },
    }));
    const said = text(
      view({ input: { ...INPUT, pulls }, answer: { ...ANSWER, steps, map: null } }),
    );
    expect(said).toContain('Peak power against the setting');
    expect(said).toContain('From typed peaks alone');
    expect(said).not.toContain('by engine speed Percent');
  });
});
